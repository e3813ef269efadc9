//! A small writer of SVG: tenths of a pixel, escaped words, nothing that is no number.

mod tenths;
mod trace;
mod words;

use crate::Voice;
use crate::geometry::{Point, Rect};

use tenths::Tenths;
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
            out: String::with_capacity(16 * 1024),
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
        let description = words::cleaned(description);
        let mut svg = String::with_capacity(out.len() + 2 * description.len() + 256);
        svg.push_str("<svg");
        attribute(&mut svg, "class", &["drawn ", kind]);
        svg.push_str(" viewBox=\"0 0 ");
        Tenths::of(width).write(&mut svg);
        svg.push(' ');
        Tenths::of(height).write(&mut svg);
        svg.push_str("\" role=\"img\"");
        let by = [&prefix, "-t ", &prefix, "-d"];
        attribute(&mut svg, "aria-labelledby", &by);
        svg.push_str("><title");
        attribute(&mut svg, "id", &[&prefix, "-t"]);
        svg.push('>');
        words::write(&mut svg, title);
        svg.push_str("</title><desc");
        attribute(&mut svg, "id", &[&prefix, "-d"]);
        svg.push('>');
        words::write(&mut svg, &description);
        svg.push_str("</desc>");
        svg.push_str(&out);
        svg.push_str("</svg>");
        Drawing { svg, description }
    }

    /// An id of this drawing.
    pub(crate) fn id(&self, name: &str) -> String {
        format!("{}-{name}", self.prefix)
    }

    pub(crate) fn group(&mut self, class: &str, inside: impl FnOnce(&mut Self)) {
        self.wrapped("class", &[class], inside);
    }

    /// What lies inside the clip path of that id is seen.
    pub(crate) fn clipped(&mut self, id: &str, inside: impl FnOnce(&mut Self)) {
        self.wrapped("clip-path", &["url(#", id, ")"], inside);
    }

    fn wrapped(&mut self, name: &str, value: &[&str], inside: impl FnOnce(&mut Self)) {
        let before = self.out.len();
        self.out.push_str("<g");
        attribute(&mut self.out, name, value);
        self.out.push('>');
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
            let out = &mut self.out;
            out.push_str("<clipPath");
            attribute(out, "id", &[id]);
            out.push_str("><path");
            attribute(out, "d", &[data]);
            out.push_str("/></clipPath>");
        }
    }

    pub(crate) fn line(&mut self, class: &str, from: Point, to: Point) {
        let mut trace = Trace::new();
        trace.start(from).line(to);
        self.trace(class, &trace);
    }

    pub(crate) fn trace(&mut self, class: &str, trace: &Trace) {
        if let Some(data) = trace.data() {
            self.open("<path", class);
            attribute(&mut self.out, "d", &[data]);
            self.out.push_str("/>");
        }
    }

    pub(crate) fn rect(&mut self, class: &str, rect: Rect) {
        let sizes = [rect.left, rect.top, rect.width(), rect.height()];
        if sizes.iter().all(|size| size.is_finite()) && rect.width() > 0.0 && rect.height() > 0.0 {
            self.open("<rect", class);
            for (name, size) in ["x", "y", "width", "height"].into_iter().zip(sizes) {
                length(&mut self.out, name, size);
            }
            self.out.push_str("/>");
        }
    }

    pub(crate) fn circle(&mut self, class: &str, centre: Point, radius: f64) {
        if centre.is_finite() && radius.is_finite() && radius > 0.0 {
            self.open("<circle", class);
            length(&mut self.out, "cx", centre.x);
            length(&mut self.out, "cy", centre.y);
            length(&mut self.out, "r", radius);
            self.out.push_str("/>");
        }
    }

    /// Words on a line that begins, ends or has its middle at the place.
    pub(crate) fn text(&mut self, voice: Voice, at: Point, anchor: Anchor, words: &str) {
        if at.is_finite() && !words.is_empty() {
            let out = &mut self.out;
            out.push_str("<text");
            attribute(out, "class", &[voice.class(), anchor.class()]);
            length(out, "x", at.x);
            length(out, "y", at.y);
            out.push('>');
            words::write(out, words);
            out.push_str("</text>");
        }
    }

    /// Begins an element, with its class if it has one.
    fn open(&mut self, element: &str, class: &str) {
        self.out.push_str(element);
        if !class.is_empty() {
            attribute(&mut self.out, "class", &[class]);
        }
    }
}

/// Writes an attribute whose value, of these pieces, needs no escape.
fn attribute(out: &mut String, name: &str, value: &[&str]) {
    out.push(' ');
    out.push_str(name);
    out.push_str("=\"");
    value.iter().for_each(|piece| out.push_str(piece));
    out.push('"');
}

fn length(out: &mut String, name: &str, pixels: f64) {
    out.push(' ');
    out.push_str(name);
    out.push_str("=\"");
    Tenths::of(pixels).write(out);
    out.push('"');
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
