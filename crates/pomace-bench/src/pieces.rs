//! What is counted: whether `3 slices` are three of the pieces whose weight is known.

use pomace_book::{Reading, names};

use crate::shelf::Item;

/// Words that count anything.
const ANY: &[&str] = &["piece", "whole", "one", "each", "item", "unit", "pc"];

impl Item {
    /// The noun of an amount that counts something else than the pieces whose weight is known;
    /// `written` is what the document calls the thing.
    #[must_use]
    pub fn other_pieces<'r>(&self, reading: &'r Reading, written: &str) -> Option<&'r str> {
        self.piece_grams?;
        let known = self.piece_noun.as_deref()?;
        let noun = noun(reading)?;
        let called: Vec<String> = [known, written, &self.name]
            .into_iter()
            .flat_map(words)
            .collect();
        let fits = |word: &String| {
            // `berries` of raspberries.
            let is_it = |name: &String| name == word || (word.len() > 4 && name.ends_with(word));
            ANY.contains(&word.as_str()) || called.iter().any(is_it)
        };
        let mut told = words(noun).into_iter();
        (!told.any(|word| fits(&word))).then_some(noun)
    }
}

fn noun(reading: &Reading) -> Option<&str> {
    match reading {
        Reading::Count { noun, .. } => noun.as_deref(),
        Reading::Between { low, high } => noun(low).or_else(|| noun(high)),
        Reading::ToTaste { from } => noun(from.as_deref()?),
        Reading::Question { readings, .. } => noun(readings.first()?),
        _ => None,
    }
}

fn words(text: &str) -> Vec<String> {
    let folded = names::fold(text);
    let words = folded.split(|sign: char| !sign.is_alphanumeric());
    words.filter(|word| !word.is_empty()).map(one).collect()
}

/// `berries` as `berry`, `leaves` as `leaf`, `limes` as `lime`.
fn one(word: &str) -> String {
    let stem = |ending: &str, single: &str| {
        let stem = word.strip_suffix(ending).filter(|stem| stem.len() > 1)?;
        Some(format!("{stem}{single}"))
    };
    stem("ies", "y")
        .or_else(|| stem("ves", "f"))
        .or_else(|| stem("oes", "o"))
        .or_else(|| stem("ches", "ch"))
        .or_else(|| stem("ss", "ss"))
        .or_else(|| stem("s", ""))
        .unwrap_or_else(|| word.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn many_are_one() {
        for (many, single) in [
            ("berries", "berry"),
            ("leaves", "leaf"),
            ("limes", "lime"),
            ("mangoes", "mango"),
            ("peaches", "peach"),
            ("glass", "glass"),
            ("egg", "egg"),
        ] {
            assert_eq!(one(many), single);
        }
    }
}
