//! What a simmer, a drying or a fermentation ends at.

use super::amount::parse_amount;
use super::cursor::{Cursor, shorten};
use super::error::{Fault, QuantityError};
use super::reading::Reading;
use super::share::parse_share;

/// What a simmer or a drying ends at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Target {
    /// This share of the mass goes, 0 to 1.
    LossShare(f64),
    /// This mass is left, in grams.
    ToGrams(f64),
    /// This volume is left, in millilitres at 20 °C.
    ToMillilitres(f64),
    /// This many grams of dissolved solids in 100 g are reached.
    ToBrix(f64),
}

/// Sugar that a fermentation uses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SugarUsed {
    /// In grams.
    Grams(f64),
    /// As a share of the sugar that is there, 0 to 1.
    Share(f64),
}

/// Reads what is left at the end: `300 g`, `1 L`, `65 Brix`, `half`.
///
/// # Errors
/// Where no one end is written.
pub fn parse_target(text: &str) -> Result<Target, QuantityError> {
    let mut cursor = Cursor::new(text)?;
    if let Some(number) = cursor.take_number() {
        let brix = cursor.take_word(&["brix", "°brix", "bx", "°bx"]);
        if brix && cursor.is_done() {
            return if number.value > 0.0 && number.value < 100.0 && number.other.is_none() {
                Ok(Target::ToBrix(number.value))
            } else {
                Err(QuantityError::new(
                    Fault::OutOfRange,
                    0,
                    format!("`{}` is no Brix that a syrup reaches", shorten(text.trim())),
                    "write a number between 0 and 100, such as `65 Brix`",
                ))
            };
        }
    }
    if let Ok(left) = parse_share(text) {
        return Ok(Target::LossShare(1.0 - left));
    }
    match parse_amount(text)?.reading {
        Reading::Mass { grams } => Ok(Target::ToGrams(grams)),
        Reading::Volume { millilitres } => Ok(Target::ToMillilitres(millilitres)),
        other => Err(not_one(
            "what is left",
            text,
            &other,
            "`300 g`, `1 L`, `65 Brix` or `half`",
        )),
    }
}

/// Reads how much sugar a fermentation uses: `30 g`, `60 %`.
///
/// # Errors
/// Where neither a weight nor a share is written.
pub fn parse_sugar_used(text: &str) -> Result<SugarUsed, QuantityError> {
    if let Ok(share) = parse_share(text) {
        return Ok(SugarUsed::Share(share));
    }
    match parse_amount(text)?.reading {
        Reading::Mass { grams } => Ok(SugarUsed::Grams(grams)),
        Reading::Share { fraction, of: None } if fraction <= 1.0 => Ok(SugarUsed::Share(fraction)),
        other => Err(not_one("the sugar used", text, &other, "`30 g` or `60 %`")),
    }
}

fn not_one(what: &str, text: &str, reading: &Reading, examples: &str) -> QuantityError {
    let shown = shorten(text.trim());
    if let Reading::Question { why, .. } = reading {
        return QuantityError::new(
            Fault::BadNumber,
            0,
            format!("`{shown}` can be read in more than one way: {why}"),
            format!("write {what} as {examples}"),
        );
    }
    QuantityError::new(
        Fault::UnknownUnit,
        0,
        format!("`{shown}` does not say {what}"),
        format!("write {what} as {examples}"),
    )
}
