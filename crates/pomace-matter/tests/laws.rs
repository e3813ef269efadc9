//! Laws that hold for every mixture, tried on thousands of random ones.

use pomace_matter::liquid::{Property, properties};
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

    #[test]
    fn combining_commutes(a in mixtures(), b in mixtures(), t in -5.0..35.0_f64) {
        let (one, other) = (properties(&(a + b), Celsius(t)), properties(&(b + a), Celsius(t)));
        for (property, value) in one.iter() {
            prop_assert_eq!(value, other.get(property), "{}", property);
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

    #[test]
    fn a_part_of_nothing_changes_nothing(mixture in mixtures()) {
        let with_zero = mixture + Mixture::of(&[(Substance::Sucrose, Grams(0.0))]);
        prop_assert_eq!(properties(&mixture, Celsius(20.0)), properties(&with_zero, Celsius(20.0)));
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
