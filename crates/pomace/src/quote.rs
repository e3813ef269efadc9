//! A line of someone's text, with the part that is meant underlined.

use crate::page::{DIM, printable, signs};

/// A stretch of a text, to be shown in its line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Quote {
    /// The whole line.
    pub(crate) line: String,
    /// Its number; none where the text is but one line.
    pub(crate) number: Option<usize>,
    /// First sign that is meant, from 0.
    pub(crate) start: usize,
    /// How many signs are meant; one at least is underlined.
    pub(crate) length: usize,
}

impl Quote {
    /// Bytes of a text that is one line.
    pub(crate) fn of_words(text: &str, bytes: std::ops::Range<usize>) -> Self {
        let before = text.get(..bytes.start).map_or(0, signs);
        let length = text.get(bytes).map_or(0, signs);
        Self {
            line: text.to_owned(),
            number: None,
            start: before,
            length,
        }
    }

    /// Set in two lines; a line too wide is cut so that what is meant stays in sight.
    pub(crate) fn set(&self, width: usize, indent: &str) -> String {
        let gutter = match self.number {
            Some(number) => format!("{indent}{number:>4} │ "),
            None => format!("{indent}│ "),
        };
        let below = match self.number {
            Some(_) => format!("{indent}     │ "),
            None => format!("{indent}│ "),
        };
        let room = width.saturating_sub(signs(&gutter)).max(16);
        let line: Vec<char> = printable(&self.line)
            .replace(['\t', '\n'], " ")
            .chars()
            .collect();
        let start = self.start.min(line.len());
        // Two thirds of the room lie before the mark at most.
        let cut = if line.len() <= room {
            0
        } else {
            start.saturating_sub(room * 2 / 3)
        };
        let mut seen: Vec<char> = line.iter().skip(cut).take(room).copied().collect();
        if cut > 0
            && let Some(first) = seen.first_mut()
        {
            *first = '…';
        }
        if cut + room < line.len()
            && let Some(last) = seen.last_mut()
        {
            *last = '…';
        }
        let at = start - cut;
        let length = self.length.clamp(1, seen.len().saturating_sub(at).max(1));
        format!(
            "{DIM}{gutter}{DIM:#}{}\n{DIM}{below}{DIM:#}{}{}",
            String::from_iter(seen).trim_end(),
            " ".repeat(at),
            "^".repeat(length),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(quote: &Quote, width: usize) -> String {
        anstream::adapter::strip_str(&quote.set(width, "")).to_string()
    }

    #[test]
    fn the_mark_stands_under_what_is_meant() {
        let quote = Quote::of_words("süß=1, watr=2", 9..13);
        assert_eq!(plain(&quote, 80), "│ süß=1, watr=2\n│        ^^^^");
    }

    #[test]
    fn a_long_line_is_cut_around_the_mark() {
        let text = format!("{}HERE{}", "a".repeat(300), "b".repeat(300));
        let quote = Quote::of_words(&text, 300..304);
        let set = plain(&quote, 40);
        let mut lines = set.lines();
        let (line, mark) = (lines.next().unwrap(), lines.next().unwrap());
        assert!(line.chars().count() <= 40 && line.contains("HERE"));
        let at = mark.chars().position(|sign| sign == '^').unwrap();
        assert_eq!(line.chars().nth(at), Some('H'));
    }

    #[test]
    fn a_mark_past_the_end_is_still_shown() {
        let quote = Quote {
            line: "ab".to_owned(),
            number: Some(3),
            start: 9,
            length: 0,
        };
        assert_eq!(plain(&quote, 80), "   3 │ ab\n     │   ^");
    }
}
