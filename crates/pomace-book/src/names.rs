//! Names compared as people mean them: case, accents and extra spaces do not matter.

use unicode_normalization::UnicodeNormalization as _;
use unicode_normalization::char::is_combining_mark;

/// A name without case, accents and extra spaces, for comparing.
///
/// ```
/// assert_eq!(pomace_book::names::fold("  Crème   DE Cassis "), "creme de cassis");
/// ```
#[must_use]
pub fn fold(name: &str) -> String {
    let mut folded = String::with_capacity(name.len());
    let plain = name.nfkd().filter(|letter| !is_combining_mark(*letter));
    for letter in plain.flat_map(char::to_lowercase) {
        match letter {
            'ø' => folded.push('o'),
            'ł' => folded.push('l'),
            'đ' => folded.push('d'),
            'ı' => folded.push('i'),
            'æ' => folded.push_str("ae"),
            'œ' => folded.push_str("oe"),
            'ß' => folded.push_str("ss"),
            '’' | '‘' => folded.push('\''),
            letter if letter.is_whitespace() => {
                if !folded.ends_with(' ') && !folded.is_empty() {
                    folded.push(' ');
                }
            }
            // Lower case of `İ` brings a dot of its own.
            letter if is_combining_mark(letter) => {}
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

/// The names closest to a query, best first, at most `count`; only those near enough to be
/// a slip of the hand, or that hold the query as a whole word.
pub fn nearest<'a>(
    query: &str,
    names: impl IntoIterator<Item = &'a str>,
    count: usize,
) -> Vec<&'a str> {
    // Longer queries are never a slip of a name, and comparing them costs the square.
    const LONGEST: usize = 80;
    let query = fold(query);
    if query.is_empty() || query.len() > LONGEST {
        return Vec::new();
    }
    let mut found: Vec<(f64, &str)> = Vec::new();
    for name in names {
        if name.len() > 4 * LONGEST {
            continue;
        }
        let folded = fold(name);
        let mut likeness = strsim::normalized_damerau_levenshtein(&query, &folded);
        let holds = |whole: &str, part: &str| {
            part.len() >= 3 && whole.split([' ', ',', '/']).any(|word| word == part)
        };
        if holds(&folded, &query) || holds(&query, &folded) {
            likeness = likeness.max(0.75);
        }
        if likeness >= 0.62 && !found.iter().any(|(_, other)| *other == name) {
            found.push((likeness, name));
        }
    }
    found.sort_by(|(a, left), (b, right)| b.total_cmp(a).then_with(|| left.cmp(right)));
    found.truncate(count);
    found.into_iter().map(|(_, name)| name).collect()
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
    }
}
