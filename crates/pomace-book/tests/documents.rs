//! Whole documents, from text to what they say.

use pomace_book::document::{Document, Source};
use pomace_book::{
    DrinkDoc, Gravity, IngredientDoc, Instrument, PrepDoc, Reading, Target, ToldValue, Verb, parse,
};

pub(crate) const SHRUB: &str = include_str!("documents/quince-peel-shrub.toml");
pub(crate) const DRINK: &str = include_str!("documents/second-pressing.toml");
const INGREDIENT: &str = include_str!("documents/garden-quince.toml");
const TOLD: &str = include_str!("documents/barley-aquavit.toml");

fn document(text: &str) -> Document {
    let parsed = parse(&Source::new("test.toml", text));
    assert!(parsed.findings.is_empty(), "{:#?}", parsed.findings);
    parsed.document.unwrap()
}

fn prep(text: &str) -> PrepDoc {
    match document(text) {
        Document::Prep(prep) => prep,
        other => panic!("{other:?}"),
    }
}

fn drink(text: &str) -> DrinkDoc {
    match document(text) {
        Document::Drink(drink) => drink,
        other => panic!("{other:?}"),
    }
}

fn ingredient(text: &str) -> IngredientDoc {
    match document(text) {
        Document::Ingredient(ingredient) => ingredient,
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_prep_of_the_design() {
    let prep = prep(SHRUB);
    assert_eq!(prep.name.value, "Quince peel shrub");
    let verbs: Vec<Verb> = prep.steps.iter().map(|step| step.verb.value).collect();
    assert_eq!(
        verbs,
        [
            Verb::Weigh,
            Verb::Add,
            Verb::Steep,
            Verb::Press,
            Verb::Dissolve
        ]
    );
    assert_eq!(prep.steps[0].name_as.as_ref().unwrap().value, "peel");
    assert_eq!(
        prep.steps[1].amount.as_ref().unwrap().reading.share_of(),
        Some("peel")
    );
    assert_eq!(prep.steps[2].temperature.as_ref().unwrap().value, 18.0);
    assert_eq!(prep.steps[2].time.as_ref().unwrap().hours(), 30.0);
    assert_eq!(
        prep.steps[3].by_product.as_ref().unwrap().value,
        "pressed peel"
    );
    assert_eq!(
        prep.steps[1].what.as_ref().unwrap().span.of(SHRUB),
        "\"cider vinegar\""
    );
    assert!(prep.steps[4].span.of(SHRUB).contains("[[step]]"));
    assert!(prep.keeping().is_none());
}

#[test]
fn the_drink_of_the_design() {
    let drink = drink(DRINK);
    assert_eq!(drink.lines.len(), 4);
    assert_eq!(drink.lines[3].enters.as_ref().unwrap().value, "top");
    assert_eq!(drink.steps[0].ice.as_ref().unwrap().size_mm, Some(32.0));
    assert_eq!(
        drink.steps[1].glass.as_ref().unwrap().millilitres,
        Some(320.0)
    );
    assert_eq!(
        drink.steps[1].over_ice.as_ref().unwrap().size_mm,
        Some(50.0)
    );
    assert_eq!(drink.garnish[0].eaten.as_ref().unwrap().value, 0.5);
    assert_eq!(drink.brief[0].carried_by[0].value, "Quince peel shrub");
}

#[test]
fn an_ingredient_with_its_label_and_parts() {
    let quince = ingredient(INGREDIENT);
    assert_eq!(quince.based_on.as_ref().unwrap().value, "quince");
    assert_eq!(
        quince.sugar.as_ref().unwrap().value,
        ToldValue::Between(0.0, 120.0)
    );
    assert_eq!(quince.ph.as_ref().unwrap().value, ToldValue::Exactly(3.2));
    assert_eq!(quince.acid.as_ref().unwrap().acid.as_deref(), Some("malic"));
    assert_eq!(quince.composition.len(), 2);
    assert_eq!(quince.price.as_ref().unwrap().currency, "EUR");
    assert_eq!(quince.unit.as_ref().unwrap().grams, 240.0);
    assert_eq!(quince.parts.len(), 2);
    assert_eq!(quince.parts[1].cautions[0].value, "amygdalin");
    assert_eq!(
        quince.parts[0].share.as_ref().unwrap().value,
        ToldValue::Exactly(13.0)
    );
}

#[test]
fn a_prep_told_from_outside() {
    let told = prep(TOLD).told.unwrap();
    assert_eq!(told.base.as_ref().unwrap().value, "aquavit, 42 %");
    assert_eq!(
        told.solid_amount.as_ref().unwrap().reading,
        Reading::Share {
            fraction: 0.125,
            of: None
        }
    );
    assert_eq!(told.sugar.as_ref().unwrap().value, ToldValue::NotStated);
    let instruments: Vec<Instrument> = told
        .readings
        .iter()
        .map(|reading| reading.instrument)
        .collect();
    assert_eq!(
        instruments,
        [
            Instrument::Brix,
            Instrument::Ph,
            Instrument::Mass,
            Instrument::Strength,
            Instrument::Acid
        ]
    );
    assert_eq!(told.readings[2].value.value, ToldValue::Exactly(820.0));
}

#[test]
fn readings_may_be_a_table() {
    let prep =
        prep("prep = \"P\"\n[told]\nbase = \"x\"\n[told.readings]\nbrix = 24\nph = \"3.1\"\n");
    let told = prep.told.unwrap();
    assert_eq!(told.readings.len(), 2);
    assert_eq!(told.readings[0].value.value, ToldValue::Exactly(24.0));
}

#[test]
fn every_verb_and_its_keys() {
    let prep = prep(
        r#"
prep = "All of it"
claims = ["vegan"]
[[step]]
do = "weigh"
what = "whey"
as = "whey"
[[step]]
do = "draw"
with = "salt"
time = "4 h"
[[step]]
do = "simmer"
to = "300 g"
[[step]]
do = "simmer"
loss = "12 %"
[[step]]
do = "dry"
to_moisture = "8 %"
[[step]]
do = "clarify"
by = "milk"
[[step]]
do = "wash"
fat = "butter"
amount = "1:4"
[[step]]
do = "ferment"
kind = "lactic"
sugar_used = "60 %"
[[step]]
do = "charge"
gas = "CO2"
pressure = "2.5 bar"
temperature = "2 C"
[[step]]
do = "store"
time = "3 weeks"
temperature = "4 C"
in = "bottle"
"#,
    );
    assert_eq!(
        prep.steps[2].to.as_ref().unwrap().value,
        Target::ToGrams(300.0)
    );
    assert_eq!(prep.steps[3].loss.as_ref().unwrap().value, 0.12);
    assert_eq!(prep.steps[8].pressure.as_ref().unwrap().bar(), 2.5);
    assert_eq!(
        prep.keeping().unwrap().vessel.as_ref().unwrap().value,
        "bottle"
    );
}

#[test]
fn a_house_and_its_measures() {
    let text = "house = \"Sill & Ebb\"\ncurrency = \"EUR\"\nmeasures = [\"20 mL\", \"40 mL\"]\ndash = \"0.9 mL\"\nice = \"dry 32 mm cubes\"\n";
    match document(text) {
        Document::House(house) => {
            assert_eq!(house.measures.len(), 2);
            assert_eq!(house.dash.unwrap().value.text, "0.9 mL");
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn numbers_without_quotes_are_read_as_written() {
    let parsed = parse(&Source::new(
        "t",
        "drink = \"T\"\n[[line]]\nwhat = \"honey\"\namount = 2\n",
    ));
    assert!(parsed.findings.is_empty(), "{:?}", parsed.findings);
    let Some(Document::Drink(drink)) = parsed.document else {
        panic!()
    };
    assert_eq!(
        drink.lines[0].amount.as_ref().unwrap().reading,
        Reading::Count {
            count: 2.0,
            noun: None
        }
    );
}

#[test]
fn inline_tables_will_do() {
    let drink = drink("drink = \"T\"\nline = [{ what = \"honey\", amount = \"2 g\" }]\n");
    assert_eq!(drink.lines[0].what.value, "honey");
    assert_eq!(drink.lines[0].span.start, 20);
}

#[test]
fn what_no_document_should_be_is_refused_without_harm() {
    let deep_array = format!(
        "prep = \"P\"\nx = {}1{}\n",
        "[".repeat(50_000),
        "]".repeat(50_000)
    );
    let deep_table = format!(
        "prep = \"P\"\nx = {}1{}\n",
        "{a=".repeat(50_000),
        "}".repeat(50_000)
    );
    let deep_key = format!("prep = \"P\"\n{}x = 1\n", "a.".repeat(50_000));
    let many = format!("prep = \"P\"\n{}", "[[step]]\ndo = \"rest\"\n".repeat(3000));
    let large = format!("prep = \"P\"\n# {}\n", "x".repeat(2_000_000));
    let wrong = format!("prep = \"P\"\n{}", "[[step]]\ndo = \"rust\"\n".repeat(900));
    for text in [
        "",
        "\u{feff}",
        "# nothing but a comment\n",
        "prep = 3\n",
        "prep = \"\"\n",
        "prep = \"P\"\nprep = \"Q\"\n",
        "prep = \"P\"\ndrink = \"Q\"\n",
        "prep = \"P\"\n[[step]]\ndo = \"add\"\nwhat = \"x\"\namount = nan\n",
        "prep = \"P\"\n[[step]]\ndo = \"add\"\nwhat = \"x\"\namount = 1e400\n",
        "prep = \"P\"\nstep = 3\n",
        "prep = \"P\"\n[step]\ndo = \"rest\"\n",
        "prep = \"P\\u0000\"\n",
        "prep = \"P\"\n\0",
        &deep_array,
        &deep_table,
        &deep_key,
        &many,
        &large,
        &wrong,
    ] {
        let parsed = parse(&Source::new("t.toml", text));
        let stops = parsed
            .findings
            .iter()
            .filter(|finding| finding.gravity == Gravity::Stop)
            .count();
        assert!(stops > 0, "{}", text.get(..60).unwrap_or(text));
        assert!(parsed.findings.len() <= 201);
        for finding in &parsed.findings {
            assert!(
                !finding.message.is_empty() && !finding.mend.is_empty(),
                "{finding:?}"
            );
            assert!(finding.message.to_string().len() < 500, "{finding:?}");
            assert!(finding.place.line >= 1 && finding.place.column >= 1);
        }
    }
}

#[test]
fn a_mark_at_the_start_and_windows_lines_do_no_harm() {
    let text = format!("\u{feff}{}", SHRUB.replace('\n', "\r\n"));
    assert_eq!(prep(&text).steps.len(), 5);
}

#[test]
fn marks_are_numbers_from_nothing_to_five() {
    let read = |marks: &str| {
        let text = format!("prep = \"P\"\n[told]\nbase = \"water\"\n[marks]\n{marks}\n");
        parse(&Source::new("p.toml", text))
    };
    let good = read("bitter = 2\nsavoury = \"0.5\"");
    assert!(good.findings.is_empty(), "{:?}", good.findings);
    let document = good.document.unwrap();
    let given: Vec<_> = document.marks().unwrap().given().collect();
    assert_eq!(given, [("bitter", 2.0), ("savoury", 0.5)]);
    for bad in [
        "bitter = 6",
        "tannin = -1",
        "savoury = \"very\"",
        "bitter = true",
    ] {
        let findings = read(bad).findings;
        assert_eq!(findings.len(), 1, "{bad}");
        assert!(findings[0].place.key.starts_with("marks, "), "{bad}");
        assert!(!findings[0].mend.is_empty());
    }
}
