//! Why a quantity could not be read.

use crate::voice::Words;

/// A quantity that cannot be taken as written.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{what}")]
pub struct QuantityError {
    /// Byte in the text where the trouble starts.
    pub offset: usize,
    /// What kind of trouble it is.
    pub fault: Fault,
    /// What is wrong, as a sentence without its full stop.
    pub what: Words,
    /// How to mend it.
    pub mend: Words,
}

/// The kinds of trouble with a quantity.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Fault {
    /// Nothing is written.
    Empty,
    /// More is written than one measure needs.
    TooLong,
    /// There should be a number here.
    NoNumber,
    /// The number cannot be read.
    BadNumber,
    /// A number without its unit.
    NoUnit,
    /// A unit that is none of ours, or not one of this quantity.
    UnknownUnit,
    /// A word that stands for no fixed measure.
    Vague,
    /// A measure that only means something beside others.
    Relative,
    /// Several measures where one is asked for.
    Several,
    /// Less than nothing, nothing, or beyond what a house can hold.
    OutOfRange,
    /// Words left over that mean nothing here.
    Leftover,
}

impl QuantityError {
    /// An error at a byte of the text.
    pub fn new(
        fault: Fault,
        offset: usize,
        what: impl Into<Words>,
        mend: impl Into<Words>,
    ) -> Self {
        Self {
            offset,
            fault,
            what: what.into(),
            mend: mend.into(),
        }
    }
}
