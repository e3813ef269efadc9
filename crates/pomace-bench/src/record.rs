//! What a step did, in grams: the mass balance of a vessel.

use crate::remark::Remark;

/// Where grams go that no vessel keeps.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Destination {
    /// Into the air, as vapour.
    Air,
    /// On sieves, cloths, walls: washed off.
    Drain,
    /// Ice that is thrown away.
    Ice,
}

impl Destination {
    /// Its word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Air => "air",
            Self::Drain => "drain",
            Self::Ice => "ice",
        }
    }
}

/// One step: masses before and after.
#[derive(Clone, Debug, PartialEq)]
pub struct Record {
    /// In the vessel before, g.
    pub before: f64,
    /// Brought in, g.
    pub added: f64,
    /// In the vessel after, g.
    pub after: f64,
    /// Set aside as a by-product, g.
    pub left: f64,
    /// Gone, g, by destination.
    pub lost: Vec<(Destination, f64)>,
    /// Temperature after, °C.
    pub celsius: f64,
    /// What there is to say.
    pub remarks: Vec<Remark>,
}

impl Record {
    /// Mass that does not close, g: what came in less what went out. Zero but for rounding.
    #[must_use]
    pub fn gap(&self) -> f64 {
        let lost: f64 = self.lost.iter().map(|(_, grams)| grams).sum();
        self.before + self.added - self.after - self.left - lost
    }
}
