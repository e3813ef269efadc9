//! Quantities with their unit in the type.
//!
//! One unit per type, named in full. Two quantities of the same dimension but another meaning are
//! two types: a temperature is not a temperature difference.
//!
//! ```compile_fail
//! use pomace_matter::units::{Celsius, Kelvins};
//! let wrong: Celsius = Kelvins(3.0);
//! ```
//!
//! The types are open (`.0`) on purpose: formulas take the unit off at their edge and work in
//! plain numbers; see each function for the units inside.

macro_rules! quantities {
    ($($(#[$doc:meta])* $name:ident, $symbol:literal;)*) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        pub struct $name<S = f64>(pub S);

        impl std::fmt::Display for $name<f64> {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                std::fmt::Display::fmt(&self.0, f)?;
                write!(f, " {}", $symbol)
            }
        }
    )*};
}

quantities! {
    /// Mass in grams.
    Grams, "g";
    /// Volume in millilitres.
    Millilitres, "mL";
    /// Temperature in degrees Celsius.
    Celsius, "°C";
    /// Difference of two temperatures in kelvins.
    Kelvins, "K";
    /// Density in kilograms per cubic metre (grams per litre of the liquid itself).
    KilogramsPerCubicMetre, "kg/m³";
    /// Alcoholic strength: millilitres of ethanol in 100 mL, both at 20 °C.
    VolumePercent, "%vol";
    /// Reading of an instrument graduated in sucrose: grams of sucrose in 100 g.
    Brix, "°Bx";
    /// Share of the whole mass, 0 to 1.
    MassFraction, "g/g";
    /// Grams in a litre of the liquid.
    GramsPerLitre, "g/L";
}

/// 0 °C in kelvins.
pub const ICE_POINT_KELVIN: f64 = 273.15;

/// Molar gas constant, J/(mol K) (CODATA 2018, exact).
pub const GAS_CONSTANT: f64 = 8.314462618;
