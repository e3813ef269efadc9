//! Pressures of a charge.

use super::cursor::{Cursor, shorten};
use super::error::{Fault, QuantityError};

/// A gauge pressure, in bar: what the regulator shows, above the air's.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Pressure(pub f64);

impl Pressure {
    /// In bar above the air's.
    #[must_use]
    pub const fn bar(self) -> f64 {
        self.0
    }
}

/// The strongest siphon or keg, bar.
const HIGHEST: f64 = 60.0;

/// Reads a gauge pressure: `2.5 bar`, `36 psi`, `250 kPa`.
///
/// # Errors
/// Where no one pressure is written.
pub fn parse_pressure(text: &str) -> Result<Pressure, QuantityError> {
    let mut cursor = Cursor::new(text)?;
    let shown = shorten(text.trim());
    let mend = "write the gauge pressure, such as `2.5 bar` or `36 psi`";
    let minus = cursor.take_minus();
    let Some(number) = cursor.take_number() else {
        return Err(QuantityError::new(
            Fault::NoNumber,
            cursor.offset(),
            format!("there is no pressure in `{shown}`"),
            mend,
        ));
    };
    let at = cursor.offset();
    // 1 psi = 6,894.757 Pa.
    let bar = if cursor.take_word(&["bar", "bars"]) {
        number.value
    } else if cursor.take_word(&["psi"]) {
        number.value * 0.068_947_57
    } else if cursor.take_word(&["kpa"]) {
        number.value / 100.0
    } else {
        return Err(QuantityError::new(
            Fault::NoUnit,
            at,
            format!("`{shown}` has no unit of pressure that is known here"),
            mend,
        ));
    };
    cursor.finish(mend)?;
    if minus || bar.is_nan() || bar <= 0.0 || bar > HIGHEST || number.other.is_some() {
        return Err(QuantityError::new(
            Fault::OutOfRange,
            0,
            format!("`{shown}` is no pressure that a siphon or keg holds (up to {HIGHEST} bar)"),
            mend,
        ));
    }
    Ok(Pressure(bar))
}
