//! The one gate through which doubtful numbers come in.
//!
//! Every number that is not exact is read here, with its standard deviation and the source that it
//! is common to. One program then serves for values, and for values moved along the sources, from
//! which the doubt of every figure is found.

use std::cell::RefCell;
use std::fmt;
use std::sync::Arc;

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
    pub name: SourceName,
    /// The reading that would settle it.
    pub reading: &'static str,
}

/// What a source is called: put together only when somebody reads it.
#[derive(Clone, Debug, PartialEq)]
pub struct SourceName {
    lead: &'static str,
    of: Option<Arc<str>>,
    mark: &'static str,
}

impl SourceName {
    /// A name that is whole.
    pub(crate) const fn whole(name: &'static str) -> Self {
        Self {
            lead: name,
            of: None,
            mark: "",
        }
    }

    /// Something of something, and a mark behind it.
    pub(crate) fn of(lead: &'static str, of: &Arc<str>, mark: &'static str) -> Self {
        Self {
            lead,
            of: Some(Arc::clone(of)),
            mark,
        }
    }
}

impl fmt::Display for SourceName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.lead)?;
        if let Some(of) = &self.of {
            write!(f, " {of}")?;
        }
        f.write_str(self.mark)
    }
}

/// How numbers are read.
#[derive(Clone, Debug)]
enum Mode {
    /// As they are.
    Values,
    /// As they are, and so much along the direction of their source, which is noted; one source may stand
    /// moved by so many standard deviations, and has no direction.
    Noting(Option<(SourceKey, f64)>),
    /// Some moved, by so many standard deviations.
    Moved(Vec<(SourceKey, f64)>),
}

/// The gate.
#[derive(Clone, Debug)]
pub(crate) struct Inputs {
    mode: Mode,
    sources: RefCell<Sources>,
}

/// The sources that were read, in the order in which they were met: a direction each.
#[derive(Clone, Debug, Default)]
struct Sources {
    list: Vec<Source>,
}

impl Sources {
    fn direction(&mut self, key: SourceKey, source: impl FnOnce() -> Source) -> usize {
        // What is read again was mostly read just before.
        let known = self.list.iter().rposition(|source| source.key == key);
        known.unwrap_or_else(|| {
            self.list.push(source());
            self.list.len() - 1
        })
    }
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

    /// Values that move along the sources that are read, which are noted.
    pub(crate) fn noting() -> Self {
        Self::new(Mode::Noting(None))
    }

    /// The same, from sources that were noted before, with one of them moved by so many standard deviations.
    pub(crate) fn with_moved(&self, key: SourceKey, by: f64) -> Self {
        Self {
            mode: Mode::Noting(Some((key, by))),
            sources: self.sources.clone(),
        }
    }

    /// Some sources moved by so many standard deviations, the others as they are.
    pub(crate) fn moved(moves: Vec<(SourceKey, f64)>) -> Self {
        Self::new(Mode::Moved(moves))
    }

    /// Whether all numbers are as they are, so that what the run does is worth writing down.
    pub(crate) const fn is_plain(&self) -> bool {
        matches!(self.mode, Mode::Values)
    }

    /// Whether sources are noted.
    pub(crate) const fn is_noting(&self) -> bool {
        matches!(self.mode, Mode::Noting(_))
    }

    /// The directions of sources that another run has met, in the same order.
    pub(crate) fn directions(&self, met: &[Source]) -> Vec<usize> {
        let mut sources = self.sources.borrow_mut();
        let mut directions: Vec<usize> = Vec::with_capacity(met.len());
        for source in met {
            // Mostly they stand here as they stood there.
            let next = directions.last().map_or(0, |last| last + 1);
            let is_next = sources.list.get(next).is_some_and(|s| s.key == source.key);
            directions.push(if is_next {
                next
            } else {
                sources.direction(source.key, || source.clone())
            });
        }
        directions
    }

    /// Where a source stands among those that were read.
    pub(crate) fn place(&self, key: SourceKey) -> Option<usize> {
        let sources = self.sources.borrow();
        sources.list.iter().position(|source| source.key == key)
    }

    /// The sources that were read.
    pub(crate) fn into_sources(self) -> Vec<Source> {
        self.sources.into_inner().list
    }

    /// A number with its standard deviation, and what it is common to.
    pub(crate) fn read<S: Scalar>(
        &self,
        value: f64,
        deviation: f64,
        key: SourceKey,
        name: impl FnOnce() -> SourceName,
        reading: &'static str,
    ) -> S {
        self.take(value, Spread::even(deviation), key, name, reading)
    }

    fn take<S: Scalar>(
        &self,
        value: f64,
        spread: Spread,
        key: SourceKey,
        name: impl FnOnce() -> SourceName,
        reading: &'static str,
    ) -> S {
        match &self.mode {
            Mode::Values => S::from(value),
            Mode::Noting(Some((moved, by))) if *moved == key => S::from(spread.moved(value, *by)),
            Mode::Noting(_) => {
                let slope = spread.slope(value);
                if slope == 0.0 {
                    return S::from(value);
                }
                let source = || Source {
                    key,
                    name: name(),
                    reading,
                };
                let direction = self.sources.borrow_mut().direction(key, source);
                S::varying(value, direction, slope)
            }
            Mode::Moved(moves) => {
                let moved = moves.iter().find(|(other, _)| *other == key);
                S::from(moved.map_or(value, |(_, by)| spread.moved(value, *by)))
            }
        }
    }

    /// An assumption, over its usual range; nothing is moved far out of it: no ice above 0 °C, no loss
    /// below nothing.
    pub(crate) fn assume<S: Scalar>(&self, assumption: &Assumption) -> S {
        let spread = Spread::of(assumption);
        let read: S = self.take(
            assumption.value,
            spread,
            SourceKey::Assumed(assumption.what),
            || SourceName::whole(assumption.what),
            assumption.reading(),
        );
        if let Mode::Moved(_) = self.mode {
            read.at_least(assumption.floor())
                .at_most(assumption.ceiling())
        } else {
            read
        }
    }
}

/// How a number spreads.
#[derive(Clone, Copy, Debug)]
enum Spread {
    /// It is off by a sum: its standard deviations downwards and upwards.
    Sum { down: f64, up: f64 },
    /// It is off by a factor, as times and paces are: the standard deviation of its logarithm.
    Factor(f64),
}

impl Spread {
    /// As much each way.
    const fn even(deviation: f64) -> Self {
        Self::Sum {
            down: deviation,
            up: deviation,
        }
    }

    /// Each end of the usual range of an assumption is two standard deviations away.
    fn of(assumption: &Assumption) -> Self {
        let Assumption {
            value, low, high, ..
        } = *assumption;
        if assumption.is_time() && low > 0.0 {
            return Self::Factor(0.25 * (high / low).ln());
        }
        Self::Sum {
            down: 0.5 * (value - low),
            up: 0.5 * (high - value),
        }
    }

    /// What one standard deviation does to it.
    fn slope(self, value: f64) -> f64 {
        match self {
            // The root of its mean square about the value.
            Self::Sum { down, up } => (0.5 * (down * down + up * up)).sqrt(),
            Self::Factor(factor) => value * factor,
        }
    }

    /// The number moved by so many standard deviations.
    fn moved(self, value: f64, by: f64) -> f64 {
        match self {
            Self::Sum { down, up } => value + by * if by < 0.0 { down } else { up },
            Self::Factor(factor) => value * (by * factor).exp(),
        }
    }
}
