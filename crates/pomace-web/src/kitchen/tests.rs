//! A document with what it leans on is worked out as it is in the whole book.

use pomace_bench::Bench;
use pomace_book::{Document, demo};
use pomace_store::{Id, Revision, Stamp, When};

use super::*;

fn revision(id: &Id, number: u64, text: &str, removes: bool) -> Revision {
    Revision {
        stamp: Stamp {
            document: id.clone(),
            revision: number,
            sequence: number,
            who: "test".to_owned(),
            when: When::now(),
            why: None,
            removes,
        },
        text: text.to_owned(),
    }
}

fn kitchen() -> Kitchen {
    let mut opening = Opening::begin();
    for (_, text) in demo::DOCUMENTS {
        opening.take(Current {
            document: Id::new(&When::now()),
            kind: String::new(),
            name: String::new(),
            revision: 1,
            who: "test".to_owned(),
            when: When::now(),
            text: (*text).to_owned(),
        });
    }
    opening.finish()
}

/// More than the readers are handed at once, and one that cannot be read among them.
#[test]
fn a_book_is_opened_whole() {
    let ids: Vec<Id> = (0..1_000).map(|_| Id::new(&When::now())).collect();
    let mut opening = Opening::begin();
    for (number, id) in ids.iter().enumerate() {
        let text = match number {
            500 => "drink = ".to_owned(),
            _ => format!("drink = \"Drink {number}\"\n[[line]]\nwhat = \"honey\"\n"),
        };
        opening.take(Current {
            document: id.clone(),
            kind: "drink".to_owned(),
            name: "as it was".to_owned(),
            revision: 7,
            who: "Ines".to_owned(),
            when: When::now(),
            text,
        });
    }
    let kitchen = opening.finish();
    let mut in_order = ids.clone();
    in_order.sort();
    let opened: Vec<Id> = kitchen.documents().map(|(id, _)| id.clone()).collect();
    assert_eq!(opened, in_order);
    for (number, id) in ids.iter().enumerate() {
        let kept = kitchen.get(id).unwrap();
        if number == 500 {
            assert!(kept.read.is_err());
            assert_eq!(kept.name, "as it was");
        } else {
            assert_eq!(kept.name, format!("Drink {number}"));
            assert_eq!(kitchen.named(&kept.name).next().unwrap().0, id);
        }
    }
    assert_eq!(kitchen.mentioning("Honey").len(), 999);
    assert!(Opening::begin().finish().is_empty());
}

#[test]
fn what_a_document_leans_on_is_enough_for_it() {
    let kitchen = kitchen();
    let whole = demo::book();
    let all = Bench::new(&whole);
    let mut compared = 0;
    for (id, kept) in kitchen.documents() {
        let around = kitchen.around(Some(id), kept.read.as_ref().unwrap());
        let bench = Bench::new(&around.book);
        let there = whole.by_name(&kept.name).unwrap();
        match around.book.document(around.document).unwrap() {
            Document::Drink(_) => {
                let (_, here) = bench.report(around.document).unwrap();
                assert_eq!(here, all.report(there).unwrap().1, "{}", kept.name);
                compared += 1;
            }
            Document::Prep(_) => {
                let here = bench.prep(around.document).unwrap();
                let there = all.prep(there).unwrap();
                assert_eq!(here.kept.liquid, there.kept.liquid, "{}", kept.name);
                assert_eq!(here.kept.carried.allergens, there.kept.carried.allergens);
                compared += 1;
            }
            Document::Ingredient(_) | Document::House(_) => {}
        }
        // And no more than that: a drink does not drag the other drinks along.
        let drinks = around
            .book
            .documents()
            .filter(|(_, d)| d.kind() == "drink")
            .count();
        assert!(drinks <= 1, "{}", kept.name);
    }
    assert_eq!(compared, 15);
}

#[test]
fn a_changed_prep_moves_the_drinks_that_lean_on_it() {
    let mut kitchen = kitchen();
    let named = |kitchen: &Kitchen, name: &str| {
        let (id, kept) = kitchen.named(name).next().unwrap();
        (id.clone(), kept.text.clone())
    };
    let (shrub, text) = named(&kitchen, "Quince peel shrub");
    let ids: Vec<Id> = kitchen.documents().map(|(id, _)| id.clone()).collect();
    for id in &ids {
        let mark = kitchen.mark_of(id);
        kitchen.set_mark(id, mark);
    }
    let (drink, _) = named(&kitchen, "Second Pressing");
    let (other, _) = named(&kitchen, "Slack Water");
    let before = (kitchen.mark_of(&drink), kitchen.mark_of(&other));
    kitchen.put(
        &revision(
            &shrub,
            2,
            &text.replace("60 % of vinegar", "90 % of vinegar"),
            false,
        ),
        "",
        "",
    );
    for id in kitchen.leaning_on(&shrub) {
        let mark = kitchen.mark_of(&id);
        kitchen.set_mark(&id, mark);
    }
    let near = kitchen.neighbours(None, (0.0, 0.0), 20);
    let now = |name: &str| {
        near.iter()
            .find(|(n, _)| n == name)
            .map(|(_, mark)| mark.clone())
    };
    assert_ne!(now("Second Pressing"), before.0);
    assert_eq!(now("Slack Water"), before.1);
}

