//! What a name may lead to.

use crate::book::DocumentId;

/// What a name leads to.
#[derive(Clone, Debug, PartialEq)]
pub enum Reference {
    /// A document of the book.
    Document(DocumentId),
    /// What a step of a prep leaves behind.
    ByProduct {
        /// The prep.
        prep: DocumentId,
        /// The by-product's name as the prep writes it.
        name: String,
    },
    /// A part of an ingredient of the book. Where the ingredient lists no such part, it is the
    /// larder's part of what the ingredient is `like`, or of the whole of the same name.
    Part {
        /// The ingredient.
        of: Box<Reference>,
        /// The part's name, as the ingredient or the larder writes it.
        part: String,
    },
    /// The stream that a step of the same document named by `as` or `keep`.
    Stream(usize),
    /// The by-product that a step of the same document left.
    Left(usize),
    /// What a step of the same document brought in; only of a share's `of`.
    Added(usize),
    /// A line of the same drink; only of a share's `of`.
    Line(usize),
    /// An ingredient of the built-in catalogue.
    Catalogue(&'static pomace_larder::Ingredient),
    /// A part of a whole that the built-in catalogue takes apart.
    WholePart {
        /// The whole, in the split that has this part.
        whole: &'static pomace_larder::Whole,
        /// Index among its parts.
        part: usize,
    },
    /// `aquavit, 42 %`: plain ethanol and water of this strength, nothing else.
    Spirit {
        /// What it is called.
        name: String,
        /// % vol.
        strength_percent: f64,
    },
}

impl Reference {
    /// The document of the book that must be computed first, if there is one.
    #[must_use]
    pub fn document(&self) -> Option<DocumentId> {
        match self {
            Self::Document(id) | Self::ByProduct { prep: id, .. } => Some(*id),
            Self::Part { of, .. } => of.document(),
            _ => None,
        }
    }
}

/// Where in a document a name stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Spot {
    /// A line of a drink.
    Line(usize),
    /// A step of a prep or drink.
    Step(usize),
    /// A garnish of a drink.
    Garnish(usize),
}
