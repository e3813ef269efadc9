//! Ids: short texts of our own that sort by the time they were drawn, and never a name.

use std::fmt;
use std::sync::Arc;

use crate::error::Error;
use crate::when::When;

/// Signs of an id: digits and letters without those that are read for one another (i, l, o, u).
const SIGNS: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";
/// Signs for the time in milliseconds: 45 bits, enough until the year 3084.
const TIME_SIGNS: u32 = 9;
/// Signs drawn by lot: 35 bits, so that a thousand ids drawn in one millisecond are all different
/// but for one case in 70,000.
const DRAWN_SIGNS: u32 = 7;

/// Id of a document or a row, 16 signs.
///
/// Ids sort in the order of the times for which they were drawn, to the millisecond. Renaming a
/// document leaves its id as it is.
#[derive(Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Id(Arc<str>);

impl Id {
    /// Draws a new id for something that begins at this time.
    #[must_use]
    pub fn new(when: &When) -> Self {
        let time = spelled(when.milliseconds(), TIME_SIGNS);
        Self((time + &spelled(drawn(), DRAWN_SIGNS)).into())
    }

    /// Reads an id back.
    ///
    /// # Errors
    /// [`Error::BadId`] if the text is not 16 signs out of `0-9` and `a-z` without i, l, o, u.
    pub fn parse(text: &str) -> Result<Self, Error> {
        let long = text.len() == (TIME_SIGNS + DRAWN_SIGNS) as usize;
        if long && text.bytes().all(|sign| SIGNS.contains(&sign)) {
            Ok(Self(text.into()))
        } else {
            Err(Error::BadId {
                given: text.to_owned(),
            })
        }
    }

    /// The id as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Debug for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// Names one sending of one save, so that the same save sent again is known for the same.
///
/// The caller draws it once, before the first try, and keeps it until an answer has come.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Token(String);

/// Bytes of a token; more than any common kind of unique text needs.
const TOKEN_BYTES: usize = 64;

impl Token {
    /// Draws a token.
    #[must_use]
    pub fn new() -> Self {
        Self(spelled(drawn(), 12) + &spelled(drawn(), 12))
    }

    /// Takes a token that somebody else drew: a page, a script.
    ///
    /// # Errors
    /// [`Error::BadToken`] if it is empty, longer than 64 bytes, or has signs beside letters,
    /// digits, `-` and `_`.
    pub fn parse(text: &str) -> Result<Self, Error> {
        let plain = |sign: u8| sign.is_ascii_alphanumeric() || sign == b'-' || sign == b'_';
        if (1..=TOKEN_BYTES).contains(&text.len()) && text.bytes().all(plain) {
            Ok(Self(text.to_owned()))
        } else {
            Err(Error::BadToken)
        }
    }

    /// The token as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl Default for Token {
    fn default() -> Self {
        Self::new()
    }
}

/// The last `signs` × 5 bits of a number, most significant first.
fn spelled(number: u64, signs: u32) -> String {
    (0..signs)
        .rev()
        .filter_map(|place| SIGNS.get((number >> (5 * place)) as usize & 31))
        .map(|sign| char::from(*sign))
        .collect()
}

/// 64 bits by lot, from the operating system.
fn drawn() -> u64 {
    getrandom::u64().unwrap_or_else(|_| {
        // No source of randomness, as early after the start of a small machine: the keys of the
        // standard library's hash tables are drawn from wherever it can.
        use std::hash::{BuildHasher as _, RandomState};
        RandomState::new().hash_one(std::time::Instant::now())
    })
}
