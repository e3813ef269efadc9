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
