//! A range that a drink is held against: what somebody remembers as usual, not what is right.

use crate::span::Spanned;

use super::ToldValue;

/// Where drinks of a kind are said to lie in the glass; from memory or a book, and unchecked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Range {
    /// Of what: `shaken sours`.
    pub of: Option<Spanned<String>>,
    /// Acid counted as citric, g/L.
    pub sourness: Option<Spanned<ToldValue>>,
    /// Sweetness counted as sucrose, g/L.
    pub sweetness: Option<Spanned<ToldValue>>,
}
