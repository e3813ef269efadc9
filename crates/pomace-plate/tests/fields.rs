//! The field: its ranges, its size, its sentence.

use pomace_plate::field::{self, Field, Ranges};
use pomace_plate::{Width, path};
use proptest::prelude::*;

use crate::drawing::checked;
use crate::specimen::{crowd, demo};

#[test]
fn a_field_of_twelve_drinks_is_small() {
    let mut field = crowd::field();
    field.house.truncate(12);
    for width in Width::ALL {
        let bytes = field::draw(&field, width, "f").svg.len();
        assert!(bytes < 9_000, "{bytes} at {width:?}");
    }
}

#[test]
fn water_syrup_and_vinegar_fit() {
    for field in [demo::dry(), demo::syrup(), demo::vinegar(), demo::empty()] {
        let ranges = field::ranges(&field);
        for width in Width::ALL {
            let drawing = field::draw(&field, width, "f");
            let texts = checked(&drawing, "f");
            let shown = texts.iter().any(|text| text.words == "served");
            assert_eq!(shown, field.served.is_some(), "{} at {width:?}", field.name);
        }
        if let Some(served) = field.served {
            assert!(served.sourness_g_per_l.value <= ranges.sourness_g_per_l);
            assert!(served.sweetness_g_per_100ml.value <= ranges.sweetness_g_per_100ml);
        }
    }
    assert!(
        field::draw(&demo::empty(), Width::Phone, "f")
            .description
            .contains("cannot be placed yet")
    );
}

#[test]
fn a_drink_far_outside_does_not_press_the_others_together() {
    let mut field = demo::field();
    let before = field::ranges(&field);
    field
        .house
        .push(demo::other("Neat vinegar", 55.0, 0.0, 0.0));
    assert_eq!(field::ranges(&field), before);
    let words = field::draw(&field, Width::Desktop, "f").description;
    assert!(
        words.contains("Outside the scales: 1 of the house's own."),
        "{words}"
    );
}

#[test]
fn names_that_are_markup_stay_words() {
    let field = Field {
        name: "<b>&\"'".to_owned(),
        ..demo::field()
    };
    let drawing = field::draw(&field, Width::Phone, "x");
    checked(&drawing, "x");
    assert!(
        drawing
            .svg
            .contains("<title id=\"x-t\">&lt;b&gt;&amp;&quot;&#39;: sweetness")
    );
}

#[test]
fn a_drink_without_ice_has_no_path() {
    assert_eq!(
        path::draw(&path::IcePath::default(), Width::Phone, "p"),
        None
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: Some(Box::new(
        proptest::test_runner::FileFailurePersistence::WithSource("regressions"))), ..ProptestConfig::default() })]

    #[test]
    fn a_small_change_moves_no_scale(sour in 0.5..50.0_f64, sweet in 0.5..40.0_f64, change in -0.04..0.04_f64) {
        let mut field = demo::field();
        field.house.clear();
        field.remembered = None;
        field.ended = None;
        field.before = None;
        field.served = Some(demo::spot((sour, 0.0), (sweet, 0.0), 10.0));
        let first = field::ranges(&field);
        prop_assert!(sour <= first.sourness_g_per_l && sweet <= first.sweetness_g_per_100ml);
        field.kept = Some(first);
        field.served = Some(demo::spot((sour * (1.0 + change), 0.0), (sweet * (1.0 + change), 0.0), 10.0));
        let Ranges { sourness_g_per_l, sweetness_g_per_100ml } = field::ranges(&field);
        prop_assert!((sourness_g_per_l - first.sourness_g_per_l).abs() < 1e-9);
        prop_assert!((sweetness_g_per_100ml - first.sweetness_g_per_100ml).abs() < 1e-9);
    }
}
