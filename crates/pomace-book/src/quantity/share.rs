//! Shares of a whole: losses, moisture, what is eaten.

use super::cursor::{Cursor, shorten};
use super::error::{Fault, QuantityError};

/// Reads a share of a whole, as a fraction from 0 to 1.
///
/// ```
/// assert_eq!(pomace_book::parse_share("12 %")?, 0.12);
/// assert_eq!(pomace_book::parse_share("half")?, 0.5);
/// # Ok::<(), pomace_book::QuantityError>(())
/// ```
///
/// # Errors
/// Where no share from nothing to all is written.
pub fn parse_share(text: &str) -> Result<f64, QuantityError> {
    let mut cursor = Cursor::new(text)?;
    let shown = shorten(text.trim());
    let mend = "write a share such as `12 %`, `half`, `none` or `all`";
    let start = cursor.offset();
    let share = if cursor.take_word(&["none", "nothing", "no"]) {
        0.0
    } else if cursor.take_word(&["all", "everything", "whole"]) {
        1.0
    } else {
        let minus = cursor.take_minus();
        let Some(number) = cursor.take_number() else {
            return Err(QuantityError::new(
                Fault::NoNumber,
                start,
                format!("there is no share in `{shown}`"),
                mend,
            ));
        };
        let value = if minus { -number.value } else { number.value };
        let per_cent = cursor.take_sign(&['%', '％'])
            || cursor.take_word(&["percent", "pct"])
            || (cursor.take_word(&["per"]) && cursor.take_word(&["cent"]));
        let fraction = number.shape == super::number::Shape::Fraction
            || number.shape == super::number::Shape::Word && value.fract() != 0.0;
        if per_cent {
            value / 100.0
        } else if fraction {
            value
        } else {
            let likely = if value.abs() < 1.0 {
                value * 100.0
            } else {
                value
            };
            return Err(QuantityError::new(
                Fault::NoUnit,
                start,
                format!("`{shown}` does not say of how many"),
                format!(
                    "write `{} %`, if that is meant",
                    super::write::plain(likely)
                ),
            ));
        }
    };
    if cursor.is_dash(0) || cursor.is_word(0, &["to", "or"]) {
        return Err(QuantityError::new(
            Fault::Several,
            cursor.offset(),
            format!("`{shown}` is a range"),
            "write the one you count on, such as `12 %`, and the range as ‹note›",
        ));
    }
    cursor.finish(mend)?;
    if !(0.0..=1.0).contains(&share) {
        return Err(QuantityError::new(
            Fault::OutOfRange,
            start,
            format!("`{shown}` is not between nothing and all"),
            "write a share from `0 %` to `100 %`",
        ));
    }
    Ok(share)
}
