//! What a house can hold: the one table that both the check and its message read.

use super::error::{Fault, QuantityError};
use super::reading::Reading;

struct Limit {
    smallest: f64,
    largest: f64,
    /// As printed.
    smallest_shown: &'static str,
    largest_shown: &'static str,
}

const fn limit(
    smallest: f64,
    largest: f64,
    smallest_shown: &'static str,
    largest_shown: &'static str,
) -> Limit {
    Limit {
        smallest,
        largest,
        smallest_shown,
        largest_shown,
    }
}

const MASS_GRAMS: Limit = limit(1e-4, 1e6, "0.1 mg", "1,000 kg");
const VOLUME_MILLILITRES: Limit = limit(1e-3, 1e6, "0.001 mL", "1,000 L");
const OUNCES: Limit = limit(1e-3, 33_000.0, "0.001 oz", "33,000 oz");
const PIECES: Limit = limit(0.01, 1e5, "0.01 of a piece", "100,000 pieces");
const SHARE: Limit = limit(1e-7, 1e3, "0.00001 %", "100,000 %");

/// Refuses nothing, less than nothing, and what no house can hold.
pub(super) fn check(reading: &Reading, text: &str, offset: usize) -> Result<(), QuantityError> {
    let (value, limit) = match reading {
        Reading::Mass { grams } => (*grams, MASS_GRAMS),
        Reading::Volume { millilitres } => (*millilitres, VOLUME_MILLILITRES),
        Reading::Measure { millilitres, .. } => (*millilitres, VOLUME_MILLILITRES),
        Reading::Ounces { count } => (*count, OUNCES),
        Reading::Count { count, .. } => (*count, PIECES),
        Reading::Share { fraction, .. } => (*fraction, SHARE),
        Reading::Between { low, high } => {
            check(low, text, offset)?;
            return check(high, text, offset);
        }
        Reading::ToTaste { from } => {
            return from
                .as_deref()
                .map_or(Ok(()), |from| check(from, text, offset));
        }
        Reading::Question { readings, .. } => {
            return readings
                .iter()
                .try_for_each(|reading| check(reading, text, offset));
        }
    };
    let wrong =
        |what: String, mend: &str| Err(QuantityError::new(Fault::OutOfRange, offset, what, mend));
    if value.is_nan() {
        return wrong(
            format!("`{text}` is no number"),
            "write an amount such as `40 mL`",
        );
    }
    if value <= 0.0 {
        return wrong(
            format!(
                "`{text}` is {}nothing",
                if value < 0.0 { "less than " } else { "" }
            ),
            "write an amount above zero, or leave it out",
        );
    }
    if value < limit.smallest {
        return wrong(
            format!(
                "`{text}` is less than {}, which no scale or pipette shows",
                limit.smallest_shown
            ),
            "check the unit; for traces, make a dilute solution as a prep and measure that",
        );
    }
    if value > limit.largest {
        return wrong(
            format!(
                "`{text}` is more than {}, which is more than a house can hold",
                limit.largest_shown
            ),
            "check the unit and the decimal point",
        );
    }
    Ok(())
}
