//! Ranges: `30-45 mL`, `1 to 4 g`, `between 1 and 4 g`, and the bare `one to four`, which may
//! also be a ratio.

use super::cursor::{Cursor, shorten};
use super::error::{Fault, QuantityError};
use super::meaning::{Single, Tail, settle};
use super::reading::Reading;
use super::single;

/// Reads an amount or a range of amounts.
pub(super) fn read(cursor: &mut Cursor<'_>) -> Result<Reading, QuantityError> {
    let between = cursor.take_word(&["between"]) || cursor.take_word(&["from"]);
    let first = single::read(cursor)?;
    let and = between && cursor.is_word(0, &["and"]) && cursor.is_number(1);
    if !and && !follows(cursor) {
        let readings = first
            .values()
            .into_iter()
            .flat_map(|value| first.readings(value))
            .collect();
        return settle(readings, &first.why(cursor.text), cursor.text, first.start);
    }
    let said_to = cursor.is_word(0, &["to"]);
    while cursor.is_dash(0) || cursor.is_sign(0, &['.', '…']) {
        cursor.skip(1);
    }
    cursor.take_word(&["to", "or", "and"]);
    let second = single::read(cursor)?;
    pair(cursor, first, second, said_to)
}

/// Whether a range goes on here: a dash or a word, then a number.
pub(super) fn follows(cursor: &Cursor<'_>) -> bool {
    if cursor.is_sign(0, &['.']) && cursor.is_sign(1, &['.']) {
        let third = usize::from(cursor.is_sign(2, &['.']));
        return cursor.is_number(2 + third);
    }
    let mark = cursor.is_dash(0) || cursor.is_sign(0, &['…']) || cursor.is_word(0, &["to", "or"]);
    mark && cursor.is_number(1)
}

fn pair(
    cursor: &mut Cursor<'_>,
    mut first: Single,
    mut second: Single,
    said_to: bool,
) -> Result<Reading, QuantityError> {
    let start = first.start;
    let mut readings = Vec::new();
    let mut why = Vec::new();
    if first.is_bare() && second.is_bare() && said_to {
        if cursor.is_word(0, &["of", "the"]) {
            // `1 to 4 of peel`
            let of = single::take_of(cursor)?;
            second.tail = Tail::Share {
                per: second.number.value,
                of,
            };
            first.tail = second.tail.clone();
            let ratio = first.readings(first.number.value);
            return settle(ratio, &[], cursor.text, start);
        }
        let fraction = first.number.value / second.number.value;
        readings.push(Reading::Share { fraction, of: None });
        why.push(format!(
            "`{}` may be a ratio or a range",
            shorten(cursor.text.trim())
        ));
    }
    lend(&mut first, &second);
    let (lows, highs) = (first.values(), second.values());
    for at in 0..lows.len().max(highs.len()) {
        let pick = |values: &[f64]| {
            values
                .get(at)
                .or(values.last())
                .copied()
                .unwrap_or(f64::NAN)
        };
        let low = first.readings(pick(&lows));
        let high = second.readings(pick(&highs));
        for way in 0..low.len().max(high.len()) {
            let pick = |ways: &[Reading]| ways.get(way).or(ways.last()).cloned();
            let (Some(low), Some(high)) = (pick(&low), pick(&high)) else {
                continue;
            };
            readings.push(ordered(low, high, cursor.text, start)?);
        }
    }
    for single in [&first, &second] {
        for reason in single.why(cursor.text) {
            if !why.contains(&reason) {
                why.push(reason);
            }
        }
    }
    settle(readings, &why, cursor.text, start)
}

/// The first amount takes the second's unit where it has none of its own.
fn lend(first: &mut Single, second: &Single) {
    match (&mut first.tail, &second.tail) {
        (Tail::Share { of: of @ None, .. }, Tail::Share { of: Some(name), .. }) => {
            *of = Some(name.clone());
        }
        (Tail::Bare, Tail::Unit(_) | Tail::Noun(_) | Tail::Share { .. }) => {
            first.tail = second.tail.clone();
        }
        _ => {}
    }
}

/// How large a reading is within its kind.
fn size(reading: &Reading) -> Option<(&'static str, f64)> {
    Some(match reading {
        Reading::Mass { grams } => ("mass", *grams),
        Reading::Volume { millilitres } | Reading::Measure { millilitres, .. } => {
            ("volume", *millilitres)
        }
        Reading::Ounces { count } => ("ounces", *count),
        Reading::Count { count, .. } => ("pieces", *count),
        Reading::Share { fraction, .. } => ("share", *fraction),
        Reading::Between { low, .. } => return size(low),
        Reading::ToTaste { .. } | Reading::Question { .. } => return None,
    })
}

/// Low and high of one range.
fn ordered(
    low: Reading,
    high: Reading,
    text: &str,
    start: usize,
) -> Result<Reading, QuantityError> {
    let (Some((kind, least)), Some((other, most))) = (size(&low), size(&high)) else {
        return Ok(low);
    };
    if kind != other {
        return Err(QuantityError::new(
            Fault::Several,
            start,
            format!(
                "`{}` runs from one kind of measure to another",
                shorten(text.trim())
            ),
            "write both ends in the same unit, such as `1 to 4 g`",
        ));
    }
    // The outer ends of two ranges.
    let outer = |reading: Reading, want_low: bool| match reading {
        Reading::Between { low, high } => *if want_low { low } else { high },
        reading => reading,
    };
    if least > most {
        // `1:5 to 1:10` runs downwards and is meant so.
        if kind == "share" {
            return Ok(Reading::Between {
                low: Box::new(high),
                high: Box::new(low),
            });
        }
        return Err(QuantityError::new(
            Fault::BadNumber,
            start,
            format!("the range `{}` runs downwards", shorten(text.trim())),
            "write the smaller end first, such as `1 to 4 g`",
        ));
    }
    if low == high {
        return Ok(low);
    }
    Ok(Reading::Between {
        low: Box::new(outer(low, true)),
        high: Box::new(outer(high, false)),
    })
}
