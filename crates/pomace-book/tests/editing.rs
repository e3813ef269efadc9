//! One value changed, all else as it was.

use pomace_book::edit::{Draft, EditError, Path};

use crate::documents::{DRINK, SHRUB};

const TEXT: &str = "\
# Ours since 2019.
drink = \"Try\"   # working name

[[line]]
what = 'honey'
amount = \"10 g\" # tasted on Friday
# no more than this

[[line]]
  what = \"whey\"
  amount = \"30 mL\"

[[step]] # hard
do = \"shake\"
";

#[test]
fn one_value_and_nothing_else() {
    let mut draft = Draft::open(TEXT).unwrap();
    draft.set(&Path::item("line", 0, "amount"), "12 g").unwrap();
    draft.set(&Path::top("drink"), "Tried").unwrap();
    assert_eq!(
        draft.to_text(),
        TEXT.replace("10 g", "12 g").replace("\"Try\"", "\"Tried\"")
    );
    assert_eq!(
        draft.get(&Path::item("line", 1, "what")).as_deref(),
        Some("whey")
    );
}

#[test]
fn keys_come_and_go() {
    let mut draft = Draft::open(TEXT).unwrap();
    draft.set(&Path::item("step", 0, "time"), "9 s").unwrap();
    assert!(
        draft
            .to_text()
            .ends_with("do = \"shake\"\ntime = \"9 s\"\n")
    );
    draft.unset(&Path::item("step", 0, "time")).unwrap();
    assert_eq!(draft.to_text(), TEXT);
    draft
        .set_texts(&Path::top("claims"), &["vegan", "dairy-free"])
        .unwrap();
    draft
        .set_flag(&Path::item("line", 0, "optional"), true)
        .unwrap();
    let text = draft.to_text();
    assert!(
        text.contains("claims = [\"vegan\", \"dairy-free\"]\n"),
        "{text}"
    );
    assert!(text.contains("optional = true\n"), "{text}");
}

#[test]
fn items_come_and_go_in_their_place() {
    let mut draft = Draft::open(TEXT).unwrap();
    let at = draft
        .insert("line", 1, &[("what", "salt"), ("amount", "0.2 g")])
        .unwrap();
    assert_eq!(at, 1);
    insta::assert_snapshot!(draft.to_text(), @r#"
    # Ours since 2019.
    drink = "Try"   # working name

    [[line]]
    what = 'honey'
    amount = "10 g" # tasted on Friday
    # no more than this

    [[line]]
    what = "salt"
    amount = "0.2 g"

    [[line]]
      what = "whey"
      amount = "30 mL"

    [[step]] # hard
    do = "shake"
    "#);
    draft.remove("line", 1).unwrap();
    assert_eq!(draft.to_text(), TEXT);
    draft.insert("line", 0, &[("what", "first")]).unwrap();
    draft.insert("step", 99, &[("do", "pour")]).unwrap();
    draft.insert("garnish", 0, &[("do", "set")]).unwrap();
    assert_eq!(
        draft.get(&Path::item("line", 0, "what")).as_deref(),
        Some("first")
    );
    assert_eq!(
        draft.get(&Path::item("line", 1, "what")).as_deref(),
        Some("honey")
    );
    let again = Draft::open(&draft.to_text()).unwrap();
    assert_eq!(
        again.get(&Path::item("line", 0, "what")).as_deref(),
        Some("first")
    );
    assert_eq!(
        again.get(&Path::item("line", 2, "what")).as_deref(),
        Some("whey")
    );
    assert_eq!(
        again.get(&Path::item("step", 1, "do")).as_deref(),
        Some("pour")
    );
    assert_eq!(
        again.get(&Path::item("garnish", 0, "do")).as_deref(),
        Some("set")
    );
}

#[test]
fn an_item_stays_behind_the_inner_tables_of_the_one_before() {
    let text = "ingredient = \"I\"\n\n[[part]]\nname = \"a\"\n\n[part.composition]\nwater = \"80 %\"\n\n[[part]]\nname = \"c\"\n";
    let mut draft = Draft::open(text).unwrap();
    draft.insert("part", 1, &[("name", "b")]).unwrap();
    let again = Draft::open(&draft.to_text()).unwrap();
    let water = |index| again.get(&Path::item("part", index, "water").in_table("composition"));
    assert_eq!(water(0).as_deref(), Some("80 %"), "{}", draft.to_text());
    assert_eq!(water(1), None);
    assert_eq!(
        again.get(&Path::item("part", 1, "name")).as_deref(),
        Some("b")
    );
    assert_eq!(
        again.get(&Path::item("part", 2, "name")).as_deref(),
        Some("c")
    );
}

#[test]
fn what_cannot_be_changed_says_so() {
    let mut draft = Draft::open(TEXT).unwrap();
    let missing = draft
        .set(&Path::item("line", 7, "amount"), "1 g")
        .unwrap_err();
    assert_eq!(
        missing,
        EditError::Missing {
            place: "line 8, amount".to_owned()
        }
    );
    assert!(matches!(
        draft.set(&Path::top("line"), "x"),
        Err(EditError::NotAValue { .. })
    ));
    assert!(matches!(
        draft.unset(&Path::top("nope")),
        Err(EditError::Missing { .. })
    ));
    assert!(matches!(
        draft.remove("line", 9),
        Err(EditError::Missing { .. })
    ));
    assert!(matches!(
        draft.insert("drink", 0, &[]),
        Err(EditError::NotAValue { .. })
    ));
    assert!(matches!(
        Draft::open("x = "),
        Err(EditError::Unreadable { .. })
    ));
    assert!(matches!(
        Draft::open(&"[".repeat(99_999)),
        Err(EditError::Unreadable { .. })
    ));
    assert_eq!(draft.to_text(), TEXT);
}

#[test]
fn opening_and_closing_changes_nothing() {
    for text in [
        TEXT,
        SHRUB,
        DRINK,
        "",
        "# only a comment",
        &SHRUB.replace('\n', "\r\n"),
    ] {
        assert_eq!(Draft::open(text).unwrap().to_text(), text);
    }
}

/// An item moves with its comment and with the tables inside it; lists that stand between stay there.
#[test]
fn an_item_moves_with_what_is_its_own() {
    let text = "drink = \"D\"\n\n# first\n[[line]]\nwhat = \"a\"\n\n[[step]]\ndo = \"shake\"\n\n# second\n[[line]]\nwhat = \"b\" # tasted\n\n[[line]]\nwhat = \"c\"\n";
    let mut draft = Draft::open(text).unwrap();
    draft.shift("line", 1, 0).unwrap();
    assert_eq!(
        draft.to_text(),
        "drink = \"D\"\n\n# second\n[[line]]\nwhat = \"b\" # tasted\n\n[[step]]\ndo = \"shake\"\n\n# first\n[[line]]\nwhat = \"a\"\n\n[[line]]\nwhat = \"c\"\n"
    );
    draft.shift("line", 0, 2).unwrap();
    draft.shift("line", 2, 0).unwrap();
    draft.shift("line", 0, 1).unwrap();
    assert_eq!(draft.to_text(), text);
    assert!(draft.shift("line", 0, 3).is_err());
    assert!(draft.shift("garnish", 0, 0).is_err());
    let inline = "drink = \"D\"\nline = [{ what = \"a\" }, { what = \"b\" }]\n";
    let mut draft = Draft::open(inline).unwrap();
    draft.shift("line", 0, 1).unwrap();
    assert!(draft.to_text().find("\"b\"") < draft.to_text().find("\"a\""));
}
