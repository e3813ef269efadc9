//! The key of the circles, under the frame: area is strength.

use super::frame::Frame;
use super::radius;
use crate::Voice;
use crate::geometry::Point;
use crate::svg::{Anchor, Svg};

pub(super) fn draw(svg: &mut Svg, frame: &Frame) {
    let middle = frame.height - 18.5;
    let mut x = frame.width.pick(0.0, frame.plot.left - 12.0);
    let say = |svg: &mut Svg, x: &mut f64, words: &str| {
        svg.text(
            Voice::Scale,
            Point::new(*x, middle + 6.0),
            Anchor::Start,
            words,
        );
        *x += Voice::Scale.width(words);
    };
    let strengths: &[u8] = frame.width.pick(&[10, 30], &[0, 10, 20, 30]);
    if frame.width != crate::Width::Phone {
        say(svg, &mut x, "strength");
        x += 10.0;
    }
    for (index, strength) in strengths.iter().enumerate() {
        let reach = radius(f64::from(*strength), frame.width);
        svg.circle("key", Point::new(x + reach, middle), reach);
        x += 2.0 * reach + 4.0;
        say(svg, &mut x, &strength.to_string());
        x += if index + 1 == strengths.len() {
            4.0
        } else {
            12.0
        };
    }
    say(svg, &mut x, "% vol");
}
