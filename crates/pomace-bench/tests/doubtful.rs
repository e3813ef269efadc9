//! Amounts that are asked about, and faults that the bench finds.

use pomace_bench::Bench;
use pomace_book::{Gravity, Topic};

use super::book;

/// "1,500 g" may be one and a half grams or fifteen hundred: asked, and both computed.
#[test]
fn both_readings_are_computed() {
    let book = book(&[
        "prep = \"S\"\n[[step]]\ndo = \"weigh\"\nwhat = \"water\"\namount = \"500 g\"\n[[step]]\ndo = \"dissolve\"\nwhat = \"sugar\"\namount = \"1,500 g\"",
    ]);
    let bench = Bench::new(&book);
    let id = book.by_name("S").unwrap();
    let questions = bench.questions(id);
    assert_eq!(questions.len(), 1);
    let masses: Vec<f64> = (0..questions[0].readings.len())
        .map(|r| {
            bench
                .answered(&questions[0], r)
                .make::<f64>(id)
                .unwrap()
                .kept
                .total()
        })
        .collect();
    assert!(
        masses.iter().any(|m| (m - 2000.0).abs() < 1e-6),
        "{masses:?}"
    );
    assert!(
        masses.iter().any(|m| (m - 501.5).abs() < 1e-6),
        "{masses:?}"
    );
    assert_eq!(
        bench
            .findings()
            .iter()
            .filter(|f| f.topic == Topic::Amount)
            .count(),
        1
    );
}

/// A draft with a gap computes what it can.
#[test]
fn a_missing_amount_leaves_its_line_out() {
    let book = book(&[
        "drink = \"D\"\n[[line]]\nwhat = \"gin, 47 %\"\namount = \"40 mL\"\n[[line]]\nwhat = \"honey\"\n",
    ]);
    let bench = Bench::new(&book);
    let mixed = bench.mix::<f64>(book.by_name("D").unwrap()).unwrap();
    assert_eq!(mixed.amounts.len(), 1);
    assert!(
        bench
            .findings()
            .iter()
            .any(|f| f.message.to_string().contains("does not say how much"))
    );
}

#[test]
fn a_volume_of_peel_is_refused() {
    let book = book(&[
        "prep = \"P\"\n[[step]]\ndo = \"weigh\"\nwhat = \"lemon peel\"\namount = \"100 mL\"",
    ]);
    let bench = Bench::new(&book);
    let error = bench.make::<f64>(book.by_name("P").unwrap()).unwrap_err();
    assert!(error.to_string().contains("weigh it"), "{error}");
}

#[test]
fn more_peel_than_the_fruit_has() {
    let quince = "ingredient = \"quince\"\nlike = \"quince, flesh\"\nform = \"pieces\"\n[[part]]\nname = \"peel\"\nshare = \"12 %\"";
    let prep = "prep = \"P\"\n[[step]]\ndo = \"weigh\"\nwhat = \"quince\"\namount = \"1 kg\"\nas = \"fruit\"\n[[step]]\ndo = \"add\"\nwhat = \"quince / peel\"\namount = \"40 % of fruit\"";
    let book = book(&[quince, prep]);
    let bench = Bench::new(&book);
    let found = bench
        .findings()
        .iter()
        .find(|f| f.gravity == Gravity::Stop)
        .expect("a finding");
    assert!(
        found.message.to_string().contains("at most 12 %"),
        "{}",
        found.message
    );
}

#[test]
fn a_label_with_an_unknown_is_said_to_be_one() {
    let liqueur = "ingredient = \"plum liqueur\"\nstrength = \"20 %\"\nsugar = \"not stated\"";
    let drink = "drink = \"D\"\n[[line]]\nwhat = \"plum liqueur\"\namount = \"30 mL\"";
    let book = book(&[liqueur, drink]);
    let bench = Bench::new(&book);
    let mixed = bench.mix::<f64>(book.by_name("D").unwrap()).unwrap();
    let strength = pomace_matter::density::strength(&mixed.after.liquid)
        .unwrap()
        .0;
    assert!((strength - 20.0).abs() < 0.01, "{strength}");
    assert!(
        bench
            .findings()
            .iter()
            .any(|f| f.message.to_string().contains("sugar is not stated"))
    );
}

