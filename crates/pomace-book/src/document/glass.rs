//! A glass as a spec describes it: `tall, 320 mL, frosted`.

use crate::quantity::cursor::{Cursor, shorten};
use crate::quantity::{Fault, QuantityError, Reading, parse_amount};

/// US fluid ounces are how a glass in ounces is sold, mL.
const FLUID_OUNCE: f64 = 29.5735295625;

/// A glass as described.
#[derive(Clone, Debug, PartialEq)]
pub struct Glass {
    /// As written.
    pub text: String,
    /// What it is called: `tall`.
    pub name: String,
    /// What it holds when brimful.
    pub millilitres: Option<f64>,
    /// Whether it comes from the freezer.
    pub frosted: bool,
    /// Whether it comes from the fridge or was chilled with ice.
    pub chilled: bool,
}

impl Glass {
    /// Reads a description of a glass.
    ///
    /// # Errors
    /// Where its volume cannot be read, or is none that a glass has.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let mut cursor = Cursor::new(text)?;
        let mut glass = Self {
            text: text.to_owned(),
            name: String::new(),
            millilitres: None,
            frosted: false,
            chilled: false,
        };
        while !cursor.is_done() {
            if cursor.is_number(0) && !cursor.is_word(0, &["a", "an", "one", "half"]) {
                glass.millilitres = Some(volume(&mut cursor)?);
            } else if cursor.take_word(&["frosted", "frozen", "freezer-cold"]) {
                glass.frosted = true;
            } else if cursor.take_word(&["chilled", "cold", "cooled"]) {
                glass.chilled = true;
            } else if let Some(word) = cursor.word(0) {
                if !matches!(word.to_lowercase().as_str(), "glass" | "a" | "an" | "the") {
                    if !glass.name.is_empty() {
                        glass.name.push(' ');
                    }
                    glass.name.push_str(word);
                }
                cursor.skip(1);
            } else if !cursor.take_sign(&[',', ';', '(', ')', '&']) {
                cursor.finish("describe it like `tall, 320 mL` or `stemmed, 160 mL, frosted`")?;
            }
        }
        Ok(glass)
    }
}

fn volume(cursor: &mut Cursor<'_>) -> Result<f64, QuantityError> {
    let start = cursor.offset();
    let mend = "write its brimful volume, such as `tall, 320 mL`";
    let (text, pieces) = amount_ahead(cursor);
    let amount = parse_amount(text).map_err(|error| QuantityError {
        offset: error.offset + start,
        ..error
    })?;
    let millilitres = match amount.reading {
        Reading::Volume { millilitres } => millilitres,
        Reading::Ounces { count } => count * FLUID_OUNCE,
        Reading::Question { why, .. } => {
            return Err(QuantityError::new(
                Fault::BadNumber,
                start,
                format!(
                    "`{}` can be read in more than one way: {why}",
                    shorten(text)
                ),
                mend,
            ));
        }
        _ => {
            return Err(QuantityError::new(
                Fault::UnknownUnit,
                start,
                format!("`{}` is no volume of a glass", shorten(text)),
                mend,
            ));
        }
    };
    if !(5.0..=10_000.0).contains(&millilitres) {
        return Err(QuantityError::new(
            Fault::OutOfRange,
            start,
            format!("no glass holds `{}`", shorten(text)),
            mend,
        ));
    }
    cursor.skip(pieces);
    Ok(millilitres)
}

/// The pieces of an amount: up to a comma, or the longest that reads as a volume.
fn amount_ahead<'t>(cursor: &Cursor<'t>) -> (&'t str, usize) {
    let start = cursor.offset();
    let until = |pieces: usize| {
        let end = cursor.piece(pieces - 1).map_or(start, |piece| piece.end);
        cursor.text.get(start..end).unwrap_or("")
    };
    let volume = (1..=4).rev().find(|pieces| {
        cursor.piece(pieces - 1).is_some()
            && parse_amount(until(*pieces)).is_ok_and(|amount| {
                matches!(
                    amount.reading,
                    Reading::Volume { .. } | Reading::Ounces { .. }
                )
            })
    });
    let pieces = volume.unwrap_or_else(|| {
        (1..4)
            .find(|ahead| cursor.piece(*ahead).is_none() || cursor.is_sign(*ahead, &[',']))
            .unwrap_or(1)
    });
    (until(pieces), pieces)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn glasses_as_specs_describe_them() {
        for (text, name, millilitres, frosted) in [
            ("tall, 320 mL, frosted", "tall", Some(320.0), true),
            ("tall, 320 mL", "tall", Some(320.0), false),
            ("stemmed 16 cL", "stemmed", Some(160.0), false),
            (
                "12 fl oz tall glass",
                "tall",
                Some(12.0 * FLUID_OUNCE),
                false,
            ),
            ("rocks glass", "rocks", None, false),
        ] {
            let glass = Glass::parse(text).unwrap();
            assert_eq!(glass.name, name, "{text}");
            assert_eq!(glass.millilitres, millilitres, "{text}");
            assert_eq!(glass.frosted, frosted, "{text}");
        }
        assert!(Glass::parse("tall, chilled").unwrap().chilled);
    }

    #[test]
    fn glasses_that_are_none() {
        for text in ["", "tall, 320 g", "tall, 0 mL", "tall, 320", "tall, 2 mL"] {
            assert!(!Glass::parse(text).unwrap_err().mend.is_empty(), "{text}");
        }
    }
}
