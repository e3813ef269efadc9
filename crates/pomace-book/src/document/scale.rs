//! What told values are told in: their units, their ranges, and how they are read.

use super::told::{Instrument, ToldValue};
use crate::quantity::cursor::{Cursor, shorten};
use crate::quantity::{Fault, QuantityError};

/// What a told value may be: its units with their factors, and its range.
pub(crate) struct Scale {
    pub what: &'static str,
    /// Without spaces, in lower case.
    units: &'static [(&'static str, f64)],
    /// Whether the number may stand alone.
    bare: bool,
    low: f64,
    high: f64,
    example: &'static str,
}

pub(crate) static STRENGTH: Scale = Scale {
    what: "strength",
    units: &[
        ("%", 1.0),
        ("%vol", 1.0),
        ("%abv", 1.0),
        ("%alc", 1.0),
        ("%v/v", 1.0),
        ("percent", 1.0),
        ("proof", 0.5),
    ],
    bare: false,
    low: 0.0,
    high: 100.0,
    example: "`42 %`",
};
pub(crate) static SUGAR: Scale = Scale {
    what: "sugar",
    units: &[
        ("g/l", 1.0),
        ("g/100ml", 10.0),
        ("gin1l", 1.0),
        ("gin100ml", 10.0),
        ("gperl", 1.0),
        ("g/dl", 10.0),
        ("g/ml", 1000.0),
        ("kg/l", 1000.0),
    ],
    bare: false,
    low: 0.0,
    high: 1500.0,
    example: "`120 g/L`",
};
pub(crate) static ACID: Scale = Scale {
    what: "acid",
    high: 1500.0,
    example: "`6 g/L citric`",
    ..SUGAR
};
pub(crate) static PH: Scale = Scale {
    what: "pH",
    units: &[],
    bare: true,
    low: 0.0,
    high: 14.0,
    example: "`3.2`",
};
pub(crate) static BRIX: Scale = Scale {
    what: "Brix",
    units: &[
        ("brix", 1.0),
        ("°brix", 1.0),
        ("bx", 1.0),
        ("°bx", 1.0),
        ("°", 1.0),
        ("%", 1.0),
    ],
    bare: true,
    low: 0.0,
    high: 95.0,
    example: "`24 Brix`",
};
pub(crate) static DENSITY: Scale = Scale {
    what: "density",
    units: &[
        ("g/ml", 1.0),
        ("kg/l", 1.0),
        ("g/l", 0.001),
        ("kg/m3", 0.001),
        ("kg/m³", 0.001),
        ("g/cm3", 1.0),
        ("g/cm³", 1.0),
    ],
    bare: false,
    low: 0.3,
    high: 3.0,
    example: "`1.05 g/mL`",
};
pub(crate) static CONTENT: Scale = Scale {
    what: "content",
    units: &[
        ("%", 1.0),
        ("g/100g", 1.0),
        ("percent", 1.0),
        ("g/kg", 0.1),
        ("mg/100g", 0.001),
        ("mg/kg", 0.0001),
    ],
    bare: false,
    low: 0.0,
    high: 100.0,
    example: "`12 %` or `12 g/100 g`",
};
static MASS: Scale = Scale {
    what: "mass",
    units: &[("g", 1.0), ("kg", 1000.0)],
    bare: false,
    low: 0.0,
    high: 1e6,
    example: "`820 g`",
};
static VOLUME: Scale = Scale {
    what: "volume",
    units: &[("ml", 1.0), ("cl", 10.0), ("l", 1000.0)],
    bare: false,
    low: 0.0,
    high: 1e6,
    example: "`700 mL`",
};

