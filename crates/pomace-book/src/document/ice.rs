//! Ice as a spec describes it: `dry 32 mm cubes`, `one 50 mm block`, `300 g wet crushed ice`.

use crate::quantity::cursor::{Cursor, shorten};
use crate::quantity::{Fault, QuantityError, parse_temperature};
use crate::words::words;

/// Ice as described; what is not said stays `None`.
#[derive(Clone, Debug, PartialEq)]
pub struct Ice {
    /// As written.
    pub text: String,
    /// Whether its surface is dry; `false` where it is said to be wet.
    pub dry: Option<bool>,
    /// Edge or diameter of a piece.
    pub size_mm: Option<f64>,
    /// Shape of a piece.
    pub shape: Option<IceShape>,
    /// How many pieces.
    pub count: Option<f64>,
    /// How much in all.
    pub grams: Option<f64>,
    /// How cold, °C.
    pub celsius: Option<f64>,
}

words! {
    /// Shape of a piece of ice.
    IceShape {
        /// Cubes.
        Cubes = "cubes" | "cube" | "cubed",
        /// One large block.
        Block = "block" | "blocks" | "chunk" | "chunks",
        /// A ball.
        Sphere = "sphere" | "spheres" | "ball" | "balls",
        /// A long stick.
        Spear = "spear" | "spears" | "stick" | "sticks",
        /// Broken by hand.
        Cracked = "cracked",
        /// Small grains.
        Crushed = "crushed",
        /// Small round pieces.
        Pebble = "pebble" | "pebbles",
        /// Shaved or flaked.
        Flakes = "flakes" | "flake" | "flaked" | "shaved",
    }
}

/// Words that say nothing the maths could use.
const FILLING: &[&str] = &[
    "ice", "of", "in", "the", "a", "an", "and", "large", "small", "big", "clear", "bar", "fresh",
    "piece", "pieces", "over", "with", "hard", "cold", "from", "standard", "x", "single", "whole",
];

const MEND: &str = "describe it like `dry 32 mm cubes`, `one 50 mm block`, `300 g wet crushed ice` or `cubes at -18 C`";

