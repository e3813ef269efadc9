//! The rule for labels: none on another, none on this drink's marks, this drink's own always there.

use pomace_plate::geometry::{Point, Rect};
use pomace_plate::labels::{Drawn, Side, Wanted, place};
use pomace_plate::{Voice, Width, field};
use proptest::prelude::*;
use roxmltree::Document;

use crate::drawing::{Words, checked, traced};
use crate::specimen::{crowd, demo};

/// Texts inside the frame, by the rule; the numbers outside it are set by hand.
fn inside(texts: Vec<Words>, frame: Rect) -> Vec<Words> {
    texts
        .into_iter()
        .filter(|text| frame.encloses(text.room))
        .collect()
}

fn frame(document: &Document<'_>) -> Rect {
    let node = document
        .descendants()
        .find(|node| node.attribute("class") == Some("frame"))
        .unwrap();
    let read = |name: &str| node.attribute(name).unwrap().parse::<f64>().unwrap();
    Rect::new(
        read("x"),
        read("y"),
        read("x") + read("width"),
        read("y") + read("height"),
    )
}

#[test]
fn names_of_a_crowded_house_keep_off_each_other_and_off_this_drink() {
    for width in Width::ALL {
        let drawing = field::draw(&crowd::field(), width, "c");
        let document = Document::parse(&drawing.svg).unwrap();
        let texts = inside(checked(&drawing, "c"), frame(&document));
        for own in [
            "served",
            "8.7 % vol",
            "before ice",
            "17.3 % vol",
            "shaken 9 s",
        ] {
            assert!(
                texts.iter().any(|text| text.words == own),
                "{own} is missing at {width:?}"
            );
        }
        let names = texts
            .iter()
            .filter(|text| text.class.starts_with('h'))
            .count();
        let least = if width == Width::Phone { 1 } else { 6 };
        assert!(names >= least, "only {names} names at {width:?}");
        assert!(names < 40);
        // The letters in the lens have a law of their own below.
        let texts: Vec<&Words> = texts
            .iter()
            .filter(|text| !text.class.starts_with('l'))
            .collect();
        for (index, one) in texts.iter().enumerate() {
            for other in texts.iter().skip(index + 1) {
                assert!(
                    !one.room.meets(other.room),
                    "{one:?} on {other:?} at {width:?}"
                );
            }
        }
        for node in document.descendants().filter(|node| node.is_element()) {
            let class = node.attribute("class").unwrap_or_default();
            for text in &texts {
                if matches!(class, "before" | "served") {
                    let read = |name: &str| node.attribute(name).unwrap().parse::<f64>().unwrap();
                    let centre = Point::new(read("cx"), read("cy"));
                    assert!(
                        !text.room.meets_disc(centre, read("r")),
                        "{text:?} on {class}"
                    );
                }
                if matches!(class, "arrow" | "tick" | "doubt" | "doubt soft") {
                    for two in traced(node.attribute("d").unwrap()).chunks(2) {
                        if let [from, to] = two {
                            let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
                            assert!(
                                !text.room.meets_line(from, to),
                                "{text:?} on {class} at {width:?}"
                            );
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn each_name_stands_nearest_to_its_own_circle() {
    let house = crowd::field().house;
    let mut seen = 0;
    for width in Width::ALL {
        let drawing = field::draw(&crowd::field(), width, "c");
        let document = Document::parse(&drawing.svg).unwrap();
        let read = |node: &roxmltree::Node<'_, '_>, name: &str| {
            node.attribute(name).unwrap().parse::<f64>().unwrap()
        };
        let group = document
            .descendants()
            .find(|node| node.attribute("class") == Some("other"))
            .unwrap();
        let circles: Vec<(Point, f64)> = group
            .children()
            .map(|circle| {
                (
                    Point::new(read(&circle, "cx"), read(&circle, "cy")),
                    read(&circle, "r"),
                )
            })
            .collect();
        // The circles of those that the lens does not hide, in the order of the house.
        let frame = frame(&document);
        let ranges = field::ranges(&crowd::field());
        let at = |other: &field::Neighbour| {
            Point::new(
                frame.left
                    + other.taste.sourness_g_per_l / ranges.sourness_g_per_l
                        * (frame.right - frame.left),
                frame.bottom
                    - other.taste.sweetness_g_per_100ml / ranges.sweetness_g_per_100ml
                        * (frame.bottom - frame.top),
            )
        };
        for text in checked(&drawing, "c")
            .iter()
            .filter(|text| text.class.starts_with('h'))
        {
            seen += 1;
            let own = house.iter().find(|other| other.name == text.words).unwrap();
            let gap = |circle: &(Point, f64)| text.room.gap(circle.0) - circle.1;
            let nearest = circles
                .iter()
                .min_by(|a, b| gap(a).total_cmp(&gap(b)))
                .unwrap();
            let apart = (nearest.0.x - at(own).x).hypot(nearest.0.y - at(own).y);
            assert!(
                apart < 0.2,
                "{text:?} belongs to another circle at {width:?}"
            );
        }
    }
    assert!(seen > 10, "{seen}");
}

#[test]
fn the_nearest_names_are_set_first() {
    let drawing = field::draw(&demo::field(), Width::Desktop, "n");
    for name in ["Weir", "Slack Water", "Ebb, its twin", "Frost Line"] {
        assert!(drawing.svg.contains(&format!(">{name}</text>")), "{name}");
    }
    assert!(drawing.description.contains("Nearest of the house's own: "));
}

fn wanted() -> impl Strategy<Value = Vec<Wanted>> {
    let one = (
        20.0..380.0_f64,
        20.0..280.0_f64,
        0.0..16.0_f64,
        "[A-Za-z]{1,14}",
        any::<bool>(),
    );
    proptest::collection::vec(one, 1..40).prop_map(|all| {
        all.into_iter()
            .enumerate()
            .map(|(index, (x, y, reach, words, above))| Wanted {
                lines: vec![(Voice::Other, words)],
                at: Point::new(x, y),
                reach,
                must: index < 4,
                side: if above { Side::Above } else { Side::Beside },
            })
            .collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: Some(Box::new(
        proptest::test_runner::FileFailurePersistence::WithSource("regressions"))), ..ProptestConfig::default() })]

    #[test]
    fn placed_labels_are_apart_inside_and_the_same_each_time(wanted in wanted()) {
        let within = Rect::new(0.0, 0.0, 400.0, 300.0);
        let drawn = Drawn {
            discs: wanted.iter().map(|label| (label.at, label.reach)).collect(),
            lines: vec![(Point::new(0.0, 0.0), Point::new(400.0, 300.0))],
            ..Drawn::default()
        };
        let placed = place(&wanted, &drawn, within);
        prop_assert_eq!(&placed, &place(&wanted, &drawn, within));
        let rooms: Vec<Rect> = placed.iter().flatten().map(|placed| placed.room).collect();
        for (index, room) in rooms.iter().enumerate() {
            prop_assert!(within.encloses(*room));
            for other in rooms.iter().skip(index + 1) {
                prop_assert!(!room.meets(*other));
            }
        }
        for (label, placed) in wanted.iter().zip(&placed) {
            if let Some(placed) = placed.as_ref().filter(|_| !label.must) {
                prop_assert!(drawn.leaves(placed.room));
            }
        }
        prop_assert!(placed.iter().take(4).all(Option::is_some), "must be shown");
    }
}

#[test]
fn a_name_is_broken_or_loses_what_describes_it_before_it_is_cut() {
    let lines = |words: &str| Voice::Note.lines(words, 84.0, 3);
    assert_eq!(lines("salt"), ["salt"]);
    assert_eq!(
        lines("Quince leather, one strip"),
        ["Quince", "leather, one", "strip"]
    );
    let described = "Quince leather, one long strip, dusted with sugar, torched";
    assert_eq!(lines(described), ["Quince", "leather, one", "long strip"]);
    let named = lines("a name of a garnish that nobody would think of as short");
    assert!(named.len() == 3 && named[2].ends_with('…'), "{named:?}");
    let word = lines("Donaudampfschifffahrtsgesellschaft");
    assert!(word.len() == 1 && word[0].ends_with('…'), "{word:?}");
    for line in lines("on 50 g of ice, 12 mL") {
        assert!(
            Voice::Note.width(&line) <= 84.0 && !line.ends_with("50"),
            "{line}"
        );
    }
}
