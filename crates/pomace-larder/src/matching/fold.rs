//! What counts as the same word.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// A name without case, accents, punctuation and plurals: its [`words`] with single spaces.
///
/// ```
/// use pomace_larder::matching::fold;
/// assert_eq!(fold("  Crème de  Cassis! "), "creme de cassis");
/// assert_eq!(fold("Cherries (sour)"), "cherry sour");
/// ```
#[must_use]
pub fn fold(name: &str) -> String {
    words(name).join(" ")
}

/// The folded words of a name, in their order.
#[must_use]
pub fn words(name: &str) -> Vec<String> {
    let mut words = Vec::new();
    let mut word = String::new();
    for letter in name.nfkd().filter(|letter| !is_combining_mark(*letter)) {
        if letter.is_alphanumeric() {
            push_plain(&mut word, letter);
        } else if !word.is_empty() {
            words.push(singular(std::mem::take(&mut word)));
        }
    }
    if !word.is_empty() {
        words.push(singular(word));
    }
    // What an apostrophe leaves behind: baker's.
    if words.len() > 1 {
        words.retain(|word| word != "s");
    }
    words
}

/// Letters that do not come apart into a base and an accent.
fn push_plain(word: &mut String, letter: char) {
    match letter {
        'ß' | 'ẞ' => word.push_str("ss"),
        'æ' | 'Æ' => word.push_str("ae"),
        'œ' | 'Œ' => word.push_str("oe"),
        'ø' | 'Ø' => word.push('o'),
        'ł' | 'Ł' => word.push('l'),
        'đ' | 'Đ' | 'ð' | 'Ð' => word.push('d'),
        'ı' => word.push('i'),
        _ => word.extend(
            letter
                .to_lowercase()
                .filter(|letter| !is_combining_mark(*letter)),
        ),
    }
}

/// The word without its English plural; wrong for some words, but alike on both sides.
fn singular(word: String) -> String {
    let ends = |ending: &str, least: usize| word.len() >= least && word.ends_with(ending);
    let cut = |count: usize, add: &str| {
        let kept = word.get(..word.len() - count).unwrap_or_default();
        format!("{kept}{add}")
    };
    if ends("ies", 5) {
        return cut(3, "y");
    }
    if word == "leaves" {
        return "leaf".to_owned();
    }
    if ["ches", "shes", "xes", "sses", "oes"]
        .iter()
        .any(|ending| ends(ending, 5))
    {
        return cut(2, "");
    }
    if ends("s", 4) && !["ss", "us", "is"].iter().any(|ending| ends(ending, 0)) {
        return cut(1, "");
    }
    word
}
