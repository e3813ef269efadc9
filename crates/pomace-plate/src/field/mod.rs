//! The field: sweetness over sourness, with water in the corner.
//!
//! Melt and soda add water only, so they carry a drink straight toward the corner along its ray of
//! equal balance; only the lines turn it. Before ice is an open circle, as served a hatched one, the
//! area of a circle is strength, whiskers are doubt. The house's own drinks stand around it, faint.

mod frame;
mod key;
mod lens;
mod marks;
mod names;
mod words;

pub(crate) use marks::hatched;

use crate::geometry::Point;
use crate::scale::ceiling;
use crate::svg::Svg;
use crate::{Doubtful, Drawing, Width};
use frame::Frame;

/// A place on the field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taste {
    /// Grams of acid, counted as citric, in a litre.
    pub sourness_g_per_l: f64,
    /// Grams of sweetness, counted as sugar, in 100 mL.
    pub sweetness_g_per_100ml: f64,
}

impl Taste {
    fn is_finite(self) -> bool {
        self.sourness_g_per_l.is_finite() && self.sweetness_g_per_100ml.is_finite()
    }
}

/// One state of a drink: where it stands, how surely, how strong.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// Grams of acid, counted as citric, in a litre.
    pub sourness_g_per_l: Doubtful,
    /// Grams of sweetness, counted as sugar, in 100 mL.
    pub sweetness_g_per_100ml: Doubtful,
    /// Alcohol, % vol.
    pub strength_percent: f64,
}

impl Spot {
    /// Its place, without the doubt.
    #[must_use]
    pub const fn taste(&self) -> Taste {
        Taste {
            sourness_g_per_l: self.sourness_g_per_l.value,
            sweetness_g_per_100ml: self.sweetness_g_per_100ml.value,
        }
    }
}

/// Another drink of the house, as served.
#[derive(Clone, Debug, PartialEq)]
pub struct Neighbour {
    /// Its name.
    pub name: String,
    /// Where it stands.
    pub taste: Taste,
    /// Alcohol, % vol.
    pub strength_percent: f64,
}

/// Where shaking or stirring ended, before anything was topped.
#[derive(Clone, Debug, PartialEq)]
pub struct Ended {
    /// Where the drink stood.
    pub taste: Taste,
    /// What ended: `shaken 9 s`.
    pub words: String,
}

/// A range that someone remembers, and nobody checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Remembered {
    /// Of what: `long and charged`.
    pub words: String,
    /// Its lower left corner.
    pub from: Taste,
    /// Its upper right corner.
    pub to: Taste,
}

/// What one jigger step more of a line does to the drink as served.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Push {
    /// The letter of the line.
    pub letter: char,
    /// Change of place.
    pub change: Taste,
}

/// Tops of the two scales.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ranges {
    /// Of sourness, g in 1 L.
    pub sourness_g_per_l: f64,
    /// Of sweetness, g in 100 mL.
    pub sweetness_g_per_100ml: f64,
}

/// What the field shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Field {
    /// Name of this drink.
    pub name: String,
    /// Before ice; `None` if it never meets any.
    pub before: Option<Spot>,
    /// As served; `None` while it cannot be computed.
    pub served: Option<Spot>,
    /// As served before the last change.
    pub was: Option<Taste>,
    /// Where shaking ended.
    pub ended: Option<Ended>,
    /// The house's other drinks.
    pub house: Vec<Neighbour>,
    /// A range from memory.
    pub remembered: Option<Remembered>,
    /// One jigger step more of each line.
    pub pushes: Vec<Push>,
    /// The ranges of the last drawing, kept as long as they serve.
    pub kept: Option<Ranges>,
}

/// How far the house's other drinks may stretch a scale beyond what this drink needs, at least.
const HOUSE_REACH: Ranges = Ranges {
    sourness_g_per_l: 12.0,
    sweetness_g_per_100ml: 14.0,
};

/// The least that a scale shows, in its unit.
const LEAST: f64 = 5.0;

