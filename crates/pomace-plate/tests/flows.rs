//! The lines of a flow balance, and as many are drawn as are counted.

use pomace_plate::flow::{self, Flow, count};
use pomace_plate::{Drawing, Width};
use proptest::prelude::*;
use roxmltree::Document;

use crate::drawing::checked;
use crate::laws::a_flow;
use crate::specimen::{demo, preps};

fn known(grams: Option<&f64>) -> f64 {
    grams
        .copied()
        .filter(|grams| grams.is_finite() && *grams > 0.0)
        .map_or(0.0, |grams| grams.min(1e9))
}

fn cell(flow: &Flow, inflow: usize, out: usize) -> f64 {
    known(
        flow.outflows
            .get(out)
            .and_then(|out| out.grams_from.get(inflow)),
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: Some(Box::new(
        proptest::test_runner::FileFailurePersistence::WithSource("regressions"))), ..ProptestConfig::default() })]

    #[test]
    fn lines_balance_and_are_never_off_by_one(flow in a_flow(), most in 1..90_usize) {
        let whole: f64 = (0..flow.inflows.len())
            .flat_map(|inflow| (0..flow.outflows.len()).map(move |out| (inflow, out)))
            .map(|(inflow, out)| cell(&flow, inflow, out))
            .sum();
        let Some(counted) = count(&flow, most) else {
            prop_assert!(whole < 2e-3);
            return Ok(());
        };
        let total: usize = counted.lines.iter().flatten().sum();
        prop_assert!(total <= most + 1, "{total} of {most}");
        prop_assert_eq!(total, (whole / counted.grams_per_line).round() as usize);
        for (inflow, row) in counted.lines.iter().enumerate() {
            for (out, lines) in row.iter().enumerate() {
                let exact = cell(&flow, inflow, out) / counted.grams_per_line;
                prop_assert!((*lines as f64 - exact).abs() < 1.0 + 1e-6, "{lines} for {exact}");
            }
        }
        let step = counted.grams_per_line / 10.0_f64.powf(counted.grams_per_line.log10().floor() + 1e-9);
        prop_assert!([1.0, 2.0, 5.0, 10.0].iter().any(|unit| (step - unit).abs() < 1e-3 * unit), "{step}");
    }
}

/// How many lines of each kind are drawn.
fn drawn(drawing: &Drawing) -> Vec<(String, usize)> {
    let document = Document::parse(&drawing.svg).unwrap();
    document
        .descendants()
        .filter_map(|node| {
            let class = node.attribute("class")?;
            ["own", "liquid", "sweet"].contains(&class).then(|| {
                (
                    class.to_owned(),
                    node.attribute("d").unwrap().matches('M').count(),
                )
            })
        })
        .collect()
}

#[test]
fn as_many_lines_are_drawn_as_are_counted() {
    // 240 g of peel, 336 of vinegar and 254 of honey: 24, 34 and 25 lines of 10 g; of 20 g half.
    let shrub = demo::shrub();
    let lines = |width| drawn(&flow::draw(&shrub, width, "w").unwrap());
    let tablet = [("liquid", 33), ("sweet", 26), ("own", 24)];
    let wide = lines(Width::Tablet);
    let total: usize = wide.iter().map(|kind| kind.1).sum();
    assert_eq!(total, 83);
    for ((kind, count), (wanted, about)) in wide.iter().zip(tablet) {
        assert_eq!(kind, wanted);
        assert!(count.abs_diff(about) <= 1, "{kind} {count}");
    }
    let narrow: usize = lines(Width::Phone).iter().map(|kind| kind.1).sum();
    assert_eq!(narrow, 42, "83.02 g of ten, by twenties: 41.5");
}

#[test]
fn every_stream_is_named_with_its_mass() {
    for width in Width::ALL {
        let drawing = flow::draw(&demo::shrub(), width, "w").unwrap();
        for words in [
            "240 g", "336 g", "254 g", "678 g", "137 g", "15 g", "press", "steep", "dissolve",
        ] {
            assert!(
                drawing.svg.contains(&format!(">{words}</text>")),
                "{words} at {width:?}"
            );
        }
        assert!(
            drawing
                .description
                .contains("By-product: 137 g pressed peel; 87 g from quince peel")
        );
    }
}

