//! The one gate through which doubtful numbers come in.
//!
//! Every number that is not exact is read here, with its standard deviation and the source that it
//! is common to. One program then serves for values, for slopes along the sources (the doubt of
//! every figure to first order), and for seeded draws (where the first order is not enough).

use std::cell::RefCell;

use pomace_book::{DocumentId, Spot};
use pomace_matter::Scalar;

use crate::remark::Assumption;

/// What a doubtful number is common to: equal keys move together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SourceKey {
    /// A default that stands in for something nobody said.
    Assumed(&'static str),
    /// What is dissolved in an item of the shelf.
    Contents(u32),
    /// The strength of an item of the shelf.
    Strength(u32),
    /// The scale of the house's jiggers.
    Jigger,
    /// One pour.
    Pour(DocumentId, Spot),
}

/// A source of doubt.
#[derive(Clone, Debug, PartialEq)]
pub struct Source {
    /// What it is common to.
    pub key: SourceKey,
    /// What it is, as a noun.
    pub name: String,
    /// The reading that would settle it.
    pub reading: &'static str,
}

/// How numbers are read.
#[derive(Clone, Debug)]
enum Mode {
    /// As they are; sources are noted.
    Values,
    /// With a slope of one standard deviation along each source from the given one on.
    Slopes(usize),
    /// Each moved by so many standard deviations, by source.
    Draws(Vec<f64>),
}

/// The gate.
#[derive(Clone, Debug)]
pub(crate) struct Inputs {
    mode: Mode,
    sources: RefCell<Vec<Source>>,
    noting: bool,
}

impl Inputs {
    /// Plain values; nothing is noted.
    pub(crate) fn values() -> Self {
        Self {
            mode: Mode::Values,
            sources: RefCell::default(),
            noting: false,
        }
    }

    /// Plain values; the sources that are read are noted.
    pub(crate) fn noting() -> Self {
        Self {
            noting: true,
            ..Self::values()
        }
    }

    /// Slopes along the sources noted before, from the one at `first` on.
    pub(crate) fn slopes(sources: &[Source], first: usize) -> Self {
        Self {
            mode: Mode::Slopes(first),
            sources: RefCell::new(sources.to_vec()),
            noting: false,
        }
    }

    /// Values moved by standard deviations, one for each source noted before.
    pub(crate) fn draws(sources: &[Source], deviations: Vec<f64>) -> Self {
        Self {
            mode: Mode::Draws(deviations),
            sources: RefCell::new(sources.to_vec()),
            noting: false,
        }
    }

    /// The sources that were read.
    pub(crate) fn into_sources(self) -> Vec<Source> {
        self.sources.into_inner()
    }

    /// A number with its standard deviation, and what it is common to.
    pub(crate) fn read<S: Scalar>(
        &self,
        value: f64,
        deviation: f64,
        key: SourceKey,
        name: impl FnOnce() -> String,
        reading: &'static str,
    ) -> S {
        let place = || self.sources.borrow().iter().position(|s| s.key == key);
        match &self.mode {
            Mode::Values => {
                if self.noting && deviation > 0.0 && place().is_none() {
                    self.sources.borrow_mut().push(Source {
                        key,
                        name: name(),
                        reading,
                    });
                }
                S::from(value)
            }
            Mode::Slopes(first) => match place().and_then(|p| p.checked_sub(*first)) {
                Some(direction) => S::along(value, direction, deviation),
                None => S::from(value),
            },
            Mode::Draws(deviations) => {
                let moved = place()
                    .and_then(|p| deviations.get(p))
                    .map_or(0.0, |z| z * deviation);
                S::from(value + moved)
            }
        }
    }

    /// An assumption: its usual range is taken as two standard deviations each way.
    pub(crate) fn assume<S: Scalar>(&self, assumption: &Assumption) -> S {
        let deviation = 0.25 * (assumption.high - assumption.low);
        // A draw stays within what is usual: no ice of a positive temperature, no negative loss.
        let read: S = self.read(
            assumption.value,
            deviation,
            SourceKey::Assumed(assumption.what),
            || assumption.what.to_owned(),
            assumption.reading(),
        );
        match self.mode {
            Mode::Draws(_) => S::from(
                read.value()
                    .clamp(assumption.low - deviation, assumption.high + deviation)
                    .max(assumption.floor()),
            ),
            _ => read,
        }
    }
}
