//! A drink: lines, steps, a garnish, and what it should bring to mind.

use crate::quantity::{Amount, Duration};
use crate::span::{Span, Spanned};
use crate::verb::{GarnishAction, Sense};

use super::{Marks, Range, Step, Trial};

/// Lines, steps and a garnish.
#[derive(Clone, Debug, PartialEq)]
pub struct DrinkDoc {
    /// Its name.
    pub name: Spanned<String>,
    /// What goes in.
    pub lines: Vec<Line>,
    /// What is done, in order.
    pub steps: Vec<Step>,
    /// How it is crowned, in order.
    pub garnish: Vec<Garnish>,
    /// What it should bring to mind.
    pub brief: Vec<Brief>,
    /// What the house says of it, to be checked.
    pub claims: Vec<Spanned<String>>,
    /// How strong it tastes of what no figure tells.
    pub marks: Marks,
    /// Small variants of it, side by side.
    pub trials: Vec<Trial>,
    /// A range that it is held against.
    pub range: Option<Range>,
    /// A word to whoever reads it.
    pub note: Option<Spanned<String>>,
}

/// One measured addition.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// A name to resolve.
    pub what: Spanned<String>,
    /// How much; a draft may leave it open.
    pub amount: Option<Spanned<Amount>>,
    /// The step at which it enters: a verb, or a step's `as` name. The first step if absent.
    pub enters: Option<Spanned<String>>,
    /// A word to whoever makes it.
    pub note: Option<Spanned<String>>,
    /// The whole line.
    pub span: Span,
}

/// One layer of the garnish.
#[derive(Clone, Debug, PartialEq)]
pub struct Garnish {
    /// Key `do`.
    pub action: Spanned<GarnishAction>,
    /// A name to resolve; words after its last comma may describe it.
    pub what: Option<Spanned<String>>,
    /// How much.
    pub amount: Option<Spanned<Amount>>,
    /// Share that is eaten, 0 to 1.
    pub eaten: Option<Spanned<f64>>,
    /// Whether the guest may have the drink without it.
    pub optional: bool,
    /// How long before service it must be ready.
    pub lead: Option<Spanned<Duration>>,
    /// A word to whoever makes it.
    pub note: Option<Spanned<String>>,
    /// The whole table.
    pub span: Span,
}

/// One component of what the drink should bring to mind.
#[derive(Clone, Debug, PartialEq)]
pub struct Brief {
    /// The component, in the house's words.
    pub note: Option<Spanned<String>>,
    /// The sense it reaches the guest by.
    pub sense: Option<Spanned<Sense>>,
    /// The lines, garnishes or preps that carry it.
    pub carried_by: Vec<Spanned<String>>,
    /// The whole table.
    pub span: Span,
}
