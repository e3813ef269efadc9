//! `pomace liquid` for one liquid: the page, the JSON, and what it says to bad input.

use pomace_matter::liquid::{Property, properties};
use pomace_matter::units::{Celsius, Grams};
use pomace_matter::{Mixture, Substance};
use serde_json::Value;

use crate::{pomace, run, run_args};

const SOUR: &str = "water=60 g, ethanol=24 g, sucrose=10 g, citric=1 g";

fn json(args: &[&str]) -> Value {
    let ran = run_args(args);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    serde_json::from_str(&ran.out).unwrap()
}

#[test]
fn the_page() {
    insta::assert_snapshot!(run_args(&["liquid", SOUR]).out);
}

#[test]
fn the_page_of_what_lies_outside_the_models() {
    let ran = run_args(&[
        "liquid",
        "water=10, sucrose=90, caffeine=0.02",
        "--celsius",
        "-4",
    ]);
    assert_eq!(ran.code, 0);
    insta::assert_snapshot!(ran.out);
}

#[test]
fn the_page_in_a_narrow_window() {
    let ran = run(pomace()
        .env("COLUMNS", "40")
        .args(["liquid", "water=60, sucrose=40"]));
    assert!(
        ran.out.lines().all(|line| line.chars().count() <= 40),
        "{}",
        ran.out
    );
    insta::assert_snapshot!(ran.out);
}

#[test]
fn a_page_without_a_terminal_has_no_colour() {
    let ran = run(pomace().env_remove("NO_COLOR").args(["liquid", SOUR]));
    assert!(!ran.out.contains('\u{1b}'));
}

#[test]
fn the_json() {
    let ran = run_args(&["liquid", SOUR, "--celsius", "4", "--json"]);
    insta::with_settings!({filters => crate::FEWER_DIGITS}, {
        insta::assert_snapshot!(ran.out);
    });
}

#[test]
fn the_json_holds_what_the_library_says() {
    let contents = Mixture::of(&[
        (Substance::Water, Grams(60.0)),
        (Substance::Ethanol, Grams(24.0)),
        (Substance::Sucrose, Grams(10.0)),
        (Substance::Citric, Grams(1.0)),
    ]);
    let figures = properties(&contents, Celsius(4.0));
    let answer = json(&["liquid", SOUR, "--celsius", "4", "--json"]);
    for (property, value) in figures.iter() {
        let told = answer[property.name()]["value"].as_f64().unwrap();
        let value = value.unwrap();
        assert!(
            (told / value - 1.0).abs() < 1e-7,
            "{property}: {told} is not {value}"
        );
        assert_eq!(answer[property.name()]["basis"], "declared");
        assert!(answer[property.name()]["plus_minus"].is_null());
    }
}

#[test]
fn a_figure_that_no_model_covers_is_null_and_named_in_the_notes() {
    let answer = json(&["liquid", "water=5, sucrose=95", "--json"]);
    let notes: Vec<&str> = answer["notes"]
        .as_array()
        .unwrap()
        .iter()
        .map(|note| note.as_str().unwrap())
        .collect();
    let mut missing = 0;
    for property in Property::ALL {
        if answer[property.name()]["value"].is_null() {
            missing += 1;
            assert!(
                notes.iter().any(|note| note.starts_with(property.name())),
                "{property} is not in {notes:?}"
            );
        }
    }
    assert!(missing > 5);
}

#[test]
fn every_way_of_writing_gives_the_same_answer() {
    let one = json(&["liquid", SOUR, "--json"]);
    for other in [
        vec![
            "liquid", "--json", "water", "60", "g", "ethanol", "24", "g", "sucrose", "10",
            "citric", "1",
        ],
        vec![
            "liquid",
            "Water: 0,06 kg; ETHANOL: 24; sucrose: 10; citric acid: 1000 mg",
            "--json",
        ],
        vec![
            "liquid",
            "60 g water, 24 g ethanol, 10 g sucrose, 1 g citric",
            "--json",
            "--celsius",
            "20 °C",
        ],
    ] {
        assert_eq!(json(&other), one, "{other:?}");
    }
}

#[test]
fn all_faults_at_once_each_with_its_place_and_its_mend() {
    let ran = run_args(&[
        "liquid",
        "watr=60 g, ethanol=-4 g, sucrose=nan, citric=5 ml, malic=1,500 g, salt 3",
    ]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    insta::assert_snapshot!(ran.err);
}

#[test]
fn bad_input_ends_with_code_2_and_a_way_out() {
    for (args, told) in [
        (vec![""], "nothing is said of what is in the liquid"),
        (vec!["water=0"], "all grams are zero"),
        (vec!["water=inf"], "`inf` is no number of grams"),
        (vec!["water=1e999"], "`1e999` is too large"),
        (vec!["water=5, water=6"], "`water` is there twice"),
        (vec!["60 g"], "does not say of what"),
        (vec!["water"], "`water` has no amount"),
        (vec!["xylophone=1"], "`xylophone` is no substance"),
        (
            vec!["water=1", "--celsius", "-300"],
            "colder than anything can be",
        ),
        (vec!["water=1", "--celsius", "nan"], "`nan` is no number"),
        (vec!["water=1", "--csv", "-"], "cannot be used with"),
        (vec![], "required"),
    ] {
        let all: Vec<&str> = std::iter::once("liquid").chain(args).collect();
        let ran = run_args(&all);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{all:?}");
        assert!(ran.err.contains(told), "{all:?}: {}", ran.err);
        assert!(
            ran.err.contains("mend: ") || ran.err.contains("--help"),
            "{all:?}: {}",
            ran.err
        );
    }
}

#[test]
fn what_is_typed_cannot_steer_the_terminal() {
    let ran = run_args(&["liquid", "wat\u{1b}[2Jer=5 \u{202e} g"]);
    assert_eq!(ran.code, 2);
    assert!(!ran.err.contains(['\u{1b}', '\u{202e}']), "{:?}", ran.err);
}
