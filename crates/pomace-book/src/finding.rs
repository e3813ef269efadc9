//! One fault or remark about a document, the same value for terminal, page and JSON.

use serde::Serialize;

use crate::span::Span;
use crate::voice::Words;

/// What is wrong, where, and how to mend it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Finding {
    /// Name of the document; its path while it has no readable name.
    pub document: String,
    /// Where in the document.
    pub place: Place,
    /// What it is about.
    pub topic: Topic,
    /// How much it matters.
    pub gravity: Gravity,
    /// What is wrong.
    pub message: Words,
    /// Whose rule it is, where there is one.
    pub authority: Option<String>,
    /// How to mend it.
    pub mend: Words,
}

/// Where in a document, for people (line, column, key) and for editors (span).
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Place {
    /// File or name under which the text came in.
    pub path: String,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// Bytes of the text.
    #[serde(skip)]
    pub span: Span,
    /// In words: `step 3, amount`.
    pub key: String,
}

/// What a finding is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Topic {
    /// The text cannot be read as written.
    Syntax,
    /// A name that leads nowhere or to two things.
    Name,
    /// An amount, time, temperature or other measure.
    Amount,
    /// Sweet, sour, strength.
    Balance,
    /// How long it keeps.
    Keeping,
    /// Allergens.
    Allergen,
    /// A claim such as vegan.
    Claim,
    /// How much of something is too much.
    Dose,
    /// What the law says.
    Law,
    /// How it is made and handled.
    Handling,
}

/// How much a finding matters, the gravest last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Gravity {
    /// Good to know.
    Note,
    /// Look at it before going on.
    Caution,
    /// Do not go on.
    Stop,
}

impl std::fmt::Display for Topic {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Syntax => "syntax",
            Self::Name => "name",
            Self::Amount => "amount",
            Self::Balance => "balance",
            Self::Keeping => "keeping",
            Self::Allergen => "allergen",
            Self::Claim => "claim",
            Self::Dose => "dose",
            Self::Law => "law",
            Self::Handling => "handling",
        })
    }
}

impl std::fmt::Display for Gravity {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Note => "note",
            Self::Caution => "caution",
            Self::Stop => "stop",
        })
    }
}

/// Place first, then what is wrong, then the way out; no colour needed.
impl std::fmt::Display for Finding {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Place {
            path,
            line,
            column,
            key,
            ..
        } = &self.place;
        write!(f, "{}: {}", self.gravity, self.message)?;
        write!(f, "\n  at {path}:{line}:{column}")?;
        if !key.is_empty() {
            write!(f, " ({key})")?;
        }
        if let Some(authority) = &self.authority {
            write!(f, "\n  says {authority}")?;
        }
        if !self.mend.is_empty() {
            write!(f, "\n  mend: {}", self.mend)?;
        }
        Ok(())
    }
}
