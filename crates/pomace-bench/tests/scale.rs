//! What so much asks for: proportion, fixed losses, by-products.

use pomace_bench::Bench;
use pomace_bench::scale::Wanted;
use pomace_book::demo;
use proptest::prelude::*;

const SHRUB: &str = "prep = \"Shrub\"\n[[step]]\ndo = \"weigh\"\nwhat = \"lemon peel\"\namount = \"200 g\"\nas = \"peel\"\n[[step]]\ndo = \"add\"\nwhat = \"cider vinegar\"\namount = \"150 % of peel\"\n[[step]]\ndo = \"steep\"\ntime = \"1 day\"\n[[step]]\ndo = \"press\"\nby_product = \"spent peel\"\n";
const LEATHER: &str = "prep = \"Leather\"\n[[step]]\ndo = \"weigh\"\nwhat = \"spent peel\"\namount = \"all\"\n[[step]]\ndo = \"dry\"\nto_moisture = \"12 %\"\n";
const DRINK: &str = "drink = \"D\"\n[[line]]\nwhat = \"gin, 40 %\"\namount = \"40 mL\"\n[[line]]\nwhat = \"Shrub\"\namount = \"20 g\"\n[[garnish]]\ndo = \"set\"\nwhat = \"Leather\"\namount = \"5 g\"\n[[step]]\ndo = \"shake\"\n";

/// A balance by hand: forty serves are forty times the lines, and nothing comes from nowhere.
#[test]
fn forty_serves() {
    let book = super::book(&[SHRUB, LEATHER, DRINK]);
    let bench = Bench::new(&book);
    let id = book.by_name("D").unwrap();
    let plan = bench.scale(id, Wanted::Serves(40.0)).unwrap();
    assert_eq!(plan.batches.len(), 2);
    let (shrub, leather) = (&plan.batches[0], &plan.batches[1]);
    assert!((leather.made.kept.total() - 200.0).abs() < 1e-6);
    // The leather asks more peel than the shrub for the glasses would leave: the shrub is made for it.
    let pressed = leather.made.brought(0);
    let left: f64 = shrub.made.left.grams(3);
    assert!((shrub.taken[0].1 - pressed).abs() < 1e-9);
    assert!(left >= pressed - 1e-6, "{left} {pressed}");
    assert!(shrub.made.kept.total() >= 800.0 - 1e-6);
    assert!(
        (left - pressed).abs() < 1e-6 || (shrub.made.kept.total() - 800.0).abs() < 1e-6,
        "one of the two is what decides"
    );
    let peel = plan
        .of_shelf("Lemon peel, raw")
        .or(plan.of_shelf("lemon peel"))
        .unwrap();
    assert!((peel - shrub.made.brought(0)).abs() < 1e-9);
}

/// Fixed grams on the cloth: ten times the batch is more than ten times the yield.
#[test]
fn fixed_losses_do_not_scale() {
    let book = super::book(&[SHRUB]);
    let bench = Bench::new(&book);
    let id = book.by_name("Shrub").unwrap();
    let once = bench.prep(id).unwrap().kept.total();
    let plan = bench.scale(id, Wanted::Batches(10.0)).unwrap();
    assert!(plan.batches[0].made.kept.total() > 10.0 * once + 1.0);
    let plan = bench.scale(id, Wanted::Grams(10.0 * once)).unwrap();
    assert!(plan.batches[0].factor < 10.0);
    assert!((plan.batches[0].made.kept.total() - 10.0 * once).abs() < 1e-6);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    /// The demo's drinks: lines in proportion, every batch meets what is asked of it and no by-product
    /// is used that is not left.
    #[test]
    fn plans_close(serves in 0.5..400.0_f64) {
        let book = demo::book();
        let bench = Bench::new(&book);
        for (id, document) in book.documents() {
            if !matches!(document, pomace_book::Document::Drink(_)) {
                continue;
            }
            let one = bench.drink(id).unwrap();
            let plan = bench.scale(id, Wanted::Serves(serves)).unwrap();
            for (spot, grams) in &one.amounts {
                let (_, scaled) = plan.lines.iter().find(|(s, _)| s == spot).unwrap();
                prop_assert!((scaled - grams * serves).abs() < 1e-9 * scaled.max(1.0));
            }
            for batch in &plan.batches {
                prop_assert!(batch.made.kept.total() >= batch.wanted_grams * (1.0 - 1e-9));
                for (step, grams) in &batch.taken {
                    prop_assert!(batch.made.left.grams(*step) >= grams * (1.0 - 1e-9));
                }
            }
        }
    }
}
