//! The one table of allowed ranges. The check and the sentence of the error both come from it.

use crate::scalar::Scalar;

/// A quantity with the range in which its model is trusted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// What is meant, as a person would say it.
    pub quantity: &'static str,
    /// Smallest value.
    pub low: f64,
    /// Largest value.
    pub high: f64,
    /// Unit of all three numbers.
    pub unit: &'static str,
}

/// A value outside the range of a model, or not a number.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[error("{} is {}, outside {} to {} {}", range.quantity, told(*given, range.unit), range.low, range.high, range.unit)]
pub struct Outside {
    /// The range that was left.
    pub range: Range,
    /// The value that was given.
    pub given: f64,
}

/// A value with no more digits than it needs; one without end is said to be beyond everything.
fn told(given: f64, unit: &str) -> String {
    if given.is_nan() {
        "not a number".to_owned()
    } else if given.is_infinite() {
        "beyond all bounds".to_owned()
    } else {
        let rounded: f64 = format!("{given:.3e}").parse().unwrap_or(given);
        format!("{rounded} {unit}")
    }
}

impl Range {
    /// The value, if it lies in the range.
    ///
    /// # Errors
    /// [`Outside`] for a value past either end, and for NaN.
    pub fn check<S: Scalar>(&self, value: S) -> Result<S, Outside> {
        if self.holds(value.value()) {
            Ok(value)
        } else {
            Err(Outside {
                range: *self,
                given: value.value(),
            })
        }
    }

    /// What a solver answers that has not settled: a value of this range that is no number.
    #[must_use]
    pub const fn not_found(&self) -> Outside {
        Outside {
            range: *self,
            given: f64::NAN,
        }
    }

    /// Whether the value lies in the range.
    #[must_use]
    pub fn holds(&self, value: f64) -> bool {
        value >= self.low && value <= self.high
    }
}

macro_rules! ranges {
    ($($(#[$doc:meta])* $name:ident: $quantity:literal, $low:expr, $high:expr, $unit:literal;)*) => {
        $($(#[$doc])* pub const $name: Range =
            Range { quantity: $quantity, low: $low, high: $high, unit: $unit };)*
        /// All ranges.
        pub const ALL: &[Range] = &[$($name,)*];
    };
}

ranges! {
    /// Temperatures at which density is known (the ethanol–water formula's own range is −20…40).
    DENSITY_TEMPERATURE: "the temperature", -20.0, 40.0, "°C";
    /// The same where there is no ethanol: the sucrose formula's own range, 0…80, carried on below.
    DENSITY_TEMPERATURE_DRY: "the temperature", -20.0, 80.0, "°C";
    /// Temperatures of water activity.
    ACTIVITY_TEMPERATURE: "the temperature", -58.15, 60.0, "°C";
    /// Temperatures of the acid constants.
    ACID_TEMPERATURE: "the temperature", 0.0, 50.0, "°C";
    /// Mass share of water below which activity, freezing and pH are not claimed.
    WATER_SHARE: "the share of water", 30.0, 100.0, "% of the mass";
    /// Molality of ethanol covered by the freezing data (68 % by mass).
    ETHANOL_MOLALITY: "the ethanol", 0.0, 46.2, "mol per kg of water";
    /// Mass of a mixture that is worth computing.
    MASS: "the mass", 1e-9, 1e12, "g";
    /// Mass share of dissolved solids, those that are liquid by themselves left out, covered by the
    /// density and refraction data.
    SOLIDS_SHARE: "the share of dissolved solids", 0.0, 86.0, "% of the mass";
    /// Share of strong ions among water and ions that the data of salts reach: a saturated brine.
    IONS_SHARE: "the share of ions among water and ions", 0.0, 27.0, "%";
    /// What a liquid with all that is in it can weigh: a volume that says otherwise is none.
    LIQUID_DENSITY: "the density", 600.0, 2000.0, "kg/m³";
    /// Strength.
    STRENGTH: "the strength", 0.0, 100.0, "%vol";
    /// Temperatures of the solubility of gases.
    GAS_TEMPERATURE: "the temperature", -5.0, 80.0, "°C";
    /// Pressures of the solubility of gases.
    GAS_PRESSURE: "the pressure of the gas", 0.0, 25.0, "bar";
    /// Strengths of the solubility of gases.
    GAS_STRENGTH: "the strength", 0.0, 45.0, "%vol";
    /// Ionic strength covered by the activity coefficients of ions.
    IONIC_STRENGTH: "the ionic strength", 0.0, 3.0, "mol per kg of water";
    /// Readings of a hydrometer or densimeter that the inverse accepts.
    READ_DENSITY: "the density", 780.0, 1450.0, "kg/m³";
    /// Readings of a refractometer.
    READ_BRIX: "the refractometer reading", -1.0, 86.0, "°Bx";
    /// pH of drinks and of what goes into them.
    PH: "the pH", 0.0, 14.0, "";
}
