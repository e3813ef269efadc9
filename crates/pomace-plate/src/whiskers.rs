//! Two whiskers: how sure a figure is now, and how sure it would be after one reading.

use crate::geometry::Point;
use crate::number::number;
use crate::svg::{Anchor, Svg, Trace};
use crate::{Doubtful, Drawing, Voice, Width};

/// What the whiskers show.
#[derive(Clone, Debug, PartialEq)]
pub struct Whiskers {
    /// Of what: `sourness`.
    pub figure: String,
    /// Unit of the numbers: `g in 1 L`.
    pub unit: String,
    /// As it is known now.
    pub now: Doubtful,
    /// The doubt after the reading, in the same unit.
    pub once_read: f64,
}

/// Draws the whiskers; `None` where value or doubt is unknown. Ids in it begin with the prefix.
#[must_use]
pub fn draw(whiskers: &Whiskers, width: Width, prefix: &str) -> Option<Drawing> {
    let now = whiskers.now.doubt()?;
    let then = whiskers.once_read;
    if !whiskers.now.value.is_finite() || !then.is_finite() || then < 0.0 {
        return None;
    }
    // The column that a question stands in is hardly wider on a laptop than on a phone.
    let wide = width.pick(318.0, 344.0);
    let mut svg = Svg::new(wide, 62.0, prefix);
    let places = places(now.min(if then > 0.0 { then } else { now }));
    let words = |doubt: f64| format!("± {}", number(doubt, places));
    let title_wide = Voice::Scale.width("once read") + 14.0;
    let words_wide = Voice::Note
        .width(&words(now))
        .max(Voice::Note.width(&words(then)))
        + 10.0;
    let (left, right) = (title_wide + 4.0, wide - words_wide - 4.0);
    let (middle, half) = (f64::midpoint(left, right), (right - left) / 2.0);
    let largest = now.max(then);
    for (y, doubt, title, class) in [
        (18.0, now, "now", "served"),
        (46.0, then, "once read", "before"),
    ] {
        let reach = (half * doubt / largest).max(0.0);
        svg.text(Voice::Scale, Point::new(0.0, y + 5.0), Anchor::Start, title);
        let mut trace = Trace::new();
        trace
            .start(Point::new(middle - reach, y))
            .line(Point::new(middle + reach, y));
        for x in [middle - reach, middle + reach] {
            trace
                .start(Point::new(x, y - 5.0))
                .line(Point::new(x, y + 5.0));
        }
        svg.trace("doubt", &trace);
        svg.circle("paper", Point::new(middle, y), 6.0);
        if class == "served" {
            svg.circle("wash", Point::new(middle + 1.0, y + 1.0), 6.0);
        }
        svg.circle(class, Point::new(middle, y), 6.0);
        let at = Point::new(middle + reach + 10.0, y + 5.5);
        svg.text(Voice::Note, at, Anchor::Start, &words(doubt));
    }
    let Whiskers { figure, unit, .. } = whiskers;
    let value = number(whiskers.now.value, places);
    let description = format!(
        "Now {figure} is {value} {} {unit}; once read it would be known to {}.",
        words(now),
        words(then)
    );
    Some(svg.finish(
        "whiskers",
        &format!("{figure}: what a reading would settle"),
        &description,
    ))
}

/// Decimals that show two figures of the doubt, three at most.
fn places(doubt: f64) -> usize {
    if doubt >= 9.95 {
        0
    } else if doubt >= 0.095 {
        1
    } else if doubt >= 0.0095 {
        2
    } else {
        3
    }
}