/// Every prep of the demo, those of the specimen, and a long one.
fn preps() -> Vec<Flow> {
    let mut all = preps::of_the_demo();
    all.extend([preps::long(), demo::shrub(), demo::juice(), demo::cordial()]);
    all
}

#[test]
fn no_label_of_a_prep_lies_on_another_or_is_left_out() {
    for prep in preps() {
        for width in Width::ALL {
            let drawing = flow::draw(&prep, width, "w").unwrap();
            let texts = checked(&drawing, "w");
            for (index, one) in texts.iter().enumerate() {
                for other in texts.iter().skip(index + 1) {
                    assert!(
                        !one.room.meets(other.room),
                        "{}: {one:?} on {other:?} at {width:?}",
                        prep.name
                    );
                }
            }
            // What comes in or goes out, and each station, has its words; a name may go over two lines, and a
            // very long one may end early.
            let has = |words: &str| {
                let first = words.split(' ').next().unwrap();
                texts.iter().any(|text| text.words.starts_with(first))
            };
            let stations = prep.stations.iter().map(|station| &station.name);
            let inflows = prep.inflows.iter().map(|inflow| &inflow.name);
            let outflows = prep.outflows.iter().map(|out| &out.name);
            for name in stations.chain(inflows).chain(outflows) {
                assert!(has(name), "{}: {name} at {width:?}", prep.name);
            }
        }
    }
}

#[test]
fn no_label_of_a_prep_is_struck_through() {
    for prep in preps() {
        for width in Width::ALL {
            let drawing = flow::draw(&prep, width, "w").unwrap();
            let texts = checked(&drawing, "w");
            let document = Document::parse(&drawing.svg).unwrap();
            for node in document.descendants() {
                if !["own", "liquid", "sweet"]
                    .contains(&node.attribute("class").unwrap_or_default())
                {
                    continue;
                }
                for place in crate::drawing::traced(node.attribute("d").unwrap()) {
                    let place = pomace_plate::geometry::Point::new(place.0, place.1);
                    let on = texts.iter().find(|text| text.room.holds(place));
                    assert!(on.is_none(), "{}: {on:?} at {width:?}", prep.name);
                }
            }
        }
    }
}

/// A label that found no place at its mark would hang on a leader: only what is too little for a line has one.
#[test]
fn every_label_of_a_prep_stands_at_its_mark() {
    for prep in preps() {
        for width in Width::ALL {
            let drawing = flow::draw(&prep, width, "w").unwrap();
            let leaders = drawing.svg.matches("class=\"lead\"").count();
            let lines = count(&prep, flow::most_lines(width)).unwrap().lines;
            let none_in = |at: &usize| lines[*at].iter().all(|lines| *lines == 0);
            let none_out = |at: &usize| lines.iter().all(|row| row[*at] == 0);
            let hairs = (0..prep.inflows.len()).filter(none_in).count()
                + (0..prep.outflows.len()).filter(none_out).count();
            assert!(
                leaders <= hairs,
                "{}: {leaders} for {hairs} at {width:?}",
                prep.name
            );
        }
    }
}

#[test]
fn a_long_prep_runs_down_where_it_cannot_be_named_side_by_side() {
    let high = |flow: &Flow, width| {
        let drawing = flow::draw(flow, width, "w").unwrap();
        let document = Document::parse(&drawing.svg).unwrap();
        let sizes = document.root_element().attribute("viewBox").unwrap();
        sizes.split(' ').nth(3).unwrap().parse::<f64>().unwrap()
    };
    for width in [Width::Tablet, Width::Desktop] {
        assert!(high(&preps::long(), width) > width.pixels());
        assert!(high(&demo::shrub(), width) < width.pixels());
    }
    // Sixteen steps on a phone: three screens, not ten.
    assert!(high(&preps::long(), Width::Phone) < 1900.0);
}
