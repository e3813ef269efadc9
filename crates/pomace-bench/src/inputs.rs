//! The one gate through which doubtful numbers come in.
//!
//! Every number that is not exact is read here, with its standard deviation and the source that it
//! is common to. One program then serves for values, and for values moved along the sources, from
//! which the doubt of every figure is found.

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
    /// As they are.
    Values,
    /// As they are, and their sources are noted.
    Noting,
    /// Some moved, by so many standard deviations.
    Moved(Vec<(SourceKey, f64)>),
}

/// The gate.
#[derive(Clone, Debug)]
pub(crate) struct Inputs {
    mode: Mode,
    sources: RefCell<Vec<Source>>,
}

impl Inputs {
    fn new(mode: Mode) -> Self {
        let sources = RefCell::default();
        Self { mode, sources }
    }

    /// Plain values; nothing is noted.
    pub(crate) fn values() -> Self {
        Self::new(Mode::Values)
    }

    /// Plain values; the sources that are read are noted.
    pub(crate) fn noting() -> Self {
        Self::new(Mode::Noting)
    }

    /// Some sources moved by so many standard deviations, the others as they are.
    pub(crate) fn moved(moves: Vec<(SourceKey, f64)>) -> Self {
        Self::new(Mode::Moved(moves))
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
        match &self.mode {
            Mode::Values => S::from(value),
            Mode::Noting => {
                let mut sources = self.sources.borrow_mut();
                if deviation > 0.0 && !sources.iter().any(|s| s.key == key) {
                    sources.push(Source {
                        key,
                        name: name(),
                        reading,
                    });
                }
                S::from(value)
            }
            Mode::Moved(moves) => {
                let moved = moves.iter().find(|(other, _)| *other == key);
                S::from(value + moved.map_or(0.0, |(_, by)| by * deviation))
            }
        }
    }

    /// An assumption: its usual range is taken as two standard deviations each way, and nothing is
    /// moved far out of it: no ice above 0 °C, no loss below nothing.
    pub(crate) fn assume<S: Scalar>(&self, assumption: &Assumption) -> S {
        let deviation = 0.25 * (assumption.high - assumption.low);
        let read: S = self.read(
            assumption.value,
            deviation,
            SourceKey::Assumed(assumption.what),
            || assumption.what.to_owned(),
            assumption.reading(),
        );
        if !matches!(self.mode, Mode::Moved(_)) {
            return read;
        }
        let (low, high) = (assumption.low - deviation, assumption.high + deviation);
        let high = if assumption.high <= 0.0 {
            high.min(0.0)
        } else {
            high
        };
        S::from(read.value().clamp(low, high).max(assumption.floor()))
    }
}
