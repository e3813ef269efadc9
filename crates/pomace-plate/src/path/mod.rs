//! The path on ice: temperature over melt.
//!
//! The line starts where the drink meets the ice; ticks count the seconds, then dots the minutes in
//! the glass. The line at which the drink would freeze is drawn as a coast, with the ice below
//! water-lined as a sea is on an old chart; it steps where something is topped, since what is weaker
//! freezes sooner.

mod coast;
mod words;

use crate::geometry::{Point, Rect};
use crate::labels::{self, Drawn, Side, Wanted};
use crate::number::{number, short};
use crate::scale::{Scale, ceiling, places, step};
use crate::svg::{Anchor, Svg, Trace};
use crate::{Drawing, Voice, Width};

/// One state of a drink on ice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct State {
    /// Melt, mL in 100 mL before ice.
    pub melt_percent: f64,
    /// Temperature, °C.
    pub celsius: f64,
}

impl State {
    fn is_finite(self) -> bool {
        self.melt_percent.is_finite() && self.celsius.is_finite()
    }
}

/// A state at a time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// Seconds on ice, or minutes in the glass.
    pub time: f64,
    /// The state then.
    pub state: State,
}

/// What the path shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct IcePath {
    /// Name of the drink.
    pub name: String,
    /// What is done on ice: `shaken`.
    pub done: String,
    /// On ice, by seconds; the first is where the drink meets the ice.
    pub on_ice: Vec<Moment>,
    /// After topping.
    pub topped: Option<State>,
    /// In the glass, by minutes.
    pub in_glass: Vec<Moment>,
    /// Where it would freeze, from left to right: one piece for each mixture.
    pub freezing: Vec<Vec<State>>,
}

/// Where things lie on the path.
struct Chart {
    width: f64,
    height: f64,
    plot: Rect,
    melt: Scale,
    celsius: Scale,
}

impl Chart {
    fn new(path: &IcePath, width: Width) -> Self {
        let wide = match width {
            Width::Phone => 358.0,
            Width::Tablet => 440.0,
            Width::Desktop => 480.0,
        };
        let high = width.pick(286.0, 316.0);
        let plot = Rect::new(40.0, 32.0, wide - 16.0, high - 48.0);
        let states = || {
            let moments = path.on_ice.iter().chain(&path.in_glass);
            moments.map(|moment| moment.state).chain(path.topped)
        };
        let coast = || path.freezing.iter().flatten().copied();
        let finite = |state: &State| state.is_finite();
        let most = states()
            .filter(finite)
            .map(|state| state.melt_percent)
            .fold(0.0, f64::max);
        // A coast far below the path is left to itself.
        let coldest = states().filter(finite).map(|state| state.celsius);
        let coldest = coldest.fold(0.0, f64::min);
        let floor = coast()
            .filter(finite)
            .map(|state| state.celsius.max(coldest - 8.0))
            .fold(coldest, f64::min);
        let warmest = states().filter(finite).map(|state| state.celsius);
        let warmest = warmest.fold(5.0, f64::max);
        let fives = |value: f64| (value.clamp(-300.0, 300.0) / 5.0 + 0.04).ceil() * 5.0;
        Self {
            width: wide,
            height: high,
            plot,
            melt: Scale {
                values: (0.0, ceiling(most, 10.0, None).min(800.0)),
                pixels: (plot.left, plot.right),
            },
            celsius: Scale {
                values: (-fives(-floor + 1.0), fives(warmest + 2.0)),
                pixels: (plot.bottom, plot.top),
            },
        }
    }

    fn at(&self, state: State) -> Option<Point> {
        state.is_finite().then(|| {
            let room = self.plot;
            Point::new(
                self.melt
                    .at(state.melt_percent)
                    .clamp(room.left, room.right),
                self.celsius.at(state.celsius).clamp(room.top, room.bottom),
            )
        })
    }
}

