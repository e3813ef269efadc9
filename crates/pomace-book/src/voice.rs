//! What is said of a document, in the voice of whoever hears it.
//!
//! It is written once, with marks in it: `` ` `` around words that somebody wrote or may write, ‹ and ›
//! around a place that holds them. Terminal and JSON hear the voice of the file, where such a place is a
//! key with its value: ‹amount = …› is `` `amount = "…"` ``, and ‹add amount = …› adds it. A page has fields
//! that are filled in, and calls them by what stands beside them. What only a file can have, a bracket too
//! few, is said on a page in other words.

use std::fmt::{self, Write};

use serde::{Serialize, Serializer};

/// What to do about what no page can mend.
pub const IN_ITS_FILE: &str = "that is mended in its file, not on a page; an earlier revision can be brought back from its history";

/// A sentence about a document, without its full stop.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Words {
    marked: String,
    /// Where a page says it otherwise.
    on_page: Option<String>,
}

impl Words {
    /// Words about the file as a file, and what a page says in their place; both may have marks.
    pub fn of_file(file: impl Into<String>, on_page: impl Into<String>) -> Self {
        Self {
            marked: file.into(),
            on_page: Some(on_page.into()),
        }
    }

    /// The same with something before it.
    #[must_use]
    pub fn after(&self, before: impl Into<Self>) -> Self {
        let before = before.into();
        let is_otherwise = before.on_page.is_some() || self.on_page.is_some();
        Self {
            marked: format!("{}{}", before.marked, self.marked),
            on_page: is_otherwise.then(|| format!("{}{}", before.for_page(), self.for_page())),
        }
    }

    fn for_page(&self) -> &str {
        self.on_page.as_ref().unwrap_or(&self.marked)
    }

    /// Whether nothing is said.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.marked.is_empty()
    }

    /// In the voice of a page, that names the field of a key; a key without one is called as it is.
    #[must_use]
    pub fn on_page<'f>(&self, field: impl Fn(&str) -> Option<&'f str>) -> String {
        let mut said = String::new();
        for piece in pieces(self.for_page()) {
            match piece {
                Piece::Plain(words) => said.push_str(words),
                Piece::Quoted(words) => quote(&mut said, words),
                Piece::Key { is_new, key, value } => {
                    said.push_str(if is_new { "fill in " } else { "" });
                    match field(key) {
                        Some(label) => quote(&mut said, label),
                        None => quote(&mut said, &key.replace('_', " ")),
                    }
                    if let Some(value) = value.filter(|value| *value != OPEN_VALUE) {
                        said.push_str(": ");
                        quote(&mut said, value);
                    }
                }
            }
        }
        said
    }
}

/// Stands for whatever is to be written.
const OPEN_VALUE: &str = "…";

/// Marks that somebody typed are no marks of ours.
fn quote(said: &mut String, words: &str) {
    let words = words.replace('`', "’");
    let _ = write!(said, "“{words}”");
}

/// A stretch of marked words.
enum Piece<'w> {
    Plain(&'w str),
    Quoted(&'w str),
    Key {
        /// Whether it is to be added.
        is_new: bool,
        key: &'w str,
        value: Option<&'w str>,
    },
}

fn pieces(marked: &str) -> Vec<Piece<'_>> {
    let mut pieces = Vec::new();
    let mut rest = marked;
    while let Some(at) = rest.find(['`', '‹']) {
        let (before, from) = rest.split_at(at);
        let end = if from.starts_with('`') { '`' } else { '›' };
        let mut signs = from.chars();
        signs.next();
        let after = signs.as_str();
        if !before.is_empty() {
            pieces.push(Piece::Plain(before));
        }
        // A mark that nothing ends was somebody's own sign; all of the rest is theirs.
        let (within, behind) = after.split_once(end).unwrap_or((after, ""));
        pieces.push(if end == '`' {
            Piece::Quoted(within)
        } else {
            let (is_new, within) = match within.strip_prefix("add ") {
                Some(within) => (true, within),
                None => (false, within),
            };
            let (key, value) = match within.split_once(" = ") {
                Some((key, value)) => (key, Some(value)),
                None => (within, None),
            };
            Piece::Key { is_new, key, value }
        });
        rest = behind;
    }
    if !rest.is_empty() {
        pieces.push(Piece::Plain(rest));
    }
    pieces
}

/// In the voice of the file.
impl fmt::Display for Words {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if !self.marked.contains('‹') {
            return f.write_str(&self.marked);
        }
        for piece in pieces(&self.marked) {
            match piece {
                Piece::Plain(words) => f.write_str(words)?,
                Piece::Quoted(words) => write!(f, "`{words}`")?,
                Piece::Key { is_new, key, value } => {
                    f.write_str(if is_new { "add " } else { "" })?;
                    match value {
                        Some(value) => write!(f, "`{key} = \"{value}\"`")?,
                        None => write!(f, "`{key}`")?,
                    }
                }
            }
        }
        Ok(())
    }
}

impl Serialize for Words {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl From<String> for Words {
    fn from(marked: String) -> Self {
        Self {
            marked,
            on_page: None,
        }
    }
}

impl From<&str> for Words {
    fn from(marked: &str) -> Self {
        marked.to_owned().into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn field(key: &str) -> Option<&'static str> {
        (key == "amount").then_some("How much")
    }

    #[test]
    fn a_key_is_a_key_in_a_file_and_a_field_on_a_page() {
        let words =
            Words::from("‹add amount = …›, such as `40 mL`, and ‹enters = top›; or ‹by_product›");
        assert_eq!(
            words.to_string(),
            "add `amount = \"…\"`, such as `40 mL`, and `enters = \"top\"`; or `by_product`"
        );
        assert_eq!(
            words.on_page(field),
            "fill in “How much”, such as “40 mL”, and “enters”: “top”; or “by product”"
        );
    }

    #[test]
    fn a_page_says_otherwise_what_only_a_file_can_have() {
        let words =
            Words::of_file("write `[[line]]`", "put in a line, with ‹amount›").after("mend: ");
        assert_eq!(words.to_string(), "mend: write `[[line]]`");
        assert_eq!(words.on_page(field), "mend: put in a line, with “How much”");
    }

    #[test]
    fn signs_of_somebody_else_break_nothing() {
        for text in [
            "`",
            "a`b",
            "‹",
            "‹a",
            "a›",
            "``",
            "`a` `",
            "‹ = ›",
            "‹é`",
            "`‹`›",
        ] {
            let page = Words::from(text).on_page(field);
            assert!(!page.contains('`'), "{text}: {page}");
            let _ = Words::from(text).to_string();
        }
    }
}
