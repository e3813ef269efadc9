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
    // Nearly every name is plain, and taking Unicode apart is most of the work.
    if name.is_ascii() {
        split(name.chars().map(|letter| letter.to_ascii_lowercase()))
    } else {
        split(letters(name))
    }
}

/// The letters and signs of a name in lower case and without accents, nothing else changed; what
/// every way to compare names starts from.
///
/// ```
/// use pomace_larder::matching::letters;
/// assert_eq!(letters("Œufs à la Crème").collect::<String>(), "oeufs a la creme");
/// ```
pub fn letters(name: &str) -> impl Iterator<Item = char> {
    name.nfkd()
        .filter(|letter| !is_combining_mark(*letter))
        .flat_map(char::to_lowercase)
        // Lower case of `İ` brings a dot of its own.
        .filter(|letter| !is_combining_mark(*letter))
        .flat_map(|letter| apart(letter).into_iter().flatten())
}

/// Letters that Unicode does not take apart into a base and an accent.
const fn apart(letter: char) -> [Option<char>; 2] {
    match letter {
        'ß' => [Some('s'), Some('s')],
        'æ' => [Some('a'), Some('e')],
        'œ' => [Some('o'), Some('e')],
        'ø' => [Some('o'), None],
        'ł' => [Some('l'), None],
        'đ' | 'ð' => [Some('d'), None],
        'ı' => [Some('i'), None],
        other => [Some(other), None],
    }
}

fn split(letters: impl Iterator<Item = char>) -> Vec<String> {
    let mut words = Vec::new();
    let mut word = String::new();
    for letter in letters {
        if letter.is_alphanumeric() {
            word.push(letter);
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
