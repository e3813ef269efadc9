//! Laws that hold for whatever is handed in: numbers that are none, names that are markup.

use pomace_plate::field::{self, Ended, Field, Neighbour, Push, Ranges, Remembered, Spot, Taste};
use pomace_plate::flow::{self, Fate, Flow, Inflow, Matter, Outflow, Station};
use pomace_plate::glass::{self, Glass, Ice, Shape};
use pomace_plate::path::{self, IcePath, Moment, State};
use pomace_plate::strip::{self, Share, Strip};
use pomace_plate::whiskers::{self, Whiskers};
use pomace_plate::{Doubtful, Width};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;

use crate::drawing::checked;

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => 0.0..40.0_f64,
        2 => -30.0..400.0_f64,
        1 => prop_oneof![
            Just(0.0), Just(-0.0), Just(1e-12), Just(1e12), Just(1e300), Just(-1e300),
            Just(f64::NAN), Just(f64::INFINITY), Just(f64::NEG_INFINITY),
        ],
    ]
}

fn name() -> impl Strategy<Value = String> {
    prop_oneof![
        "[A-Z][a-zé ]{0,24}",
        "[<>&\"' ]{0,6}",
        "\\PC{0,12}",
        Just("\u{0}\u{7}\u{FFFE}\u{FFFF}]]>".to_owned()),
        Just("x".repeat(90)),
    ]
}

fn doubtful() -> impl Strategy<Value = Doubtful> {
    (number(), option::of(number())).prop_map(|(value, plus_minus)| Doubtful { value, plus_minus })
}

fn taste() -> impl Strategy<Value = Taste> {
    (number(), number()).prop_map(|(sour, sweet)| Taste {
        sourness_g_per_l: sour,
        sweetness_g_per_100ml: sweet,
    })
}

fn spot() -> impl Strategy<Value = Spot> {
    (doubtful(), doubtful(), number()).prop_map(|(sour, sweet, strength)| Spot {
        sourness_g_per_l: sour,
        sweetness_g_per_100ml: sweet,
        strength_percent: strength,
    })
}

fn a_field() -> impl Strategy<Value = Field> {
    let other = (name(), taste(), number()).prop_map(|(name, taste, strength_percent)| Neighbour {
        name,
        taste,
        strength_percent,
    });
    let push = (any::<char>(), taste()).prop_map(|(letter, change)| Push { letter, change });
    let ended = (taste(), name()).prop_map(|(taste, words)| Ended { taste, words });
    let memory =
        (name(), taste(), taste()).prop_map(|(words, from, to)| Remembered { words, from, to });
    (
        (
            name(),
            option::of(spot()),
            option::of(spot()),
            option::of(taste()),
        ),
        option::of(ended),
        vec(other, 0..14),
        option::of(memory),
        vec(push, 0..7),
        option::of((number(), number())),
    )
        .prop_map(
            |((name, before, served, was), ended, house, remembered, pushes, kept)| Field {
                name,
                before,
                served,
                was,
                ended,
                house,
                remembered,
                pushes,
                kept: kept.map(|(sour, sweet)| Ranges {
                    sourness_g_per_l: sour,
                    sweetness_g_per_100ml: sweet,
                }),
            },
        )
}

fn state() -> impl Strategy<Value = State> {
    (number(), number()).prop_map(|(melt_percent, celsius)| State {
        melt_percent,
        celsius,
    })
}

fn moments() -> impl Strategy<Value = Vec<Moment>> {
    vec(
        (number(), state()).prop_map(|(time, state)| Moment { time, state }),
        0..6,
    )
}

fn a_path() -> impl Strategy<Value = IcePath> {
    (
        name(),
        name(),
        moments(),
        option::of(state()),
        moments(),
        vec(vec(state(), 0..12), 0..3),
    )
        .prop_map(|(name, done, on_ice, topped, in_glass, freezing)| IcePath {
            name,
            done,
            on_ice,
            topped,
            in_glass,
            freezing,
        })
}

