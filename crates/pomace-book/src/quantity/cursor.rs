//! A walk over the pieces of a measure.

use super::error::{Fault, QuantityError};
use super::number::{Number, Shape};
use super::scan::{Piece, Token, is_dash, scan};

/// The pieces of a measure and how far they have been read.
#[derive(Clone)]
pub(crate) struct Cursor<'t> {
    pub text: &'t str,
    pieces: Vec<Piece<'t>>,
    at: usize,
}

impl<'t> Cursor<'t> {
    pub(crate) fn new(text: &'t str) -> Result<Self, QuantityError> {
        Ok(Self {
            text,
            pieces: scan(text)?,
            at: 0,
        })
    }

    pub(crate) fn piece(&self, ahead: usize) -> Option<&Piece<'t>> {
        self.pieces.get(self.at + ahead)
    }

    pub(crate) fn skip(&mut self, count: usize) {
        self.at = (self.at + count).min(self.pieces.len());
    }

    pub(crate) fn skip_all(&mut self) {
        self.at = self.pieces.len();
    }

    /// Byte where the next piece starts; the end of the text where there is none.
    pub(crate) fn offset(&self) -> usize {
        self.piece(0)
            .map_or(self.text.trim_end().len(), |piece| piece.start)
    }

    /// The text from the next piece on.
    pub(crate) fn rest(&self) -> &'t str {
        self.text.get(self.offset()..).unwrap_or("").trim_end()
    }

    pub(crate) fn is_done(&self) -> bool {
        self.at >= self.pieces.len()
    }

    /// The word some pieces ahead, as written.
    pub(crate) fn word(&self, ahead: usize) -> Option<&'t str> {
        match self.piece(ahead)?.token {
            Token::Word(word) => Some(word),
            _ => None,
        }
    }

    pub(crate) fn is_word(&self, ahead: usize, words: &[&str]) -> bool {
        self.word(ahead).is_some_and(|word| {
            let word = word.to_lowercase();
            words.contains(&word.as_str())
        })
    }

    pub(crate) fn is_sign(&self, ahead: usize, signs: &[char]) -> bool {
        matches!(self.piece(ahead), Some(Piece { token: Token::Sign(sign), .. }) if signs.contains(sign))
    }

    pub(crate) fn is_dash(&self, ahead: usize) -> bool {
        matches!(self.piece(ahead), Some(Piece { token: Token::Sign(sign), .. }) if is_dash(*sign))
    }

    /// Takes the next word if it is one of these.
    pub(crate) fn take_word(&mut self, words: &[&str]) -> bool {
        let found = self.is_word(0, words);
        self.skip(usize::from(found));
        found
    }

    /// Takes the next sign if it is one of these.
    pub(crate) fn take_sign(&mut self, signs: &[char]) -> bool {
        let found = self.is_sign(0, signs);
        self.skip(usize::from(found));
        found
    }

    /// Whether a number starts some pieces ahead.
    pub(crate) fn is_number(&self, ahead: usize) -> bool {
        match self.piece(ahead).map(|piece| &piece.token) {
            Some(Token::Number(_)) => true,
            Some(Token::Word(word)) => number_word(word).is_some(),
            _ => false,
        }
    }

    /// Takes a number, in figures or words, if one comes next.
    pub(crate) fn take_number(&mut self) -> Option<Number> {
        let mut number = self.take_number_of_ones()?;
        // `a dozen dozen` too: a dozen that was left would be read again as a number.
        while self.take_word(&["dozen"]) {
            let value = number.value * 12.0;
            number = Number {
                value,
                other: None,
                shape: if value.fract() == 0.0 {
                    Shape::Word
                } else {
                    Shape::Point
                },
            };
        }
        Some(number)
    }

    /// A number without the dozens behind it.
    fn take_number_of_ones(&mut self) -> Option<Number> {
        let first = self.take_plain_number()?;
        // `one and a half`, `2 and a half`
        if self.is_word(0, &["and"]) && self.is_word(1, &["a"]) && self.is_word(2, &["half"]) {
            self.skip(3);
            return Some(Number {
                value: first.value + 0.5,
                other: None,
                shape: Shape::Word,
            });
        }
        // `half a lime`, `half a dozen`
        if first.shape == Shape::Word && first.value < 1.0 && self.is_word(0, &["a", "an"]) {
            self.skip(1);
        }
        for (words, part) in [
            (["quarter", "quarters"], 1.0 / 4.0),
            (["third", "thirds"], 1.0 / 3.0),
            (["half", "halves"], 1.0 / 2.0),
        ] {
            if first.shape == Shape::Word && first.value >= 1.0 && self.take_word(&words) {
                return Some(Number {
                    value: first.value * part,
                    other: None,
                    shape: Shape::Word,
                });
            }
        }
        Some(first)
    }

    fn take_plain_number(&mut self) -> Option<Number> {
        let number = match &self.piece(0)?.token {
            Token::Number(number) => *number,
            Token::Word(word) => Number {
                value: number_word(word)?,
                other: None,
                shape: Shape::Word,
            },
            Token::Sign(_) => return None,
        };
        self.skip(1);
        Some(number)
    }

    /// Takes a minus sign that stands before a number.
    pub(crate) fn take_minus(&mut self) -> bool {
        let found = (self.is_dash(0) && self.is_number(1)) || self.is_word(0, &["minus"]);
        self.skip(usize::from(found));
        found
    }

    /// Nothing may be left.
    pub(crate) fn finish(&self, mend: &str) -> Result<(), QuantityError> {
        if self.is_done() {
            return Ok(());
        }
        Err(QuantityError::new(
            Fault::Leftover,
            self.offset(),
            format!("`{}` at the end is not understood", shorten(self.rest())),
            mend,
        ))
    }
}

/// A number written as a word.
fn number_word(word: &str) -> Option<f64> {
    Some(match word.to_lowercase().as_str() {
        "a" | "an" | "one" => 1.0,
        "two" => 2.0,
        "three" => 3.0,
        "four" => 4.0,
        "five" => 5.0,
        "six" => 6.0,
        "seven" => 7.0,
        "eight" => 8.0,
        "nine" => 9.0,
        "ten" => 10.0,
        "eleven" => 11.0,
        "twelve" | "dozen" => 12.0,
        "half" => 0.5,
        "quarter" => 0.25,
        _ => return None,
    })
}

/// At most forty letters of a text, for messages.
pub(crate) fn shorten(text: &str) -> String {
    let clean: String = text
        .chars()
        .map(|letter| if letter.is_control() { ' ' } else { letter })
        .collect();
    if clean.chars().count() <= 40 {
        return clean;
    }
    let start: String = clean.chars().take(39).collect();
    format!("{}…", start.trim_end())
}
