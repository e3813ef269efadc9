//! Temperatures.

use super::cursor::{Cursor, shorten};
use super::error::{Fault, QuantityError};

/// From liquid nitrogen to a flame, °C.
const COLDEST: f64 = -200.0;
const HOTTEST: f64 = 1500.0;

/// Reads a temperature, in °C.
///
/// ```
/// assert_eq!(pomace_book::parse_temperature("64.4 F")?.round(), 18.0);
/// # Ok::<(), pomace_book::QuantityError>(())
/// ```
///
/// # Errors
/// Where no one temperature with its unit is written.
pub fn parse_temperature(text: &str) -> Result<f64, QuantityError> {
    let mut cursor = Cursor::new(text)?;
    let shown = shorten(text.trim());
    if let Some(error) = place(&cursor) {
        return Err(error);
    }
    let minus = cursor.take_minus();
    cursor.take_sign(&['+']);
    let Some(number) = cursor.take_number() else {
        return Err(QuantityError::new(
            Fault::NoNumber,
            cursor.offset(),
            format!("there is no temperature in `{shown}`"),
            "write degrees and their unit, such as `18 C` or `64 F`",
        ));
    };
    let value = if minus { -number.value } else { number.value };
    let range = |cursor: &Cursor<'_>| {
        let goes_on = (cursor.is_dash(0) || cursor.is_word(0, &["to", "or"])) && !cursor.is_done();
        goes_on.then(|| {
            QuantityError::new(
                Fault::Several,
                cursor.offset(),
                format!("`{shown}` is a range of temperatures"),
                "write the one you aim for, such as `18 C`, and the range as ‹note›",
            )
        })
    };
    if let Some(error) = range(&cursor) {
        return Err(error);
    }
    let at = cursor.offset();
    cursor.take_word(&["°", "º", "deg", "degree", "degrees"]);
    let celsius = if cursor.take_word(&["c", "°c", "ºc", "celsius", "centigrade"]) {
        value
    } else if cursor.take_word(&["f", "°f", "ºf", "fahrenheit"]) {
        (value - 32.0) / 1.8
    } else if let Some(word) = cursor.word(0) {
        return Err(QuantityError::new(
            Fault::UnknownUnit,
            at,
            format!("`{}` is no unit of temperature here", shorten(word)),
            "write `C` or `F`, such as `18 C` or `64 F`",
        ));
    } else {
        return Err(QuantityError::new(
            Fault::NoUnit,
            at,
            format!("`{shown}` does not say whether Celsius or Fahrenheit"),
            format!("write `{value} C` or `{value} F`"),
        ));
    };
    if let Some(error) = range(&cursor) {
        return Err(error);
    }
    cursor.finish("write only the temperature here, and anything else as ‹note›")?;
    if !(COLDEST..=HOTTEST).contains(&celsius) {
        return Err(QuantityError::new(
            Fault::OutOfRange,
            0,
            format!(
                "`{shown}` is colder or hotter than any kitchen gets ({COLDEST} to {HOTTEST} C)"
            ),
            "check the number and the unit",
        ));
    }
    Ok(celsius)
}

/// Places named instead of a temperature.
fn place(cursor: &Cursor<'_>) -> Option<QuantityError> {
    let word = cursor.word(0)?;
    let mend = match word.to_lowercase().as_str() {
        "room" | "ambient" => "write the room's temperature, such as `20 C`",
        "fridge" | "chilled" | "cold" | "refrigerated" => "write the fridge's, such as `4 C`",
        "freezer" | "frozen" => "write the freezer's, such as `-18 C`",
        "boiling" | "boil" => "write `100 C`",
        "hot" | "warm" | "lukewarm" => "write degrees, such as `50 C`",
        _ => return None,
    };
    Some(QuantityError::new(
        Fault::Vague,
        cursor.offset(),
        format!(
            "`{}` is a different temperature in every house",
            shorten(cursor.text.trim())
        ),
        mend,
    ))
}
