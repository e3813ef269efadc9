//! Names compared as people mean them: case, accents and extra spaces do not matter.
//!
//! What people search by (`pomace_larder::matching`) also forgives plurals, punctuation and the order
//! of words. A book takes only its letters: what is the same there may be two documents here, such as
//! `Lime` and `Limes`, and a name of the house must lead to one. What is merely close is asked about
//! ([`nearest`]), never taken.

mod near;

pub use near::nearest;
pub(crate) use near::{NameIndex, Near};

/// A name without case, accents and extra spaces, for comparing.
///
/// ```
/// assert_eq!(pomace_book::names::fold("  Crème   DE Cassis "), "creme de cassis");
/// ```
#[must_use]
pub fn fold(name: &str) -> String {
    // Nearly every name is plain, and taking Unicode apart is most of the work.
    if name.is_ascii() {
        joined(name.chars().map(|letter| letter.to_ascii_lowercase()), name)
    } else {
        joined(pomace_larder::matching::letters(name), name)
    }
}

fn joined(letters: impl Iterator<Item = char>, name: &str) -> String {
    let mut folded = String::with_capacity(name.len());
    for letter in letters {
        match letter {
            '’' | '‘' => folded.push('\''),
            letter if letter.is_whitespace() => {
                if !folded.ends_with(' ') && !folded.is_empty() {
                    folded.push(' ');
                }
            }
            letter => folded.push(letter),
        }
    }
    folded.truncate(folded.trim_end().len());
    folded
}

/// Whether two names mean the same.
#[must_use]
pub fn same(one: &str, other: &str) -> bool {
    // Most names are plain, and a long prep compares thousands of them.
    if one.is_ascii() && other.is_ascii() {
        let mut words = one.split_ascii_whitespace();
        let mut others = other.split_ascii_whitespace();
        loop {
            match (words.next(), others.next()) {
                (None, None) => return true,
                (Some(word), Some(other)) if word.eq_ignore_ascii_case(other) => {}
                _ => return false,
            }
        }
    }
    fold(one) == fold(other)
}

/// "`a`, `b` or `c`".
#[must_use]
pub fn either<'a>(names: impl IntoIterator<Item = &'a str>) -> String {
    let names: Vec<String> = names.into_iter().map(|name| format!("`{name}`")).collect();
    match names.as_slice() {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}

/// "`a` → `b` → `a`"; of a long way only its beginning and its end.
#[must_use]
pub fn round<'a>(names: impl IntoIterator<Item = &'a str>) -> String {
    const SHOWN: usize = 8;
    let names: Vec<String> = names.into_iter().map(|name| format!("`{name}`")).collect();
    match names.as_slice() {
        [first @ .., last] if names.len() > SHOWN + 2 => {
            let shown = first.get(..SHOWN).unwrap_or(first);
            let more = first.len() - shown.len();
            format!("{} → ({more} more) → {last}", shown.join(" → "))
        }
        all => all.join(" → "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folding_is_idempotent_and_forgiving() {
        for (one, other) in [
            ("Crème", "creme"),
            ("whey,  Cleared ", "Whey, cleared"),
            ("Smørrebrød", "smorrebrod"),
            ("Œufs", "oeufs"),
            ("quince\u{a0}/\tpeel", "Quince / Peel"),
        ] {
            assert_eq!(fold(one), fold(other));
            assert_eq!(fold(&fold(one)), fold(one));
        }
    }

    #[test]
    fn near_names_first() {
        let names = ["honey", "white sugar", "honeydew melon", "lime"];
        assert_eq!(nearest("hony", names, 3), ["honey"]);
        assert_eq!(nearest("sugar", names, 3), ["white sugar"]);
        assert!(nearest("xylophone", names, 3).is_empty());
    }

    #[test]
    fn lists_read_as_a_sentence() {
        assert_eq!(either(["a", "b", "c"]), "`a`, `b` or `c`");
        assert_eq!(either(["a"]), "`a`");
        assert_eq!(round(["a", "b", "a"]), "`a` → `b` → `a`");
        let long = round("abcdefghijklmna".split("").filter(|name| !name.is_empty()));
        assert!(long.ends_with("`h` → (6 more) → `a`"), "{long}");
    }
}
