//! Documents compiled: names looked up, defaults chosen, amounts read. What is left is arithmetic.

use pomace_book::{ClarifyBy, DocumentId, FermentKind, Gas, Ice, SugarUsed, Target, Verb};
use pomace_larder::yields::Yield;

use crate::dose::Dose;
use crate::glass::GlassIce;
use crate::steps::separate::Filter;

/// Where matter comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Origin {
    /// An item of the shelf.
    Shelf(usize),
    /// What a prep keeps.
    Made(DocumentId),
    /// What a step of a prep leaves.
    Left(DocumentId, usize),
    /// What an earlier step of the same document left.
    OwnLeft(usize),
}

/// Matter that comes in.
#[derive(Clone, Debug)]
pub(crate) struct Intake {
    pub origin: Origin,
    pub dose: Dose,
}

/// One step, compiled.
#[derive(Clone, Debug)]
pub(crate) struct Op {
    pub verb: Verb,
    /// What comes in, if anything does and its amount is known.
    pub intake: Option<Intake>,
    pub seconds: Option<f64>,
    pub celsius: Option<f64>,
    pub to: Option<Target>,
    pub moisture: Option<f64>,
    pub filter: Filter,
    pub by: Option<ClarifyBy>,
    /// What is usual for the material at hand: juice of a fruit, or what drained solids hold.
    pub usual: Option<&'static Yield>,
    pub ferment: Option<FermentKind>,
    pub sugar_used: Option<SugarUsed>,
    pub gas: Option<Gas>,
    pub gauge_bar: Option<f64>,
    pub ice: Option<Ice>,
    /// Ice that waits in the glass.
    pub over: Option<GlassIce>,
    pub glass_ml: Option<f64>,
}

/// A prep, compiled.
#[derive(Clone, Debug)]
pub(crate) struct PrepProgram {
    pub ops: Vec<Op>,
}

/// A line of a drink, compiled.
#[derive(Clone, Debug)]
pub(crate) struct Entry {
    pub intake: Intake,
    /// The step at which it enters.
    pub step: usize,
    /// Its place among the lines of the document.
    pub line: usize,
}

/// A garnish, compiled.
#[derive(Clone, Debug)]
pub(crate) struct Crown {
    pub intake: Intake,
    /// Share that is eaten.
    pub eaten: f64,
    /// Its place among the garnishes of the document.
    pub place: usize,
}

/// A drink, compiled.
#[derive(Clone, Debug)]
pub(crate) struct DrinkProgram {
    pub entries: Vec<Entry>,
    pub ops: Vec<Op>,
    pub crowns: Vec<Crown>,
}

/// A document, compiled.
#[derive(Clone, Debug)]
pub(crate) enum Program {
    Prep(PrepProgram),
    Drink(DrinkProgram),
}
