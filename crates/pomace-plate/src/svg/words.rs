//! Words as XML has them.

/// Words without the signs that XML does not know or would change.
pub(super) fn cleaned(words: &str) -> String {
    let known = |letter: &char| !is_unknown(*letter);
    let plain = |letter: char| if letter.is_control() { ' ' } else { letter };
    words.chars().filter(known).map(plain).collect()
}

const fn is_unknown(letter: char) -> bool {
    matches!(letter, '\u{FFFE}' | '\u{FFFF}')
}

/// Writes words as text, cleaned, the five signs of XML written out.
pub(super) fn write(out: &mut String, words: &str) {
    // Most words are written as they are, in one piece.
    let mut plain = 0;
    for (at, letter) in words.char_indices() {
        let instead = match letter {
            '&' => "&amp;",
            '<' => "&lt;",
            '>' => "&gt;",
            '"' => "&quot;",
            '\'' => "&#39;",
            letter if letter.is_control() => " ",
            letter if is_unknown(letter) => "",
            _ => continue,
        };
        out.push_str(words.get(plain..at).unwrap_or_default());
        out.push_str(instead);
        plain = at + letter.len_utf8();
    }
    out.push_str(words.get(plain..).unwrap_or_default());
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_of_xml_are_written_out_and_others_left() {
        let words = "a\u{1}<b> & \"c\" \u{FFFF}d's é";
        let mut out = String::new();
        write(&mut out, words);
        assert_eq!(out, "a &lt;b&gt; &amp; &quot;c&quot; d&#39;s é");
        assert_eq!(cleaned(words), "a <b> & \"c\" d's é");
    }
}
