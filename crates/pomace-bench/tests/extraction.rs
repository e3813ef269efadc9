//! What dry leaves and grounds give to a cup.

use pomace_bench::Bench;
use pomace_book::{Book, DocumentId, Source};
use pomace_matter::substance::Set;

/// Dissolved solids of a steeped and strained drink, % of the dry dose.
fn given(what: &str, dose: f64, water: f64, how: &str) -> f64 {
    let text = format!(
        "prep = \"Cup\"\n[[step]]\ndo = \"weigh\"\nwhat = \"{what}\"\namount = \"{dose} g\"\n[[step]]\ndo = \"add\"\nwhat = \"water\"\namount = \"{water} g\"\n[[step]]\ndo = \"steep\"\n{how}\n[[step]]\ndo = \"strain\"\nthrough = \"paper\"\n"
    );
    let mut book = Book::new();
    book.add(Source::new("cup.toml", text)).unwrap();
    let bench = Bench::new(&book);
    let liquid = bench.prep(DocumentId(0)).unwrap().kept.liquid;
    100.0 * liquid.sum(Set::SOLUBLE.without(Set::SOLVENTS)) / dose
}

/// Common practice: 18 to 22 % of the dose, 17 to 23 % at the outside (`parts.csv`, ground coffee).
#[test]
fn ground_coffee_gives_a_fifth_of_its_weight() {
    let cold = given("ground coffee", 60.0, 900.0, "time = \"16 h\"");
    assert!((17.0..=23.0).contains(&cold), "{cold:.1} %");
}

/// S. Long, J. Food Technol. 12 (1977) 459, abstract: 35 to 47 % of the dry leaf dissolve at 80 °C in long
/// contact, 11 to 23 % in a bed of 4 or 5 to 1; one infusion lies between, 20 to 38 % (`parts.csv`).
#[test]
fn black_tea_gives_a_fifth_to_two_fifths_of_its_leaf() {
    let tea = given(
        "black tea leaf",
        10.0,
        500.0,
        "time = \"5 min\"\ntemperature = \"95 °C\"",
    );
    assert!((20.0..=38.0).contains(&tea), "{tea:.1} %");
    let cold = given("black tea leaf", 10.0, 500.0, "time = \"5 min\"");
    assert!(cold < 0.2 * tea, "cold, in five minutes: {cold:.1} %");
}

/// What is fresh gives its sap, and no more of what nobody has named.
#[test]
fn a_fresh_peel_keeps_its_pectin() {
    let text = "prep = \"P\"\n[[step]]\ndo = \"weigh\"\nwhat = \"lemon peel\"\namount = \"100 g\"\n[[step]]\ndo = \"add\"\nwhat = \"water\"\namount = \"300 g\"\n[[step]]\ndo = \"steep\"\n";
    let mut book = Book::new();
    book.add(Source::new("p.toml", text)).unwrap();
    let bench = Bench::new(&book);
    let made = bench.prep(DocumentId(0)).unwrap();
    let other = |mixture: &pomace_matter::Mixture| mixture.grams(pomace_matter::Substance::Other);
    assert!(other(&made.kept.pieces) > 0.0);
    assert_eq!(other(&made.kept.liquid).to_bits(), 0.0_f64.to_bits());
}
