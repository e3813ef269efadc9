//! A number with its unit, and what may follow: `/kg`, or a smaller unit.

use super::cursor::{Cursor, shorten};
use super::error::{Fault, QuantityError};
use super::meaning::Tail;
use super::number::{Number, Shape};
use super::reading::Reading;
use super::single::take_of;
use super::units::{Unit, unit};

/// A unit of one to three words, with the words that may stand before it.
pub(super) fn take_unit(cursor: &mut Cursor<'_>) -> Result<Option<Unit>, QuantityError> {
    const SIZES: &[&str] = &[
        "heaped", "heaping", "scant", "rounded", "generous", "big", "large", "small", "good",
        "short",
    ];
    let level = usize::from(cursor.is_word(0, &["level", "flat"]));
    if let Some((unit, words)) = unit_ahead(cursor, level) {
        cursor.skip(level + words);
        return Ok(Some(unit));
    }
    if cursor.is_word(0, SIZES) && unit_ahead(cursor, 1).is_some() {
        return Err(QuantityError::new(
            Fault::Vague,
            cursor.offset(),
            format!(
                "`{}` makes a measure of no fixed size",
                cursor.word(0).unwrap_or("")
            ),
            "weigh it once and write grams, or write `level`",
        ));
    }
    Ok(None)
}

pub(super) fn unit_ahead(cursor: &Cursor<'_>, ahead: usize) -> Option<(Unit, usize)> {
    (1..=3).rev().find_map(|count| {
        let words: Option<Vec<&str>> = (ahead..ahead + count).map(|at| cursor.word(at)).collect();
        unit(&words?.join(" ")).map(|unit| (unit, count))
    })
}

pub(super) fn with_unit(
    cursor: &mut Cursor<'_>,
    mut number: Number,
    unit: Unit,
    start: usize,
) -> Result<(Number, Tail), QuantityError> {
    if unit == Unit::Relative {
        return Err(QuantityError::new(
            Fault::Relative,
            start,
            format!(
                "`{}` says how much only beside other amounts",
                shorten(cursor.text.trim())
            ),
            "write a share of another line, such as `50 % of aquavit`, or an amount such as `40 mL`",
        ));
    }
    if number.shape == Shape::Point && unit.is_customary() {
        number.other = None;
    }
    if let Unit::Mass(grams) = unit
        && let Some(tail) = per_weight(cursor, grams)?
    {
        return Ok((number, tail));
    }
    let tail = add_up(cursor, number, unit)?;
    Ok((number, tail))
}

/// `20 g/kg of juice` is a share.
fn per_weight(cursor: &mut Cursor<'_>, grams: f64) -> Result<Option<Tail>, QuantityError> {
    let mut ahead = cursor.clone();
    let said_per = ahead.take_word(&["per"]);
    if !said_per && !ahead.take_sign(&['/']) {
        return Ok(None);
    }
    let per = ahead.take_number();
    match take_unit(&mut ahead)? {
        Some(Unit::Mass(other)) => {
            let per = per.map_or(1.0, |per| per.value);
            let of = take_of(&mut ahead)?;
            *cursor = ahead;
            Ok(Some(Tail::Share {
                per: per * other / grams,
                of,
            }))
        }
        Some(Unit::Volume(_)) if said_per || per.is_none() => Err(QuantityError::new(
            Fault::Relative,
            cursor.offset(),
            format!(
                "`{}` is a weight for a volume, which changes with the liquid's density",
                shorten(cursor.text.trim()),
            ),
            "write a share by weight, such as `20 g/kg of juice` or `2 % of juice`",
        )),
        _ => Ok(None),
    }
}

/// `1 lb 4 oz`, `1 L 200 mL`: a smaller unit of the same kind may follow.
fn add_up(cursor: &mut Cursor<'_>, number: Number, unit: Unit) -> Result<Tail, QuantityError> {
    let mut ahead = cursor.clone();
    let second = match ahead.take_number() {
        Some(more) if number.other.is_none() && more.other.is_none() => {
            take_unit(&mut ahead)?.map(|unit| (more.value, unit))
        }
        _ => None,
    };
    let sum = match (unit, second) {
        (Unit::Mass(each), Some((more, Unit::Mass(smaller)))) if smaller < each => {
            Some(Reading::Mass {
                grams: number.value * each + more * smaller,
            })
        }
        (Unit::Mass(each), Some((more, Unit::Ounces))) => Some(Reading::Mass {
            grams: number.value * each + more * super::units::OUNCE_GRAMS,
        }),
        (Unit::Volume(each), Some((more, Unit::Volume(smaller)))) if smaller < each => {
            Some(Reading::Volume {
                millilitres: number.value * each + more * smaller,
            })
        }
        _ => None,
    };
    let Some(sum) = sum else {
        return Ok(Tail::Unit(unit));
    };
    *cursor = ahead;
    Ok(Tail::Fixed(sum))
}
