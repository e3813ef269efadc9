//! The lens: the served mark enlarged, with a lettered stroke for one jigger step more of each line.

use super::Field;
use super::frame::Frame;
use super::marks::{Mark, Own, head};
use crate::geometry::{Point, Rect};
use crate::labels::{self, Drawn, Wanted};
use crate::number::short;
use crate::svg::{Svg, Trace};
use crate::{Voice, Width};

/// How much a lens may enlarge.
const TIMES: [f64; 15] = [
    1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0, 30.0, 50.0, 100.0, 200.0,
];

pub(super) struct Lens {
    pub(super) at: Point,
    pub(super) reach: f64,
    pub(super) words: String,
    /// How much it enlarges, in words.
    pub(super) times_words: String,
    times: f64,
    room: Rect,
    /// Letter and stroke, in pixels of the lens.
    strokes: Vec<(char, Point)>,
}

impl Lens {
    /// A lens where it covers least; `None` if there is nothing to show in it.
    pub(super) fn new(field: &Field, frame: &Frame, own: &Own) -> Option<Self> {
        let served = own.served?;
        let reach = match frame.width {
            Width::Phone => 42.0,
            Width::Tablet => 58.0,
            Width::Desktop => 70.0,
        };
        let strokes: Vec<(char, Point)> = field
            .pushes
            .iter()
            .filter(|push| push.change.is_finite())
            .map(|push| {
                let x = push.change.sourness_g_per_l * frame.sourness.unit();
                let y = -push.change.sweetness_g_per_100ml * frame.sweetness.unit();
                (push.letter, Point::new(x, y))
            })
            .filter(|(_, stroke)| stroke.x.hypot(stroke.y) > 0.02)
            .collect();
        let longest = strokes
            .iter()
            .map(|(_, stroke)| stroke.x.hypot(stroke.y))
            .fold(0.0, f64::max);
        let times = TIMES
            .into_iter()
            .rev()
            .find(|times| longest * times <= reach * 0.74)?;
        if strokes.is_empty() {
            return None;
        }
        let times_words = format!("×{}", short(times, 1));
        let at = place(field, frame, own, reach, served.at)?;
        Some(Self {
            at,
            reach,
            words: format!("one step more, {times_words}"),
            times_words,
            times,
            room: frame.plot,
            strokes: strokes
                .into_iter()
                .map(|(letter, stroke)| (letter, Point::new(stroke.x * times, stroke.y * times)))
                .collect(),
        })
    }

    /// Whether a mark of another drink is beneath the lens.
    pub(super) fn hides(&self, at: Point) -> bool {
        at.distance(self.at) < self.reach + 6.0
    }

    pub(super) fn draw(&self, svg: &mut Svg, own: &Own) {
        let Some(served) = own.served else { return };
        svg.group("lens", |svg| {
            if let Some(ring) = self.ring(served) {
                let mut sight = Trace::new();
                for (from, to) in self.sight(served) {
                    sight.start(from).line(to);
                }
                svg.trace("lead", &sight);
                svg.circle("lead", served.at, ring);
            }
            svg.circle("glass", self.at, self.reach + 3.0);
            svg.circle("rim", self.at, self.reach);
            let mut cross = Trace::new();
            cross
                .start(Point::new(self.at.x - self.reach, self.at.y))
                .line(Point::new(self.at.x + self.reach, self.at.y))
                .start(Point::new(self.at.x, self.at.y - self.reach))
                .line(Point::new(self.at.x, self.at.y + self.reach));
            svg.trace("ray", &cross);
            let mut shafts = Trace::new();
            let mut heads = Vec::new();
            for (_, stroke) in &self.strokes {
                let tip = self.tip(*stroke);
                shafts.start(self.at).line(tip);
                if self.at.distance(tip) > 9.0 {
                    heads.push(head(self.at, tip, 7.5));
                }
            }
            svg.trace("push", &shafts);
            for trace in &heads {
                svg.trace("ink", trace);
            }
            svg.circle("ink", self.at, 2.4);
            self.letters(svg);
        });
    }

    fn tip(&self, stroke: Point) -> Point {
        Point::new(self.at.x + stroke.x, self.at.y + stroke.y)
    }

