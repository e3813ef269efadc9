//! Outlines of glasses, sized to what they hold.

use super::Shape;
use crate::geometry::{Point, Rect};
use crate::svg::Trace;

/// Slices of the inside, from the bottom to the brim.
const SLICES: usize = 24;

/// Pixels of a centimetre, unless the glass is too large for its place.
const PIXELS_PER_CM: f64 = 17.0;

/// A glass of this kind, drawn to hold its volume.
pub(super) struct Profile {
    shape: Shape,
    pub(super) middle: f64,
    /// Height of the inside's bottom and of what the glass stands on, px.
    bottom: f64,
    foot: f64,
    /// Inner radius and volume below, from the bottom to the brim: px and mL.
    slices: Vec<(f64, f64)>,
    /// Height of one slice, px.
    slice: f64,
    pub(super) pixels_per_cm: f64,
}

/// Inner radius at a share of the height, in heights of the bowl. Usual proportions, no source.
fn radius(shape: Shape, share: f64) -> f64 {
    match shape {
        Shape::Tall => 0.205 + 0.025 * share,
        Shape::Rocks => 0.44 + 0.05 * share,
        Shape::Coupe => 1.08 * (1.0 - (1.0 - share).powf(2.4)).max(0.0).powf(0.56),
        Shape::Stem => {
            let belly = (1.0 - (1.0 - share.min(0.45) / 0.45).powf(2.0))
                .max(0.0)
                .sqrt();
            0.40 * belly - 0.11 * ((share - 0.45).max(0.0) / 0.55).powf(1.6)
        }
        Shape::Unknown => 0.33,
    }
}

/// Height of stem and foot, or of the thick bottom, in heights of the bowl.
fn below(shape: Shape) -> f64 {
    match shape {
        Shape::Tall => 0.05,
        Shape::Rocks => 0.11,
        Shape::Coupe => 1.55,
        Shape::Stem => 0.95,
        Shape::Unknown => 0.0,
    }
}

impl Profile {
    pub(super) fn new(shape: Shape, brim_ml: f64, room: Rect) -> Self {
        let radii: Vec<f64> = (0..=SLICES)
            .map(|index| radius(shape, index as f64 / SLICES as f64))
            .collect();
        let mut below_each = vec![0.0];
        let mut sum = 0.0;
        for two in radii.windows(2) {
            if let [low, high] = two {
                // A slice of a cone.
                let area = std::f64::consts::PI / 3.0 * (low * low + low * high + high * high);
                sum += area / SLICES as f64;
                below_each.push(sum);
            }
        }
        // Height of the bowl in cm, such that it holds the volume.
        let tall = (brim_ml / sum).cbrt();
        let widest = radii.iter().copied().fold(0.0, f64::max);
        let whole = 1.0 + below(shape);
        let pixels_per_cm = PIXELS_PER_CM
            .min(room.height() / (tall * whole))
            .min(room.width() / (2.0 * widest * tall));
        let pixels = tall * pixels_per_cm;
        let foot = room.bottom;
        Self {
            shape,
            middle: f64::midpoint(room.left, room.right),
            bottom: foot - below(shape) * pixels,
            foot,
            slices: radii
                .iter()
                .zip(&below_each)
                .map(|(radius, volume)| (radius * pixels, volume * tall.powi(3)))
                .collect(),
            slice: pixels / SLICES as f64,
            pixels_per_cm,
        }
    }

    /// Where a volume stands, px down; the brim for more than it holds.
    pub(super) fn level(&self, ml: f64) -> f64 {
        let mut last = 0.0;
        for (index, (_, volume)) in self.slices.iter().enumerate() {
            if *volume >= ml {
                let part = (ml - last) / (volume - last).max(1e-9);
                let slices = index as f64 - 1.0 + part;
                return self.bottom - slices.max(0.0) * self.slice;
            }
            last = *volume;
        }
        self.brim()
    }

    pub(super) fn brim(&self) -> f64 {
        self.bottom - SLICES as f64 * self.slice
    }

    pub(super) const fn floor(&self) -> f64 {
        self.bottom
    }

    /// Inner radius at a height, px.
    pub(super) fn radius_at(&self, y: f64) -> f64 {
        let slices = ((self.bottom - y) / self.slice).clamp(0.0, SLICES as f64);
        let low = slices.floor() as usize;
        let read = |index: usize| {
            self.slices
                .get(index.min(SLICES))
                .map_or(0.0, |slice| slice.0)
        };
        let part = slices - slices.floor();
        read(low) * (1.0 - part) + read(low + 1) * part
    }

    /// The left edge of the widest place, walls among it.
    pub(super) fn left_edge(&self) -> f64 {
        let widest = self.slices.iter().map(|slice| slice.0).fold(0.0, f64::max);
        self.middle - widest - 3.0
    }

