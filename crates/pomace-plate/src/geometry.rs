//! Points, boxes and what meets what. All in pixels, y down.

/// A place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

impl Point {
    /// A place.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    pub(crate) fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }

    pub(crate) fn distance(self, other: Self) -> f64 {
        // Pixels are far from where squares go beyond what a number holds: no need of `hypot`.
        let (across, down) = (self.x - other.x, self.y - other.y);
        (across * across + down * down).sqrt()
    }

    /// From here a share of the way to there.
    pub(crate) fn toward(self, other: Self, share: f64) -> Self {
        Self::new(
            self.x + (other.x - self.x) * share,
            self.y + (other.y - self.y) * share,
        )
    }

    /// From here so many pixels toward there; here, if both are one.
    pub(crate) fn stepped(self, other: Self, pixels: f64) -> Self {
        let whole = self.distance(other);
        if whole > 1e-9 {
            self.toward(other, pixels / whole)
        } else {
            self
        }
    }
}

/// A box, by its edges.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// Left edge.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Right edge.
    pub right: f64,
    /// Lower edge.
    pub bottom: f64,
}

impl Rect {
    /// A box, by its edges.
    #[must_use]
    pub const fn new(left: f64, top: f64, right: f64, bottom: f64) -> Self {
        Self {
            left,
            top,
            right,
            bottom,
        }
    }

    pub(crate) fn width(self) -> f64 {
        self.right - self.left
    }

    pub(crate) fn height(self) -> f64 {
        self.bottom - self.top
    }

    /// Larger by so much on each side.
    pub(crate) fn grown(self, by: f64) -> Self {
        Self::new(
            self.left - by,
            self.top - by,
            self.right + by,
            self.bottom + by,
        )
    }

    /// Whether the place lies in the box or on its edge.
    #[must_use]
    pub fn holds(self, point: Point) -> bool {
        (self.left..=self.right).contains(&point.x) && (self.top..=self.bottom).contains(&point.y)
    }

    /// Whether the other box lies inside.
    #[must_use]
    pub fn encloses(self, other: Self) -> bool {
        other.left >= self.left
            && other.right <= self.right
            && other.top >= self.top
            && other.bottom <= self.bottom
    }

    /// Whether two boxes share more than an edge.
    #[must_use]
    pub fn meets(self, other: Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    /// How far a place lies from the box; nothing inside.
    #[must_use]
    pub fn gap(self, place: Point) -> f64 {
        let nearest = Point::new(
            place.x.clamp(self.left, self.right),
            place.y.clamp(self.top, self.bottom),
        );
        nearest.distance(place)
    }

    /// Whether a disc reaches into the box.
    #[must_use]
    pub fn meets_disc(self, centre: Point, radius: f64) -> bool {
        self.gap(centre) < radius
    }

    /// Whether a straight line passes through the box.
    #[must_use]
    pub fn meets_line(self, from: Point, to: Point) -> bool {
        // Most lines lie wholly to one side of a label, which is told without a division.
        let is_aside = from.x.max(to.x) < self.left
            || from.x.min(to.x) > self.right
            || from.y.max(to.y) < self.top
            || from.y.min(to.y) > self.bottom;
        !is_aside && clipped(from, to, self).is_some()
    }
}

/// What of a straight line lies inside a box.
pub(crate) fn clipped(from: Point, to: Point, within: Rect) -> Option<(Point, Point)> {
    let (across, down) = (to.x - from.x, to.y - from.y);
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for (slope, room) in [
        (-across, from.x - within.left),
        (across, within.right - from.x),
        (-down, from.y - within.top),
        (down, within.bottom - from.y),
    ] {
        if slope.abs() < 1e-12 {
            if room < 0.0 {
                return None;
            }
        } else if slope < 0.0 {
            first = first.max(room / slope);
        } else {
            last = last.min(room / slope);
        }
    }
    (first < last && from.is_finite() && to.is_finite())
        .then(|| (from.toward(to, first), from.toward(to, last)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_cut_at_the_edges_of_a_box() {
        let room = Rect::new(0.0, 0.0, 10.0, 10.0);
        let cut = clipped(Point::new(-5.0, 5.0), Point::new(15.0, 5.0), room);
        assert_eq!(cut, Some((Point::new(0.0, 5.0), Point::new(10.0, 5.0))));
        assert!(!room.meets_line(Point::new(-5.0, 8.0), Point::new(2.0, 15.0)));
        assert!(!room.meets_line(Point::new(f64::NAN, 8.0), Point::new(2.0, 5.0)));
        assert!(room.meets_disc(Point::new(12.0, 5.0), 2.5));
        assert!(!room.meets_disc(Point::new(12.0, 12.0), 2.5));
    }
}
