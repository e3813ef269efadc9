//! Texts at the edge: what both databases can keep, and how a text is known again.

use pomace_book::limits::{DOCUMENT_BYTES, NAME_BYTES};
use sha2::{Digest as _, Sha256};

use crate::error::Error;

/// Bytes of a reason for a change.
const WHY_BYTES: usize = 2_000;
/// Bytes of a word such as a kind.
const WORD_BYTES: usize = 32;

/// A text of which nothing is asked but that it can be kept.
pub(crate) fn check_body(what: &str, text: &str) -> Result<(), Error> {
    check_length(
        what,
        text,
        usize::try_from(DOCUMENT_BYTES).unwrap_or(usize::MAX),
    )
}

/// A name, which is not empty.
pub(crate) fn check_name(what: &str, name: &str) -> Result<(), Error> {
    if name.trim().is_empty() {
        return Err(bad(what, "it is empty".to_owned()));
    }
    check_length(what, name, NAME_BYTES)
}

/// A reason.
pub(crate) fn check_why(why: &str) -> Result<(), Error> {
    check_length("the reason", why, WHY_BYTES)
}

/// One word of small letters, digits and `-`.
pub(crate) fn check_word(what: &str, word: &str) -> Result<(), Error> {
    let plain = |sign: u8| sign.is_ascii_lowercase() || sign.is_ascii_digit() || sign == b'-';
    if (1..=WORD_BYTES).contains(&word.len()) && word.bytes().all(plain) {
        Ok(())
    } else {
        let wanted = format!("it is no word of 1 to {WORD_BYTES} small letters, digits and `-`");
        Err(bad(what, wanted))
    }
}

fn check_length(what: &str, text: &str, most: usize) -> Result<(), Error> {
    if text.len() > most {
        let problem = format!("it has {} bytes, and the most is {most}", text.len());
        return Err(bad(what, problem));
    }
    // PostgreSQL keeps none, and SQLite ends a text there in some of its functions.
    match text.find('\0') {
        Some(at) => Err(bad(what, format!("it holds a zero byte at byte {at}"))),
        None => Ok(()),
    }
}

pub(crate) fn bad(what: &str, problem: String) -> Error {
    Error::BadText {
        what: what.to_owned(),
        problem,
    }
}

/// SHA-256 of some texts, in hexadecimal digits. One text is hashed as it is, as `sha256sum` does;
/// between several stand their lengths, so that no two lists are alike.
pub(crate) fn sha256(texts: &[&str]) -> String {
    let mut hash = Sha256::new();
    for text in texts {
        if texts.len() > 1 {
            hash.update(text.len().to_be_bytes());
        }
        hash.update(text);
    }
    hash.finalize()
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect()
}
