//! This drink's own marks: before ice, as served, the arrow between them, whiskers, what it was.

use super::frame::Frame;
use super::{Field, Spot, radius};
use crate::geometry::{Point, Rect, clipped};
use crate::labels::Drawn;
use crate::svg::{Svg, Trace};

/// A mark of this drink.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mark {
    pub(super) at: Point,
    pub(super) reach: f64,
    pub(super) strength_percent: f64,
    /// Half the whisker across and up, px; zero where it is hidden in the mark or unknown.
    whisker: (f64, f64),
}

/// All own marks, in pixels.
pub(super) struct Own {
    pub(super) before: Option<Mark>,
    pub(super) served: Option<Mark>,
    pub(super) was: Option<(Point, f64)>,
    pub(super) ended: Option<(Point, String)>,
    pub(super) remembered: Option<(Rect, String)>,
    plot: Rect,
}

impl Own {
    pub(super) fn new(field: &Field, frame: &Frame) -> Self {
        let mark = |spot: &Spot| {
            let reach = radius(spot.strength_percent, frame.width);
            let half = |pixels: Option<f64>| pixels.filter(|half| *half > reach).unwrap_or(0.0);
            let across = spot.sourness_g_per_l.doubt();
            let up = spot.sweetness_g_per_100ml.doubt();
            Some(Mark {
                at: frame.held(spot.taste())?,
                reach,
                strength_percent: spot.strength_percent,
                whisker: (
                    half(across.map(|doubt| doubt * frame.sourness.unit())),
                    half(up.map(|doubt| doubt * frame.sweetness.unit())),
                ),
            })
        };
        let served = field.served.as_ref().and_then(mark);
        let before = field.before.as_ref().and_then(mark);
        let was = field.was.and_then(|was| frame.held(was));
        Self {
            was: was.zip(served).map(|(was, served)| (was, served.reach)),
            ended: field
                .ended
                .as_ref()
                .and_then(|ended| Some((frame.held(ended.taste)?, ended.words.clone()))),
            remembered: field.remembered.as_ref().and_then(|range| {
                let (from, to) = (frame.held(range.from)?, frame.held(range.to)?);
                let room = Rect::new(from.x, to.y, to.x, from.y);
                (room.width() > 4.0 && room.height() > 4.0).then(|| (room, range.words.clone()))
            }),
            before,
            served,
            plot: frame.plot,
        }
    }

    fn marks(&self) -> impl Iterator<Item = Mark> {
        self.before.into_iter().chain(self.served)
    }

    /// What no label may cover.
    pub(super) fn drawn(&self) -> Drawn {
        let mut drawn = Drawn::default();
        for mark in self.marks() {
            drawn.discs.push((mark.at, mark.reach + 2.0));
            drawn
                .lines
                .extend(self.whiskers(mark).map(|(line, _)| line));
        }
        drawn
            .discs
            .extend(self.was.map(|(at, reach)| (at, reach + 1.0)));
        if let (Some(before), Some(served)) = (self.before, self.served) {
            drawn.lines.push((before.at, served.at));
        }
        if let Some(tick) = self.tick() {
            drawn.lines.push(tick);
        }
        drawn
    }

    /// The parts of the whiskers outside the mark, and whether each ends inside the frame.
    fn whiskers(&self, mark: Mark) -> impl Iterator<Item = ((Point, Point), bool)> {
        let Mark {
            at, reach, whisker, ..
        } = mark;
        let plot = self.plot;
        [
            (-whisker.0, 0.0),
            (whisker.0, 0.0),
            (0.0, -whisker.1),
            (0.0, whisker.1),
        ]
        .into_iter()
        .filter_map(move |(x, y)| {
            let far = Point::new(at.x + x, at.y + y);
            let near = at.stepped(far, reach);
            let (from, to) = clipped(near, far, plot)?;
            Some(((from, to), to.distance(far) < 0.5))
        })
    }

    fn whisker_trace(&self, mark: Mark) -> Trace {
        let mut trace = Trace::new();
        for ((from, to), whole) in self.whiskers(mark) {
            trace.start(from).line(to);
            if whole {
                let flat = (from.y - to.y).abs() < 1e-6;
                let cap = if flat { (0.0, 4.5) } else { (4.5, 0.0) };
                trace
                    .start(Point::new(to.x - cap.0, to.y - cap.1))
                    .line(Point::new(to.x + cap.0, to.y + cap.1));
            }
        }
        trace
    }

