//! `pomace scale`: through preps and by-products down to the shelf, and back from what is in the hand.

use serde_json::Value;

use super::run_args;

#[test]
fn forty_serves_on_a_page() {
    let ran = run_args(&[
        "scale",
        "Second Pressing",
        "--serves",
        "40",
        "--book",
        "demo",
    ]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    insta::assert_snapshot!("forty_serves", ran.out);
}

/// What a plan takes from the shelf gives that many serves when it is in the hand.
#[test]
fn there_and_back() {
    let asked = [
        "scale",
        "Second Pressing",
        "--serves",
        "40",
        "--book",
        "demo",
        "--json",
    ];
    let plan: Value = serde_json::from_str(&run_args(&asked).out).unwrap();
    let shelf = plan["shelf"].as_array().unwrap();
    assert!(shelf.len() > 4);
    for row in shelf {
        let (what, grams) = (
            row["what"].as_str().unwrap(),
            row["mass_g"].as_f64().unwrap(),
        );
        let hand = format!("{grams} g of {what}");
        let asked = [
            "scale",
            "Second Pressing",
            "--hand",
            &hand,
            "--book",
            "demo",
            "--json",
        ];
        let ran = run_args(&asked);
        let answer: Value = serde_json::from_str(&ran.out).unwrap();
        let times = answer["gives"][0]["times"].as_f64().unwrap();
        assert!((times - 40.0).abs() < 1e-4, "{what}: {times}");
    }
}

/// By hand: 8 quince of 310 g with 12 % of peel hold 297.6 g of it.
#[test]
fn whole_fruit_in_the_hand() {
    let of = |hand: &str| {
        let asked = [
            "scale",
            "Second Pressing",
            "--hand",
            hand,
            "--book",
            "demo",
            "--json",
        ];
        let answer: Value = serde_json::from_str(&run_args(&asked).out).unwrap();
        answer["gives"][0]["times"].as_f64().unwrap()
    };
    let (fruit, peel) = (of("8 quince"), of("297.6 g of quince / peel"));
    assert!((fruit - peel).abs() < 1e-3, "{fruit} {peel}");
    // Without a name, every drink that uses it.
    let ran = run_args(&[
        "scale",
        "--hand",
        "260 g of quince / peel",
        "--book",
        "demo",
    ]);
    assert!(ran.out.contains("Second Pressing"), "{}", ran.out);
    assert!(!ran.out.contains("Slack Water"), "{}", ran.out);
}

#[test]
fn wrong_use_says_how_to_mend_it() {
    for (asked, told) in [
        (
            &["scale", "Second Pressing", "--hand", "x"][..],
            "how much of what",
        ),
        (
            &["scale", "Second Pressing", "--hand", "1 kg of swede"],
            "does not use",
        ),
        (&["scale", "Second Pressing", "--serves", "-3"], "above 0"),
        (&["scale", "quince", "--serves", "3"], "made of nothing"),
        (
            &["scale", "Quince peel shrub", "--serves", "3"],
            "not told in serves",
        ),
        (&["scale", "Quince peel shrub", "--make", "some"], "some"),
        (&["scale"], "required"),
    ] {
        let mut asked = asked.to_vec();
        asked.extend(["--book", "demo"]);
        let ran = run_args(&asked);
        assert_eq!(ran.code, 2, "{asked:?}: {}", ran.out);
        assert!(ran.err.contains(told), "{asked:?}: {}", ran.err);
    }
}

/// The pours of the house meet the drink, and the page says what rounding does.
#[test]
fn by_the_jiggers_of_the_house() {
    let asked = [
        "scale",
        "Second Pressing",
        "--round",
        "jiggers",
        "--book",
        "demo",
    ];
    let ran = run_args(&asked);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    insta::assert_snapshot!("by_the_jiggers", ran.out);
    // 35 mL are two pours; nothing moves.
    assert!(ran.out.contains("30 + 5"), "{}", ran.out);
    let mut asked = asked.to_vec();
    asked.push("--json");
    let answer: Value = serde_json::from_str(&run_args(&asked).out).unwrap();
    let strength = |when: &str| answer[when]["abv_percent"]["value"].as_f64().unwrap();
    assert!((strength("written") - strength("rounded")).abs() < 1e-6);
}

/// Whole grams move the drink by what the grams move: by hand, 38 for 37.8 g of spirit is half a percent.
#[test]
fn by_whole_grams() {
    let asked = [
        "scale",
        "Second Pressing",
        "--round",
        "grams",
        "--book",
        "demo",
        "--json",
    ];
    let answer: Value = serde_json::from_str(&run_args(&asked).out).unwrap();
    let line = &answer["lines"][0];
    assert_eq!(line["pours"].to_string(), "[38.0]");
    let told = line["written"].as_f64().unwrap();
    assert!((told - 37.8).abs() < 0.05, "{told}");
}

/// Twelve bottles are twelve bottles, and the page says what a serve and a bottle are to each other.
#[test]
fn so_many_bottles() {
    let asked = [
        "scale",
        "Second Pressing",
        "--bottles",
        "12 x 700 mL",
        "--book",
        "demo",
    ];
    let ran = run_args(&asked);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    insta::assert_snapshot!("twelve_bottles", ran.out);
    let json = |asked: &[&str]| -> Value {
        let mut asked = asked.to_vec();
        asked.extend(["--book", "demo", "--json"]);
        serde_json::from_str(&run_args(&asked).out).unwrap()
    };
    let number = |value: &Value| value.as_f64().unwrap();
    // By hand: 40 + 22.5 + 35 mL, nearly, are 97.4 mL before the ice.
    let drink = json(&["scale", "Second Pressing", "--bottles", "12 × 70 cL"]);
    assert!((number(&drink["serves"]) - 8400.0 / 97.4).abs() < 0.2);
    assert!((number(&drink["bottles"]["left_over_ml"])).abs() < 1e-6);
    assert!((number(&drink["bottles"]["full"]) - 12.0).abs() < 1e-9);
    assert_eq!(drink["bottles"]["carbonated"], false);
    // A prep: what fills them is what it gives.
    let shrub = json(&["scale", "Quince peel shrub", "--bottles", "2 x 500 mL"]);
    let one = json(&["scale", "Quince peel shrub", "--make", "1 L"]);
    assert_eq!(shrub["preps"], one["preps"]);
    // What there is against the bottles: over, and short.
    let over = json(&[
        "scale",
        "Quince peel shrub",
        "--make",
        "1.3 L",
        "--bottles",
        "2x500 mL",
    ]);
    assert!((number(&over["bottles"]["left_over_ml"]) - 300.0).abs() < 0.5);
    let short = json(&[
        "scale",
        "Pomace soda",
        "--make",
        "3 L",
        "--bottles",
        "12 x 330 mL",
    ]);
    assert!((number(&short["bottles"]["short_ml"]) - 960.0).abs() < 0.5);
    assert!((number(&short["bottles"]["full"]) - 9.0).abs() < 1e-9);
    // It has fermented: headspace and pressure are said.
    assert_eq!(short["bottles"]["carbonated"], true);
    let notes = short["bottles"]["notes"].to_string();
    for told in ["headspace", "no wine or spirit bottle", "keep it cold"] {
        assert!(notes.contains(told), "{notes}");
    }
}

#[test]
fn bottles_that_cannot_be() {
    for (name, bottles, told) in [
        ("Second Pressing", "12", "how many bottles of which size"),
        ("Second Pressing", "1.5 x 700 mL", "whole number"),
        ("Second Pressing", "0 x 700 mL", "how many bottles"),
        ("Second Pressing", "12 x 700 g", "no volume of a bottle"),
        ("Second Pressing", "12 x -1 mL", "mL"),
        ("Quince leather", "12 x 700 mL", "does not pour"),
    ] {
        let ran = run_args(&["scale", name, "--bottles", bottles, "--book", "demo"]);
        assert_eq!(ran.code, 2, "{bottles}: {}", ran.out);
        assert!(ran.err.contains(told), "{bottles}: {}", ran.err);
    }
}