    /// The letters: at the tips of the strokes where there is room, else further out.
    fn letters(&self, svg: &mut Svg) {
        let drawn = Drawn {
            lines: self
                .strokes
                .iter()
                .map(|(_, stroke)| (self.at, self.tip(*stroke)))
                .collect(),
            discs: vec![(self.at, 3.0)],
            ..Drawn::default()
        };
        let wanted: Vec<Wanted> = self
            .strokes
            .iter()
            .map(|(letter, stroke)| Wanted {
                lines: vec![(Voice::Letter, letter.to_string())],
                at: self.tip(*stroke),
                reach: 0.0,
                must: true,
                side: labels::Side::Beside,
            })
            .collect();
        let side = self.reach * 0.72;
        let within = Rect::new(
            self.at.x - side,
            self.at.y - side,
            self.at.x + side,
            self.at.y + side,
        )
        .grown(6.0);
        for (label, placed) in wanted
            .iter()
            .zip(labels::place_close(&wanted, &drawn, within, 1.0))
        {
            if let Some(placed) = placed {
                labels::set(svg, label, &placed);
            }
        }
    }

    /// The ring that the lens shows, if it is worth drawing: smaller than the lens, and in sight.
    pub(super) fn ring(&self, served: Mark) -> Option<f64> {
        let ring = (self.reach / self.times).max(served.reach + 3.0);
        let seen = self.room.grown(28.0).encloses(around(served.at, ring));
        (ring < self.reach * 0.9 && seen).then_some(ring)
    }

    /// The two lines that touch the ring at the mark and the lens.
    pub(super) fn sight(&self, served: Mark) -> Vec<(Point, Point)> {
        let from = served.at;
        let Some(ring) = self.ring(served) else {
            return Vec::new();
        };
        let apart = from.distance(self.at);
        let slope = (self.reach + 3.0 - ring) / apart.max(1e-6);
        if apart <= self.reach + ring + 6.0 || slope.abs() >= 1.0 {
            return Vec::new();
        }
        let straight = (self.at.y - from.y).atan2(self.at.x - from.x);
        let turn = std::f64::consts::FRAC_PI_2 + slope.asin();
        [straight + turn, straight - turn]
            .into_iter()
            .map(|angle| {
                let on = |centre: Point, radius: f64| {
                    Point::new(
                        centre.x + radius * angle.cos(),
                        centre.y + radius * angle.sin(),
                    )
                };
                (on(from, ring), on(self.at, self.reach + 3.0))
            })
            .collect()
    }
}

fn around(at: Point, reach: f64) -> Rect {
    Rect::new(at.x, at.y, at.x, at.y).grown(reach)
}

/// Where the lens covers least: not this drink's marks, then few of the others, then near.
fn place(field: &Field, frame: &Frame, own: &Own, reach: f64, served: Point) -> Option<Point> {
    let drawn = own.drawn();
    let inner = frame.plot.grown(-(reach + 9.0));
    let (middle_x, middle_y) = (
        f64::midpoint(inner.left, inner.right),
        f64::midpoint(inner.top, inner.bottom),
    );
    let places = [
        (inner.right, inner.bottom),
        (inner.left, inner.top),
        (inner.right, inner.top),
        (inner.left, inner.bottom),
        (inner.right, middle_y),
        (middle_x, inner.bottom),
        (middle_x, inner.top),
        (inner.left, middle_y),
    ];
    let cost = |at: Point| {
        let room = around(at, reach + 6.0);
        let covers = drawn
            .discs
            .iter()
            .filter(|(mark, radius)| mark.distance(at) < radius + reach + 8.0)
            .count()
            * 20
            + drawn
                .lines
                .iter()
                .filter(|(from, to)| room.meets_line(*from, *to))
                .count()
                * 8;
        let hidden = field
            .house
            .iter()
            .filter(|other| frame.shows(other.taste))
            .filter(|other| frame.at(other.taste).distance(at) < reach + 30.0)
            .count();
        let memory = own
            .remembered
            .as_ref()
            .is_some_and(|(oval, _)| oval.meets(room));
        // Water is worth seeing too.
        let water = at.x < middle_x && at.y > middle_y;
        (covers * 100 + hidden * 10 + usize::from(memory) * 15 + usize::from(water) * 8) as f64
            + served.distance(at) / 100.0
    };
    places
        .into_iter()
        .map(|(x, y)| Point::new(x, y))
        .map(|at| (at, cost(at)))
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .filter(|(_, cost)| *cost < 2000.0)
        .map(|(at, _)| at)
}
