//! The frame of the field: borders chequered as a chart's, numbers, rays of equal balance.

use super::{Ranges, Taste};
use crate::Voice;
use crate::Width;
use crate::geometry::{Point, Rect};
use crate::number::number;
use crate::scale::{Scale, places, step};
use crate::svg::{Anchor, Svg, Trace};

/// Parts sweet to one sour, by mass, in the order in which they are wanted.
const BALANCES: [f64; 21] = [
    10.0, 20.0, 5.0, 2.0, 50.0, 1.0, 100.0, 15.0, 30.0, 8.0, 3.0, 6.0, 4.0, 200.0, 0.5, 500.0, 0.2,
    0.1, 12.0, 25.0, 40.0,
];

/// Least distance between the ends of two rays, px.
const APART: f64 = 52.0;

/// Where things lie on the field.
pub(super) struct Frame {
    pub(super) width: Width,
    pub(super) height: f64,
    /// The inside of the frame.
    pub(super) plot: Rect,
    pub(super) sourness: Scale,
    pub(super) sweetness: Scale,
}

impl Frame {
    pub(super) fn new(ranges: Ranges, width: Width) -> Self {
        // On a tablet the lines below the plate are in sight with it.
        let height = match width {
            Width::Phone => 344.0,
            Width::Tablet => 430.0,
            Width::Desktop => 486.0,
        };
        let (left, right) = width.pick((42.0, 34.0), (48.0, 42.0));
        let plot = Rect::new(
            left,
            44.0,
            width.pixels() - right,
            height - width.pick(70.0, 76.0),
        );
        Self {
            width,
            height,
            plot,
            sourness: Scale {
                values: (0.0, ranges.sourness_g_per_l),
                pixels: (plot.left, plot.right),
            },
            sweetness: Scale {
                values: (0.0, ranges.sweetness_g_per_100ml),
                pixels: (plot.bottom, plot.top),
            },
        }
    }

    pub(super) fn at(&self, taste: Taste) -> Point {
        Point::new(
            self.sourness.at(taste.sourness_g_per_l),
            self.sweetness.at(taste.sweetness_g_per_100ml),
        )
    }

    /// Whether the place lies inside the frame.
    pub(super) fn shows(&self, taste: Taste) -> bool {
        taste.is_finite() && self.plot.holds(self.at(taste))
    }

    /// A place moved inside the frame.
    pub(super) fn held(&self, taste: Taste) -> Option<Point> {
        taste.is_finite().then(|| {
            let at = self.at(taste);
            Point::new(
                at.x.clamp(self.plot.left, self.plot.right),
                at.y.clamp(self.plot.top, self.plot.bottom),
            )
        })
    }

    pub(super) fn draw(&self, svg: &mut Svg) {
        let plot = self.plot;
        self.rays(svg);
        svg.rect("frame", plot);
        self.border(svg);
        let neat = Rect::new(
            plot.left - 12.0,
            plot.top - 4.0,
            plot.right + 4.0,
            plot.bottom + 12.0,
        );
        svg.rect("neat", neat);
        let (sour, sweet) = self.width.pick(
            ("sourness, g in 1 L →", "↑ sweetness, g in 100 mL"),
            (
                "sourness, g of acid as citric in 1 L →",
                "↑ sweetness, g as sugar in 100 mL",
            ),
        );
        let end = Point::new(neat.right, self.height - 12.5);
        svg.text(Voice::Scale, end, Anchor::End, sour);
        svg.text(Voice::Scale, Point::new(0.0, 14.0), Anchor::Start, sweet);
        let balance = self
            .width
            .pick("sweet to 1 sour", "grams sweet to one of sour");
        let end = Point::new(self.width.pixels(), 14.0);
        svg.text(Voice::Scale, end, Anchor::End, balance);
    }

    /// Black and white fields, two to a number, along the bottom and the left.
    fn border(&self, svg: &mut Svg) {
        let plot = self.plot;
        let about = self.width.pick((5.0, 5.0), (7.0, 6.0));
        let mut black = Trace::new();
        let mut edge = Trace::new();
        edge.start(Point::new(plot.left - 8.0, plot.top))
            .line(Point::new(plot.left - 8.0, plot.bottom + 8.0))
            .line(Point::new(plot.right, plot.bottom + 8.0));
        let across = step(self.sourness.values.1, about.0);
        for tick in self.sourness.ticks(across) {
            let (x, half) = (
                self.sourness.at(tick),
                self.sourness.at(tick + across / 2.0),
            );
            if half <= plot.right + 0.5 {
                let y = plot.bottom + 6.0;
                black.start(Point::new(x, y)).line(Point::new(half, y));
            }
            let at = Point::new(x, plot.bottom + 29.0);
            let words = number(tick, places(across));
            svg.text(Voice::Scale, at, Anchor::Middle, &words);
        }
        let up = step(self.sweetness.values.1, about.1);
        for tick in self.sweetness.ticks(up) {
            let (y, half) = (self.sweetness.at(tick), self.sweetness.at(tick + up / 2.0));
            if half >= plot.top - 0.5 {
                let x = plot.left - 6.0;
                black.start(Point::new(x, y)).line(Point::new(x, half));
            }
            if tick > 0.0 {
                let at = Point::new(plot.left - 17.0, y + 5.0);
                let words = number(tick, places(up));
                svg.text(Voice::Scale, at, Anchor::End, &words);
            }
        }
        edge.start(Point::new(plot.left - 4.0, plot.top))
            .line(Point::new(plot.left - 4.0, plot.bottom + 4.0))
            .line(Point::new(plot.right, plot.bottom + 4.0));
        svg.trace("chequer", &black);
        svg.trace("neat", &edge);
    }

    /// Lines of equal balance from water to the far edges, with their numbers there.
    fn rays(&self, svg: &mut Svg) {
        let plot = self.plot;
        let water = Point::new(plot.left, plot.bottom);
        let mut ends: Vec<(Point, f64)> = Vec::new();
        for balance in BALANCES {
            let sweet = self.sourness.values.1 * balance / 10.0;
            let end = if sweet <= self.sweetness.values.1 {
                Point::new(plot.right, self.sweetness.at(sweet))
            } else {
                let sour = self.sweetness.values.1 * 10.0 / balance;
                Point::new(self.sourness.at(sour), plot.top)
            };
            let clear = end.x > plot.left + 60.0
                && end.y < plot.bottom - 24.0
                && ends.iter().all(|(other, _)| other.distance(end) >= APART);
            if clear {
                ends.push((end, balance));
            }
        }
        let mut rays = Trace::new();
        for (end, _) in &ends {
            rays.start(water).line(*end);
        }
        svg.trace("ray", &rays);
        svg.group("dim", |svg| {
            for (end, balance) in &ends {
                let words = number(*balance, usize::from(*balance < 1.0));
                if end.x >= plot.right - 0.5 {
                    let at = Point::new(end.x + 10.0, end.y + 5.0);
                    svg.text(Voice::Scale, at, Anchor::Start, &words);
                } else {
                    let at = Point::new(end.x, end.y - 10.0);
                    svg.text(Voice::Scale, at, Anchor::Middle, &words);
                }
            }
        });
    }
}
