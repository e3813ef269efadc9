//! A house-made ingredient.

use crate::quantity::{Amount, Duration};
use crate::span::{Span, Spanned};
use crate::verb::Verb;

use super::{Brief, Instrument, Marks, Step, ToldValue, Trial};

/// Steps that end in one kept stream, and by-products.
#[derive(Clone, Debug, PartialEq)]
pub struct PrepDoc {
    /// Its name.
    pub name: Spanned<String>,
    /// What is done, in order.
    pub steps: Vec<Step>,
    /// What the house says of it, to be checked.
    pub claims: Vec<Spanned<String>>,
    /// What it should bring to mind.
    pub brief: Vec<Brief>,
    /// How strong it tastes of what no figure tells.
    pub marks: Marks,
    /// Small variants of it, side by side.
    pub trials: Vec<Trial>,
    /// A word to whoever reads it.
    pub note: Option<Spanned<String>>,
    /// What is known of a prep that someone else made.
    pub told: Option<Told>,
}

impl PrepDoc {
    /// How it is kept: its last step, if that is `store`.
    #[must_use]
    pub fn keeping(&self) -> Option<&Step> {
        self.steps
            .last()
            .filter(|step| step.verb.value == Verb::Store)
    }
}

/// A prep told from outside: base, solid, what is known, what was read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Told {
    /// The liquid: a name to resolve.
    pub base: Option<Spanned<String>>,
    /// How much of it.
    pub base_amount: Option<Spanned<Amount>>,
    /// The solid: a name to resolve.
    pub solid: Option<Spanned<String>>,
    /// How much of it; a share without `of` is of the base.
    pub solid_amount: Option<Spanned<Amount>>,
    /// How long they were together.
    pub time: Option<Spanned<Duration>>,
    /// °C.
    pub temperature: Option<Spanned<f64>>,
    /// % vol of the result.
    pub strength: Option<Spanned<ToldValue>>,
    /// g/L of the result.
    pub sugar: Option<Spanned<ToldValue>>,
    /// What instruments said of the result.
    pub readings: Vec<Spanned<ToldReading>>,
    /// A word to whoever reads it.
    pub note: Option<Spanned<String>>,
    /// The whole table.
    pub span: Span,
}

/// One reading of an instrument, as told.
#[derive(Clone, Debug, PartialEq)]
pub struct ToldReading {
    /// As written.
    pub text: String,
    /// Which instrument.
    pub instrument: Instrument,
    /// In the instrument's unit.
    pub value: ToldValue,
}
