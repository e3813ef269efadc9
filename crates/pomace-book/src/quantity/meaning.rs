//! What a number and its unit mean, in every way that they may be meant.

use super::cursor::shorten;
use super::error::{Fault, QuantityError};
use super::limits;
use super::number::{Number, Shape};
use super::reading::Reading;
use super::units::Unit;

/// Bare whole numbers up to here are pieces; beyond, the unit is asked for.
const MOST_BARE_PIECES: f64 = 12.0;

/// An amount before it is known whether a range follows.
pub(super) struct Single {
    pub number: Number,
    pub tail: Tail,
    /// Byte where it starts.
    pub start: usize,
}

/// What stands after the number.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Tail {
    Unit(Unit),
    Noun(String),
    /// The number divided by `per` is the share.
    Share {
        per: f64,
        of: Option<String>,
    },
    /// All is said already.
    Fixed(Reading),
    /// Nothing.
    Bare,
}

impl Single {
    pub(super) fn fixed(reading: Reading, start: usize) -> Self {
        let number = Number {
            value: 1.0,
            other: None,
            shape: Shape::Whole,
        };
        Self {
            number,
            tail: Tail::Fixed(reading),
            start,
        }
    }

    pub(super) const fn is_bare(&self) -> bool {
        matches!(self.tail, Tail::Bare)
    }

    /// The values that its marks allow, the likelier first.
    pub(super) fn values(&self) -> Vec<f64> {
        std::iter::once(self.number.value)
            .chain(self.number.other)
            .collect()
    }

    /// Its readings for one of these values.
    pub(super) fn readings(&self, value: f64) -> Vec<Reading> {
        match &self.tail {
            Tail::Unit(unit) => unit.readings(value),
            Tail::Noun(noun) => vec![Reading::Count {
                count: value,
                noun: Some(noun.clone()),
            }],
            Tail::Share { per, of } => {
                vec![Reading::Share {
                    fraction: value / per,
                    of: of.clone(),
                }]
            }
            Tail::Fixed(reading) => vec![reading.clone()],
            Tail::Bare => bare(value, self.number.shape),
        }
    }

    /// Why it has several readings, if it has.
    pub(super) fn why(&self, text: &str) -> Vec<String> {
        let mut why = Vec::new();
        let written = text.get(self.start..).unwrap_or("");
        let figures: String = written
            .chars()
            .take_while(|c| c.is_ascii_digit() || matches!(c, '.' | ','))
            .collect();
        if let Some(other) = self.number.other {
            let value = self.number.value;
            let (decimal, thousands) = if self.number.shape == Shape::Point {
                (value, other)
            } else {
                (other, value)
            };
            why.push(format!(
                "the mark in `{figures}` may part thousands ({thousands}) or decimals ({decimal})"
            ));
        }
        match &self.tail {
            Tail::Unit(Unit::Ask(ways)) => {
                let ways = crate::names::either(ways.iter().map(|(shown, _)| *shown));
                why.push(format!("the unit may be {ways}"));
            }
            Tail::Bare if self.readings(self.number.value).len() > 1 => {
                why.push(format!("`{}` has no unit", shorten(written.trim_end())));
            }
            _ => {}
        }
        why
    }
}

/// What a bare number may be.
fn bare(value: f64, shape: Shape) -> Vec<Reading> {
    let count = Reading::Count {
        count: value,
        noun: None,
    };
    let counted = match shape {
        Shape::Whole => value <= MOST_BARE_PIECES,
        Shape::Fraction | Shape::Word => value <= MOST_BARE_PIECES || value.fract() != 0.0,
        Shape::Point | Shape::Comma => false,
    };
    if counted {
        return vec![count];
    }
    let mut readings = vec![
        Reading::Volume { millilitres: value },
        Reading::Mass { grams: value },
    ];
    if value.fract() == 0.0 {
        readings.push(count);
    }
    readings
}

/// One reading, or the question which of several is meant; what no house can hold is left out
/// as long as something else remains.
pub(super) fn settle(
    readings: Vec<Reading>,
    why: &[String],
    text: &str,
    start: usize,
) -> Result<Reading, QuantityError> {
    let shown = shorten(text.trim());
    let mut possible: Vec<Reading> = Vec::new();
    let mut refusal = None;
    for reading in readings {
        match limits::check(&reading, &shown, start) {
            Ok(()) if !possible.contains(&reading) => possible.push(reading),
            Ok(()) => {}
            Err(error) => {
                refusal.get_or_insert(error);
            }
        }
    }
    if possible.len() > 1 {
        return Ok(Reading::Question {
            why: why.join(", and "),
            readings: possible,
        });
    }
    possible.pop().ok_or_else(|| {
        refusal.unwrap_or_else(|| {
            QuantityError::new(
                Fault::NoNumber,
                start,
                format!("there is no amount in `{shown}`"),
                "write a number and a unit, such as `40 mL`",
            )
        })
    })
}
