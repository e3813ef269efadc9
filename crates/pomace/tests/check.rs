//! `pomace check`: ten planted mistakes are found, each at its place.

use serde_json::Value;

use crate::{file, pomace, run, run_args};

const BOOK: &str = "tests/faulty/book";

/// File, line, column, topic, gravity, and a word of the message.
const PLANTED: [(&str, u64, u64, &str, &str, &str); 10] = [
    ("broken.toml", 2, 19, "syntax", "stop", "string"),
    (
        "nameless.toml",
        1,
        1,
        "syntax",
        "stop",
        "does not say what it is",
    ),
    ("syrup.toml", 11, 6, "syntax", "stop", "`disolve`"),
    ("syrup.toml", 19, 10, "amount", "stop", "`peal`"),
    ("syrup.toml", 24, 12, "amount", "stop", "`parsecs`"),
    ("drink.toml", 5, 8, "name", "stop", "`Quince sirup`"),
    ("drink.toml", 11, 10, "amount", "stop", "`-5 g`"),
    ("drink.toml", 16, 1, "syntax", "caution", "`tmie`"),
    ("dough.toml", 5, 8, "name", "stop", "`Leaven`"),
    ("more/leaven.toml", 2, 8, "name", "stop", "two documents"),
];

fn findings(path: &str) -> (i32, Vec<Value>) {
    let ran = run_args(&["check", path, "--json"]);
    assert_eq!(ran.err, "");
    let mut answer: Value = serde_json::from_str(&ran.out).unwrap();
    (
        ran.code,
        answer["findings"].take().as_array().unwrap().clone(),
    )
}

#[test]
fn every_planted_mistake_is_found_at_its_place_and_no_other() {
    let (code, findings) = findings(BOOK);
    assert_eq!(code, 1);
    for (path, line, column, topic, gravity, message) in PLANTED {
        let found = findings.iter().find(|finding| {
            let place = &finding["place"];
            place["path"] == format!("{BOOK}/{path}")
                && finding["message"].as_str().unwrap().contains(message)
                && place["line"] == line
                && place["column"] == column
        });
        let found =
            found.unwrap_or_else(|| panic!("{path}:{line}: {message} is not in {findings:#?}"));
        assert_eq!(
            (&found["topic"], &found["gravity"]),
            (&topic.into(), &gravity.into())
        );
        assert!(!found["mend"].as_str().unwrap().is_empty());
    }
    assert_eq!(findings.len(), PLANTED.len(), "{findings:#?}");
}

#[test]
fn a_finding_has_the_names_that_others_rely_on() {
    let (_, findings) = findings(BOOK);
    for finding in findings {
        let keys: Vec<&String> = finding.as_object().unwrap().keys().collect();
        assert_eq!(
            keys,
            [
                "document",
                "place",
                "topic",
                "gravity",
                "message",
                "authority",
                "mend"
            ]
        );
        let keys: Vec<&String> = finding["place"].as_object().unwrap().keys().collect();
        assert_eq!(keys, ["path", "line", "column", "key"]);
    }
}

#[test]
fn the_page() {
    let ran = run_args(&["check", BOOK]);
    assert_eq!((ran.code, ran.err.as_str()), (1, ""));
    insta::assert_snapshot!(ran.out);
}

#[test]
fn a_sound_document_ends_with_code_0() {
    let path = file(
        "sound.toml",
        b"prep = \"Honey water\"\n[[step]]\ndo = \"weigh\"\nwhat = \"honey\"\namount = \"100 g\"\n",
    );
    let ran = run(pomace().arg("check").arg(&path));
    assert_eq!(
        (ran.code, ran.out.as_str()),
        (0, "1 document read, nothing to mend.\n")
    );
    let ran = run(pomace().arg("check").arg(&path).arg("--json"));
    assert_eq!(
        (ran.code, ran.out.as_str()),
        (0, "{\n  \"findings\": []\n}\n")
    );
}

#[test]
fn a_caution_alone_ends_with_code_0() {
    let path = file("caution.toml", b"drink = \"Empty glass\"\n");
    let ran = run(pomace().arg("check").arg(&path));
    assert_eq!(ran.code, 0, "{}", ran.out);
    assert!(ran.out.contains("1 finding: 1 caution"), "{}", ran.out);
}

#[test]
fn a_path_that_is_not_there_is_wrong_use() {
    for args in [["check", "no/such/book"], ["check", ""]] {
        let ran = run_args(&args);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""));
        assert!(
            ran.err.contains("mend: ") || ran.err.contains("--help"),
            "{}",
            ran.err
        );
    }
}

#[test]
fn what_is_no_text_is_a_finding() {
    let path = file("bytes.toml", b"drink = \"\xff\xfe\"\n");
    let ran = run(pomace().arg("check").arg(&path));
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("UTF-8"), "{}", ran.out);
}

#[test]
fn a_document_cannot_steer_the_terminal() {
    let path = file(
        "steers.toml",
        "drink = \"A\u{202e}B\u{1b}[2J\"\n# \u{1b}[31m\nx\u{9b}y = 3\n".as_bytes(),
    );
    let ran = run(pomace().arg("check").arg(&path));
    assert!(
        !ran.out.contains(['\u{1b}', '\u{202e}', '\u{9b}']),
        "{:?}",
        ran.out
    );
}

/// A drink is judged with the preps that lie beside it, and alone.
#[test]
fn one_file_leans_on_its_neighbours() {
    let file = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../examples/sill-and-ebb/second-pressing.toml"
    );
    let ran = run(pomace().arg("check").arg(file));
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{}", ran.out);
    assert!(ran.out.contains("1 document read"), "{}", ran.out);
    assert!(!ran.out.contains("rye spirit"), "{}", ran.out);
}
