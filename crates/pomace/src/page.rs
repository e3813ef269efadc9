//! Setting text for a terminal: its width, its lines, its few styles.
//!
//! Colour is never needed to understand a page; it goes away on its own where the output is no
//! terminal or `NO_COLOR` is set.

use std::io::{self, Write as _};

use anstyle::Style;

/// For figures.
pub(crate) const BOLD: Style = Style::new().bold();
/// For units, rules and other small print.
pub(crate) const DIM: Style = Style::new().dimmed();

/// Lines longer than this are hard to read, however wide the window.
const WIDEST: usize = 100;
/// Narrower than this nothing can be set.
const NARROWEST: usize = 24;

/// How many signs fit on a line: `COLUMNS` if it is set, else the terminal's own width, else 80.
pub(crate) fn width() -> usize {
    let told = std::env::var("COLUMNS")
        .ok()
        .and_then(|columns| columns.parse().ok());
    let seen = || terminal_size::terminal_size().map(|(width, _)| usize::from(width.0));
    told.filter(|columns| *columns > 0)
        .or_else(seen)
        .unwrap_or(80)
        .clamp(NARROWEST, WIDEST)
}

/// Writes to standard output.
pub(crate) fn show(text: &str) -> io::Result<()> {
    let mut out = anstream::stdout().lock();
    let trimmed: Vec<&str> = text.lines().map(str::trim_end).collect();
    out.write_all(trimmed.join("\n").as_bytes())?;
    out.write_all(b"\n")?;
    out.flush()
}

/// Writes lines to standard error. Where even that cannot be written, nobody is left to tell.
pub(crate) fn complain(text: &str) {
    let _ = writeln!(anstream::stderr(), "{text}");
}

/// Breaks a text into lines of at most `width` signs, each with its indent. Words longer than a
/// line stay whole, so that names and paths can still be copied.
pub(crate) fn wrap(text: &str, width: usize, first: &str, rest: &str) -> String {
    let text = printable(text);
    let mut set = String::from(first);
    let mut used = signs(first);
    let mut empty = true;
    for word in text.split_whitespace() {
        let length = signs(word);
        if !empty && used + 1 + length > width {
            set.push('\n');
            set.push_str(rest);
            used = signs(rest);
            empty = true;
        }
        if !empty {
            set.push(' ');
            used += 1;
        }
        set.push_str(word);
        used += length;
        empty = false;
    }
    set
}

/// How many signs a text has.
pub(crate) fn signs(text: &str) -> usize {
    text.chars().count()
}

/// The text without signs that steer a terminal or turn its direction: a document or a file name
/// must not be able to paint over what we say of it.
pub(crate) fn printable(text: &str) -> String {
    text.chars()
        .map(|sign| if steers(sign) { '\u{fffd}' } else { sign })
        .collect()
}

fn steers(sign: char) -> bool {
    let turns =
        matches!(sign, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    (sign.is_control() && !matches!(sign, '\n' | '\t')) || turns
}

/// A text cut to at most `most` signs, with a mark where something is left out.
pub(crate) fn shorten(text: &str, most: usize) -> String {
    let text = text.trim();
    if signs(text) <= most {
        return printable(text);
    }
    let kept: String = text.chars().take(most.saturating_sub(1)).collect();
    format!("{}…", printable(kept.trim_end()))
}

/// A quiet line.
pub(crate) fn rule(width: usize) -> String {
    format!("{DIM}{}{DIM:#}", "─".repeat(width))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_break_between_words_only() {
        assert_eq!(wrap("one two three", 9, "", "  "), "one two\n  three");
        assert_eq!(wrap("unbreakable word", 6, "", ""), "unbreakable\nword");
        assert_eq!(wrap("", 6, "- ", ""), "- ");
    }

    #[test]
    fn a_document_cannot_steer_the_terminal() {
        assert_eq!(printable("a\u{1b}[2Jb\u{202e}c"), "a\u{fffd}[2Jb\u{fffd}c");
    }

    #[test]
    fn long_texts_are_cut() {
        assert_eq!(shorten("  short ", 8), "short");
        assert_eq!(shorten("much too long", 8), "much to…");
    }
}