/// Draws the path; `None` for a drink that meets no ice, of which a sentence says more.
/// Ids in it begin with the prefix.
#[must_use]
pub fn draw(path: &IcePath, width: Width, prefix: &str) -> Option<Drawing> {
    let known = |moments: &[Moment]| -> Vec<Moment> {
        let mut moments: Vec<Moment> = moments
            .iter()
            .copied()
            .filter(|moment| moment.time.is_finite() && moment.state.is_finite())
            .collect();
        moments.sort_by(|a, b| a.time.total_cmp(&b.time));
        moments
    };
    let path = IcePath {
        on_ice: known(&path.on_ice),
        in_glass: known(&path.in_glass),
        topped: path.topped.filter(|state| state.is_finite()),
        ..path.clone()
    };
    if path.on_ice.len() + path.in_glass.len() < 2 {
        return None;
    }
    let chart = Chart::new(&path, width);
    let mut svg = Svg::new(chart.width, chart.height, prefix);
    let coast = coast::draw(&mut svg, &chart, &path.freezing);
    frame(&mut svg, &chart);
    line(&mut svg, &chart, &path, &coast);
    let title = format!("{}: temperature over melt", path.name);
    Some(svg.finish("path", &title, words::describe(&path)))
}

fn frame(svg: &mut Svg, chart: &Chart) {
    let plot = chart.plot;
    let (mut grid, mut black) = (Trace::new(), Trace::new());
    let up = step(chart.celsius.values.1 - chart.celsius.values.0, 5.0);
    for tick in chart.celsius.ticks(up) {
        let y = chart.celsius.at(tick);
        let at = Point::new(plot.left - 9.0, y + 5.0);
        svg.text(Voice::Scale, at, Anchor::End, &number(tick, places(up)));
        let long = if tick.abs() < 1e-9 {
            plot.right
        } else {
            plot.left
        };
        grid.start(Point::new(plot.left - 5.0, y))
            .line(Point::new(long, y));
    }
    let across = step(chart.melt.values.1, 5.0);
    for tick in chart.melt.ticks(across) {
        let (x, half) = (chart.melt.at(tick), chart.melt.at(tick + across / 2.0));
        if half <= plot.right + 0.5 {
            let y = plot.bottom + 5.0;
            black.start(Point::new(x, y)).line(Point::new(half, y));
        }
        let at = Point::new(x, plot.bottom + 24.0);
        svg.text(
            Voice::Scale,
            at,
            Anchor::Middle,
            &number(tick, places(across)),
        );
    }
    svg.trace("ray", &grid);
    svg.rect("frame", plot);
    svg.trace("chequer", &black);
    let mut edge = Trace::new();
    for y in [plot.bottom + 3.0, plot.bottom + 7.0] {
        edge.start(Point::new(plot.left, y))
            .line(Point::new(plot.right, y));
    }
    svg.trace("neat", &edge);
    svg.text(
        Voice::Scale,
        Point::new(0.0, 15.0),
        Anchor::Start,
        "↑ temperature, °C",
    );
    let end = Point::new(chart.width, chart.height - 4.0);
    svg.text(
        Voice::Scale,
        end,
        Anchor::End,
        "melt, mL in 100 mL before ice →",
    );
}

