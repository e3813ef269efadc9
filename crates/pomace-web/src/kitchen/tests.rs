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
    let revisions: Vec<_> = demo::DOCUMENTS
        .iter()
        .map(|(_, text)| {
            let id = Id::new(&When::now());
            (revision(&id, 1, text, false), String::new(), String::new())
        })
        .collect();
    Kitchen::open(&revisions)
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
    let larder = kitchen.find("lemon j", &["prep", "ingredient"], 8);
    assert!(
        larder
            .iter()
            .any(|found| found.kind == "larder" && found.name.contains("emon")),
        "{larder:?}"
    );
}
