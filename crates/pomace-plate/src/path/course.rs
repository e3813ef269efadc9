//! The line of the path: on ice, topped, in the glass, with strokes by second and dots by minute.

use super::chart::Chart;
use super::{IcePath, Moment, State};
use crate::geometry::Point;
use crate::labels::Drawn;
use crate::svg::{Svg, Trace};

/// Radius of the mark of the drink as served, px.
pub(super) const SERVED: f64 = 6.5;

/// The path in pixels.
pub(super) struct Course {
    pub(super) on_ice: Vec<Point>,
    pub(super) in_glass: Vec<Point>,
    topped: Option<Point>,
    /// Where it is served, and as what: after topping, or as it leaves the ice.
    pub(super) served: Option<(Point, State)>,
    /// Strokes across the line, one for each time on ice but the first.
    ticks: Vec<(Point, Point)>,
    /// Dots in the glass: those after the beginning.
    dots: Vec<Point>,
}

impl Course {
    pub(super) fn new(path: &IcePath, chart: &Chart) -> Self {
        let points = |moments: &[Moment]| -> Vec<Point> {
            let states = moments.iter().map(|moment| moment.state);
            states.filter_map(|state| chart.at(state)).collect()
        };
        let on_ice = points(&path.on_ice);
        let leaves = path.on_ice.last().map(|moment| moment.state);
        let served = path.topped.or(leaves);
        let later = path.in_glass.iter().filter(|moment| moment.time > 0.0);
        Self {
            ticks: pairs(&on_ice)
                .filter_map(|(from, to)| stroke(from, to))
                .collect(),
            on_ice,
            in_glass: points(&path.in_glass),
            topped: path.topped.and_then(|state| chart.at(state)),
            served: served.and_then(|state| Some((chart.at(state)?, state))),
            dots: later.filter_map(|moment| chart.at(moment.state)).collect(),
        }
    }

    /// From the ice to the mark after topping.
    fn lift(&self) -> Option<(Point, Point)> {
        self.on_ice.last().copied().zip(self.topped)
    }

    pub(super) fn draw(&self, svg: &mut Svg) {
        svg.trace("course", &Trace::through(self.on_ice.iter().copied()));
        if let Some((from, to)) = self.lift() {
            svg.line("course thin", from, to);
        }
        svg.trace(
            "course wait",
            &Trace::through(self.in_glass.iter().copied()),
        );
        let mut ticks = Trace::new();
        for (from, to) in &self.ticks {
            ticks.start(*from).line(*to);
        }
        svg.trace("tick", &ticks);
        for at in &self.dots {
            svg.circle("dot", *at, 3.0);
        }
        if let Some(at) = self.on_ice.first() {
            svg.circle("before", *at, 4.5);
        }
        if let Some((at, _)) = self.served {
            svg.circle("paper", at, SERVED);
            svg.circle("wash", Point::new(at.x + 1.0, at.y + 1.0), SERVED);
            svg.trace("hatch", &crate::field::hatched(at, SERVED));
            svg.circle("served", at, SERVED);
        }
    }

    /// What no label may cover.
    pub(super) fn drawn(&self) -> Drawn {
        let mut drawn = Drawn::default();
        drawn
            .lines
            .extend(pairs(&self.on_ice).chain(pairs(&self.in_glass)));
        drawn.lines.extend(self.lift());
        drawn.lines.extend(&self.ticks);
        drawn
            .faint
            .extend(self.on_ice.iter().skip(1).map(|at| (*at, 4.0)));
        drawn.discs.extend(self.dots.iter().map(|at| (*at, 3.0)));
        drawn.discs.extend(self.on_ice.first().map(|at| (*at, 6.0)));
        drawn
            .discs
            .extend(self.served.map(|(at, _)| (at, SERVED + 0.5)));
        drawn
    }
}

fn pairs(places: &[Point]) -> impl Iterator<Item = (Point, Point)> {
    places.iter().copied().zip(places.iter().copied().skip(1))
}

/// A short stroke across the end of a line.
fn stroke(from: Point, to: Point) -> Option<(Point, Point)> {
    let whole = from.distance(to);
    let (x, y) = ((to.y - from.y) / whole * 5.0, (from.x - to.x) / whole * 5.0);
    (whole > 0.5).then(|| {
        (
            Point::new(to.x - x, to.y - y),
            Point::new(to.x + x, to.y + y),
        )
    })
}
