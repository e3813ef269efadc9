//! How close two words are.

/// How many slips a word of that many letters may hold.
pub(super) const fn allowed_slips(letters: usize) -> usize {
    match letters {
        0..=2 => 0,
        3..=5 => 1,
        6..=9 => 2,
        _ => 3,
    }
}

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
        let slips = strsim::osa_distance(&self.text, &other.text);
        (slips <= most).then_some(slips)
    }

    /// How well a typed word fits a word of a name: 1 the same, 0 not at all.
    pub(super) fn fit(&self, name: &Self) -> Fit {
        if self.text == name.text {
            return Fit {
                quality: 1.0,
                slips: false,
            };
        }
        if name.text.starts_with(&self.text) {
            let share = self.letters as f64 / name.letters as f64;
            return Fit {
                quality: 0.7 + 0.29 * share,
                slips: false,
            };
        }
        if let Some(slips) = self.slips(name, allowed_slips(self.letters)) {
            let quality = 0.9 * (1.0 - slips as f64 / self.letters.max(name.letters) as f64);
            return Fit {
                quality,
                slips: true,
            };
        }
        // Whatever the beginning lacks of the typed letters, the whole name lacks too or has later.
        let lacking = (self.bag & !name.bag).count_ones();
        if self.letters >= 5 && name.letters > self.letters && lacking <= 1 {
            let beginning: String = name.text.chars().take(self.letters).collect();
            if self.slips(&Self::new(beginning), 1).is_some() {
                return Fit {
                    quality: 0.5,
                    slips: true,
                };
            }
        }
        Fit {
            quality: 0.0,
            slips: false,
        }
    }
}

/// How well a typed word fits a word of a name.
#[derive(Clone, Copy, Debug)]
pub(super) struct Fit {
    /// 1 the same, 0 not at all.
    pub(super) quality: f64,
    /// Whether slips had to be forgiven.
    pub(super) slips: bool,
}
