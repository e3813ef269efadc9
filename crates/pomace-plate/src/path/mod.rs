//! The path on ice: temperature over melt.
//!
//! The line starts where the drink meets the ice; ticks count the seconds, then dots the minutes in
//! the glass. The line at which the drink would freeze is drawn as a coast, with the ice below
//! water-lined as a sea is on an old chart; it steps where something is topped, since what is weaker
//! freezes sooner.

mod chart;
mod coast;
mod course;
mod names;
mod words;

use crate::svg::Svg;
use crate::{Drawing, Width};
use chart::Chart;
use course::Course;

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
    chart.draw(&mut svg);
    let course = Course::new(&path, &chart);
    course.draw(&mut svg);
    names::draw(&mut svg, &path, &chart, &course, &coast);
    let title = format!("{}: temperature over melt", path.name);
    Some(svg.finish("path", &title, &words::describe(&path)))
}
