//! The demo book runs whole, and lands where the trade says.

use pomace_bench::Bench;
use pomace_book::{Document, Gravity, demo};
use pomace_matter::liquid::Property;

#[test]
fn everything_in_the_demo_is_computed() {
    let book = demo::book();
    let bench = Bench::new(&book);
    for finding in bench.findings() {
        assert!(finding.gravity == Gravity::Note, "{finding}");
    }
    for (id, document) in book.documents() {
        match document {
            Document::Prep(prep) => {
                let made = bench
                    .make::<f64>(id)
                    .unwrap_or_else(|e| panic!("{}: {e}", prep.name.value));
                assert!(made.kept.total() > 0.0);
            }
            Document::Drink(drink) => {
                let (_, report) = bench
                    .report(id)
                    .unwrap_or_else(|e| panic!("{}: {e}", drink.name.value));
                for (property, figure) in &report.after.properties {
                    assert!(figure.value.is_some(), "{}: {property}", drink.name.value);
                }
            }
            Document::Ingredient(_) => assert!(bench.ingredient(id).is_some()),
            Document::House(_) => {}
        }
    }
}

/// The lead drink, rounded: what changes here must be meant.
#[test]
fn the_lead_drink() {
    let book = demo::book();
    let bench = Bench::new(&book);
    let (mixed, report) = bench
        .report(book.by_name("Second Pressing").unwrap())
        .unwrap();
    let figure = |figures: &pomace_bench::report::Figures, p| figures.get(p).unwrap();
    let seen = format!(
        "{:.1} %vol, then {:.1} %vol, {:.1} g of sugar, pH {:.1}, shaken to {:.0} °C",
        figure(&report.before, Property::Strength),
        figure(&report.after, Property::Strength),
        figure(&report.after, Property::Sugar),
        figure(&report.after, Property::Ph),
        mixed.records[0].celsius,
    );
    assert_eq!(
        seen,
        "17.3 %vol, then 8.7 %vol, 5.3 g of sugar, pH 3.6, shaken to -5 °C"
    );
    assert_eq!(report.per_serve.allergens, ["milk"]);
    assert!(report.per_serve.cautions.is_empty());
}

/// Common practice, no source (memory): a shaken sour is poured at 15–20 %vol and −4 to −8 °C.
#[test]
fn a_shaken_sour_lands_where_bars_say() {
    let sour = "drink = \"Sour\"\n[[line]]\nwhat = \"gin, 45 %\"\namount = \"60 mL\"\n[[line]]\nwhat = \"lemon juice\"\namount = \"22.5 mL\"\n[[line]]\nwhat = \"simple syrup\"\namount = \"22.5 mL\"\n[[step]]\ndo = \"shake\"\ntime = \"12 s\"\n[[step]]\ndo = \"pour\"\nthrough = \"fine sieve\"";
    let after = super::mix(&[sour], "Sour").after;
    let strength = pomace_matter::density::strength(&after.liquid).unwrap().0;
    assert!((15.0..20.0).contains(&strength), "{strength}");
    assert!((-8.0..-4.0).contains(&after.celsius), "{}", after.celsius);
}

/// Common practice, no source (memory): a stirred drink of 29–43 %vol takes 41–49 mL of melt per 100 mL,
/// and is poured at 21–29 %vol and −5 to −1 °C. The pace of stirring was set by this, so it is no proof.
#[test]
fn a_stirred_drink_lands_where_bars_say() {
    let text = "drink = \"Still\"\n[[line]]\nwhat = \"gin, 36 %\"\namount = \"95 mL\"\n[[step]]\ndo = \"stir\"\n[[step]]\ndo = \"pour\"\nthrough = \"bar strainer\"";
    let book = super::book(&[text]);
    let bench = Bench::new(&book);
    let (_, report) = bench.report(book.by_name("Still").unwrap()).unwrap();
    let strength = report.after.get(Property::Strength).unwrap();
    assert!((21.0..29.0).contains(&strength), "{strength}");
    assert!((-5.0..-1.0).contains(&report.after.celsius.value.unwrap()));
    let dilution = report.after.dilution_percent.unwrap().value.unwrap();
    assert!((41.0..49.0).contains(&dilution), "{dilution}");
}

/// The embedded demo is the folder under `examples/`.
#[test]
fn the_demo_is_what_stands_in_examples() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples/sill-and-ebb");
    let mut there: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().file_name().into_string().unwrap())
        .collect();
    there.sort();
    let embedded: Vec<&str> = demo::DOCUMENTS.iter().map(|(file, _)| *file).collect();
    assert_eq!(there, embedded);
}
