//! Numbers in every way that people write them: decimal point or comma, thousands parted by
//! spaces, points, commas or apostrophes, fractions, mixed numbers. Where the marks may mean two
//! things (`1,500`), both values are kept.

use super::error::{Fault, QuantityError};
use super::scan::is_space;

/// A number as written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Number {
    /// Its value; the likelier one where there are two.
    pub value: f64,
    /// The other value that its marks allow.
    pub other: Option<f64>,
    /// How it was written.
    pub shape: Shape,
}

/// How a number was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Shape {
    /// `12`
    Whole,
    /// `1.5`
    Point,
    /// `1,5`
    Comma,
    /// `1/2`, `1 ½`
    Fraction,
    /// `three`, `half`
    Word,
}

/// A number that starts at `at`, and how many bytes it takes.
pub(super) fn read(text: &str, at: usize) -> Result<(Number, usize), QuantityError> {
    let rest = &text[at..];
    if let Some((part, length)) = lone_fraction(text, at)? {
        return Ok((
            Number {
                value: part,
                other: None,
                shape: Shape::Fraction,
            },
            length,
        ));
    }
    let length = figures_length(rest);
    let figures = &rest[..length];
    let number = read_figures(figures, at)?;
    if number.shape != Shape::Whole {
        return Ok((number, length));
    }
    // A mixed number: `1 ½`, `1½`, `1 1/2`, `1-1/2`.
    let gap: usize = rest[length..]
        .chars()
        .take_while(|c| is_space(*c))
        .map(char::len_utf8)
        .sum();
    let hyphen = usize::from(gap == 0 && rest[length..].starts_with('-'));
    let next = at + length + gap + hyphen;
    if let Some((part, taken)) = lone_fraction(text, next)?
        && part < 1.0
    {
        let value = number.value + part;
        return Ok((
            Number {
                value,
                other: None,
                shape: Shape::Fraction,
            },
            length + gap + hyphen + taken,
        ));
    }
    Ok((number, length))
}

/// `½` or `1/2` at `at`.
fn lone_fraction(text: &str, at: usize) -> Result<Option<(f64, usize)>, QuantityError> {
    let Some(rest) = text.get(at..) else {
        return Ok(None);
    };
    let Some(first) = rest.chars().next() else {
        return Ok(None);
    };
    if let Some(part) = vulgar(first) {
        return Ok(Some((part, first.len_utf8())));
    }
    let top = rest.bytes().take_while(u8::is_ascii_digit).count();
    let Some(slash) = rest[top..]
        .chars()
        .next()
        .filter(|c| matches!(c, '/' | '⁄' | '∕'))
    else {
        return Ok(None);
    };
    let start = top + slash.len_utf8();
    let bottom = rest[start..].bytes().take_while(u8::is_ascii_digit).count();
    if top == 0 || bottom == 0 {
        return Ok(None);
    }
    let length = start + bottom;
    let numerator: f64 = rest[..top].parse().unwrap_or(f64::NAN);
    let denominator: f64 = rest[start..length].parse().unwrap_or(f64::NAN);
    if !(1.0..=LARGEST_DENOMINATOR).contains(&denominator) || numerator > 10_000.0 {
        return Err(QuantityError::new(
            Fault::BadNumber,
            at,
            format!("`{}` is no fraction that a measure has", &rest[..length]),
            "write it as a decimal number, such as `0.75`",
        ));
    }
    Ok(Some((numerator / denominator, length)))
}

/// The finest fraction that is read.
pub(super) const LARGEST_DENOMINATOR: f64 = 64.0;

/// Value of a one-letter fraction.
pub(super) fn vulgar(letter: char) -> Option<f64> {
    Some(match letter {
        '½' => 1.0 / 2.0,
        '⅓' => 1.0 / 3.0,
        '⅔' => 2.0 / 3.0,
        '¼' => 1.0 / 4.0,
        '¾' => 3.0 / 4.0,
        '⅕' => 1.0 / 5.0,
        '⅖' => 2.0 / 5.0,
        '⅗' => 3.0 / 5.0,
        '⅘' => 4.0 / 5.0,
        '⅙' => 1.0 / 6.0,
        '⅚' => 5.0 / 6.0,
        '⅐' => 1.0 / 7.0,
        '⅛' => 1.0 / 8.0,
        '⅜' => 3.0 / 8.0,
        '⅝' => 5.0 / 8.0,
        '⅞' => 7.0 / 8.0,
        '⅑' => 1.0 / 9.0,
        '⅒' => 1.0 / 10.0,
        _ => return None,
    })
}