impl Ice {
    /// Reads a description of ice.
    ///
    /// # Errors
    /// Where a word or number means nothing about ice.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let mut cursor = Cursor::new(text)?;
        let mut ice = Self {
            text: text.to_owned(),
            dry: None,
            size_mm: None,
            shape: None,
            count: None,
            grams: None,
            celsius: None,
        };
        while !cursor.is_done() {
            if cursor.take_sign(&[',', '×', '(', ')']) {
                continue;
            }
            if cursor.take_word(&["at"]) || ((cursor.is_dash(0)) && cursor.is_number(1)) {
                ice.take_temperature(&mut cursor)?;
            } else if cursor.is_number(0) && !cursor.is_word(0, &["a", "an"]) {
                ice.take_number(&mut cursor)?;
            } else if let Some(word) = cursor.word(0) {
                ice.take_word(word, &cursor)?;
                cursor.skip(1);
            } else {
                cursor.finish(MEND)?;
            }
        }
        Ok(ice)
    }

    fn take_word(&mut self, word: &str, cursor: &Cursor<'_>) -> Result<(), QuantityError> {
        let lower = word.to_lowercase();
        match lower.as_str() {
            "dry" | "drained" => self.dry = Some(true),
            "wet" => self.dry = Some(false),
            _ => match IceShape::named(&lower) {
                Some(shape) => self.shape = Some(shape),
                None if FILLING.contains(&lower.as_str()) => {}
                None => {
                    return Err(QuantityError::new(
                        Fault::Leftover,
                        cursor.offset(),
                        format!("`{}` says nothing that is known about ice", shorten(word)),
                        MEND,
                    ));
                }
            },
        }
        Ok(())
    }

    /// A size, a weight, a temperature or a number of pieces.
    fn take_number(&mut self, cursor: &mut Cursor<'_>) -> Result<(), QuantityError> {
        let start = cursor.offset();
        let before = cursor.clone();
        let Some(number) = cursor.take_number() else {
            return Ok(());
        };
        let (value, slot, low, high, what) = if cursor.take_word(&["mm"]) {
            (
                number.value,
                &mut self.size_mm,
                1.0,
                300.0,
                "size from 1 to 300 mm",
            )
        } else if cursor.take_word(&["cm"]) {
            (
                number.value * 10.0,
                &mut self.size_mm,
                1.0,
                300.0,
                "size from 1 to 300 mm",
            )
        } else if cursor.take_word(&["g", "gram", "grams"]) {
            (
                number.value,
                &mut self.grams,
                0.1,
                50_000.0,
                "weight from 0.1 g to 50 kg",
            )
        } else if cursor.take_word(&["kg"]) {
            (
                number.value * 1000.0,
                &mut self.grams,
                0.1,
                50_000.0,
                "weight from 0.1 g to 50 kg",
            )
        } else if cursor.is_word(0, &["c", "°c", "f", "°f", "°"]) {
            *cursor = before;
            return self.take_temperature(cursor);
        } else {
            (
                number.value,
                &mut self.count,
                1.0,
                500.0,
                "number of pieces from 1 to 500",
            )
        };
        if number.other.is_some() || !(low..=high).contains(&value) {
            return Err(QuantityError::new(
                Fault::OutOfRange,
                start,
                format!("the ice of `{}` has no {what}", shorten(cursor.text.trim())),
                MEND,
            ));
        }
        *slot = Some(value);
        Ok(())
    }

    fn take_temperature(&mut self, cursor: &mut Cursor<'_>) -> Result<(), QuantityError> {
        let start = cursor.offset();
        let Some((text, pieces)) = temperature_ahead(cursor) else {
            return Err(QuantityError::new(
                Fault::NoNumber,
                start,
                format!(
                    "there is no temperature in `{}`",
                    shorten(cursor.text.trim())
                ),
                MEND,
            ));
        };
        let celsius = parse_temperature(text).map_err(|error| QuantityError {
            offset: error.offset + start,
            ..error
        })?;
        if !(-80.0..=0.0).contains(&celsius) {
            return Err(QuantityError::new(
                Fault::OutOfRange,
                start,
                format!(
                    "ice at `{}` is none that a bar has (-80 to 0 C)",
                    shorten(text)
                ),
                "write `at 0 C` for ice from the well or `at -18 C` from the freezer",
            ));
        }
        cursor.skip(pieces);
        self.celsius = Some(celsius);
        Ok(())
    }
}

/// The pieces up to the unit of a temperature.
fn temperature_ahead<'t>(cursor: &Cursor<'t>) -> Option<(&'t str, usize)> {
    let start = cursor.offset();
    let unit = (0..4).find(|ahead| cursor.is_word(*ahead, &["c", "f", "°c", "°f", "celsius"]))?;
    let end = cursor.piece(unit)?.end;
    Some((cursor.text.get(start..end)?, unit + 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ice_as_specs_describe_it() {
        let ice = Ice::parse("dry 32 mm cubes").unwrap();
        assert_eq!(
            (ice.dry, ice.size_mm, ice.shape),
            (Some(true), Some(32.0), Some(IceShape::Cubes))
        );
        let ice = Ice::parse("one 50 mm block").unwrap();
        assert_eq!(
            (ice.count, ice.size_mm, ice.shape),
            (Some(1.0), Some(50.0), Some(IceShape::Block))
        );
        let ice = Ice::parse("300 g wet crushed ice").unwrap();
        assert_eq!(
            (ice.grams, ice.dry, ice.shape),
            (Some(300.0), Some(false), Some(IceShape::Crushed))
        );
        let ice = Ice::parse("cubes at -18 C").unwrap();
        assert_eq!(
            (ice.celsius, ice.shape),
            (Some(-18.0), Some(IceShape::Cubes))
        );
        let ice = Ice::parse("three 5 cm spheres, −18 °C").unwrap();
        assert_eq!(
            (ice.celsius, ice.size_mm, ice.count),
            (Some(-18.0), Some(50.0), Some(3.0))
        );
        assert_eq!(Ice::parse("ice").unwrap().shape, None);
    }

    #[test]
    fn ice_that_is_none() {
        for text in [
            "",
            "cubes at 5 C",
            "purple cubes",
            "0 mm cubes",
            "at",
            "9000 mm block",
        ] {
            let error = Ice::parse(text).unwrap_err();
            assert!(!error.mend.is_empty(), "{text}");
        }
    }
}
