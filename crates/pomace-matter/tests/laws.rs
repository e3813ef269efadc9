//! Laws that hold for every mixture, tried on thousands of random ones.

use pomace_matter::density;
use pomace_matter::liquid::{Note, Property, properties};
use pomace_matter::units::{Celsius, Grams};
use pomace_matter::{Mixture, Sloped, Substance};
use proptest::prelude::*;

/// A drinkable mixture: water, and some of everything else.
fn mixtures() -> impl Strategy<Value = Mixture> {
    let range = |s: Substance| match s {
        Substance::Water => 40.0..120.0,
        Substance::Ethanol | Substance::Sucrose => 0.0..30.0,
        Substance::Glucose | Substance::Fructose | Substance::Glycerol => 0.0..8.0,
        Substance::Citric | Substance::Malic | Substance::Lactic => 0.0..2.0,
        Substance::Potassium | Substance::Sodium | Substance::Chloride => 0.0..0.3,
        Substance::Calcium | Substance::Magnesium => 0.0..0.05,
        _ => 0.0..0.5,
    };
    let parts: Vec<_> = Substance::ALL
        .into_iter()
        .map(|s| {
            (proptest::bool::weighted(0.6), range(s)).prop_map(move |(used, g)| {
                (
                    s,
                    if used || s == Substance::Water {
                        g
                    } else {
                        0.0
                    },
                )
            })
        })
        .collect();
    parts.prop_map(|parts| {
        let mut mixture = Mixture::default();
        for (substance, grams) in parts {
            mixture.put(substance, grams);
        }
        mixture
    })
}

/// Anything at all, from traces to nothing else.
fn anything() -> impl Strategy<Value = Mixture> {
    let grams = || {
        prop_oneof![
            6 => Just(0.0), 2 => 0.0..100.0_f64, 1 => 0.0..1.0_f64, 1 => (-12.0..3.0_f64).prop_map(|e| 10_f64.powf(e)),
        ]
    };
    let water = prop_oneof![Just(0.0), 0.0..100.0_f64];
    (water, proptest::collection::vec(grams(), Substance::COUNT)).prop_map(|(water, grams)| {
        let mut mixture = Mixture::default();
        for (substance, grams) in Substance::ALL.into_iter().zip(grams) {
            mixture.put(substance, grams);
        }
        mixture.put(Substance::Water, water);
        mixture
    })
}