/// The path itself with its times; words where they fit.
fn line(svg: &mut Svg, chart: &Chart, path: &IcePath, coast: &[(Point, Point)]) {
    let on_ice: Vec<Point> = points(chart, &path.on_ice);
    let in_glass: Vec<Point> = points(chart, &path.in_glass);
    let topped = path.topped.and_then(|state| chart.at(state));
    let mut drawn = Drawn::default();
    let pairs = |places: &[Point]| -> Vec<(Point, Point)> {
        places
            .windows(2)
            .filter_map(|two| Some((*two.first()?, *two.last()?)))
            .collect()
    };
    drawn.lines.extend(pairs(&on_ice));
    drawn.lines.extend(pairs(&in_glass));
    drawn.lines.extend_from_slice(coast);
    svg.trace("course", &Trace::through(on_ice.iter().copied()));
    if let (Some(from), Some(to)) = (on_ice.last(), topped) {
        svg.line("course thin", *from, to);
        drawn.lines.push((*from, to));
    }
    svg.trace("course wait", &Trace::through(in_glass.iter().copied()));

    let mut wanted = Vec::new();
    let mut want = |lines: Vec<(Voice, String)>, at: Point, reach: f64, must: bool| {
        let mark = lines.first().is_some_and(|line| line.0 == Voice::Mark);
        let minutes = lines.first().is_some_and(|line| line.1.ends_with(" min"));
        wanted.push(Wanted {
            lines,
            at,
            reach,
            must,
            side: if mark || minutes {
                Side::Above
            } else {
                Side::Beside
            },
        });
    };
    let degrees = |celsius: f64| format!("{} °C", number(celsius, 0));
    let fine = |celsius: f64| format!("{} °C", number(celsius, 1));
    let served = topped.or_else(|| on_ice.last().copied());
    let state = path
        .topped
        .or_else(|| path.on_ice.last().map(|moment| moment.state));
    // Times before names: those find room further out.
    for (at, moment) in in_glass.iter().zip(&path.in_glass) {
        if moment.time > 0.0 {
            svg.circle("dot", *at, 3.0);
            drawn.discs.push((*at, 3.0));
            want(
                vec![(Voice::Scale, format!("{} min", short(moment.time, 1)))],
                *at,
                3.0,
                false,
            );
        }
    }
    if let (Some(at), Some(state)) = (served, state) {
        drawn.discs.push((at, 7.0));
        let word = if path.topped.is_some() {
            "topped"
        } else {
            "served"
        };
        let words = format!("{word}, {}", fine(state.celsius));
        want(vec![(Voice::Mark, words)], at, 7.0, true);
    }
    if let (Some(at), Some(first)) = (on_ice.first(), path.on_ice.first()) {
        drawn.discs.push((*at, 6.0));
        let words = format!("meets the ice, {}", degrees(first.state.celsius));
        want(vec![(Voice::Note, words)], *at, 6.0, true);
    }
    let mut ticks = Trace::new();
    for (index, (at, moment)) in on_ice.iter().zip(&path.on_ice).enumerate().skip(1) {
        if let Some(before) = on_ice.get(index - 1) {
            let whole = before.distance(*at);
            if whole > 0.5 {
                let (x, y) = (
                    (at.y - before.y) / whole * 5.0,
                    (before.x - at.x) / whole * 5.0,
                );
                ticks
                    .start(Point::new(at.x - x, at.y - y))
                    .line(Point::new(at.x + x, at.y + y));
                drawn.lines.push((
                    Point::new(at.x - x, at.y - y),
                    Point::new(at.x + x, at.y + y),
                ));
            }
        }
        want(
            vec![(Voice::Scale, format!("{} s", short(moment.time, 1)))],
            *at,
            4.0,
            false,
        );
    }
    svg.trace("tick", &ticks);
    if let Some(at) = on_ice.first() {
        svg.circle("before", *at, 4.5);
    }
    if let Some(at) = served {
        svg.circle("paper", at, 6.5);
        svg.circle("wash", Point::new(at.x + 1.0, at.y + 1.0), 6.5);
        svg.trace("hatch", &crate::field::hatched(at, 6.5));
        svg.circle("served", at, 6.5);
    }
    for (share, words) in [(0.30, "freezing line"), (0.86, "ice")] {
        if let Some(at) = coast::below(coast, share) {
            let at = Point::new(at.x, (at.y + 2.0).min(chart.plot.bottom));
            want(vec![(Voice::Aside, words.to_owned())], at, 3.0, false);
        }
    }
    let placed = labels::place(&wanted, &drawn, chart.plot.grown(-3.0));
    for (label, placed) in wanted.iter().zip(&placed) {
        if let Some(placed) = placed {
            labels::set(svg, label, placed);
        }
    }
}

fn points(chart: &Chart, moments: &[Moment]) -> Vec<Point> {
    moments
        .iter()
        .filter_map(|moment| chart.at(moment.state))
        .collect()
}
