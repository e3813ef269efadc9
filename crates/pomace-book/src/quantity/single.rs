//! One amount without a range: a number and what follows it.

use super::cursor::{Cursor, shorten};
use super::error::{Fault, QuantityError};
use super::meaning::{Single, Tail};
use super::number::{Number, Shape};
use super::range;
use super::reading::Reading;
use super::slip::meant_by;
use super::units::unit;
use super::vague;
use super::weighed::{take_unit, unit_ahead, with_unit};
use crate::limits::{NOUN_BYTES, SHARE_NAME_BYTES};

/// Reads one amount.
pub(super) fn read(cursor: &mut Cursor<'_>) -> Result<Single, QuantityError> {
    let start = cursor.offset();
    if let Some(error) = vague::refuse(cursor) {
        return Err(error);
    }
    if cursor.take_word(&["all"]) {
        let reading = Reading::Share {
            fraction: 1.0,
            of: take_of(cursor)?,
        };
        return Ok(Single::fixed(reading, start));
    }
    let minus = cursor.take_minus();
    let Some(number) = cursor.take_number() else {
        return Err(no_number(cursor));
    };
    if minus {
        return Err(QuantityError::new(
            Fault::OutOfRange,
            start,
            format!("`{}` is less than nothing", shorten(cursor.text.trim())),
            "write an amount above zero, or leave it out",
        ));
    }
    let (number, tail) = after_number(cursor, number, start)?;
    Ok(Single {
        number,
        tail,
        start,
    })
}

fn no_number(cursor: &Cursor<'_>) -> QuantityError {
    QuantityError::new(
        Fault::NoNumber,
        cursor.offset(),
        if cursor.is_done() {
            "there is no number here".to_owned()
        } else {
            format!(
                "there should be a number where `{}` stands",
                shorten(cursor.rest())
            )
        },
        "write a number and a unit, such as `40 mL`, `240 g`, `2 dashes`, `3 limes` or `35 % of peel`",
    )
}

fn after_number(
    cursor: &mut Cursor<'_>,
    mut number: Number,
    start: usize,
) -> Result<(Number, Tail), QuantityError> {
    if cursor.is_sign(0, &[':', '∶']) && cursor.is_number(1) {
        cursor.skip(1);
        return Ok((number, ratio(cursor)?));
    }
    let per_cent = cursor.is_word(0, &["per"]) && cursor.is_word(1, &["cent"]);
    if per_cent || cursor.is_sign(0, &['%', '％']) || cursor.is_word(0, &["percent", "pct"]) {
        cursor.skip(if per_cent { 2 } else { 1 });
        // Nobody writes thousands of percent with points.
        if number.shape == Shape::Point {
            number.other = None;
        }
        return Ok((
            number,
            Tail::Share {
                per: 100.0,
                of: take_of(cursor)?,
            },
        ));
    }
    if cursor.take_sign(&['×', '*']) || cursor.take_word(&["x"]) {
        times(cursor, &mut number, start)?;
    }
    // `1-oz`
    if cursor.is_dash(0) && cursor.word(1).is_some_and(|word| unit(word).is_some()) {
        cursor.skip(1);
    }
    // `three quarters of an ounce`
    if number.value < 1.0
        && cursor.is_word(0, &["of"])
        && cursor.is_word(1, &["a", "an"])
        && unit_ahead(cursor, 2).is_some()
    {
        cursor.skip(2);
    }
    if let Some(unit) = take_unit(cursor)? {
        return with_unit(cursor, number, unit, start);
    }
    // `half of the peel`, `1/2 of peel`, `half the peel`
    if matches!(number.shape, Shape::Fraction | Shape::Word)
        && number.value.fract() != 0.0
        && cursor.is_word(0, &["of", "the"])
    {
        return Ok((
            number,
            Tail::Share {
                per: 1.0,
                of: take_of(cursor)?,
            },
        ));
    }
    let noun = take_noun(cursor)?;
    Ok((number, noun.map_or(Tail::Bare, Tail::Noun)))
}

/// `2 × 30 mL`; `×` has been taken.
fn times(cursor: &mut Cursor<'_>, number: &mut Number, start: usize) -> Result<(), QuantityError> {
    let Some(each) = cursor.take_number() else {
        return Ok(());
    };
    if number.other.is_some() || each.other.is_some() {
        return Err(two_ways(cursor, start));
    }
    number.value *= each.value;
    // A product is no longer a fraction as written.
    number.shape = if number.value.fract() == 0.0 {
        Shape::Whole
    } else {
        Shape::Point
    };
    Ok(())
}