/// A label's strength and sugar are met by the litre that is built from them.
#[test]
fn a_label_is_met() {
    let liqueur = "ingredient = \"plum liqueur\"\nstrength = \"20 %\"\nsugar = \"300 g/L\"\nallergens = [\"milk\"]";
    let drink = "drink = \"D\"\n[[line]]\nwhat = \"plum liqueur\"\namount = \"100 mL\"";
    let book = book(&[liqueur, drink]);
    let bench = Bench::new(&book);
    let (_, report) = bench.report(book.by_name("D").unwrap()).unwrap();
    use pomace_matter::liquid::Property as P;
    assert!((report.after.get(P::Strength).unwrap() - 20.0).abs() < 0.01);
    assert!((report.after.get(P::Sugar).unwrap() - 30.0).abs() < 0.01);
    // models.md A3: 1088.54 kg/m³ and 33.43 °Bx for 20 %vol with 300 g/L.
    assert!((report.after.get(P::Density).unwrap() - 1088.54).abs() < 0.2);
    assert!((report.after.get(P::RefractometerBrix).unwrap() - 33.43).abs() < 0.2);
    assert_eq!(report.per_serve.allergens, ["milk"]);
}

/// What has no amount is not counted, but whoever must not eat it is still told.
#[test]
fn allergens_need_no_amount() {
    let almond = "ingredient = \"almond\"\nlike = \"sugar\"\nallergens = [\"nuts\"]";
    let line = "[[line]]\nwhat = \"almond\"\n";
    let garnish = "[[garnish]]\ndo = \"dust\"\nwhat = \"almond\"\n";
    for crumb in [line, garnish] {
        let drink =
            format!("drink = \"D\"\n[[line]]\nwhat = \"water\"\namount = \"40 mL\"\n{crumb}");
        let book = book(&[almond, &drink]);
        let bench = Bench::new(&book);
        let (mixed, report) = bench.report(book.by_name("D").unwrap()).unwrap();
        assert_eq!(report.per_serve.allergens, ["nuts"], "{crumb}");
        assert!(
            (mixed.after.total() - 39.95).abs() < 0.01,
            "{}",
            mixed.after.total()
        );
    }
}

/// What another prep leaves is there once: more of it is said.
#[test]
fn more_of_a_by_product_than_a_batch_leaves() {
    let base = "prep = \"Base\"\n[[step]]\ndo = \"weigh\"\nwhat = \"lemon peel\"\namount = \"100 g\"\n[[step]]\ndo = \"add\"\nwhat = \"water\"\namount = \"200 g\"\n[[step]]\ndo = \"strain\"\nby_product = \"wet peel\"";
    let user = |amount: &str| {
        format!(
            "prep = \"User\"\n[[step]]\ndo = \"weigh\"\nwhat = \"wet peel\"\namount = \"{amount}\""
        )
    };
    let told = |amount: &str| {
        let book = book(&[base, &user(amount)]);
        let found = Bench::new(&book).check();
        found
            .iter()
            .any(|f| f.message.to_string().contains("does not leave so much"))
    };
    assert!(told("500 g"));
    assert!(!told("50 g") && !told("all"));
}

/// Settings that would be passed over are said to be.
#[test]
fn a_house_that_is_not_heard() {
    let book = book(&[
        "house = \"A\"\ndash = \"1 g\"\nmeasures = [\"20 mL\", \"3 g\"]",
        "house = \"B\"\ndash = \"1 mL\"",
    ]);
    let bench = Bench::new(&book);
    let told = |text: &str| {
        let found = bench.findings().iter();
        found
            .filter(|f| f.message.to_string().contains(text))
            .count()
    };
    assert_eq!(told("is no volume"), 2);
    assert_eq!(told("another house"), 1);
}

/// What is only similar is known half as well: by hand, twice the ± of sugar and acid.
#[test]
fn what_is_only_similar_is_doubted_twice_as_much() {
    let drink =
        |what: &str| format!("drink = \"D\"\n[[line]]\nwhat = \"{what}\"\namount = \"100 g\"\n");
    let doubt = |like: &str, what: &str| {
        let text = drink(what);
        let book = super::book(&[&text, like]);
        let bench = pomace_bench::Bench::new(&book);
        let doubt = bench.doubt_of_drink(book.by_name("D").unwrap()).unwrap();
        let name = pomace_bench::doubt::FigureName {
            stage: pomace_bench::doubt::Stage::AfterIce,
            name: "sugar_g_per_100ml",
        };
        let told = doubt.largest(name, 1).first().unwrap().name.to_owned();
        (doubt.of_sources(name).unwrap(), told)
    };
    let house = |more: &str| format!("ingredient = \"our juice\"\nlike = \"apple juice\"\n{more}");
    let (own, _) = doubt(&house(""), "apple juice");
    let (similar, told) = doubt(&house(""), "our juice");
    assert!((similar / own - 2.0).abs() < 0.05, "{similar} {own}");
    assert!(told.ends_with("(only similar)"), "{told}");
    // What the label tells is not taken from anything.
    let (labelled, told) = doubt(&house("sugar = \"104 g/L\"\n"), "our juice");
    assert!(labelled < 1.1 * own, "{labelled} {own}");
    assert!(!told.contains("similar"), "{told}");
}