/// The most that a scale shows: no drink, and hardly a powder, has more.
const MOST: f64 = 800.0;

/// The tops of the scales for what is shown.
///
/// This drink fits with its marks and half its doubt; the others widen the scales by a half at most,
/// or to what is usual. One that lies further out is left out, and the description says so.
#[must_use]
pub fn ranges(field: &Field) -> Ranges {
    let top = |read: fn(Taste) -> f64, doubt: fn(&Spot) -> Doubtful, reach: f64, kept| {
        let mut own: f64 = 0.0;
        let mut take = |value: f64| {
            if value.is_finite() {
                own = own.max(value);
            }
        };
        for spot in [field.before, field.served].iter().flatten() {
            let value = doubt(spot);
            take(value.value);
            take(value.value + value.doubt().unwrap_or(0.0) / 2.0);
        }
        field.was.map(read).into_iter().for_each(&mut take);
        let ended = field.ended.as_ref().map(|ended| read(ended.taste));
        ended.into_iter().for_each(&mut take);
        let range = field.remembered.as_ref().map(|range| read(range.to));
        range.into_iter().for_each(&mut take);
        let limit = reach.max(own * 1.5);
        let others = field
            .house
            .iter()
            .map(|other| read(other.taste))
            .filter(|value| value.is_finite() && *value <= limit)
            .fold(0.0, f64::max);
        ceiling(own.max(others), LEAST, kept).min(MOST)
    };
    Ranges {
        sourness_g_per_l: top(
            |taste| taste.sourness_g_per_l,
            |spot| spot.sourness_g_per_l,
            HOUSE_REACH.sourness_g_per_l,
            field.kept.map(|kept| kept.sourness_g_per_l),
        ),
        sweetness_g_per_100ml: top(
            |taste| taste.sweetness_g_per_100ml,
            |spot| spot.sweetness_g_per_100ml,
            HOUSE_REACH.sweetness_g_per_100ml,
            field.kept.map(|kept| kept.sweetness_g_per_100ml),
        ),
    }
}

/// Radius of a mark whose area is the strength, px. Something without alcohol is a small dot.
fn radius(strength_percent: f64, width: Width) -> f64 {
    let strength = if strength_percent.is_finite() {
        strength_percent.clamp(0.0, 100.0)
    } else {
        0.0
    };
    (strength.sqrt() * width.pick(2.5, 3.1)).max(3.0)
}

/// Draws the field. Ids in it begin with the prefix.
#[must_use]
pub fn draw(field: &Field, width: Width, prefix: &str) -> Drawing {
    let ranges = ranges(field);
    let frame = Frame::new(ranges, width);
    let mut svg = Svg::new(width.pixels(), frame.height, prefix);
    let own = marks::Own::new(field, &frame);
    let lens = lens::Lens::new(field, &frame, &own);
    let shown: Vec<(&Neighbour, Point, f64)> = field
        .house
        .iter()
        .filter(|other| frame.shows(other.taste))
        .map(|other| {
            let reach = radius(other.strength_percent, width);
            (other, frame.at(other.taste), reach)
        })
        .filter(|(_, at, _)| lens.as_ref().is_none_or(|lens| !lens.hides(*at)))
        .collect();

    frame.draw(&mut svg);
    key::draw(&mut svg, &frame);
    let clip = svg.id("c");
    svg.define_clip(&clip, &crate::svg::Trace::around(frame.plot));
    svg.clipped(&clip, |svg| {
        own.draw_behind(svg);
        svg.group("other", |svg| {
            for (_, at, reach) in &shown {
                svg.circle("", *at, *reach);
            }
        });
    });
    if let Some(lens) = &lens {
        lens.draw(&mut svg, &own);
    }
    own.draw(&mut svg, &frame);
    let near = names::draw(&mut svg, &frame, &own, lens.as_ref(), &shown);
    svg.finish(
        "field",
        &format!("{}: sweetness over sourness", field.name),
        &words::describe(field, ranges, &near),
    )
}
