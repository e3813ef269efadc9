//! What is bought or received.

use pomace_larder::Form;

use crate::quantity::Amount;
use crate::span::{Span, Spanned};

use super::{Price, ToldValue, UnitWeight};

/// An ingredient as its label, its supplier or the house tells it.
#[derive(Clone, Debug, PartialEq)]
pub struct IngredientDoc {
    /// Its name.
    pub name: Spanned<String>,
    /// Key `like`: an ingredient of the book or the catalogue to start from.
    pub based_on: Option<Spanned<String>>,
    /// % vol.
    pub strength: Option<Spanned<ToldValue>>,
    /// g/L.
    pub sugar: Option<Spanned<ToldValue>>,
    /// Acid, g/L.
    pub acid: Option<Spanned<ToldAcid>>,
    /// pH at 25 °C.
    pub ph: Option<Spanned<ToldValue>>,
    /// What a refractometer shows.
    pub brix: Option<Spanned<ToldValue>>,
    /// g/mL at 20 °C.
    pub density: Option<Spanned<ToldValue>>,
    /// Substances in g/100 g.
    pub composition: Vec<(Spanned<String>, Spanned<ToldValue>)>,
    /// How it comes.
    pub form: Option<Spanned<Form>>,
    /// Allergens as the label names them.
    pub allergens: Vec<Spanned<String>>,
    /// What it costs.
    pub price: Option<Spanned<Price>>,
    /// How much one pack holds.
    pub pack: Option<Spanned<Amount>>,
    /// What one piece weighs.
    pub unit: Option<Spanned<UnitWeight>>,
    /// What it comes apart into.
    pub parts: Vec<PartDoc>,
    /// Warnings.
    pub cautions: Vec<Spanned<String>>,
    /// Whether a vegan may have it, if said.
    pub vegan: Option<Spanned<bool>>,
    /// Whether a vegetarian may have it, if said.
    pub vegetarian: Option<Spanned<bool>>,
    /// Where it comes from.
    pub origin: Option<Spanned<String>>,
    /// A word to whoever reads it.
    pub note: Option<Spanned<String>>,
}

/// One part of an ingredient.
#[derive(Clone, Debug, PartialEq)]
pub struct PartDoc {
    /// Its name: `peel`.
    pub name: Spanned<String>,
    /// Its share of the whole's mass, in percent.
    pub share: Option<Spanned<ToldValue>>,
    /// Key `like`: an ingredient or part to start from.
    pub based_on: Option<Spanned<String>>,
    /// Substances in g/100 g.
    pub composition: Vec<(Spanned<String>, Spanned<ToldValue>)>,
    /// How it comes.
    pub form: Option<Spanned<Form>>,
    /// Allergens beside those of the whole.
    pub allergens: Vec<Spanned<String>>,
    /// Warnings.
    pub cautions: Vec<Spanned<String>>,
    /// A word to whoever reads it.
    pub note: Option<Spanned<String>>,
    /// The whole table.
    pub span: Span,
}

/// Acid as told: how much, and which.
#[derive(Clone, Debug, PartialEq)]
pub struct ToldAcid {
    /// g/L.
    pub value: ToldValue,
    /// Which acid it is, or is counted as; `None` where not said.
    pub acid: Option<String>,
}
