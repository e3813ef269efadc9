//! The words on the path: where it begins, is served, each time that fits; and on the sea, its own.

use super::chart::Chart;
use super::course::{Course, SERVED};
use super::{IcePath, coast};
use crate::Voice;
use crate::geometry::Point;
use crate::labels::{self, Side, Wanted};
use crate::number::{number, short};
use crate::svg::Svg;

pub(super) fn draw(
    svg: &mut Svg,
    path: &IcePath,
    chart: &Chart,
    course: &Course,
    shore: &[(Point, Point)],
) {
    let room = chart.plot.grown(-3.0);
    let mut drawn = course.drawn();
    drawn.lines.extend_from_slice(shore);
    let mut sea = drawn.clone();
    // What is said of the drink stays off the sea.
    drawn
        .lines
        .extend([6.0, 15.0, 24.0, 33.0].iter().flat_map(|down| {
            let lower = move |at: &Point| Point::new(at.x, at.y + down);
            shore.iter().map(move |(from, to)| (lower(from), lower(to)))
        }));
    let wanted = of_the_drink(path, course);
    let set = labels::place(&wanted, &drawn, room);
    for (label, placed) in wanted.iter().zip(&set) {
        if let Some(placed) = placed {
            labels::set(svg, label, placed);
            sea.boxes.push(placed.room.grown(3.0));
        }
    }
    // How long it took is worth a place on the sea, if it found none before.
    let last = wanted.iter().zip(&set).find(|(label, _)| is_seconds(label));
    let last = last
        .filter(|(_, placed)| placed.is_none())
        .map(|(label, _)| label.clone());
    let wanted: Vec<Wanted> = last.into_iter().chain(of_the_sea(chart, shore)).collect();
    for (label, placed) in wanted.iter().zip(labels::place(&wanted, &sea, room)) {
        if let Some(placed) = placed {
            labels::set(svg, label, &placed);
        }
    }
}

fn is_seconds(label: &Wanted) -> bool {
    label
        .lines
        .iter()
        .any(|(voice, words)| *voice == Voice::Scale && words.ends_with(" s"))
}

fn of_the_drink(path: &IcePath, course: &Course) -> Vec<Wanted> {
    let label = |voice: Voice, words: String, at: Point, reach: f64, side: Side| Wanted {
        lines: vec![(voice, words)],
        at,
        reach,
        must: voice != Voice::Scale,
        side,
    };
    let time = |moment: f64, unit: &str| format!("{} {unit}", short(moment, 1));
    let mut wanted = Vec::new();
    // Times before names, since those find room further out; the last time first.
    for (at, moment) in course.in_glass.iter().zip(&path.in_glass).rev() {
        if moment.time > 0.0 {
            let words = time(moment.time, "min");
            wanted.push(label(Voice::Scale, words, *at, 3.0, Side::Above));
        }
    }
    if let Some((at, state)) = course.served {
        let done = if path.topped.is_some() {
            "topped"
        } else {
            "served"
        };
        let words = format!("{done}, {} °C", number(state.celsius, 1));
        wanted.push(label(Voice::Mark, words, at, SERVED + 0.5, Side::Above));
    }
    if let (Some(at), Some(first)) = (course.on_ice.first(), path.on_ice.first()) {
        let words = format!("meets the ice, {} °C", number(first.state.celsius, 0));
        wanted.push(label(Voice::Note, words, *at, 6.0, Side::Beside));
    }
    for (at, moment) in course.on_ice.iter().zip(&path.on_ice).skip(1).rev() {
        let words = time(moment.time, "s");
        wanted.push(label(Voice::Scale, words, *at, 4.0, Side::Beside));
    }
    wanted
}

fn of_the_sea(chart: &Chart, shore: &[(Point, Point)]) -> Vec<Wanted> {
    // The name of the line on either side of it, that of the ice below.
    [(0.30, 0.0, "freezing line"), (0.86, 20.0, "ice")]
        .into_iter()
        .filter_map(|(share, below, words)| {
            let at = coast::along(shore, share)?;
            Some(Wanted {
                lines: vec![(Voice::Aside, words.to_owned())],
                at: Point::new(at.x, (at.y + below).min(chart.plot.bottom)),
                reach: 5.0,
                must: false,
                side: Side::Above,
            })
        })
        .collect()
}