fn close(a: f64, b: f64, relative: f64) -> bool {
    (a - b).abs() <= relative * a.abs().max(b.abs()).max(1e-3)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: Some(Box::new(
        proptest::test_runner::FileFailurePersistence::WithSource("regressions"))), ..ProptestConfig::default() })]

    #[test]
    fn every_figure_is_a_number(mixture in mixtures(), t in -10.0..40.0_f64) {
        let found = properties(&mixture, Celsius(t));
        for (property, value) in found.iter() {
            if let Some(value) = value {
                prop_assert!(value.is_finite(), "{property}");
            }
        }
        for property in [Property::Density, Property::Ph, Property::WaterActivity] {
            prop_assert!(found.get(property).is_some(), "{property}: {:?}", found.notes);
        }
    }

    /// Whatever the order in which three liquids meet. A solved figure is good to the last digits of its
    /// solver: 1e-11 K of freezing, and pH as far as acids hold it.
    #[test]
    fn combining_knows_no_order(
        parts in [mixtures(), mixtures(), mixtures()], order in Just([0_usize, 1, 2]).prop_shuffle(),
        t in -5.0..35.0_f64,
    ) {
        let [a, b, c] = parts;
        let [x, y, z] = order.map(|i| parts[i]);
        let (one, other) = (properties(&((a + b) + c), Celsius(t)), properties(&(x + (y + z)), Celsius(t)));
        let held = (a + b + c).acids() > 0.1;
        for (property, value) in one.iter() {
            let (one, other) = (value.unwrap_or(f64::NAN), other.get(property).unwrap_or(f64::NAN));
            let within = match property {
                Property::Ph if !held => continue,
                Property::Ph => 1e-10,
                Property::FreezingPoint => 1e-11,
                // What base is left over when the water's own is taken off.
                Property::TitratableAcidity => 1e-12 * one.abs().max(1.0),
                _ => 1e-12 * one.abs().max(1e-3),
            };
            prop_assert!((one - other).abs() <= within || one.is_nan() && other.is_nan(),
                "{}: {} {}", property, one, other);
        }
    }

    #[test]
    fn only_ratios_matter(mixture in mixtures(), factor in 0.01..100.0_f64) {
        let (one, many) = (properties(&mixture, Celsius(20.0)), properties(&(mixture * factor), Celsius(20.0)));
        for (property, value) in one.iter() {
            let scale = if property == Property::Volume { factor } else { 1.0 };
            let (Some(a), Some(b)) = (value, many.get(property)) else { continue };
            prop_assert!(close(a * scale, b, 1e-9), "{} {} {}", property, a * scale, b);
        }
    }

    #[test]
    fn figures_move_continuously(mixture in mixtures(), t in -5.0..35.0_f64) {
        let mut nudged = mixture;
        nudged.put(Substance::Ethanol, 1e-7);
        nudged.put(Substance::Sucrose, 1e-7);
        let (one, other) = (properties(&mixture, Celsius(t)), properties(&nudged, Celsius(t)));
        for (property, value) in one.iter() {
            let (Some(a), Some(b)) = (value, other.get(property)) else { continue };
            // 1e-7 g of ethanol in 50 g is itself 3e-7 %vol.
            prop_assert!((a - b).abs() <= 1e-5 * a.abs().max(1.0), "{} {} {}", property, a, b);
        }
    }

    #[test]
    fn slopes_agree_with_differences(mixture in mixtures(), t in 0.0..35.0_f64) {
        use Substance as S;
        let inputs = [S::Water, S::Ethanol, S::Sucrose, S::Glucose, S::Citric, S::Glycerol];
        let mut sloped = mixture.lift::<Sloped<7>>();
        for (direction, substance) in inputs.into_iter().enumerate() {
            sloped.set(substance, Sloped::variable(mixture.grams(substance).max(0.5), direction));
        }
        let base = sloped.values();
        let exact = properties(&sloped, Celsius(Sloped::variable(t, 6)));
        let near_kink = (t - 5.0).abs() < 0.01 || (t - 18.0).abs() < 0.01;
        for direction in 0..7 {
            let h = if direction == 6 { 1e-4 } else { 1e-5 };
            let at = |sign: f64| {
                let mut moved = base;
                let mut t = t;
                match inputs.get(direction) {
                    Some(substance) => moved.put(*substance, sign * h),
                    None => t += sign * h,
                }
                properties(&moved, Celsius(t))
            };
            let (up, down) = (at(1.0), at(-1.0));
            for (property, value) in exact.iter() {
                let (Some(value), Some(a), Some(b)) = (value, up.get(property), down.get(property)) else { continue };
                if near_kink && property == Property::Sweetness {
                    continue;
                }
                let difference = (a - b) / (2.0 * h);
                let slope = value.slopes[direction];
                let floor = value.value.abs().max(1.0) * 2e-4;
                prop_assert!(
                    (slope - difference).abs() <= 2e-4 * difference.abs() + floor * 1e-1,
                    "{} in direction {}: {} and {}", property, direction, slope, difference
                );
            }
        }
    }

    /// A trace of each absent substance. The pH of a liquid that no acid holds may jump: pure water has
    /// none to speak of.
    #[test]
    fn a_part_of_nothing_changes_nothing(mixture in mixtures(), t in -5.0..35.0_f64) {
        let mut traced = mixture;
        for substance in Substance::ALL {
            if mixture.grams(substance) <= 0.0 {
                traced.put(substance, 1e-12);
            }
        }
        let held = mixture.acids() > 0.01;
        let (one, other) = (properties(&mixture, Celsius(t)), properties(&traced, Celsius(t)));
        for (property, value) in one.iter() {
            if property == Property::Ph && !held {
                continue;
            }
            match (value, other.get(property)) {
                (Some(a), Some(b)) => prop_assert!(close(a, b, 1e-6), "{} {} {}", property, a, b),
                (a, b) => prop_assert_eq!(a, b, "{}", property),
            }
        }
    }

    /// Anything in any amount: a figure is possible, or missing and named, once.
    #[test]
    fn what_is_missing_is_noted_and_what_is_there_is_possible(
        liquid in anything(), t in prop_oneof![-60.0..120.0_f64, -5.0..35.0_f64],
    ) {
        let found = properties(&liquid, Celsius(t));
        for (property, value) in found.iter() {
            let named = found.notes.iter()
                .filter(|note| note.missing().is_some_and(|(p, _)| p == property)).count();
            prop_assert_eq!(named, usize::from(value.is_none()), "{}: {:?}", property, found.notes);
            let (low, high) = match property {
                Property::Density => (600.0, 2000.0),
                Property::Volume => (1e-10, 1e12),
                Property::Strength | Property::SolubleSolids => (0.0, 100.0),
                Property::RefractometerBrix => (-1.0, 86.0),
                Property::Sugar | Property::Acid | Property::Sweetness => (0.0, 300.0),
                Property::TitratableAcidity => (-3000.0, 3000.0),
                Property::Ph => (-1.5, 15.0),
                Property::WaterActivity => (0.0, 1.0),
                Property::FreezingPoint => (-58.2, 0.0),
                Property::Energy => (0.0, 1000.0),
            };
            let value = value.unwrap_or(low);
            prop_assert!(value >= low - 1e-9 && value <= high + 1e-9, "{}: {}", property, value);
        }
        let dissolved = liquid.sum(pomace_matter::substance::Set::SOLUBLE) > 0.0;
        for note in &found.notes {
            // No solver gave up.
            if let Note::LeftOut { outside, .. } = note {
                prop_assert!(!dissolved || !outside.given.is_nan(), "{note}");
            }
            let text = note.to_string();
            prop_assert!(!text.is_empty() && !text.contains([';', '\n']), "{}", text);
        }
    }

    /// Above the 4 °C of water, warmth makes no liquid smaller: also past the end of its data.
    #[test]
    fn warmth_makes_nothing_shrink(mixture in mixtures(), salt in 0.0..25.0_f64, t in 6.0..75.0_f64) {
        let mut dry = mixture.only(|s| s != Substance::Ethanol, true);
        let water = dry.grams(Substance::Water);
        dry.put(Substance::Sodium, 0.393 * salt * water / 100.0);
        dry.put(Substance::Chloride, 0.607 * salt * water / 100.0);
        let volume = |t: f64| density::volume(&dry, Celsius(t)).map(|v| v.0);
        if let (Ok(cold), Ok(warm)) = (volume(t), volume(t + 5.0)) {
            prop_assert!(warm > cold, "{} {}", cold, warm);
        }
    }

    #[test]
    fn nothing_panics(grams in proptest::collection::vec(prop_oneof![
        -1e9..1e9_f64, Just(0.0), Just(f64::NAN), Just(f64::INFINITY), 0.0..1e-12_f64, 0.0..100.0_f64,
    ], Substance::COUNT), t in prop_oneof![-500.0..500.0_f64, Just(f64::NAN)]) {
        let mut mixture = Mixture::default();
        for (substance, grams) in Substance::ALL.into_iter().zip(grams) {
            mixture.put(substance, grams);
        }
        for (_, value) in properties(&mixture, Celsius(t)).iter() {
            prop_assert!(value.is_none_or(f64::is_finite));
        }
    }
}

