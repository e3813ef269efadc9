//! Speed of the solvers and of the figures of a liquid.

use std::hint::black_box;

use pomace_matter::acidity::{ionic_of, solve};
use pomace_matter::activity::{Activity, freezing};
use pomace_matter::density;
use pomace_matter::ice::{Chill, equilibrium};
use pomace_matter::liquid::properties;
use pomace_matter::units::{Celsius, Grams};
use pomace_matter::{Mixture, Substance};

fn main() {
    divan::main();
}

/// The usual drink: spirit, citrus with its potassium, sugar.
fn sour() -> Mixture {
    Mixture::of(&[
        (Substance::Water, Grams(62.0)),
        (Substance::Ethanol, Grams(16.0)),
        (Substance::Sucrose, Grams(8.0)),
        (Substance::Citric, Grams(0.9)),
        (Substance::Malic, Grams(0.1)),
        (Substance::Potassium, Grams(0.03)),
    ])
}

#[divan::bench]
fn ph(bencher: divan::Bencher<'_, '_>) {
    let ionic = ionic_of(&sour(), Celsius(25.0));
    bencher.bench_local(|| ionic.and_then(|i| solve(black_box(&i))));
}

#[divan::bench]
fn ph_from_grams(bencher: divan::Bencher<'_, '_>) {
    let liquid = sour();
    bencher.bench_local(|| pomace_matter::acidity::ph(black_box(&liquid)));
}

#[divan::bench]
fn freezing_point(bencher: divan::Bencher<'_, '_>) {
    let activity = Activity::of(&sour());
    bencher.bench_local(|| {
        activity
            .as_ref()
            .map(|a| freezing::of_activity(black_box(a)))
    });
}

#[divan::bench]
fn freezing_point_from_grams(bencher: divan::Bencher<'_, '_>) {
    let liquid = sour();
    bencher.bench_local(|| freezing::freezing_point(black_box(&liquid)));
}

#[divan::bench]
fn density_from_grams(bencher: divan::Bencher<'_, '_>) {
    let liquid = sour();
    bencher.bench_local(|| density::density(black_box(&liquid), Celsius(20.0)));
}

#[divan::bench]
fn ice_equilibrium(bencher: divan::Bencher<'_, '_>) {
    let chill = Chill {
        liquid: sour(),
        liquid_celsius: 18.0,
        ice_grams: 200.0,
        ice_celsius: -4.0,
        surface_water_grams: 4.0,
        vessel_joules_per_kelvin: 80.0,
        vessel_celsius: 20.0,
        gained_joules: 0.0,
    };
    bencher.bench_local(|| equilibrium::settle(black_box(&chill)));
}

#[divan::bench]
fn all_figures(bencher: divan::Bencher<'_, '_>) {
    let liquid = sour();
    bencher.bench_local(|| properties(black_box(&liquid), Celsius(-5.0)));
}
