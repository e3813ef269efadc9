//! Marks: how strong a taste is that no figure tells, in the house's own judgement.

use crate::span::Spanned;

/// Marks from 0 (none) to 5 (very strong), given by whoever tasted; never computed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Marks {
    /// Bitterness.
    pub bitter: Option<Spanned<f64>>,
    /// Savouriness.
    pub savoury: Option<Spanned<f64>>,
    /// What dries the mouth.
    pub tannin: Option<Spanned<f64>>,
}

impl Marks {
    /// The strongest mark.
    pub const MOST: f64 = 5.0;

    /// The marks that are given, with their names.
    pub fn given(&self) -> impl Iterator<Item = (&'static str, f64)> {
        let marks = [
            ("bitter", &self.bitter),
            ("savoury", &self.savoury),
            ("tannin", &self.tannin),
        ];
        marks
            .into_iter()
            .filter_map(|(name, mark)| Some((name, mark.as_ref()?.value)))
    }
}
