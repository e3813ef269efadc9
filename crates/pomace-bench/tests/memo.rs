//! What is kept of preps, against making everything anew.

use std::sync::Arc;

use pomace_bench::doubt::Doubt;
use pomace_bench::{Bench, Memo, RunError};
use pomace_book::Book;
use proptest::prelude::*;

/// Numbers in the texts of a small book, each of which an edit can change.
const FIRST: [u32; 9] = [240, 140, 30, 60, 300, 20, 40, 25, 35];

/// Preps that share an ingredient, a by-product and a source with the drink; `told` stands for what an edit
/// turns from one thing into another.
fn texts(numbers: &[u32; 9], told: bool, shrub_name: &str) -> Vec<String> {
    let [
        peel,
        vinegar,
        hours,
        honey,
        juice,
        share,
        spirit,
        shrub,
        cordial,
    ] = numbers;
    let what = if told { "cider vinegar" } else { "white wine" };
    let sour = if told { "4 %" } else { "6 %" };
    vec![
        format!(
            "ingredient = \"our quince\"\nlike = \"quince, flesh\"\nform = \"pieces\"\n[[part]]\nname = \"peel\"\nshare = \"12 %\"\n[part.composition]\nwater = \"76.5 %\"\nfructose = \"{sour}\"\nmalic = \"0.75 %\"\n"
        ),
        format!(
            "prep = \"{shrub_name}\"\n[[step]]\ndo = \"weigh\"\nwhat = \"our quince / peel\"\namount = \"{peel} g\"\nas = \"peel\"\n[[step]]\ndo = \"add\"\nwhat = \"{what}\"\namount = \"{vinegar} % of peel\"\n[[step]]\ndo = \"steep\"\ntime = \"{hours} h\"\n[[step]]\ndo = \"press\"\nthrough = \"cloth\"\nkeep = \"vinegar\"\nby_product = \"pressed peel\"\n[[step]]\ndo = \"dissolve\"\nwhat = \"honey\"\namount = \"{honey} % of vinegar\"\n"
        ),
        format!(
            "prep = \"Cordial\"\n[[step]]\ndo = \"weigh\"\nwhat = \"apple juice\"\namount = \"{juice} mL\"\n[[step]]\ndo = \"add\"\nwhat = \"pressed peel\"\namount = \"{share} g\"\n[[step]]\ndo = \"steep\"\n[[step]]\ndo = \"strain\"\n[[step]]\ndo = \"dissolve\"\nwhat = \"{shrub_name}\"\namount = \"30 mL\"\n"
        ),
        format!(
            "drink = \"D\"\n[[line]]\nwhat = \"gin, 47 %\"\namount = \"{spirit} mL\"\n[[line]]\nwhat = \"{shrub_name}\"\namount = \"{shrub} mL\"\n[[line]]\nwhat = \"Cordial\"\namount = \"{cordial} mL\"\n[[line]]\nwhat = \"apple juice\"\namount = \"10 mL\"\n[[step]]\ndo = \"shake\"\n[[step]]\ndo = \"pour\"\nthrough = \"fine sieve\"\n"
        ),
    ]
}

fn book(numbers: &[u32; 9], told: bool, shrub_name: &str) -> Book {
    let texts = texts(numbers, told, shrub_name);
    super::book(&texts.iter().map(String::as_str).collect::<Vec<_>>())
}

/// All that a doubt tells, to the last bit.
fn bits(doubt: Result<Doubt, RunError>) -> String {
    let doubt = match doubt {
        Ok(doubt) => doubt,
        Err(error) => return error.to_string(),
    };
    let figures = doubt.names().map(|name| {
        let slopes = doubt.slopes(name).unwrap_or_default().iter();
        let slopes: Vec<u32> = slopes.map(|slope| slope.to_bits()).collect();
        (name, doubt.of_sources(name).map(f64::to_bits), slopes)
    });
    format!("{:?} {:?}", doubt.sources(), figures.collect::<Vec<_>>())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is edited, in whatever order and back again: what was kept changes no bit of any answer.
    #[test]
    fn what_is_kept_changes_no_answer(
        edits in proptest::collection::vec((0..FIRST.len() + 3, 1..60_u32), 1..12)
    ) {
        let memo = Arc::new(Memo::default());
        let (mut numbers, mut told, mut shrub_name) = (FIRST, true, "Shrub");
        for (place, number) in edits {
            match numbers.get_mut(place) {
                Some(old) => *old = number,
                None if place == FIRST.len() => told = !told,
                None if place == FIRST.len() + 1 => shrub_name = if told { "Shrub" } else { "Vinegar" },
                None => numbers = FIRST,
            }
            let sure = book(&numbers, told, shrub_name);
            let (kept, anew) = (Bench::with_memo(&sure, &memo), Bench::new(&sure));
            for name in [shrub_name, "Cordial"] {
                let id = sure.by_name(name).unwrap();
                prop_assert_eq!(bits(kept.doubt_of_prep(id)), bits(anew.doubt_of_prep(id)));
            }
            let id = sure.by_name("D").unwrap();
            prop_assert_eq!(bits(kept.doubt_of_drink(id)), bits(anew.doubt_of_drink(id)));
        }
        prop_assert!(!memo.is_empty() && memo.len() <= Memo::MOST);
    }
}

/// Sources speak of what was poured by its name: a prep of another name makes its taker anew.
#[test]
fn a_new_name_is_told() {
    let memo = Arc::new(Memo::default());
    for name in ["Shrub", "Vinegar"] {
        let book = book(&FIRST, true, name);
        let bench = Bench::with_memo(&book, &memo);
        let doubt = bench.doubt_of_drink(book.by_name("D").unwrap()).unwrap();
        let own = format!("how much {name}");
        let told = doubt.sources().iter().map(|source| source.name.to_string());
        assert_eq!(told.filter(|told| *told == own).count(), 2);
    }
}

/// A line of the drink changed: no prep is made again. A prep changed: that one, and what is made with it.
#[test]
fn only_what_changed_is_made_again() {
    let memo = Arc::new(Memo::default());
    let mut made = 0;
    let mut again = |numbers: &[u32; 9]| {
        let book = book(numbers, true, "Shrub");
        let bench = Bench::with_memo(&book, &memo);
        bench.doubt_of_drink(book.by_name("D").unwrap()).unwrap();
        let before = made;
        made = memo.len();
        made - before
    };
    let mut numbers = FIRST;
    assert_eq!(again(&numbers), 2);
    numbers[6] = 50;
    assert_eq!(again(&numbers), 0);
    numbers[4] = 200;
    assert_eq!(again(&numbers), 1);
    numbers[0] = 200;
    assert_eq!(again(&numbers), 2);
    assert_eq!(again(&FIRST), 0);
}

/// However long a book is changed, no more than that is kept.
#[test]
fn what_is_kept_has_a_bound() {
    let memo = Arc::new(Memo::default());
    for grams in 0..Memo::MOST as u32 {
        let mut numbers = FIRST;
        numbers[0] = 100 + grams;
        let book = book(&numbers, true, "Shrub");
        let bench = Bench::with_memo(&book, &memo);
        bench.doubt_of_drink(book.by_name("D").unwrap()).unwrap();
    }
    assert_eq!(memo.len(), Memo::MOST);
}
