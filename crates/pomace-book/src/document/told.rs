//! Values as a label or a person tells them: one number, a range, or not stated.

use crate::words::words;

/// A value as a label or a person tells it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ToldValue {
    /// One number.
    Exactly(f64),
    /// At least, at most.
    Between(f64, f64),
    /// Known to be there, but not how much.
    NotStated,
}

words! {
    /// What a told reading was read with or of.
    Instrument {
        /// What a refractometer shows, °Bx.
        Brix = "brix",
        /// pH.
        Ph = "ph",
        /// % vol.
        Strength = "strength",
        /// g/mL at 20 °C.
        Density = "density",
        /// Grams.
        Mass = "mass",
        /// Millilitres.
        Volume = "volume",
        /// g/L.
        Acid = "acid",
    }
}