/// Found by review: ions had no range, and these came to −96252 kg/m³ and −1463 %vol.
#[test]
fn ions_without_water_are_no_liquid() {
    let found = properties(
        &Mixture::of(&[
            (Substance::Water, Grams(24.0)),
            (Substance::Ethanol, Grams(15.0)),
            (Substance::Magnesium, Grams(86.0)),
        ]),
        Celsius(20.0),
    );
    for property in [Property::Density, Property::Volume, Property::Strength] {
        assert_eq!(found.get(property), None, "{property}");
    }
}

#[test]
fn what_people_know_is_named_when_it_may_crystallise() {
    let told = |parts: &[(Substance, Grams)], t: f64| -> Vec<String> {
        let found = properties(&Mixture::of(parts), Celsius(t));
        let crystals = found
            .notes
            .iter()
            .filter(|n| matches!(n, Note::OverSaturated { .. }));
        crystals.map(Note::to_string).collect()
    };
    let brine = told(
        &[
            (Substance::Water, Grams(73.0)),
            (Substance::Sodium, Grams(0.3934 * 27.0)),
            (Substance::Chloride, Grams(0.6066 * 27.0)),
        ],
        20.0,
    );
    assert_eq!(
        brine,
        ["salt: 27.0 % of salt and water, water holds 26.4 %, may crystallise"]
    );
    let honey = told(
        &[
            (Substance::Water, Grams(17.2)),
            (Substance::Fructose, Grams(38.2)),
            (Substance::Glucose, Grams(31.3)),
        ],
        20.0,
    );
    assert!(
        honey.len() == 1 && honey[0].starts_with("glucose: 64.5 %"),
        "{honey:?}"
    );
    let sour = told(
        &[
            (Substance::Water, Grams(30.0)),
            (Substance::Citric, Grams(70.0)),
        ],
        20.0,
    );
    assert!(
        sour[0].starts_with("citric acid: 70.0 % of citric acid"),
        "{sour:?}"
    );
}

#[test]
fn data_that_end_are_told() {
    let beyond = |parts: &[(Substance, Grams)]| -> Vec<Substance> {
        let found = properties(&Mixture::of(parts), Celsius(20.0));
        let notes = found.notes.into_iter();
        notes
            .filter_map(|n| match n {
                Note::BeyondData { substance } => Some(substance),
                _ => None,
            })
            .collect()
    };
    use Substance as S;
    assert_eq!(
        beyond(&[(S::Water, Grams(30.0)), (S::Glucose, Grams(70.0))]),
        [S::Glucose]
    );
    assert_eq!(
        beyond(&[(S::Water, Grams(50.0)), (S::Glucose, Grams(50.0))]),
        []
    );
    // A little in much sucrose does not matter.
    assert_eq!(
        beyond(&[
            (S::Water, Grams(30.0)),
            (S::Sucrose, Grams(67.0)),
            (S::Fructose, Grams(3.0))
        ]),
        []
    );
}
