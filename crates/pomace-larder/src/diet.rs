//! Whether an ingredient suits a diet.

use std::fmt;
use std::str::FromStr;

use crate::table::UnknownWord;

/// Whether an ingredient suits vegans, or vegetarians.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Diet {
    /// It does.
    Yes,
    /// It does not.
    No,
    /// It depends on the maker: fining agents, rennet, bone char, shellac.
    Maybe,
    /// The table does not say.
    Unknown,
}

impl Diet {
    /// All answers.
    pub const ALL: [Self; 4] = [Self::Yes, Self::No, Self::Maybe, Self::Unknown];

    /// Its word in documents and JSON.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Yes => "yes",
            Self::No => "no",
            Self::Maybe => "maybe",
            Self::Unknown => "unknown",
        }
    }
}

impl fmt::Display for Diet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.as_str())
    }
}

impl FromStr for Diet {
    type Err = UnknownWord;

    fn from_str(word: &str) -> Result<Self, Self::Err> {
        Self::ALL
            .into_iter()
            .find(|diet| diet.as_str() == word)
            .ok_or_else(|| UnknownWord::new(word, "yes, no, maybe or unknown"))
    }
}
