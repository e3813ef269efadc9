//! The freezing line as a coast, and the ice below it water-lined.

use super::State;
use super::chart::Chart;
use crate::geometry::{Point, Rect};
use crate::svg::{Svg, Trace};

/// Distances of the water lines from the coast, px; they part as they leave it.
const LINES: [f64; 12] = [
    3.0, 6.4, 10.2, 14.4, 19.0, 24.0, 29.4, 35.2, 41.4, 48.0, 55.0, 62.5,
];

/// Draws coast and sea; answers the pieces of the coast.
pub(super) fn draw(svg: &mut Svg, chart: &Chart, freezing: &[Vec<State>]) -> Vec<(Point, Point)> {
    let mut coast: Vec<Point> = Vec::new();
    for piece in freezing {
        let mut piece: Vec<State> = piece.iter().copied().filter(|at| at.is_finite()).collect();
        piece.sort_by(|a, b| a.melt_percent.total_cmp(&b.melt_percent));
        let keep = thinned(&piece, 8);
        coast.extend(keep.iter().map(|state| {
            Point::new(
                chart.melt.at(state.melt_percent.clamp(0.0, 1e4)),
                chart.celsius.at(state.celsius.clamp(-1e3, 1e3)),
            )
        }));
    }
    coast.sort_by(|a, b| a.x.total_cmp(&b.x));
    let shifted = |down: f64| -> Vec<(Point, Point)> {
        coast
            .windows(2)
            .filter_map(|two| {
                let (from, to) = (two.first()?, two.last()?);
                let from = Point::new(from.x, from.y + down);
                let to = Point::new(to.x, to.y + down);
                crate::geometry::clipped(from, to, chart.plot)
            })
            .collect()
    };
    for (class, lines) in [("sea near", LINES.get(..4)), ("sea", LINES.get(4..))] {
        let mut sea = Trace::new();
        for down in lines.unwrap_or_default() {
            joined(&mut sea, &shifted(*down));
        }
        svg.trace(class, &sea);
    }
    let line = shifted(0.0);
    let mut trace = Trace::new();
    joined(&mut trace, &line);
    svg.trace("coast", &trace);
    line
}

/// Pieces as one line where they meet.
fn joined(trace: &mut Trace, pieces: &[(Point, Point)]) {
    let mut last: Option<Point> = None;
    for (from, to) in pieces {
        if last.is_none_or(|last| last.distance(*from) > 0.05) {
            trace.start(*from);
        }
        trace.line(*to);
        last = Some(*to);
    }
}

/// At most so many states, evenly taken, both ends among them.
fn thinned(states: &[State], most: usize) -> Vec<State> {
    if states.len() <= most {
        return states.to_vec();
    }
    (0..most)
        .filter_map(|index| states.get(index * (states.len() - 1) / (most - 1)).copied())
        .collect()
}

/// A place on the coast at this share of its extent.
pub(super) fn along(coast: &[(Point, Point)], share: f64) -> Option<Point> {
    let (first, last) = (coast.first()?.0.x, coast.last()?.1.x);
    let x = first + (last - first) * share;
    let (from, to) = coast.iter().find(|(from, to)| {
        Rect::new(from.x, f64::NEG_INFINITY, to.x, f64::INFINITY).holds(Point::new(x, 0.0))
    })?;
    let along = (x - from.x) / (to.x - from.x).max(1e-9);
    Some(from.toward(*to, along))
}