impl Scale {
    /// The scale that an instrument reads on.
    pub(crate) fn of(instrument: Instrument) -> &'static Self {
        match instrument {
            Instrument::Brix => &BRIX,
            Instrument::Ph => &PH,
            Instrument::Strength => &STRENGTH,
            Instrument::Density => &DENSITY,
            Instrument::Mass => &MASS,
            Instrument::Volume => &VOLUME,
            Instrument::Acid => &ACID,
        }
    }

    /// Reads a value on this scale.
    pub(crate) fn read(&self, text: &str) -> Result<ToldValue, QuantityError> {
        let mut cursor = Cursor::new(text)?;
        let value = self.read_from(&mut cursor)?;
        cursor.finish(&format!("write {} as {}", self.what, self.example))?;
        Ok(value)
    }

    /// Reads a value on this scale and leaves what follows it.
    pub(crate) fn read_from(&self, cursor: &mut Cursor<'_>) -> Result<ToldValue, QuantityError> {
        cursor.take_word(&[self.what.to_lowercase().as_str(), "about", "ca", "approx"]);
        cursor.take_sign(&['~', '≈', ':']);
        if take_not_stated(cursor) {
            cursor.take_sign(&[',', ';', ':']);
            if cursor.is_done() {
                return Ok(ToldValue::NotStated);
            }
        }
        let start = cursor.offset();
        if cursor.is_word(0, &["up"]) && cursor.is_word(1, &["to"]) {
            cursor.skip(2);
            let (most, unit) = self.end(cursor)?;
            return self.between(cursor, start, (0.0, 1.0), (most, unit.unwrap_or(1.0)));
        }
        let (first, unit) = self.end(cursor)?;
        if cursor.take_sign(&['±']) {
            let (by, by_unit) = self.end(cursor)?;
            let scale = by_unit.or(unit).unwrap_or(1.0);
            return self.between(cursor, start, (first - by, scale), (first + by, scale));
        }
        let to = cursor.is_word(0, &["to"]) || cursor.is_dash(0) || cursor.is_sign(0, &['…']);
        if to {
            cursor.skip(1);
            let (second, second_unit) = self.end(cursor)?;
            let scale = second_unit.or(unit).unwrap_or(1.0);
            return self.between(
                cursor,
                start,
                (first, unit.unwrap_or(scale)),
                (second, scale),
            );
        }
        if unit.is_none() && !self.bare {
            return Err(self.no_unit(cursor, start));
        }
        let value = first * unit.unwrap_or(1.0);
        self.check(cursor, start, value)?;
        Ok(ToldValue::Exactly(value))
    }

    /// A number, and the factor of its unit if one follows.
    fn end(&self, cursor: &mut Cursor<'_>) -> Result<(f64, Option<f64>), QuantityError> {
        let start = cursor.offset();
        let minus = cursor.take_minus();
        let Some(number) = cursor.take_number() else {
            return Err(QuantityError::new(
                Fault::NoNumber,
                start,
                format!(
                    "there is no {} in `{}`",
                    self.what,
                    shorten(cursor.text.trim())
                ),
                format!(
                    "write {} as {}, a range, or `not stated`",
                    self.what, self.example
                ),
            ));
        };
        let unit = self.take_unit(cursor);
        let factor = unit.unwrap_or(1.0);
        let fits = |value: &f64| (self.low..=self.high).contains(&(value * factor));
        let mut fitting = std::iter::once(number.value)
            .chain(number.other)
            .filter(fits);
        let value = match (fitting.next(), fitting.next()) {
            (Some(one), Some(other)) => {
                return Err(QuantityError::new(
                    Fault::BadNumber,
                    start,
                    format!("the number may be {one} or {other}"),
                    "write thousands without marks and one decimal point",
                ));
            }
            (Some(one), None) => one,
            (None, _) => number.value,
        };
        Ok((if minus { -value } else { value }, unit))
    }

    /// The longest spelling of a unit that stands here.
    fn take_unit(&self, cursor: &mut Cursor<'_>) -> Option<f64> {
        let mut best = None;
        let mut written = String::new();
        let start = cursor.piece(0)?.start;
        for ahead in 0..5 {
            let Some(piece) = cursor.piece(ahead) else {
                break;
            };
            written = cursor
                .text
                .get(start..piece.end)?
                .chars()
                .filter(|letter| !letter.is_whitespace() && *letter != '.')
                .collect::<String>()
                .to_lowercase();
            if let Some((_, factor)) = self.units.iter().find(|(name, _)| *name == written) {
                best = Some((*factor, ahead + 1));
            }
        }
        drop(written);
        let (factor, pieces) = best?;
        cursor.skip(pieces);
        Some(factor)
    }

    fn between(
        &self,
        cursor: &Cursor<'_>,
        start: usize,
        (low, low_unit): (f64, f64),
        (high, high_unit): (f64, f64),
    ) -> Result<ToldValue, QuantityError> {
        let (low, high) = (low * low_unit, high * high_unit);
        self.check(cursor, start, low)?;
        self.check(cursor, start, high)?;
        if low > high {
            return Err(QuantityError::new(
                Fault::BadNumber,
                start,
                format!("the range `{}` runs downwards", shorten(cursor.text.trim())),
                "write the smaller end first",
            ));
        }
        Ok(ToldValue::Between(low, high))
    }

    fn check(&self, cursor: &Cursor<'_>, start: usize, value: f64) -> Result<(), QuantityError> {
        if (self.low..=self.high).contains(&value) {
            return Ok(());
        }
        Err(QuantityError::new(
            Fault::OutOfRange,
            start,
            format!(
                "`{}` is no {} there is",
                shorten(cursor.text.trim()),
                self.what
            ),
            format!(
                "check the number and the unit; write {} as {}",
                self.what, self.example
            ),
        ))
    }

    fn no_unit(&self, cursor: &Cursor<'_>, start: usize) -> QuantityError {
        let unknown = cursor.rest();
        if unknown.is_empty() {
            return QuantityError::new(
                Fault::NoUnit,
                start,
                format!("`{}` has no unit", shorten(cursor.text.trim())),
                format!("write {} as {}", self.what, self.example),
            );
        }
        QuantityError::new(
            Fault::UnknownUnit,
            cursor.offset(),
            format!("`{}` is no unit of {} here", shorten(unknown), self.what),
            format!("write {} as {}", self.what, self.example),
        )
    }
}

