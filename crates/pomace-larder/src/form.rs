//! In what shape an ingredient comes to the bench.

use std::fmt;
use std::str::FromStr;

use crate::table::UnknownWord;

/// In what shape an ingredient comes to the bench; it decides what a step can do with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Form {
    /// Pours, and mixes as it is.
    Liquid,
    /// Pours slowly or is spooned, yet mixes as a liquid: honey, purée, syrup over 60 % solids.
    Thick,
    /// Tissue with its own sap, or whole dry spice and leaf: gives only what a step takes out.
    Pieces,
    /// Dry and dissolves whole: sugar, acid, salt.
    Crystals,
    /// Dry, and does not dissolve or thickens: ground spice, starch, gum.
    Powder,
}

impl Form {
    /// All forms.
    pub const ALL: [Self; 5] = [
        Self::Liquid,
        Self::Thick,
        Self::Pieces,
        Self::Crystals,
        Self::Powder,
    ];

    /// Its word in documents and JSON.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Liquid => "liquid",
            Self::Thick => "thick",
            Self::Pieces => "pieces",
            Self::Crystals => "crystals",
            Self::Powder => "powder",
        }
    }

    /// Whether it can be measured by volume.
    #[must_use]
    pub const fn pours(self) -> bool {
        matches!(self, Self::Liquid | Self::Thick)
    }
}

impl fmt::Display for Form {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.as_str())
    }
}

impl FromStr for Form {
    type Err = UnknownWord;

    fn from_str(word: &str) -> Result<Self, Self::Err> {
        Self::ALL
            .into_iter()
            .find(|form| form.as_str() == word)
            .ok_or_else(|| UnknownWord::new(word, "liquid, thick, pieces, crystals or powder"))
    }
}
