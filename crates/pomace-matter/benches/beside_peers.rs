//! Our side of the comparison with peers (`benches/peers/`): the same cases, one JSON line per sum.
//!
//! Arguments: `ph_cases.csv ethanol_cases.csv`. Without them (as `cargo bench` calls it) it does
//! nothing, so that it can stand among the other benchmarks.

#![allow(clippy::print_stdout, reason = "its output is its result")]

use std::hint::black_box;
use std::time::Instant;

use pomace_matter::acidity::ph;
use pomace_matter::activity::freezing;
use pomace_matter::density::ethanol_water;
use pomace_matter::units::{Grams, MassFraction};
use pomace_matter::{Mixture, Substance};

fn main() {
    let files: Vec<String> = std::env::args()
        .skip(1)
        .filter(|a| a.ends_with(".csv"))
        .collect();
    let [acids, spirits] = files.as_slice() else {
        return;
    };
    let acids: Vec<Mixture> = rows(acids)
        .iter()
        .map(|row| {
            let mut liquid = Mixture::of(&[(Substance::Water, Grams(1000.0))]);
            for (molality, substance) in row.iter().zip([
                Substance::Citric,
                Substance::Malic,
                Substance::Lactic,
                Substance::Tartaric,
                Substance::Acetic,
                Substance::Phosphoric,
                Substance::Sodium,
                Substance::Potassium,
                Substance::Chloride,
            ]) {
                liquid.put(substance, molality * substance.molar_mass());
            }
            liquid
        })
        .collect();
    time("ph", &acids, |liquid| ph(liquid).unwrap_or(f64::NAN));
    let spirits: Vec<(f64, f64)> = rows(spirits).iter().map(|r| (r[0], r[1])).collect();
    time("density", &spirits, |(p, t)| ethanol_water::density(*p, *t));
    time("freezing", &spirits, |(p, _)| {
        freezing::of_spirit(MassFraction(*p)).map_or(f64::NAN, |t| t.0)
    });
}

fn rows(path: &str) -> Vec<Vec<f64>> {
    csv::Reader::from_path(path)
        .map(|mut reader| {
            reader
                .records()
                .filter_map(Result::ok)
                .map(|row| row.iter().filter_map(|cell| cell.parse().ok()).collect())
                .collect()
        })
        .unwrap_or_default()
}

/// Microseconds a call, over enough rounds of all cases to last a tenth of a second.
fn time<T>(name: &str, cases: &[T], call: impl Fn(&T) -> f64) {
    let mut sum = 0.0;
    let mut calls = 0_u32;
    let start = Instant::now();
    while start.elapsed().as_secs_f64() < 0.1 {
        for case in cases {
            sum += call(black_box(case));
            calls += 1;
        }
    }
    let micros = start.elapsed().as_secs_f64() * 1e6 / f64::from(calls);
    println!(
        "{{\"ours\": \"{name}\", \"us_per_call\": {micros:.5}, \"mean\": {:.6}}}",
        black_box(sum) / f64::from(calls)
    );
}
