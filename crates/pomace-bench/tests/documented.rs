//! What README and `docs/book.md` show can be pasted, and the words they owe are there.

use pomace_bench::Bench;
use pomace_book::{Document, GarnishAction, Gravity, Verb};

const README: &str = include_str!("../../../README.md");
const BOOK: &str = include_str!("../../../docs/book.md");

/// The documents of a page: its TOML blocks that begin with a file name.
fn documents(page: &str) -> Vec<&str> {
    let blocks = page.split("```toml\n").skip(1);
    blocks
        .filter_map(|rest| rest.split_once("\n```").map(|(block, _)| block))
        .filter(|block| {
            let first = block.lines().next().unwrap_or("");
            first.starts_with("# ") && first.ends_with(".toml")
        })
        .collect()
}

fn holds_up(page: &str, least: usize) {
    let texts = documents(page);
    assert!(texts.len() >= least, "{} documents", texts.len());
    let book = super::book(&texts);
    assert_eq!(book.documents().count(), texts.len());
    // Its trials are computed too.
    let all = book.with_trials(None);
    for finding in Bench::new(&all).check() {
        assert!(finding.gravity == Gravity::Note, "{finding}");
    }
    let bench = Bench::new(&book);
    for finding in bench.check() {
        assert!(finding.gravity == Gravity::Note, "{finding}");
    }
    let mut drinks = 0;
    for (id, document) in book.documents() {
        if let Document::Drink(drink) = document {
            drinks += 1;
            let name = &drink.name.value;
            let report = bench.report(id).unwrap_or_else(|e| panic!("{name}: {e}"));
            assert!(report.0.after.total() > 0.0, "{name}");
        }
    }
    assert!(drinks > 0, "no drink");
}

#[test]
fn the_first_book_of_the_readme() {
    holds_up(README, 2);
}

#[test]
fn the_documents_of_the_reference() {
    holds_up(BOOK, 4);
}

#[test]
fn every_verb_and_garnish_action_is_in_the_reference() {
    let verbs = Verb::ALL.iter().map(|verb| verb.word());
    let actions = GarnishAction::ALL.iter().map(|action| action.word());
    for word in verbs.chain(actions) {
        assert!(BOOK.contains(&format!("`{word}`")), "`{word}` is missing");
    }
}

#[test]
fn every_key_of_a_trial_is_in_the_reference() {
    let keys = [
        "name", "note", "line", "step", "garnish", "left_out", "before", "promoted", "was",
    ];
    let section = BOOK.split("## Trials").nth(1).unwrap();
    let section = section.split("\n## ").next().unwrap();
    for key in keys {
        assert!(section.contains(&format!("`{key}`")), "`{key}` is missing");
    }
    // The reading of a trial asks for no other: what is written here is read without a finding.
    let texts = documents(BOOK);
    let told = texts
        .iter()
        .find(|text| text.contains("[[trial]]"))
        .unwrap();
    let read = pomace_book::parse(&pomace_book::Source::new("t.toml", *told));
    assert!(read.findings.is_empty(), "{:?}", read.findings);
    assert_eq!(read.document.unwrap().trials().len(), 2);
}