    /// The right wall at a height, px.
    pub(super) fn right_at(&self, y: f64) -> f64 {
        self.middle + self.radius_at(y) + 3.0
    }

    fn side(&self, out: f64, down: f64, sign: f64) -> Vec<Point> {
        self.slices
            .iter()
            .enumerate()
            .map(|(index, (radius, _))| {
                let y = self.bottom - index as f64 * self.slice;
                let lower = if index == 0 { down } else { 0.0 };
                Point::new(self.middle + sign * (radius + out), y + lower)
            })
            .collect()
    }

    /// The inside as a closed shape.
    pub(super) fn inside(&self) -> Trace {
        let mut places = self.side(0.0, 0.0, -1.0);
        places.reverse();
        places.extend(self.side(0.0, 0.0, 1.0));
        let mut trace = Trace::through(spare(&places));
        trace.close();
        trace
    }

    /// The inner wall, open at the top.
    pub(super) fn inner_line(&self) -> Trace {
        let mut places = self.side(0.0, 0.0, -1.0);
        places.reverse();
        places.extend(self.side(0.0, 0.0, 1.0));
        Trace::through(spare(&places))
    }

    /// The outer wall with stem and foot.
    pub(super) fn outside(&self) -> Trace {
        let wall = 3.0;
        let mut left = self.side(wall, 0.0, -1.0);
        left.reverse();
        let right = self.side(wall, 0.0, 1.0);
        let bowl = SLICES as f64 * self.slice;
        let mut lower = match self.shape {
            Shape::Coupe | Shape::Stem => {
                let (stem, foot) = (
                    2.6,
                    bowl * if self.shape == Shape::Coupe {
                        0.78
                    } else {
                        0.36
                    },
                );
                let under = self.bottom + 3.5;
                vec![
                    Point::new(-stem - 3.0, under),
                    Point::new(-stem, under + 9.0),
                    Point::new(-stem, self.foot - 9.0),
                    Point::new(-stem - 4.0, self.foot - 4.0),
                    Point::new(-foot, self.foot - 1.0),
                    Point::new(-foot, self.foot),
                ]
            }
            Shape::Tall | Shape::Rocks | Shape::Unknown => {
                let radius = self.slices.first().map_or(0.0, |slice| slice.0) + wall;
                vec![Point::new(-radius + 1.0, self.foot.max(self.bottom + wall))]
            }
        };
        let mirrored: Vec<Point> = lower
            .iter()
            .rev()
            .map(|at| Point::new(-at.x, at.y))
            .collect();
        lower.extend(mirrored);
        if matches!(self.shape, Shape::Coupe | Shape::Stem) {
            // The bowl passes into the stem without a corner.
            left.pop();
        }
        let right = right.into_iter().skip(usize::from(matches!(
            self.shape,
            Shape::Coupe | Shape::Stem
        )));
        let below = lower
            .into_iter()
            .map(|at| Point::new(self.middle + at.x, at.y));
        let places: Vec<Point> = left.into_iter().chain(below).chain(right).collect();
        Trace::through(spare(&places))
    }
}

/// The places that a straight line between their neighbours would miss.
fn spare(places: &[Point]) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::new();
    for (index, place) in places.iter().enumerate() {
        let turns = match (kept.last(), places.get(index + 1)) {
            (Some(last), Some(next)) => {
                let across =
                    (place.x - last.x) * (next.y - last.y) - (place.y - last.y) * (next.x - last.x);
                across.abs() > 0.4
            }
            _ => true,
        };
        if turns {
            kept.push(*place);
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_outline_holds_what_it_is_said_to_hold() {
        let room = Rect::new(0.0, 0.0, 200.0, 300.0);
        for shape in [
            Shape::Tall,
            Shape::Rocks,
            Shape::Coupe,
            Shape::Stem,
            Shape::Unknown,
        ] {
            let profile = Profile::new(shape, 240.0, room);
            let full = profile.slices.last().unwrap().1;
            assert!((full - 240.0).abs() < 0.01, "{shape:?} {full}");
            assert!(profile.level(120.0) > profile.level(180.0));
            assert!((profile.level(1e6) - profile.brim()).abs() < 1e-6);
            assert!(profile.brim() >= room.top - 1e-6, "{shape:?}");
            // The same again from the drawn radii, by discs of one pixel.
            let mut cm3 = 0.0;
            let mut y = profile.brim() + 0.5;
            while y < profile.floor() {
                let radius = profile.radius_at(y) / profile.pixels_per_cm;
                cm3 += std::f64::consts::PI * radius * radius / profile.pixels_per_cm;
                y += 1.0;
            }
            assert!((cm3 - 240.0).abs() < 7.0, "{shape:?} {cm3}");
        }
    }
}
