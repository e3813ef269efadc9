//! A measure cut into numbers, words and signs.

use super::error::{Fault, QuantityError};
use super::number::{self, Number};
use crate::limits::MEASURE_BYTES;

/// A piece of the text and where it stands.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Piece<'t> {
    pub token: Token<'t>,
    pub start: usize,
    pub end: usize,
}

/// What a piece is.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Token<'t> {
    Number(Number),
    Word(&'t str),
    Sign(char),
}

/// Spaces that may stand inside a number or between words.
pub(super) fn is_space(letter: char) -> bool {
    letter.is_whitespace() || letter == '\u{200b}' || letter == '\u{feff}'
}

/// Every way to write a dash or a minus.
pub(crate) fn is_dash(letter: char) -> bool {
    matches!(letter, '-' | '‐' | '‑' | '‒' | '–' | '—' | '−')
}

/// Cuts a measure into pieces.
pub(crate) fn scan(text: &str) -> Result<Vec<Piece<'_>>, QuantityError> {
    if text.chars().all(is_space) {
        return Err(QuantityError::new(
            Fault::Empty,
            0,
            "nothing is written here",
            "write a number and a unit, or leave the key out",
        ));
    }
    if text.len() > MEASURE_BYTES {
        return Err(QuantityError::new(
            Fault::TooLong,
            0,
            format!("{} bytes are more than a measure needs", text.len()),
            "write one number and one unit here, and anything else as ‹note›",
        ));
    }
    let mut pieces = Vec::new();
    let mut at = 0;
    while let Some(letter) = text.get(at..).and_then(|rest| rest.chars().next()) {
        if is_space(letter) {
            at += letter.len_utf8();
            continue;
        }
        let (token, length) = if letter.is_ascii_digit()
            || number::vulgar(letter).is_some()
            || (matches!(letter, '.' | ',') && starts_with_digit(text, at + 1))
        {
            let (number, length) = number::read(text, at)?;
            (Token::Number(number), length)
        } else if is_word_letter(letter) {
            let length = word_length(&text[at..]);
            (Token::Word(&text[at..at + length]), length)
        } else {
            (Token::Sign(letter), letter.len_utf8())
        };
        pieces.push(Piece {
            token,
            start: at,
            end: at + length,
        });
        at += length;
        // The point of an abbreviation says nothing.
        if matches!(
            pieces.last(),
            Some(Piece {
                token: Token::Word(_),
                ..
            })
        ) && text[at..].starts_with('.')
            && !text[at..].starts_with("..")
        {
            at += 1;
        }
    }
    Ok(pieces)
}

fn starts_with_digit(text: &str, at: usize) -> bool {
    text.as_bytes().get(at).is_some_and(u8::is_ascii_digit)
}

fn is_word_letter(letter: char) -> bool {
    (letter.is_alphabetic() || matches!(letter, '°' | 'µ' | '€' | '£' | '$'))
        && number::vulgar(letter).is_none()
}

/// Letters with the hyphens and apostrophes between them.
fn word_length(text: &str) -> usize {
    let mut end = 0;
    let mut letters = text.char_indices().peekable();
    while let Some((at, letter)) = letters.next() {
        let joins = matches!(letter, '-' | '\'' | '’')
            && letters
                .peek()
                .is_some_and(|(_, next)| is_word_letter(*next));
        let mark = unicode_normalization::char::is_combining_mark(letter);
        if !(is_word_letter(letter) || joins || mark) {
            break;
        }
        end = at + letter.len_utf8();
    }
    end.max(text.chars().next().map_or(0, char::len_utf8))
}
