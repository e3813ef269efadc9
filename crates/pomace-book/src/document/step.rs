//! One step of a prep or a drink.

use crate::quantity::{Amount, Duration, Pressure, SugarUsed, Target};
use crate::span::{Span, Spanned};
use crate::verb::{ClarifyBy, DrawWith, FermentKind, Gas, Verb};

use super::{Glass, Ice};

/// A step: what is done, to what, and how far.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Key `do`.
    pub verb: Spanned<Verb>,
    /// What comes in, or which stream is meant.
    pub what: Option<Spanned<String>>,
    /// How much of it.
    pub amount: Option<Spanned<Amount>>,
    /// Key `as`: the name of the stream for later steps.
    pub name_as: Option<Spanned<String>>,
    /// Sieve, cloth or filter.
    pub through: Option<Spanned<String>>,
    /// Name of the stream that goes on.
    pub keep: Option<Spanned<String>>,
    /// Name of what is left behind.
    pub by_product: Option<Spanned<String>>,
    /// How long.
    pub time: Option<Spanned<Duration>>,
    /// °C.
    pub temperature: Option<Spanned<f64>>,
    /// Share of the mass that goes, 0 to 1.
    pub loss: Option<Spanned<f64>>,
    /// What it ends at.
    pub to: Option<Spanned<Target>>,
    /// Moisture that a drying ends at, as a share of the mass, 0 to 1.
    pub to_moisture: Option<Spanned<f64>>,
    /// Key `with`: what draws.
    pub with: Option<Spanned<DrawWith>>,
    /// Key `by`: how haze is taken out.
    pub by: Option<Spanned<ClarifyBy>>,
    /// Fat of a wash: a name to resolve.
    pub fat: Option<Spanned<String>>,
    /// What a fermentation makes.
    pub kind: Option<Spanned<FermentKind>>,
    /// Sugar that a fermentation uses.
    pub sugar_used: Option<Spanned<SugarUsed>>,
    /// Gas of a charge.
    pub gas: Option<Spanned<Gas>>,
    /// Pressure of a charge.
    pub pressure: Option<Spanned<Pressure>>,
    /// Key `in`: vessel of a store.
    pub vessel: Option<Spanned<String>>,
    /// Ice that the step works with.
    pub ice: Option<Spanned<Ice>>,
    /// Glass that is poured into.
    pub glass: Option<Spanned<Glass>>,
    /// What is poured over, as written.
    pub over: Option<Spanned<String>>,
    /// What is poured over, where it reads as ice.
    pub over_ice: Option<Ice>,
    /// A word to whoever makes it.
    pub note: Option<Spanned<String>>,
    /// The whole step.
    pub span: Span,
}

impl Step {
    /// A step with nothing but its verb.
    #[must_use]
    pub const fn bare(verb: Spanned<Verb>, span: Span) -> Self {
        Self {
            verb,
            what: None,
            amount: None,
            name_as: None,
            through: None,
            keep: None,
            by_product: None,
            time: None,
            temperature: None,
            loss: None,
            to: None,
            to_moisture: None,
            with: None,
            by: None,
            fat: None,
            kind: None,
            sugar_used: None,
            gas: None,
            pressure: None,
            vessel: None,
            ice: None,
            glass: None,
            over: None,
            over_ice: None,
            note: None,
            span,
        }
    }

    /// The names under which later steps may call for what this step keeps.
    pub fn kept_names(&self) -> impl Iterator<Item = &Spanned<String>> {
        self.name_as.iter().chain(&self.keep)
    }
}