/// How many bytes of figures and the marks between them start the text.
fn figures_length(text: &str) -> usize {
    let mut end = 0;
    for (at, letter) in text.char_indices() {
        if letter.is_ascii_digit() {
            end = at + 1;
            continue;
        }
        let after = &text[at + letter.len_utf8()..];
        let figures = after.bytes().take_while(u8::is_ascii_digit).count();
        let goes_on = match letter {
            '.' | ',' => figures > 0,
            '\'' | '’' => figures == 3,
            // Thousands parted by a space: `1 500`, never `1 50`.
            space if is_space(space) && space != '\n' => {
                end <= 3 + usize::from(text[..end].contains(is_space)) * 80
                    && figures == 3
                    && !text[..end].contains(['.', ','])
                    && !after[3..].starts_with(['/', '⁄', '∕'])
            }
            _ => false,
        };
        if !goes_on {
            break;
        }
    }
    end
}

/// The value of figures with their marks.
fn read_figures(figures: &str, at: usize) -> Result<Number, QuantityError> {
    let bad = || {
        QuantityError::new(
            Fault::BadNumber,
            at,
            format!("`{figures}` cannot be read as a number"),
            "write thousands without marks and one decimal point, such as `1500` or `1.5`",
        )
    };
    let plain: String = figures
        .chars()
        .filter(|c| !is_space(*c) && !matches!(c, '\'' | '’'))
        .collect();
    let parse = |text: &str| text.parse::<f64>().map_err(|_| bad());
    let marks: Vec<char> = plain.chars().filter(|c| matches!(c, '.' | ',')).collect();
    let groups: Vec<&str> = plain.split(['.', ',']).collect();
    let grouped = |groups: &[&str]| {
        groups
            .first()
            .is_some_and(|first| (1..=3).contains(&first.len()))
            && groups.iter().skip(1).all(|group| group.len() == 3)
    };
    let joined: String = groups.concat();
    match marks.as_slice() {
        [] => Ok(Number {
            value: parse(&plain)?,
            other: None,
            shape: Shape::Whole,
        }),
        [mark] => {
            let decimal = parse(&plain.replace(',', "."))?;
            let shape = if *mark == '.' {
                Shape::Point
            } else {
                Shape::Comma
            };
            let may_be_thousands = plain == figures
                && grouped(&groups)
                && !groups.first().is_some_and(|g| g.starts_with('0'));
            if !may_be_thousands {
                return Ok(Number {
                    value: decimal,
                    other: None,
                    shape,
                });
            }
            let whole = parse(&joined)?;
            let (value, other) = if *mark == '.' {
                (decimal, whole)
            } else {
                (whole, decimal)
            };
            Ok(Number {
                value,
                other: Some(other),
                shape,
            })
        }
        [first, .., last] => {
            let earlier = marks.len() - 1;
            if marks.iter().all(|mark| mark == first) && grouped(&groups) {
                Ok(Number {
                    value: parse(&joined)?,
                    other: None,
                    shape: Shape::Whole,
                })
            } else if first != last
                && marks.iter().take(earlier).all(|mark| mark == first)
                && grouped(groups.get(..marks.len()).unwrap_or(&[]))
            {
                let decimals = groups.last().copied().unwrap_or("");
                let whole = groups.get(..marks.len()).unwrap_or(&[]).concat();
                let shape = if *last == '.' {
                    Shape::Point
                } else {
                    Shape::Comma
                };
                Ok(Number {
                    value: parse(&format!("{whole}.{decimals}"))?,
                    other: None,
                    shape,
                })
            } else {
                Err(bad())
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::scan::{Token, scan};

    fn first(text: &str) -> Option<Number> {
        match scan(text).ok()?.first()?.token {
            Token::Number(number) => Some(number),
            _ => None,
        }
    }

    #[test]
    fn numbers_as_people_write_them() {
        for (text, value, other) in [
            ("12", 12.0, None),
            ("1.5", 1.5, None),
            ("1,5", 1.5, None),
            (".5", 0.5, None),
            ("1,500", 1500.0, Some(1.5)),
            ("1.500", 1.5, Some(1500.0)),
            ("0.125", 0.125, None),
            ("0,125", 0.125, None),
            ("1,500.25", 1500.25, None),
            ("1.500,25", 1500.25, None),
            ("1,500,000", 1_500_000.0, None),
            ("1 500", 1500.0, None),
            ("1\u{202f}500,5", 1500.5, None),
            ("12\u{a0}500", 12_500.0, None),
            ("1'500", 1500.0, None),
            ("½", 0.5, None),
            ("1½", 1.5, None),
            ("1 ½", 1.5, None),
            ("1 1/2", 1.5, None),
            ("1-1/2", 1.5, None),
            ("3/4", 0.75, None),
            ("1234.567", 1234.567, None),
        ] {
            let number = first(text).unwrap();
            assert!((number.value - value).abs() < 1e-12, "{text}: {number:?}");
            assert_eq!(number.other, other, "{text}");
        }
    }

    #[test]
    fn numbers_that_are_none() {
        for text in ["1,50,000", "1.2.3", "1,2,3", "1/0", "1/1000"] {
            assert_eq!(scan(text).unwrap_err().fault, Fault::BadNumber, "{text}");
        }
    }
}
