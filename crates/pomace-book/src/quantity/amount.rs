//! Amounts, from text to what they say.

use super::cursor::{Cursor, shorten};
use super::error::{Fault, QuantityError};
use super::reading::{Amount, Reading};
use super::{range, vague};

/// Reads an amount as people write it.
///
/// ```
/// use pomace_book::{Reading, parse_amount};
///
/// assert_eq!(parse_amount("40 mL")?.reading, Reading::Volume { millilitres: 40.0 });
/// assert!(matches!(parse_amount("1,500 g")?.reading, Reading::Question { .. }));
/// assert_eq!(parse_amount("30 m").unwrap_err().mend.to_string(), "write `mL`, if that is meant: `30 mL`");
/// # Ok::<(), pomace_book::QuantityError>(())
/// ```
///
/// # Errors
/// Where the text names no amount that could be weighed, poured or counted; the error says why
/// and how to mend it.
pub fn parse_amount(text: &str) -> Result<Amount, QuantityError> {
    let mut cursor = Cursor::new(text)?;
    let about = cursor.take_sign(&['~', '≈', '∼'])
        || cursor.take_word(&[
            "about",
            "approx",
            "approximately",
            "ca",
            "circa",
            "roughly",
            "around",
        ]);
    let reading = if vague::take_to_taste(&mut cursor) {
        to_taste(&mut cursor)?
    } else {
        range::read(&mut cursor)?
    };
    end(&cursor)?;
    Ok(Amount {
        text: text.to_owned(),
        reading,
        about,
    })
}

/// `to taste` has been taken; a start may follow.
fn to_taste(cursor: &mut Cursor<'_>) -> Result<Reading, QuantityError> {
    let comma = cursor.take_sign(&[',', ';', ':']);
    if !cursor.is_word(0, &["from", "start", "starting", "begin"]) {
        if cursor.is_done() && !comma {
            return Ok(Reading::ToTaste { from: None });
        }
        return Err(QuantityError::new(
            Fault::Leftover,
            cursor.offset(),
            format!(
                "`{}` after `to taste` is not understood",
                shorten(cursor.rest())
            ),
            "write `to taste`, or `to taste, from 1 g`",
        ));
    }
    cursor.skip(1);
    cursor.take_word(&["with", "from", "at"]);
    let taste = |from| Reading::ToTaste {
        from: Some(Box::new(from)),
    };
    // A question stays outermost, so that it is asked.
    Ok(match range::read(cursor)? {
        Reading::Question { why, readings } => Reading::Question {
            why,
            readings: readings.into_iter().map(taste).collect(),
        },
        from => taste(from),
    })
}

/// What is left over after a whole amount, and why that is one too many.
fn end(cursor: &Cursor<'_>) -> Result<(), QuantityError> {
    let several = cursor.is_sign(0, &['+', '&', '/', '=', '('])
        || cursor.is_word(0, &["plus", "and", "or"])
        || cursor.is_number(0)
        || (cursor.is_sign(0, &[',', ';']) && cursor.is_number(1));
    if several {
        return Err(QuantityError::new(
            Fault::Several,
            cursor.offset(),
            format!(
                "there is a second amount here: `{}`",
                shorten(cursor.rest())
            ),
            "keep one amount; if both go in, give each its own line or step",
        ));
    }
    if cursor.is_word(0, &["of"]) {
        return Err(QuantityError::new(
            Fault::Leftover,
            cursor.offset(),
            format!("the amount also says of what: `{}`", shorten(cursor.rest())),
            "write only the amount here and the name as ‹what›; a share is written `35 % of peel`",
        ));
    }
    cursor.finish("write a number and a unit here, and anything else as ‹note›")
}
