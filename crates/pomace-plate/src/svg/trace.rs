//! The data of a path: where the pen goes.

use super::Tenths;
use crate::geometry::Point;

/// Moves of a pen. One move to no number spoils the whole trace, which is then not drawn.
#[derive(Clone, Debug, Default)]
pub(crate) struct Trace {
    data: String,
    last: Option<Place>,
    spoilt: bool,
    drawn: bool,
}

impl Trace {
    pub(crate) fn new() -> Self {
        Self::default()
    }

    /// A straight line through places.
    pub(crate) fn through(places: impl IntoIterator<Item = Point>) -> Self {
        let mut trace = Self::new();
        for (index, place) in places.into_iter().enumerate() {
            if index == 0 {
                trace.start(place);
            } else {
                trace.line(place);
            }
        }
        trace
    }

    /// A box.
    pub(crate) fn around(rect: crate::geometry::Rect) -> Self {
        let mut trace = Self::through([
            Point::new(rect.left, rect.top),
            Point::new(rect.right, rect.top),
            Point::new(rect.right, rect.bottom),
            Point::new(rect.left, rect.bottom),
        ]);
        trace.close();
        trace
    }

    /// What goes into `d`, if something is drawn.
    pub(crate) fn data(&self) -> Option<&str> {
        (self.drawn && !self.spoilt).then_some(self.data.as_str())
    }

    pub(crate) fn start(&mut self, to: Point) -> &mut Self {
        if self.accept(&[to]) {
            self.places('M', &[to]);
        }
        self
    }

    pub(crate) fn line(&mut self, to: Point) -> &mut Self {
        if self.accept(&[to]) {
            let (x, y) = place(to);
            match self.last {
                Some((_, last)) if last == y => self.along('H', x),
                Some((last, _)) if last == x => self.along('V', y),
                _ => self.places('L', &[to]),
            }
            self.last = Some((x, y));
            self.drawn = true;
        }
        self
    }

    /// A cubic curve by its two handles and its end.
    pub(crate) fn curve(&mut self, first: Point, second: Point, to: Point) -> &mut Self {
        if self.accept(&[first, second, to]) {
            self.places('C', &[first, second, to]);
            self.drawn = true;
        }
        self
    }

    /// A dot: a stroke of no length, which round ends make visible.
    pub(crate) fn dot(&mut self, at: Point) -> &mut Self {
        self.start(at);
        if self.accept(&[at]) {
            self.data.push_str("h0");
            self.drawn = true;
        }
        self
    }

    pub(crate) fn close(&mut self) -> &mut Self {
        if self.drawn {
            self.data.push('Z');
        }
        self
    }

    /// A move along one direction.
    fn along(&mut self, letter: char, to: Tenths) {
        self.data.push(letter);
        to.write(&mut self.data);
    }

    /// A move by its places, the last of which is where the pen is then.
    fn places(&mut self, letter: char, places: &[Point]) {
        let mut before = letter;
        for (x, y) in places.iter().copied().map(place) {
            self.data.push(before);
            x.write(&mut self.data);
            self.data.push(' ');
            y.write(&mut self.data);
            self.last = Some((x, y));
            before = ' ';
        }
    }

    fn accept(&mut self, places: &[Point]) -> bool {
        let fine = places.iter().all(|place| place.is_finite());
        self.spoilt |= !fine;
        fine
    }
}

/// A place as it is written.
type Place = (Tenths, Tenths);

fn place(at: Point) -> Place {
    (Tenths::of(at.x), Tenths::of(at.y))
}