fn take_not_stated(cursor: &mut Cursor<'_>) -> bool {
    if cursor.is_word(0, &["not"]) && cursor.is_word(1, &["stated", "known", "given", "said"]) {
        cursor.skip(2);
        return true;
    }
    cursor.take_word(&["unknown", "unstated"]) || cursor.take_sign(&['?'])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_as_they_are_told() {
        use ToldValue::{Between, Exactly, NotStated};
        for (scale, text, value) in [
            (&STRENGTH, "42 %", Exactly(42.0)),
            (&STRENGTH, "42% vol.", Exactly(42.0)),
            (&STRENGTH, "84 proof", Exactly(42.0)),
            (&STRENGTH, "40 to 43 %", Between(40.0, 43.0)),
            (&SUGAR, "120 g/L", Exactly(120.0)),
            (&SUGAR, "12 g / 100 mL", Exactly(120.0)),
            (&SUGAR, "12 g in 100 mL", Exactly(120.0)),
            (&SUGAR, "7 to 8.2 g in 100 mL", Between(70.0, 82.0)),
            (&ACID, "1 to 1.4 g in 1 L", Between(1.0, 1.4)),
            (&SUGAR, "0-120 g/L", Between(0.0, 120.0)),
            (&SUGAR, "sugar not stated, 0–120 g/L", Between(0.0, 120.0)),
            (&SUGAR, "sugar not stated", NotStated),
            (&SUGAR, "up to 90 g/L", Between(0.0, 90.0)),
            (&PH, "3.2", Exactly(3.2)),
            (&PH, "pH 3.125", Exactly(3.125)),
            (&DENSITY, "1.045 g/mL", Exactly(1.045)),
            (&DENSITY, "1045 kg/m3", Exactly(1.045)),
            (&CONTENT, "12 g/100 g", Exactly(12.0)),
            (&CONTENT, "3 ± 0.5 %", Between(2.5, 3.5)),
        ] {
            assert_eq!(scale.read(text).as_ref(), Ok(&value), "{text}");
        }
        for (scale, text) in [
            (&STRENGTH, "42"),
            (&STRENGTH, "142 %"),
            (&SUGAR, "12 %"),
            (&PH, "31"),
            (&PH, ""),
            (&DENSITY, "-1 g/mL"),
            (&CONTENT, "5 to 3 %"),
        ] {
            let error = scale.read(text).unwrap_err();
            assert!(!error.mend.is_empty(), "{text}");
        }
    }
}
