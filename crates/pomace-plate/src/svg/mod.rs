//! A small writer of SVG: tenths of a pixel, escaped words, nothing that is no number.

mod trace;

use std::fmt::Write as _;

use crate::Voice;
use crate::geometry::{Point, Rect};

pub(crate) use trace::Trace;

/// A finished drawing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawing {
    /// The `<svg>` element, with `viewBox`, title and description.
    pub svg: String,
    /// What the drawing shows, in sentences; the description in `svg` is the same text.
    pub description: String,
}

/// Which end of its words a text is held by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// At its beginning.
    Start,
    /// In its middle.
    Middle,
    /// At its end.
    End,
}

impl Anchor {
    /// Class in the style sheet, with a space before it.
    const fn class(self) -> &'static str {
        match self {
            Self::Start => "",
            Self::Middle => " m",
            Self::End => " e",
        }
    }
}

/// A drawing that is being made.
pub(crate) struct Svg {
    out: String,
    width: f64,
    height: f64,
    prefix: String,
}

impl Svg {
    /// A blank of this size. Ids begin with the prefix, of which letters, figures and dashes are kept.
    pub(crate) fn new(width: f64, height: f64, prefix: &str) -> Self {
        let prefix = prefix
            .chars()
            .filter(|letter| letter.is_ascii_alphanumeric() || *letter == '-')
            .collect();
        Self {
            out: String::with_capacity(8 * 1024),
            width,
            height,
            prefix,
        }
    }

    /// Puts title and description in front and closes the element.
    pub(crate) fn finish(self, kind: &str, title: &str, description: &str) -> Drawing {
        let Self {
            out,
            width,
            height,
            prefix,
        } = self;
        let description = cleaned(description);
        let svg = format!(
            "<svg class=\"drawn {kind}\" viewBox=\"0 0 {} {}\" role=\"img\" aria-labelledby=\"{prefix}-t {prefix}-d\">\
             <title id=\"{prefix}-t\">{}</title><desc id=\"{prefix}-d\">{}</desc>{out}</svg>",
            tenths(width),
            tenths(height),
            escaped(title),
            escaped(&description),
        );
        Drawing { svg, description }
    }

    /// An id of this drawing.
    pub(crate) fn id(&self, name: &str) -> String {
        format!("{}-{name}", self.prefix)
    }

    pub(crate) fn group(&mut self, class: &str, inside: impl FnOnce(&mut Self)) {
        self.wrapped(&format!("<g class=\"{class}\">"), inside);
    }

    /// What lies inside the clip path of that id is seen.
    pub(crate) fn clipped(&mut self, id: &str, inside: impl FnOnce(&mut Self)) {
        self.wrapped(&format!("<g clip-path=\"url(#{id})\">"), inside);
    }

    fn wrapped(&mut self, open: &str, inside: impl FnOnce(&mut Self)) {
        let before = self.out.len();
        self.out.push_str(open);
        let opened = self.out.len();
        inside(self);
        if self.out.len() == opened {
            self.out.truncate(before);
        } else {
            self.out.push_str("</g>");
        }
    }

    pub(crate) fn define_clip(&mut self, id: &str, trace: &Trace) {
        if let Some(data) = trace.data() {
            let _ = write!(
                self.out,
                "<clipPath id=\"{id}\"><path d=\"{data}\"/></clipPath>"
            );
        }
    }

    pub(crate) fn line(&mut self, class: &str, from: Point, to: Point) {
        let mut trace = Trace::new();
        trace.start(from).line(to);
        self.trace(class, &trace);
    }

    pub(crate) fn trace(&mut self, class: &str, trace: &Trace) {
        if let Some(data) = trace.data() {
            let _ = write!(self.out, "<path{} d=\"{data}\"/>", attribute(class));
        }
    }

    pub(crate) fn rect(&mut self, class: &str, rect: Rect) {
        let sizes = [rect.left, rect.top, rect.width(), rect.height()];
        if sizes.iter().all(|size| size.is_finite()) && rect.width() > 0.0 && rect.height() > 0.0 {
            let [x, y, width, height] = sizes.map(tenths);
            let _ = write!(
                self.out,
                "<rect{} x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\"/>",
                attribute(class)
            );
        }
    }

    pub(crate) fn circle(&mut self, class: &str, centre: Point, radius: f64) {
        if centre.is_finite() && radius.is_finite() && radius > 0.0 {
            let _ = write!(
                self.out,
                "<circle{} cx=\"{}\" cy=\"{}\" r=\"{}\"/>",
                attribute(class),
                tenths(centre.x),
                tenths(centre.y),
                tenths(radius)
            );
        }
    }

    /// Words on a line that begins, ends or has its middle at the place.
    pub(crate) fn text(&mut self, voice: Voice, at: Point, anchor: Anchor, words: &str) {
        if at.is_finite() && !words.is_empty() {
            let _ = write!(
                self.out,
                "<text class=\"{}{}\" x=\"{}\" y=\"{}\">{}</text>",
                voice.class(),
                anchor.class(),
                tenths(at.x),
                tenths(at.y),
                escaped(words)
            );
        }
    }
}

fn attribute(class: &str) -> String {
    if class.is_empty() {
        String::new()
    } else {
        format!(" class=\"{class}\"")
    }
}

/// A length to a tenth of a pixel, without a needless zero.
fn tenths(value: f64) -> String {
    let rounded = (value * 10.0).round() / 10.0;
    // Adding nothing makes a positive zero of a negative one.
    format!("{}", rounded + 0.0)
}

/// Words without the signs that XML does not know or would change.
fn cleaned(words: &str) -> String {
    let known = |letter: &char| !matches!(letter, '\u{FFFE}' | '\u{FFFF}');
    let plain = |letter: char| if letter.is_control() { ' ' } else { letter };
    words.chars().filter(known).map(plain).collect()
}

/// Words as text of XML, its five signs written out.
fn escaped(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for letter in cleaned(words).chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            letter => out.push(letter),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_number_is_left_out() {
        let mut svg = Svg::new(10.0, 10.0, "a\"b");
        svg.group("g", |svg| {
            svg.circle("c", Point::new(f64::NAN, 1.0), 1.0);
            svg.line("l", Point::new(0.0, 0.0), Point::new(f64::INFINITY, 1.0));
        });
        svg.text(Voice::Scale, Point::new(0.04, -0.04), Anchor::End, "a < b");
        let drawing = svg.finish("k", "T & T", "D");
        assert_eq!(
            drawing.svg,
            "<svg class=\"drawn k\" viewBox=\"0 0 10 10\" role=\"img\" aria-labelledby=\"ab-t ab-d\">\
             <title id=\"ab-t\">T &amp; T</title><desc id=\"ab-d\">D</desc>\
             <text class=\"n e\" x=\"0\" y=\"0\">a &lt; b</text></svg>"
        );
    }
}
