//! A trial: a small variant of a drink or a prep, told by what it changes.

use crate::span::{Span, Spanned};

/// A small variant, told by what it changes.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// What it is called in its document.
    pub name: Spanned<String>,
    /// What was found, or what is hoped for.
    pub note: Option<Spanned<String>>,
    /// Whether it has become the document: it is then kept for the record, and changes nothing.
    pub promoted: bool,
    /// What is changed in lines, steps and garnishes that are there.
    pub changes: Vec<TrialChange>,
    /// What is added.
    pub additions: Vec<TrialAddition>,
    /// Whether all of it could be read, and its document too.
    pub is_whole: bool,
    /// The whole table.
    pub span: Span,
}

/// The lists of a document that a trial can change.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum TrialList {
    /// Lines of a drink.
    Line,
    /// Steps.
    Step,
    /// The garnish of a drink.
    Garnish,
}

impl TrialList {
    /// All lists.
    pub const ALL: [Self; 3] = [Self::Line, Self::Step, Self::Garnish];

    /// The key of the list.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Line => "line",
            Self::Step => "step",
            Self::Garnish => "garnish",
        }
    }
}

/// A value that a key is given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Setting {
    /// A text, or a number as it is written.
    Text(String),
    /// True or false.
    Flag(bool),
}

impl std::fmt::Display for Setting {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Text(text) => f.write_str(text),
            Self::Flag(flag) => write!(f, "{flag}"),
        }
    }
}

/// What happens to one line, step or garnish.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialChange {
    /// In which list it stands.
    pub list: TrialList,
    /// Its place there, from 0; `None` where the text does not lead to one.
    pub index: Option<usize>,
    /// Whether it is left out.
    pub left_out: bool,
    /// Keys with their new values.
    pub settings: Vec<(String, Setting)>,
    /// The whole table.
    pub span: Span,
}

/// A line, step or garnish that is added.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialAddition {
    /// To which list.
    pub list: TrialList,
    /// Before which of those that are there, from 0; at the end if none is named.
    pub before: Option<usize>,
    /// Its keys.
    pub settings: Vec<(String, Setting)>,
    /// The whole table.
    pub span: Span,
}
