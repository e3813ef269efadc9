//! `pomace yield-test`: weighed parts become shares.

use serde_json::Value;

use super::run_args;

#[test]
fn three_fruit_on_a_page() {
    let ran = run_args(&[
        "yield-test",
        "quince",
        "310 g: flesh 206 g, peel 37 g, core 58 g, seeds 8 g",
        "285: flesh 186, peel 36, core 55, seeds 7",
        "0.342 kg: flesh 231 g, peel 38 g, core 62 g, seeds 9 g",
    ]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    insta::assert_snapshot!("three_fruit", ran.out);
}

/// By hand: 83 of 208 g is 39.90 %.
#[test]
fn shares_are_of_all_wholes() {
    let ran = run_args(&[
        "yield-test",
        "lemon",
        "110: juice 46, peel 21, pulp 40",
        "98: juice 37, peel 20, pulp 38",
        "--json",
    ]);
    let answer: Value = serde_json::from_str(&ran.out).unwrap();
    let juice = &answer["parts"][0];
    assert_eq!(juice["name"], "juice");
    assert!((juice["share_percent"].as_f64().unwrap() - 39.9038).abs() < 1e-3);
    let shares = answer["parts"].as_array().unwrap().iter();
    let sum: f64 = shares.map(|p| p["share_percent"].as_f64().unwrap()).sum();
    assert!((sum + answer["lost_percent"].as_f64().unwrap() - 100.0).abs() < 1e-4);
}

#[test]
fn wrong_weighings_are_named() {
    for (weighed, told) in [
        ("310 g", "the whole first"),
        ("310 g:", "the whole first"),
        ("310 g: 206 g", "the whole first"),
        ("310 g: flesh 406 g", "cannot weigh more"),
        ("310 g: flesh 100 mL", "is no weight"),
        ("310 g: flesh 100 g, Flesh 50 g", "stands twice"),
        ("0 g: flesh 1 g", ""),
        ("5 g: flesh -1 g", ""),
    ] {
        let ran = run_args(&["yield-test", "quince", weighed]);
        assert_eq!(ran.code, 2, "{weighed}: {}", ran.out);
        assert!(ran.err.contains("weighing 1"), "{weighed}: {}", ran.err);
        assert!(ran.err.contains(told), "{weighed}: {}", ran.err);
    }
}
