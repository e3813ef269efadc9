//! How close two words are.

use std::mem;

/// How many slips a word of that many letters may hold.
pub(super) const fn allowed_slips(letters: usize) -> usize {
    match letters {
        0..=2 => 0,
        3..=5 => 1,
        6..=9 => 2,
        _ => 3,
    }
}

/// Letters that a typed word has, at least, to be looked for within words.
const WITHIN_LETTERS: usize = 3;

/// A word, measured once.
#[derive(Clone, Debug)]
pub(super) struct Word {
    pub(super) text: String,
    pub(super) letters: usize,
    /// One bit for each letter that occurs; a cheap bound on the distance.
    bag: u64,
}

impl Word {
    pub(super) fn new(text: String) -> Self {
        let letters = text.chars().count();
        let bag = text
            .chars()
            .fold(0, |bag, letter| bag | 1 << (u32::from(letter) % 64));
        Self { text, letters, bag }
    }

    /// Slips between two words (a letter lost, added, swapped for another, or two neighbours
    /// swapped), if there are at most `most`.
    ///
    /// Damerau-Levenshtein distance as optimal string alignment.
    pub(super) fn slips(&self, other: &Self, most: usize) -> Option<usize> {
        if self.letters.abs_diff(other.letters) > most {
            return None;
        }
        // One slip changes at most two letters of the bag: one leaves, one comes.
        if (self.bag ^ other.bag).count_ones() as usize > 2 * most {
            return None;
        }
        slips(&self.text, &other.text, most)
    }

    /// How well a typed word fits a word of a name.
    pub(super) fn fit(&self, name: &Self) -> Fit {
        if self.text == name.text {
            return Fit::SAME;
        }
        let share = self.letters as f64 / name.letters.max(1) as f64;
        let lacking = self.bag & !name.bag;
        if lacking == 0 && name.text.starts_with(&self.text) {
            return Fit::well(0.8 + 0.19 * share);
        }
        if lacking == 0 && self.letters >= WITHIN_LETTERS && name.text.contains(&self.text) {
            return Fit::well(0.6 + 0.19 * share);
        }
        if let Some(slips) = self.slips(name, allowed_slips(self.letters)) {
            let alike = 1.0 - slips as f64 / self.letters.max(name.letters) as f64;
            return Fit::with_slips(0.3 + 0.29 * alike);
        }
        // Whatever the beginning lacks of the typed letters, the whole name lacks too or has later.
        if self.letters >= 5 && name.letters > self.letters && lacking.count_ones() <= 1 {
            let end = name.text.char_indices().nth(self.letters);
            let beginning = end.and_then(|(end, _)| name.text.get(..end));
            if beginning.is_some_and(|beginning| slips(&self.text, beginning, 1).is_some()) {
                return Fit::with_slips(0.3);
            }
        }
        Fit::NONE
    }
}

/// How well a typed word fits a word of a name: the same, better than its beginning, better than a
/// piece within, better than one with slips.
#[derive(Clone, Copy, Debug)]
pub(super) struct Fit {
    /// 1 the same, 0 not at all.
    pub(super) quality: f64,
    /// Whether slips had to be forgiven.
    pub(super) slips: bool,
}

impl Fit {
    pub(super) const NONE: Self = Self::well(0.0);
    const SAME: Self = Self::well(1.0);

    const fn well(quality: f64) -> Self {
        Self {
            quality,
            slips: false,
        }
    }

    const fn with_slips(quality: f64) -> Self {
        Self {
            quality,
            slips: true,
        }
    }
}

/// Letters of words that are compared without an allocation.
const SHORT: usize = 32;

