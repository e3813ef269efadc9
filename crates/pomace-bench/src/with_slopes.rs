//! What a prep gives, with how it moves with every source: made in one run, taken up by others.
//!
//! Each prep is run with directions of its own, one for each source that it meets. A run that takes it up has
//! other directions; sources that both know are the same direction there, so what is common stays common.

use pomace_matter::Substance;
use pomace_matter::scalar::{Scalar, Slopes, Traced, slopes};

use crate::inputs::{Inputs, Source};
use crate::made::Made;
use crate::stream::Stream;

/// What others can take of a prep.
#[derive(Debug)]
pub(crate) struct WithSlopes {
    kept: Moving,
    grams_per_ml: Option<f64>,
    /// What its steps left behind.
    left: Vec<(usize, Moving)>,
    /// The directions of all slopes.
    sources: Vec<Source>,
}

/// A stream has no more numbers, and hardly as many.
const MOST_NUMBERS: usize = 3 * (Substance::COUNT + 1) + 3;

/// A stream and how its numbers move: those of the stream in the order of [`Stream::convert`], and what may
/// follow.
#[derive(Debug)]
struct Moving {
    stream: Stream,
    /// Of each number whether anything moves it.
    moves: Vec<bool>,
    /// Of those that are moved.
    slopes: Slopes,
}

impl Moving {
    fn of(stream: &Stream<Traced>, more: Option<Traced>) -> Self {
        let mut numbers = Vec::with_capacity(MOST_NUMBERS);
        let stream = stream.convert(|number| {
            numbers.push(number);
            number.value()
        });
        numbers.extend(more);
        let moves = numbers.iter().map(|number| !number.is_constant()).collect();
        numbers.retain(|number| !number.is_constant());
        let slopes = slopes(numbers.into_iter());
        Self {
            stream,
            moves,
            slopes,
        }
    }

    fn take_up<S: Scalar>(
        &self,
        more: Option<f64>,
        directions: &[usize],
    ) -> (Stream<S>, Option<S>) {
        let taken = S::take_up(&self.slopes, directions);
        let (mut moves, mut index) = (self.moves.iter(), 0);
        let mut number = |value: f64| {
            if moves.next() != Some(&true) {
                return S::from(value);
            }
            index += 1;
            S::taken(value, taken, index - 1)
        };
        (self.stream.convert(&mut number), more.map(number))
    }
}

impl WithSlopes {
    /// What was made in the present tracing, from sources in the order of its directions.
    pub(crate) fn of(made: &Made<Traced>, sources: Vec<Source>) -> Self {
        let left = made.left.iter();
        let left = left.map(|(step, left)| (step, Moving::of(left, None)));
        Self {
            kept: Moving::of(&made.kept, made.grams_per_ml),
            grams_per_ml: made.grams_per_ml.map(Scalar::value),
            left: left.collect(),
            sources,
        }
    }

    /// The sources that it is doubtful by.
    pub(crate) fn note_sources(&self, inputs: &Inputs) {
        inputs.directions(&self.sources);
    }

    /// The prep in another run: what it keeps, and of what its steps left behind that which is taken.
    pub(crate) fn take_up<S: Scalar>(
        &self,
        inputs: &Inputs,
        is_taken: impl Fn(usize) -> bool,
    ) -> Made<S> {
        let directions = inputs.directions(&self.sources);
        if self.kept.slopes.is_bent {
            S::bend();
        }
        let (kept, grams_per_ml) = self.kept.take_up(self.grams_per_ml, &directions);
        let left = self.left.iter().filter(|(step, _)| is_taken(*step));
        let left = left.map(|(step, left)| (*step, Box::new(left.take_up(None, &directions).0)));
        Made {
            kept,
            left: left.collect(),
            records: Vec::new(),
            amounts: Vec::new(),
            grams_per_ml,
        }
    }
}