#[test]
fn what_is_taken_out_is_found_no_more() {
    let mut kitchen = kitchen();
    let (id, text) = {
        let (id, kept) = kitchen.named("quince PURÉE").next().unwrap();
        (id.clone(), kept.text.clone())
    };
    assert_eq!(kitchen.find("puree", &["prep"], 5)[0].name, "Quince purée");
    assert!(!kitchen.mentioning("Quince purée").is_empty());
    kitchen.put(&revision(&id, 2, &text, true), "prep", "Quince purée");
    assert!(kitchen.named("Quince purée").next().is_none());
    assert!(
        kitchen
            .find("puree", &["prep"], 5)
            .iter()
            .all(|found| found.name != "Quince purée")
    );
    kitchen.put(&revision(&id, 3, &text, false), "prep", "Quince purée");
    assert!(kitchen.named("Quince purée").next().is_some());
}

#[test]
fn names_are_found_by_beginnings_words_and_slips() {
    let kitchen = kitchen();
    let first = |words: &str| {
        kitchen
            .find(words, &["drink", "prep"], 5)
            .first()
            .map(|f| f.name.clone())
    };
    assert_eq!(first("sec").as_deref(), Some("Second Pressing"));
    assert_eq!(first("shrub").as_deref(), Some("Quince peel shrub"));
    assert_eq!(first("Secnd Presing").as_deref(), Some("Second Pressing"));
    assert_eq!(first("peel quince").as_deref(), Some("Quince peel shrub"));
    assert_eq!(first(""), None);
    let larder = kitchen.find("lemon j", &["prep", "ingredient", LARDER], 8);
    assert!(
        larder
            .iter()
            .any(|found| found.kind == "larder" && found.name.contains("emon")),
        "{larder:?}"
    );
}

/// What a person types, and what they mean by it: in the book, or for a line of a drink, where the
/// catalogue stands beside the house's own.
#[test]
fn each_word_is_matched_on_its_own_and_all_of_them_rank() {
    const PAGE: &[&str] = &["drink", "prep", "ingredient", "house"];
    const WHAT: &[&str] = &["prep", "ingredient", LARDER];
    let kitchen = kitchen();
    let cases = [
        // The same, in any order, case and accents.
        (PAGE, "weir", "Weir"),
        (PAGE, "leather quince", "Quince leather"),
        (PAGE, "QUINCE PUREE", "Quince purée"),
        (PAGE, "sill ebb", "Sill & Ebb"),
        // A name before a longer one that begins so.
        (PAGE, "quince", "quince"),
        (PAGE, "ebb", "Ebb"),
        // Beginnings of the name, and of its words.
        (PAGE, "sec", "Second Pressing"),
        (PAGE, "q", "quince"),
        (PAGE, "core co", "Set core cordial"),
        (PAGE, "wat sl", "Slack Water"),
        (PAGE, "cordial s", "Set core cordial"),
        // Pieces within words.
        (PAGE, "ressing", "Second Pressing"),
        (PAGE, "iquor poach", "Poaching liquor"),
        // A slip in one of two words, in either, in both, and in one alone.
        (PAGE, "quince peel", "Quince peel shrub"),
        (PAGE, "quinse peel", "Quince peel shrub"),
        (PAGE, "quince peal", "Quince peel shrub"),
        (PAGE, "qiunce peal", "Quince peel shrub"),
        (PAGE, "shrup quince", "Quince peel shrub"),
        (PAGE, "secnod presing", "Second Pressing"),
        (PAGE, "pomase soda", "Pomace soda"),
        (PAGE, "frots lime", "Frost Line"),
        (PAGE, "slackwater", "Slack Water"),
        (PAGE, "slakwater", "Slack Water"),
        // The beginning of a word, with a slip in it.
        (PAGE, "poahcin", "Poaching liquor"),
        // A word that is not there costs less than one that is.
        (PAGE, "quince peel of tonight", "Quince peel shrub"),
        // The house's own before the catalogue's, but what was typed before all.
        (WHAT, "whey", "whey"),
        (WHAT, "whey c", "Whey, cleared"),
        (WHAT, "quince j", "Quince juice"),
        (WHAT, "cider vin", "cider vinegar"),
        (WHAT, "honey", "Honey"),
        (WHAT, "hony", "Honey"),
        (WHAT, "lemn peel", "Lemon peel"),
        (WHAT, "lemon peal", "Lemon peel"),
        (WHAT, "sparkling watre", "sparkling water"),
        (WHAT, "creme de casis", "crème de cassis"),
    ];
    let mut wrong = Vec::new();
    for (kinds, words, meant) in cases {
        let found = kitchen.find(words, kinds, 8);
        let first = found.first().map(|one| one.name.as_str());
        if first != Some(meant) {
            let names: Vec<&str> = found.iter().map(|one| one.name.as_str()).collect();
            wrong.push(format!("{words}: {meant}, found {names:?}"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn what_is_far_is_left_out_where_something_is_near() {
    let kitchen = kitchen();
    let names = |words: &str| -> Vec<String> {
        let found = kitchen.find(words, &["drink", "prep", "ingredient", "house"], 20);
        found.into_iter().map(|one| one.name).collect()
    };
    // `Quince leather` has one of the two words, and would be shown if nothing had both.
    assert_eq!(names("quince peel"), ["Quince peel shrub"]);
    assert!(names("quince smoke").contains(&"Quince leather".to_owned()));
    assert_eq!(names("zzxqj"), [] as [&str; 0]);
    assert_eq!(names("…"), [] as [&str; 0]);
    // However much is typed, the answer is one of the house, or none.
    assert!(names(&"quince peel ".repeat(10_000)).len() <= 20);
}
