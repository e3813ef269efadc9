//! A change to a document, and what comes of it.

use crate::id::Id;
use crate::index::Index;
use crate::when::When;

/// One change to one document.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// Which document; for a new one an id drawn by the caller.
    pub document: Id,
    /// The revision that the change was made on; `None` for a new document.
    pub based_on: Option<u64>,
    /// What is written.
    pub write: Write,
    /// Who changed it.
    pub who: String,
    /// When.
    pub when: When,
    /// Why, if it was said.
    pub why: Option<String>,
    /// What the new text can be found by; of no effect when the document is removed.
    pub index: Index,
}

/// What a change writes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Write {
    /// The whole text, as it is from now on. On a removed document it brings it back.
    Text(String),
    /// The document is removed. Its revisions stay.
    Remove,
}

/// Where and when a revision stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stamp {
    /// The document.
    pub document: Id,
    /// Number of the revision, from 1, without gaps.
    pub revision: u64,
    /// Place among all that was ever written to this book, growing.
    pub sequence: u64,
    /// Who wrote it.
    pub who: String,
    /// When.
    pub when: When,
    /// Why, if it was said.
    pub why: Option<String>,
    /// Whether it removes the document.
    pub removes: bool,
}

/// A revision with its text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Revision {
    /// Number, who, when.
    pub stamp: Stamp,
    /// The text; of a revision that removes the document, the last one before.
    pub text: String,
}

/// A document as it is now, without its text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Summary {
    /// drink, prep, ingredient: as the index said.
    pub kind: String,
    /// Its name; of a removed document the last one.
    pub name: String,
    /// The current revision.
    pub stamp: Stamp,
}

/// A document as it is now, with its text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Current {
    /// The document.
    pub document: Id,
    /// drink, prep, ingredient: as the index said.
    pub kind: String,
    /// Its name.
    pub name: String,
    /// Number of the revision.
    pub revision: u64,
    /// Who wrote it.
    pub who: String,
    /// When.
    pub when: When,
    /// The text.
    pub text: String,
}

/// What came of a save.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// It is on disk: the current revision of each document, in the order of the changes. Where a
    /// text was unchanged that is the revision from before.
    Saved(Vec<Stamp>),
    /// Somebody saved since. Nothing was written; this is what they wrote, for each document that
    /// was changed since.
    Conflict(Vec<Revision>),
}
