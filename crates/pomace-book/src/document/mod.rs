//! What a document says, each value with its place in the text.
//!
//! One document is one TOML text. Its first key names it and says what it is:
//! `prep = "…"`, `drink = "…"`, `ingredient = "…"` or `house = "…"`.

mod drink;
mod glass;
mod house;
mod ice;
mod ingredient;
mod marks;
mod mentions;
mod prep;
mod price;
mod range;
pub(crate) mod scale;
mod step;
mod told;
mod trial;

pub use drink::{Brief, DrinkDoc, Garnish, Line};
pub use glass::Glass;
pub use house::HouseDoc;
pub use ice::{Ice, IceShape};
pub use ingredient::{IngredientDoc, PartDoc, ToldAcid};
pub use marks::Marks;
pub use prep::{PrepDoc, Told, ToldReading};
pub use price::{Price, UnitWeight};
pub use range::Range;
pub use step::Step;
pub use told::{Instrument, ToldValue};
pub use trial::{Setting, Trial, TrialAddition, TrialChange, TrialList};

use crate::finding::Finding;
use crate::span::Spanned;

/// Where a document came from, and its text.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Source {
    /// A file's path, or any name that tells people which text is meant.
    pub path: String,
    /// The TOML text.
    pub text: String,
}

impl Source {
    /// A text under a name.
    pub fn new(path: impl Into<String>, text: impl Into<String>) -> Self {
        Self {
            path: path.into(),
            text: text.into(),
        }
    }
}

/// One document of the book.
#[derive(Clone, Debug, PartialEq)]
pub enum Document {
    /// What is bought or received.
    Ingredient(IngredientDoc),
    /// A house-made ingredient.
    Prep(PrepDoc),
    /// A drink.
    Drink(DrinkDoc),
    /// What holds for the whole house.
    House(HouseDoc),
}

impl Document {
    /// Its name, with its place.
    #[must_use]
    pub fn name(&self) -> &Spanned<String> {
        match self {
            Self::Ingredient(ingredient) => &ingredient.name,
            Self::Prep(prep) => &prep.name,
            Self::Drink(drink) => &drink.name,
            Self::House(house) => &house.name,
        }
    }

    /// What it is: the key that names it.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Ingredient(_) => "ingredient",
            Self::Prep(_) => "prep",
            Self::Drink(_) => "drink",
            Self::House(_) => "house",
        }
    }

    /// The marks of a prep or a drink; none for the others.
    #[must_use]
    pub const fn marks(&self) -> Option<&Marks> {
        match self {
            Self::Prep(prep) => Some(&prep.marks),
            Self::Drink(drink) => Some(&drink.marks),
            Self::Ingredient(_) | Self::House(_) => None,
        }
    }

    /// The trials of a prep or a drink; none for the others.
    #[must_use]
    pub fn trials(&self) -> &[Trial] {
        match self {
            Self::Prep(prep) => &prep.trials,
            Self::Drink(drink) => &drink.trials,
            Self::Ingredient(_) | Self::House(_) => &[],
        }
    }

    /// The steps of a prep or a drink; none for the others.
    #[must_use]
    pub fn steps(&self) -> &[Step] {
        match self {
            Self::Prep(prep) => &prep.steps,
            Self::Drink(drink) => &drink.steps,
            Self::Ingredient(_) | Self::House(_) => &[],
        }
    }
}

/// What came of reading a text: the document as far as it could be read, and every fault at once.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Parsed {
    /// The document; `None` where not even its name could be read.
    pub document: Option<Document>,
    /// All faults, in the order of the text.
    pub findings: Vec<Finding>,
}
