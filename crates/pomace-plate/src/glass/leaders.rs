//! Words that name the parts of a glass, with a fine line from each to its part.
//!
//! Beside the glass they stand in the order of what they name. A coupe is as wide as the drawing, so
//! its words stand below the bowl beside the stem, and their lines hang from it like plumb lines.

use super::profile::Profile;
use crate::Voice;
use crate::geometry::Point;
use crate::labels::height;
use crate::svg::{Anchor, Svg, Trace};

/// Room for the words at the right, px.
pub(super) const WORDS: f64 = 100.0;

/// Room at the right of a coupe for the lines that hang from it, px.
pub(super) const HANGING: f64 = 44.0;

/// A part with its words.
pub(super) struct Named {
    pub(super) at: Point,
    lines: Vec<(Voice, String)>,
}

impl Named {
    /// Words in as many lines as they need, up to three.
    pub(super) fn new(at: Point, lines: &[(Voice, &str)]) -> Self {
        let wrapped = |(voice, words): &(Voice, &str)| -> Vec<(Voice, String)> {
            let lines = voice.lines(words, WORDS - 16.0, 3);
            lines.into_iter().map(|line| (*voice, line)).collect()
        };
        Self {
            at,
            lines: lines.iter().flat_map(wrapped).collect(),
        }
    }

    /// From the top of the words to the middle of their first line.
    fn middle(&self) -> f64 {
        let first = self.lines.first();
        first.map_or(6.0, |(voice, _)| voice.rise() * 0.62)
    }

    fn set(&self, svg: &mut Svg, x: f64, top: f64, anchor: Anchor) {
        let mut line = top;
        for (voice, words) in &self.lines {
            line += voice.rise() + 0.5;
            svg.text(*voice, Point::new(x, line), anchor, words);
            line += voice.drop() + 0.5;
        }
    }
}

/// At the right edge, none on another.
pub(super) fn beside(svg: &mut Svg, marks: &[Named], wide: f64, high: f64) {
    let mut order: Vec<&Named> = marks.iter().collect();
    order.sort_by(|a, b| a.at.y.total_cmp(&b.at.y));
    let left = wide - WORDS + 16.0;
    let heights: Vec<f64> = order.iter().map(|mark| height(&mark.lines) + 5.0).collect();
    let mut room: f64 = heights.iter().sum();
    let mut y = 2.0;
    for (mark, height) in order.iter().zip(heights) {
        // Level with its part, but below the last, and with room left for those that follow.
        y = (mark.at.y - height / 2.0)
            .max(y)
            .min(high - room - 2.0)
            .max(2.0);
        let middle = y + mark.middle();
        let lead = Trace::through([
            mark.at,
            Point::new(left - 10.0, middle),
            Point::new(left - 4.0, middle),
        ]);
        svg.trace("lead", &lead);
        mark.set(svg, left, y, Anchor::Start);
        y += height;
        room -= height;
    }
}

/// Below a bowl, beside its stem: the lowest part first, so that no line crosses another.
pub(super) fn below(svg: &mut Svg, marks: &[Named], profile: &Profile, high: f64) {
    let mut order: Vec<&Named> = marks.iter().collect();
    order.sort_by(|a, b| b.at.y.total_cmp(&a.at.y));
    let words: f64 = order.iter().map(|mark| height(&mark.lines)).sum();
    // Many words move together before they leave the drawing.
    let count = order.len() as f64;
    let apart = ((high - 4.0 - words) / count).clamp(0.0, 5.0);
    let whole = words + apart * count;
    let mut y = (profile.floor() + 8.0).min(high - whole - 2.0).max(2.0);
    let mut hang = profile.right_at(profile.brim()) + 14.0;
    for mark in order {
        let middle = y + mark.middle();
        let lead = Trace::through([
            mark.at,
            Point::new(hang, mark.at.y),
            Point::new(hang, middle),
            Point::new(hang - 3.5, middle),
        ]);
        svg.trace("lead", &lead);
        mark.set(svg, hang - 7.0, y, Anchor::End);
        y += height(&mark.lines) + apart;
        hang += 6.0;
    }
}
