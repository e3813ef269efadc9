//! What is refused before the TOML reader sees it: texts too large, nested too deep, not TOML.

use crate::limits::{DOCUMENT_BYTES, NESTING};
use crate::span::Span;

/// A reason not to read a text at all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Refusal {
    pub span: Span,
    pub message: String,
    pub mend: &'static str,
}

/// Refuses what could not be read without harm.
pub(super) fn check(text: &str) -> Result<(), Refusal> {
    if text.len() as u64 > DOCUMENT_BYTES {
        return Err(Refusal {
            span: Span::default(),
            message: format!(
                "the document has {} bytes; the most is {DOCUMENT_BYTES}",
                text.len(),
            ),
            mend: "a document is one prep, drink or ingredient; split it",
        });
    }
    if text.contains('\0') {
        return Err(Refusal {
            span: Span::default(),
            message: "this is no text: it holds zero bytes".to_owned(),
            mend: "give a TOML text in UTF-8",
        });
    }
    nesting(text)
}

/// Counts brackets and dotted keys outside strings and comments. It need not be exact for texts
/// that are no TOML; it must not miss depth in those that are.
fn nesting(text: &str) -> Result<(), Refusal> {
    let bytes = text.as_bytes();
    let (mut at, mut brackets, mut dots) = (0, 0_usize, 0_usize);
    while let Some(&byte) = bytes.get(at) {
        let rest = bytes.get(at..).unwrap_or(&[]);
        match byte {
            b'#' => at += comment_length(rest) - 1,
            b'"' | b'\'' => at += string_length(rest, byte) - 1,
            b'[' | b'{' => {
                brackets += 1;
                dots = 0;
            }
            b']' | b'}' => brackets = brackets.saturating_sub(1),
            b'.' => dots += 1,
            b'\n' | b'=' | b',' => dots = 0,
            _ => {}
        }
        if brackets + dots > NESTING {
            return Err(Refusal {
                span: Span {
                    start: at,
                    end: at + 1,
                },
                message: format!(
                    "arrays, tables and dotted keys lie deeper than {NESTING} in one another"
                ),
                mend: "no document needs more than a list of tables; write it flat",
            });
        }
        at += 1;
    }
    Ok(())
}

/// Bytes of the comment that starts here, without its line's end; at least 1.
fn comment_length(text: &[u8]) -> usize {
    let end = text.iter().position(|byte| *byte == b'\n');
    end.unwrap_or(text.len()).max(1)
}

/// Bytes of the string that starts here, its quotes included; at least 1.
fn string_length(text: &[u8], quote: u8) -> usize {
    let triple = [quote; 3];
    let long = text.starts_with(&triple);
    let mut at = if long { 3 } else { 1 };
    while let Some(&byte) = text.get(at) {
        if byte == b'\\' && quote == b'"' {
            at += 2;
            continue;
        }
        if long && text.get(at..).is_some_and(|rest| rest.starts_with(&triple)) {
            return at + 3;
        }
        if !long && (byte == quote || byte == b'\n') {
            return at + 1;
        }
        at += 1;
    }
    text.len().max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn depth_is_bounded() {
        assert!(check("a = [[1, 2], [3]] # [[[[[[[[[[[[[[[[[[[[\n").is_ok());
        assert!(check("a = '[[[[[[[[[[[[[[[[[[[[[['\n").is_ok());
        assert!(check("a = \"\"\"\n[[[[[[[[[[[[[[[[[[[[[[\"\"\"\n").is_ok());
        assert!(check(&format!("a = {}", "[".repeat(100_000))).is_err());
        assert!(check(&format!("{}a = 1", "a.".repeat(100_000))).is_err());
        assert!(check(&format!("[{}a]", "a . ".repeat(40))).is_err());
        assert!(check(&"x".repeat(1_000_001)).is_err());
        assert!(check("a\0b").is_err());
    }

    #[test]
    fn broken_strings_end_somewhere() {
        for text in ["\"", "'", "\"\"\"", "a = \"\\", "'''", "#", "a = 'b"] {
            assert!(check(text).is_ok(), "{text}");
        }
    }
}