    /// The stroke across the arrow where shaking ended.
    fn tick(&self) -> Option<(Point, Point)> {
        let (at, _) = self.ended.as_ref()?;
        let (from, to) = (self.before?.at, self.served?.at);
        let whole = from.distance(to);
        let inside = self.plot.grown(-8.0).holds(*at);
        (whole > 1.0 && inside).then(|| {
            let (x, y) = ((to.y - from.y) / whole * 7.0, (from.x - to.x) / whole * 7.0);
            (
                Point::new(at.x - x, at.y - y),
                Point::new(at.x + x, at.y + y),
            )
        })
    }

    /// What lies under the house's marks: the range from memory, and the way on to water.
    pub(super) fn draw_behind(&self, svg: &mut Svg) {
        if let Some((room, _)) = &self.remembered {
            svg.trace("memory", &oval(*room));
        }
        if let Some(served) = self.served {
            let water = Point::new(self.plot.left, self.plot.bottom);
            if served.at.distance(water) > served.reach + 12.0 {
                svg.line(
                    "toward",
                    water,
                    served.at.stepped(water, served.reach + 3.0),
                );
            }
        }
    }

    pub(super) fn draw(&self, svg: &mut Svg, frame: &Frame) {
        if let Some((at, reach)) = self.was {
            svg.circle("was", at, reach);
        }
        if let Some(before) = self.before {
            svg.trace("doubt soft", &self.whisker_trace(before));
        }
        if let Some(served) = self.served {
            svg.trace("doubt", &self.whisker_trace(served));
        }
        self.arrow(svg);
        if let Some((from, to)) = self.tick() {
            svg.line("tick", from, to);
        }
        if let Some(before) = self.before {
            svg.circle("before", before.at, before.reach);
        }
        if let Some(served) = self.served {
            let shift = frame.width.pick(1.2, 1.6);
            let off = Point::new(served.at.x + shift, served.at.y + shift);
            svg.circle("paper", served.at, served.reach);
            svg.circle("wash", off, served.reach);
            svg.trace("hatch", &hatched(served.at, served.reach));
            svg.circle("served", served.at, served.reach);
        }
    }

    fn arrow(&self, svg: &mut Svg) {
        let (Some(before), Some(served)) = (self.before, self.served) else {
            return;
        };
        let room = before.at.distance(served.at) - before.reach - served.reach;
        if room < 3.0 {
            return;
        }
        let from = before.at.stepped(served.at, before.reach);
        let tip = served.at.stepped(before.at, served.reach + 1.5);
        if room < 14.0 {
            svg.line("arrow", from, tip);
            return;
        }
        svg.line("arrow", from, tip.stepped(from, 6.0));
        svg.trace("ink", &head(from, tip, 11.0));
    }
}

/// An arrow's head, slightly hollow at its back.
pub(super) fn head(from: Point, tip: Point, long: f64) -> Trace {
    let back = tip.stepped(from, long);
    let whole = from.distance(tip).max(1e-6);
    let (x, y) = ((tip.y - from.y) / whole, (from.x - tip.x) / whole);
    let half = long * 0.36;
    let mut trace = Trace::through([
        tip,
        Point::new(back.x + x * half, back.y + y * half),
        tip.stepped(from, long * 0.72),
        Point::new(back.x - x * half, back.y - y * half),
    ]);
    trace.close();
    trace
}

/// Level strokes inside a circle, as an engraver shades.
pub(crate) fn hatched(at: Point, reach: f64) -> Trace {
    let mut trace = Trace::new();
    let apart = 3.0;
    let rows = (2.0 * reach / apart).floor() as u32;
    for row in 1..=rows {
        let y = at.y - reach + f64::from(row) * apart - apart / 2.0;
        let half = (reach.powi(2) - (y - at.y).powi(2)).max(0.0).sqrt() - 0.8;
        if half > 0.6 {
            trace
                .start(Point::new(at.x - half, y))
                .line(Point::new(at.x + half, y));
        }
    }
    trace
}

/// An oval inside a box.
fn oval(room: Rect) -> Trace {
    // Handle of a quarter of a circle drawn as a cubic curve.
    const HANDLE: f64 = 0.5523;
    let (x, y) = (
        f64::midpoint(room.left, room.right),
        f64::midpoint(room.top, room.bottom),
    );
    let (a, b) = (room.width() / 2.0, room.height() / 2.0);
    let at = |right: f64, down: f64| Point::new(x + right * a, y + down * b);
    let mut trace = Trace::new();
    trace
        .start(at(1.0, 0.0))
        .curve(at(1.0, HANDLE), at(HANDLE, 1.0), at(0.0, 1.0))
        .curve(at(-HANDLE, 1.0), at(-1.0, HANDLE), at(-1.0, 0.0))
        .curve(at(-1.0, -HANDLE), at(-HANDLE, -1.0), at(0.0, -1.0))
        .curve(at(HANDLE, -1.0), at(1.0, -HANDLE), at(1.0, 0.0));
    trace
}
