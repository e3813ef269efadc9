//! Rows that are only ever added: lots, readings, ballots.

use crate::id::Id;
use crate::when::When;

/// A row to add.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewRow {
    /// Drawn by the caller; the same row sent again under it is added once.
    pub id: Id,
    /// lot, reading, ballot: a word of small letters, digits and `-`.
    pub kind: String,
    /// Which revision of which document it was made with, where it has one.
    pub made_with: Option<MadeWith>,
    /// Version of the model that computed what is in it.
    pub model: String,
    /// Who added it.
    pub who: String,
    /// When.
    pub when: When,
    /// What it says, as JSON.
    pub json: String,
    /// The row that this one is to be read instead of.
    pub corrects: Option<Id>,
}

/// A revision of a document.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct MadeWith {
    /// The document.
    pub document: Id,
    /// Its revision.
    pub revision: u64,
}

/// A row as it was added.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// What was added.
    pub row: NewRow,
    /// Place among all that was ever written to this book, growing.
    pub sequence: u64,
}

/// Which rows are wanted, oldest first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RowsWanted {
    /// Of this kind only.
    pub kind: Option<String>,
    /// Made with any revision of this document only.
    pub document: Option<Id>,
    /// Added after this place in the sequence.
    pub after: u64,
    /// With or without rows that were corrected.
    pub corrected: Corrected,
}

/// What becomes of rows that further rows correct.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Corrected {
    /// They are left out: what stands.
    #[default]
    LeftOut,
    /// They are told too: all that was ever said.
    Told,
}