fn two_ways(cursor: &Cursor<'_>, start: usize) -> QuantityError {
    QuantityError::new(
        Fault::BadNumber,
        start,
        format!(
            "the numbers of `{}` can be read in two ways",
            shorten(cursor.text.trim())
        ),
        "write thousands without marks and one decimal point, such as `1500` or `1.5`",
    )
}

/// The second number of `1:5`, which may be of something; `:` has been taken.
fn ratio(cursor: &mut Cursor<'_>) -> Result<Tail, QuantityError> {
    let start = cursor.offset();
    let Some(that) = cursor.take_number() else {
        return Err(no_number(cursor));
    };
    if cursor.is_sign(0, &[':', '∶']) {
        return Err(QuantityError::new(
            Fault::Several,
            cursor.offset(),
            "a ratio of three numbers says nothing about one amount",
            "give each its own line or step, such as `1:5 of vinegar`",
        ));
    }
    if that.other.is_some() {
        return Err(two_ways(cursor, start));
    }
    if that.value <= 0.0 {
        return Err(QuantityError::new(
            Fault::OutOfRange,
            start,
            format!("`{}` is no ratio", shorten(cursor.text.trim())),
            "write both numbers above zero, such as `1:5 of vinegar`",
        ));
    }
    Ok(Tail::Share {
        per: that.value,
        of: take_of(cursor)?,
    })
}

/// The name after `of`, up to the end of the text.
pub(super) fn take_of(cursor: &mut Cursor<'_>) -> Result<Option<String>, QuantityError> {
    if !cursor.is_word(0, &["the"]) && !cursor.take_word(&["of"]) {
        return Ok(None);
    }
    let name = cursor.rest().to_owned();
    if name.is_empty() {
        return Err(QuantityError::new(
            Fault::Leftover,
            cursor.offset(),
            "nothing follows `of`",
            "name the stream, line or ingredient that it is a share of, such as `35 % of peel`",
        ));
    }
    if name.len() > SHARE_NAME_BYTES {
        return Err(too_long(
            cursor.offset(),
            name.len(),
            "name it by a short ‹as›, such as `35 % of peel`",
        ));
    }
    cursor.skip_all();
    Ok(Some(name))
}

/// A name that would make the measure too long to be written again.
fn too_long(offset: usize, bytes: usize, mend: &str) -> QuantityError {
    QuantityError::new(
        Fault::TooLong,
        offset,
        format!("{bytes} bytes are more than a name in a measure needs"),
        mend,
    )
}

/// What is counted: words up to the end or to a range.
fn take_noun(cursor: &mut Cursor<'_>) -> Result<Option<String>, QuantityError> {
    let start = cursor.offset();
    let Some(first) = cursor.word(0) else {
        return Ok(None);
    };
    if range::follows(cursor)
        || cursor.is_word(0, &["of", "to", "and", "or", "per", "plus", "from", "the"])
    {
        return Ok(None);
    }
    if let Some(error) = vague::refuse(cursor) {
        return Err(error);
    }
    if let Some(meant) = meant_by(first) {
        let before = cursor.text.get(..start).unwrap_or("").trim();
        let example = meant.split('`').next().unwrap_or(meant);
        return Err(QuantityError::new(
            Fault::UnknownUnit,
            start,
            format!("`{}` is no unit", shorten(first)),
            format!("write `{meant}`, if that is meant: `{before} {example}`"),
        ));
    }
    let one_letter = first.chars().count() == 1;
    if one_letter || first.contains(['°', '€', '£', '$', 'µ']) {
        return Err(QuantityError::new(
            Fault::UnknownUnit,
            start,
            format!("`{}` is no unit of an amount", shorten(first)),
            "write g, kg, mL, cL, L, oz, tsp, dash or what is counted, such as `3 limes`",
        ));
    }
    let mut end = start;
    while let Some(piece) = cursor.piece(0) {
        let apostrophe = cursor.is_sign(0, &['\'', '’']);
        let comma = cursor.is_sign(0, &[',']) && cursor.word(1).is_some();
        if range::follows(cursor) || !(cursor.word(0).is_some() || apostrophe || comma) {
            break;
        }
        end = piece.end;
        cursor.skip(1);
    }
    // A range is written with its noun twice, and must still be a measure then.
    if end - start > NOUN_BYTES {
        let mend = "write what is counted in a word or two, such as `3 limes`, and anything else as ‹note›";
        return Err(too_long(start, end - start, mend));
    }
    Ok(cursor.text.get(start..end).map(str::to_owned))
}
