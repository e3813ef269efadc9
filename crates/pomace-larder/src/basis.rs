//! How well a number is known.

use std::fmt;
use std::str::FromStr;

use crate::table::UnknownWord;

/// How a number came to be known, from best to worst.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Basis {
    /// A reading of the house.
    Measured,
    /// A label, a definition, a law.
    Declared,
    /// A table or a paper: the usual of its kind.
    Typical,
    /// Memory, practice, or a rule of this crate.
    Assumed,
}

impl Basis {
    /// All of them, from best to worst.
    pub const ALL: [Self; 4] = [Self::Measured, Self::Declared, Self::Typical, Self::Assumed];

    /// Its word in documents and JSON.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Measured => "measured",
            Self::Declared => "declared",
            Self::Typical => "typical",
            Self::Assumed => "assumed",
        }
    }
}

impl fmt::Display for Basis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.as_str())
    }
}

impl FromStr for Basis {
    type Err = UnknownWord;

    fn from_str(word: &str) -> Result<Self, Self::Err> {
        Self::ALL
            .into_iter()
            .find(|basis| basis.as_str() == word)
            .ok_or_else(|| UnknownWord::new(word, "measured, declared, typical or assumed"))
    }
}

/// One number of a table, with where it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cell {
    /// The number, in the unit that its field names.
    pub value: f64,
    /// How well it is known.
    pub basis: Basis,
    /// Where it was taken from.
    pub source: &'static str,
}
