//! The voices that words in a drawing speak with: which letters, how large.

use crate::metrics::Face;

/// One use of type in the drawings. The style sheet sets the same sizes under the same classes; a
/// test holds the two against each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Voice {
    /// Numbers of a scale, titles of an axis, units.
    Scale,
    /// A remark at a mark.
    Note,
    /// Name of another drink: faint.
    Other,
    /// What is said aside: a range from memory, a coast.
    Aside,
    /// Name of a mark.
    Mark,
    /// The one name that is read first.
    Chief,
    /// The letter of a line.
    Letter,
    /// A large figure.
    Figure,
}

impl Voice {
    /// All of them.
    pub const ALL: [Self; 8] = [
        Self::Scale,
        Self::Note,
        Self::Other,
        Self::Aside,
        Self::Mark,
        Self::Chief,
        Self::Letter,
        Self::Figure,
    ];

    /// Class in the style sheet.
    #[must_use]
    pub const fn class(self) -> &'static str {
        match self {
            Self::Scale => "n",
            Self::Note => "q",
            Self::Other => "h",
            Self::Aside => "i",
            Self::Mark => "k",
            Self::Chief => "s",
            Self::Letter => "l",
            Self::Figure => "w",
        }
    }

    /// Size of the type, px.
    #[must_use]
    pub const fn size(self) -> f64 {
        match self {
            Self::Scale => 15.0,
            Self::Note | Self::Other | Self::Aside => 16.0,
            Self::Mark => 18.0,
            Self::Letter => 19.0,
            Self::Chief => 23.0,
            Self::Figure => 26.0,
        }
    }

    pub(crate) const fn face(self) -> Face {
        match self {
            Self::Scale | Self::Note => Face::Ysabeau,
            Self::Other | Self::Aside | Self::Letter => Face::BrygadaItalic,
            Self::Mark | Self::Chief | Self::Figure => Face::Brygada,
        }
    }

    /// Width of words, px.
    #[must_use]
    pub fn width(self, words: &str) -> f64 {
        crate::metrics::width(self.face(), words) * self.size()
    }

    /// From the line that letters stand on to the top of a capital, px.
    pub(crate) fn rise(self) -> f64 {
        self.size() * 0.70
    }

    /// From the line that letters stand on to the end of a `g`, px.
    pub(crate) fn drop(self) -> f64 {
        self.size() * 0.22
    }

    /// Words, or as many of their letters as fit with an ellipsis.
    #[must_use]
    pub fn fitted(self, words: &str, pixels: f64) -> String {
        if self.width(words) <= pixels {
            return words.to_owned();
        }
        let mut kept = String::new();
        for letter in words.chars() {
            kept.push(letter);
            if self.width(&kept) + self.width("…") > pixels {
                kept.pop();
                break;
            }
        }
        format!("{}…", kept.trim_end())
    }

    /// Words in lines no wider than that, at most so many. What needs more loses what stands behind its last
    /// comma, which describes it; only what has no comma is cut.
    #[must_use]
    pub fn lines(self, words: &str, pixels: f64, most: usize) -> Vec<String> {
        let mut words = words.trim();
        loop {
            let lines = self.broken(words, pixels);
            let is_cut = |line: &String| self.width(line) > pixels;
            if lines.len() <= most && !lines.iter().any(is_cut) {
                return lines;
            }
            if let Some((head, _)) = words.rsplit_once(',')
                && !head.trim().is_empty()
            {
                words = head.trim_end();
                continue;
            }
            let rest = lines.get(most.saturating_sub(1)..).unwrap_or(&[]).join(" ");
            let first = lines.iter().take(most.saturating_sub(1));
            let all = first.cloned().chain([rest]);
            return all
                .filter(|line| !line.is_empty())
                .map(|line| self.fitted(&line, pixels))
                .collect();
        }
    }

    /// Words broken at spaces where a line is full; a number stays with its unit.
    fn broken(self, words: &str, pixels: f64) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        for word in words.split(' ') {
            let joined = lines.last().map(|line| format!("{line} {word}"));
            let stays = lines
                .last()
                .is_some_and(|line| line.ends_with(|sign: char| sign.is_ascii_digit()));
            match (joined, lines.last_mut()) {
                (Some(joined), Some(line)) if stays || self.width(&joined) <= pixels => {
                    *line = joined;
                }
                _ => lines.push(word.to_owned()),
            }
        }
        lines
    }

    /// Words in one or two lines, each no wider than that.
    #[must_use]
    pub fn wrapped(self, words: &str, pixels: f64) -> Vec<String> {
        if self.width(words) <= pixels {
            return vec![words.to_owned()];
        }
        // A number stays with its unit.
        let splits = |at: &usize| {
            !words
                .get(..*at)
                .is_some_and(|before| before.ends_with(|sign: char| sign.is_ascii_digit()))
        };
        let mut breaks = words.match_indices(' ').map(|(at, _)| at).filter(splits);
        let first = breaks.rfind(|at| {
            words
                .get(..*at)
                .is_some_and(|first| self.width(first) <= pixels)
        });
        match first.map(|at| words.split_at(at)) {
            Some((first, rest)) => vec![first.to_owned(), self.fitted(rest.trim(), pixels)],
            None => vec![self.fitted(words, pixels)],
        }
    }
}