fn a_glass() -> impl Strategy<Value = Glass> {
    let shape = prop_oneof![
        Just(Shape::Tall),
        Just(Shape::Rocks),
        Just(Shape::Coupe),
        Just(Shape::Stem),
        Just(Shape::Unknown),
    ];
    let ice = prop_oneof![
        Just(Ice::None),
        number().prop_map(|grams| Ice::Block { grams }),
        number().prop_map(|grams| Ice::Cubes { grams }),
        number().prop_map(|grams| Ice::Crushed { grams }),
    ];
    let brim = prop_oneof![3 => 10.0..900.0_f64, 1 => number()];
    (
        name(),
        shape,
        brim,
        doubtful(),
        ice,
        number(),
        option::of(name()),
        option::of(name()),
    )
        .prop_map(
            |(name, shape, brim_ml, liquid_ml, ice, foam_ml, rim, garnish)| Glass {
                name,
                shape,
                brim_ml,
                liquid_ml,
                ice,
                foam_ml,
                rim,
                garnish,
            },
        )
}

pub(crate) fn a_flow() -> impl Strategy<Value = Flow> {
    let matter = prop_oneof![
        Just(Matter::Ingredient),
        Just(Matter::Liquid),
        Just(Matter::Sweetener)
    ];
    let fate = prop_oneof![Just(Fate::Kept), Just(Fate::ByProduct), Just(Fate::Lost)];
    let inflow = (name(), matter, 0..10_usize).prop_map(|(name, matter, station)| Inflow {
        name,
        matter,
        station,
    });
    let station = (name(), name()).prop_map(|(name, note)| Station { name, note });
    let outflow = (name(), name(), fate, 0..10_usize, vec(number(), 0..9)).prop_map(
        |(name, note, fate, station, grams_from)| Outflow {
            name,
            note,
            fate,
            station,
            grams_from,
        },
    );
    (
        name(),
        vec(inflow, 0..9),
        vec(station, 0..9),
        vec(outflow, 0..9),
    )
        .prop_map(|(name, inflows, stations, outflows)| Flow {
            name,
            inflows,
            stations,
            outflows,
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: Some(Box::new(
        proptest::test_runner::FileFailurePersistence::WithSource("regressions"))), ..ProptestConfig::default() })]

    #[test]
    fn every_field_lies_in_its_box(field in a_field()) {
        for width in Width::ALL {
            let drawing = field::draw(&field, width, "f");
            checked(&drawing, "f");
            prop_assert_eq!(&drawing, &field::draw(&field, width, "f"), "the same each time");
        }
    }

    #[test]
    fn every_path_lies_in_its_box(path in a_path()) {
        for width in Width::ALL {
            let known = path.on_ice.iter().chain(&path.in_glass).filter(|moment| {
                [moment.time, moment.state.celsius, moment.state.melt_percent].iter().all(|value| value.is_finite())
            });
            let drawing = path::draw(&path, width, "p");
            prop_assert_eq!(drawing.is_some(), known.count() >= 2);
            drawing.iter().for_each(|drawing| { checked(drawing, "p"); });
        }
    }

    #[test]
    fn every_glass_lies_in_its_box(glass in a_glass()) {
        for width in Width::ALL {
            glass::draw(&glass, width, "g").iter().for_each(|drawing| { checked(drawing, "g"); });
        }
    }

    #[test]
    fn every_flow_lies_in_its_box(flow in a_flow()) {
        for width in Width::ALL {
            flow::draw(&flow, width, "w").iter().for_each(|drawing| { checked(drawing, "w"); });
        }
    }

    #[test]
    fn strips_and_whiskers_lie_in_their_boxes(
        figure in name(),
        shares in vec((name(), number(), any::<bool>()), 0..8),
        now in doubtful(),
        once_read in number(),
    ) {
        let strip = Strip {
            figure: figure.clone(),
            unit: "g".to_owned(),
            shares: shares
                .into_iter()
                .map(|(letter, amount, of_ingredient)| Share { name: letter.clone(), letter, amount, of_ingredient })
                .collect(),
        };
        let whiskers = Whiskers { figure, unit: "g in 1 L".to_owned(), now, once_read };
        for width in Width::ALL {
            strip::draw(&strip, width, "s").iter().for_each(|drawing| { checked(drawing, "s"); });
            strip::draw_parts(&strip, width, "s").iter().for_each(|drawing| { checked(drawing, "s"); });
            whiskers::draw(&whiskers, width, "d").iter().for_each(|drawing| { checked(drawing, "d"); });
        }
    }
}
