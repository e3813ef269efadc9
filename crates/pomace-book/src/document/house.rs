//! What holds for the whole house.

use crate::quantity::Amount;
use crate::span::Spanned;

use super::Ice;

/// Settings of a house: its name, its measures, its ice.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseDoc {
    /// Its name.
    pub name: Spanned<String>,
    /// Currency that costs are shown in, three letters.
    pub currency: Option<Spanned<String>>,
    /// The jiggers in the house.
    pub measures: Vec<Spanned<Amount>>,
    /// One dash of the house's bottles, if measured.
    pub dash: Option<Spanned<Amount>>,
    /// One drop of the house's pipettes, if measured.
    pub drop: Option<Spanned<Amount>>,
    /// One of the house's barspoons, if measured.
    pub barspoon: Option<Spanned<Amount>>,
    /// The ice in use where a step names none.
    pub ice: Option<Spanned<Ice>>,
    /// A word to whoever reads it.
    pub note: Option<Spanned<String>>,
}