/// Optimal string alignment distance, where it is at most `most`.
///
/// What both begin and end with costs nothing, and of the table only the cells near enough to its
/// diagonal are filled: a search compares thousands of words.
fn slips(one: &str, other: &str, most: usize) -> Option<usize> {
    let mut letters = [['\0'; SHORT]; 2];
    let [held, held_other] = &mut letters;
    let (long, long_other): (Vec<char>, Vec<char>);
    let one = if let Some(short) = spread(one, held) {
        short
    } else {
        long = one.chars().collect();
        &long
    };
    let other = if let Some(short) = spread(other, held_other) {
        short
    } else {
        long_other = other.chars().collect();
        &long_other
    };
    let (one, other) = without_common_ends(one, other);
    if one.is_empty() || other.is_empty() {
        let slips = one.len().max(other.len());
        return (slips <= most).then_some(slips);
    }
    table(one, other, most)
}

/// The letters of a word, in the place given, where they fit.
fn spread<'a>(word: &str, place: &'a mut [char; SHORT]) -> Option<&'a [char]> {
    let mut count = 0;
    for letter in word.chars() {
        *place.get_mut(count)? = letter;
        count += 1;
    }
    place.get(..count)
}

fn without_common_ends<'a>(one: &'a [char], other: &'a [char]) -> (&'a [char], &'a [char]) {
    let alike = |(a, b): &(&char, &char)| a == b;
    let begin = one.iter().zip(other).take_while(alike).count();
    let one = one.get(begin..).unwrap_or_default();
    let other = other.get(begin..).unwrap_or_default();
    let both = one.iter().rev().zip(other.iter().rev());
    let end = both.take_while(alike).count();
    (
        one.get(..one.len() - end).unwrap_or_default(),
        other.get(..other.len() - end).unwrap_or_default(),
    )
}

/// The table of distances row by row; of each row the cells at most `most` off the diagonal.
fn table(one: &[char], other: &[char], most: usize) -> Option<usize> {
    let far = most + 1;
    let width = other.len() + 1;
    let mut space = [0; 3 * (SHORT + 1)];
    let mut large = Vec::new();
    let cells = if let Some(cells) = space.get_mut(..3 * width) {
        cells
    } else {
        large.resize(3 * width, 0);
        &mut large
    };
    let (mut before, rest) = cells.split_at_mut(width);
    let (mut last, mut row) = rest.split_at_mut(width);
    for (column, cell) in last.iter_mut().enumerate() {
        *cell = column.min(far);
    }
    let mut above: Option<char> = None;
    for (down, letter) in (1..).zip(one) {
        row.fill(far);
        let mut least = down.min(far);
        if let Some(first) = row.first_mut() {
            *first = least;
        }
        let from = down.saturating_sub(most).max(1);
        let mut left = row.get(from - 1).copied().unwrap_or(far);
        let mut letter_before = from.checked_sub(2).and_then(|at| other.get(at)).copied();
        for column in from..width.min(down + most + 1) {
            let at = |row: &[usize], column: usize| row.get(column).copied().unwrap_or(far);
            let Some(here) = other.get(column - 1) else {
                break;
            };
            let swapped = usize::from(letter != here);
            let mut cell = (at(last, column - 1) + swapped)
                .min(at(last, column) + 1)
                .min(left + 1);
            if above == Some(*here) && letter_before == Some(*letter) {
                cell = cell.min(at(before, column.saturating_sub(2)) + 1);
            }
            let cell = cell.min(far);
            if let Some(place) = row.get_mut(column) {
                *place = cell;
            }
            least = least.min(cell);
            left = cell;
            letter_before = Some(*here);
        }
        if least > most {
            return None;
        }
        above = Some(*letter);
        mem::swap(&mut before, &mut last);
        mem::swap(&mut last, &mut row);
    }
    last.last().copied().filter(|slips| *slips <= most)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::slips;

    proptest! {
        /// Long words too, and letters of two and three bytes.
        #[test]
        fn slips_are_counted_as_by_the_whole_table(
            one in "[abcé–]{0,12}|[ab]{30,40}",
            other in "[abcé–]{0,12}|[ab]{30,40}",
            most in 0_usize..5,
        ) {
            let whole = strsim::osa_distance(&one, &other);
            prop_assert_eq!(slips(&one, &other, most), (whole <= most).then_some(whole));
        }
    }
}
