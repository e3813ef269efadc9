//! The names closest to one that leads nowhere.
//!
//! A name is close if it is a slip of the hand away (Damerau–Levenshtein distance, as a share of
//! the longer name), or if one of the two is a whole word of the other. The distance costs the
//! product of the lengths, so it is taken only where a bound on it, from the lengths and the
//! counts of letters, leaves hope.

use std::collections::HashMap;

use super::fold;

/// Longer queries are never a slip of a name, and comparing them costs the square.
const LONGEST_QUERY: usize = 80;
/// Longer names are never meant by such a query.
const LONGEST_NAME: usize = 4 * LONGEST_QUERY;
/// What is less alike is not suggested.
const LEAST_LIKENESS: f64 = 0.62;
/// How alike names are of which one is a word of the other, at least.
const WORD_LIKENESS: f64 = 0.75;
/// Letters that such a word has, at least.
const WORD_BYTES: usize = 3;
/// A name close to a query.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Near<'a> {
    /// 1 where they are the same, 0 where nothing is.
    pub(crate) likeness: f64,
    /// The name as it was given.
    pub(crate) name: &'a str,
}

/// Names folded and measured once, to be asked many times.
#[derive(Clone, Debug, Default)]
pub(crate) struct NameIndex<'a> {
    names: Vec<Measured<'a>>,
    /// Names by their number of letters.
    by_length: Vec<Vec<usize>>,
    /// Names that hold a word, and names that are a word.
    with_word: HashMap<String, Vec<usize>>,
    same: HashMap<String, Vec<usize>>,
}

#[derive(Clone, Debug)]
struct Measured<'a> {
    name: &'a str,
    folded: String,
    bag: Bag,
}

impl<'a> NameIndex<'a> {
    /// An index over names.
    pub(crate) fn new(names: impl IntoIterator<Item = &'a str>) -> Self {
        let mut index = Self::default();
        for name in names {
            index.push(name);
        }
        index
    }

    fn push(&mut self, name: &'a str) {
        if name.len() > LONGEST_NAME {
            return;
        }
        let at = self.names.len();
        let folded = fold(name);
        for word in words(&folded) {
            let with = self.with_word.entry(word.to_owned()).or_default();
            if with.last() != Some(&at) {
                with.push(at);
            }
        }
        if folded.len() >= WORD_BYTES {
            self.same.entry(folded.clone()).or_default().push(at);
        }
        let bag = Bag::of(&folded);
        if self.by_length.len() <= bag.letters {
            self.by_length.resize(bag.letters + 1, Vec::new());
        }
        if let Some(of_length) = self.by_length.get_mut(bag.letters) {
            of_length.push(at);
        }
        self.names.push(Measured { name, folded, bag });
    }

    /// The names closest to a query, best first, at most `count`.
    fn nearest(&self, query: &str, count: usize) -> Vec<Near<'a>> {
        let mut effort = usize::MAX;
        self.nearest_within(query, count, &mut effort)
    }

    /// The same, with what it cost taken off `effort`, counted in names looked at; nothing is
    /// found once that is spent.
    pub(crate) fn nearest_within(
        &self,
        query: &str,
        count: usize,
        effort: &mut usize,
    ) -> Vec<Near<'a>> {
        let query = fold(query);
        let mut best = Best::new(count);
        if query.is_empty() || query.len() > LONGEST_QUERY || *effort == 0 {
            return best.found;
        }
        let asked = Bag::of(&query);
        let mut spent = 0;
        // Those that share a word first: they raise the bar for all others.
        let holding = (query.len() >= WORD_BYTES)
            .then(|| self.with_word.get(&query))
            .into_iter()
            .flatten();
        let held = words(&query).filter_map(|word| self.same.get(word));
        for at in holding.chain(held).flatten() {
            spent += 1;
            spent += self.weigh(*at, &query, &asked, WORD_LIKENESS, &mut best);
        }
        // A name of other length differs at least by what it is longer or shorter.
        let least = (asked.letters as f64 * LEAST_LIKENESS).floor() as usize;
        let most = (asked.letters as f64 / LEAST_LIKENESS).ceil() as usize;
        let mut lengths: Vec<usize> = (least..=most.min(self.by_length.len())).collect();
        lengths.sort_by_key(|length| length.abs_diff(asked.letters));
        for length in lengths {
            let of_length = self.by_length.get(length).map_or(&[][..], Vec::as_slice);
            spent += of_length.len();
            for at in of_length {
                spent += self.weigh(*at, &query, &asked, 0.0, &mut best);
            }
        }
        *effort = effort.saturating_sub(spent);
        best.found
    }

    /// Compares one name, known to be at least so alike; gives what that cost beyond looking.
    fn weigh(&self, at: usize, query: &str, asked: &Bag, least: f64, best: &mut Best<'a>) -> usize {
        let Some(other) = self.names.get(at) else {
            return 0;
        };
        let hope = asked.likeness_at_most(&other.bag).max(least);
        if !best.would_take(hope, other.name) {
            return 0;
        }
        let likeness = strsim::normalized_damerau_levenshtein(query, &other.folded);
        best.take(Near {
            likeness: likeness.max(least),
            name: other.name,
        });
        // A cell of the distance's table costs about half as much as a look, and setting it up fifty.
        50 + asked.letters * other.bag.letters / 2
    }
}

/// The names closest to a query, best first, at most `count`; only those near enough to be
/// a slip of the hand, or that hold the query as a whole word.
pub fn nearest<'a>(
    query: &str,
    names: impl IntoIterator<Item = &'a str>,
    count: usize,
) -> Vec<&'a str> {
    let near = NameIndex::new(names).nearest(query, count);
    near.into_iter().map(|near| near.name).collect()
}

/// The words of a folded name that are long enough to mean something.
fn words(folded: &str) -> impl Iterator<Item = &str> {
    folded
        .split([' ', ',', '/'])
        .filter(|word| word.len() >= WORD_BYTES)
}

/// The best names so far, best first; names as alike go by the alphabet.
struct Best<'a> {
    count: usize,
    found: Vec<Near<'a>>,
}

impl<'a> Best<'a> {
    const fn new(count: usize) -> Self {
        Self {
            count,
            found: Vec::new(),
        }
    }

    /// Whether a name at best so alike could be among them.
    fn would_take(&self, hope: f64, name: &str) -> bool {
        if hope < LEAST_LIKENESS {
            return false;
        }
        match self.found.last() {
            Some(last) if self.found.len() >= self.count => {
                hope > last.likeness || (hope >= last.likeness && name < last.name)
            }
            _ => self.count > 0,
        }
    }

    fn take(&mut self, near: Near<'a>) {
        if !self.would_take(near.likeness, near.name) {
            return;
        }
        if let Some(same) = self.found.iter().position(|other| other.name == near.name) {
            if self
                .found
                .get(same)
                .is_some_and(|other| other.likeness >= near.likeness)
            {
                return;
            }
            self.found.remove(same);
        }
        let place = self.found.partition_point(|other| {
            other.likeness > near.likeness
                || (other.likeness >= near.likeness && other.name < near.name)
        });
        self.found.insert(place, near);
        self.found.truncate(self.count);
    }
}

/// How many letters a name has and, roughly, which: 32 kinds, each counted up to two.
#[derive(Clone, Copy, Debug)]
struct Bag {
    letters: usize,
    bits: u64,
}

impl Bag {
    fn of(folded: &str) -> Self {
        let mut bag = Self {
            letters: 0,
            bits: 0,
        };
        for letter in folded.chars() {
            let once = 1 << (u32::from(letter) % 32);
            bag.bits |= if bag.bits & once == 0 {
                once
            } else {
                once << 32
            };
            bag.letters += 1;
        }
        bag
    }

    /// The likeness can be no more than that: each slip takes away or brings at most one bit that
    /// the other bag lacks, and makes up at most one letter of length.
    fn likeness_at_most(&self, other: &Self) -> f64 {
        let longer = self.letters.max(other.letters);
        if longer == 0 {
            return 1.0;
        }
        let only_here = (self.bits & !other.bits).count_ones();
        let only_there = (other.bits & !self.bits).count_ones();
        let slips = (only_here.max(only_there) as usize).max(self.letters.abs_diff(other.letters));
        1.0 - slips as f64 / longer as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What the index must give, without any of its short cuts.
    fn plainly<'a>(query: &str, names: &[&'a str], count: usize) -> Vec<&'a str> {
        let query = fold(query);
        let mut found: Vec<(f64, &str)> = Vec::new();
        for name in names {
            let folded = fold(name);
            let mut likeness = strsim::normalized_damerau_levenshtein(&query, &folded);
            let holds = |whole: &str, part: &str| words(whole).any(|word| word == part);
            if holds(&folded, &query) || holds(&query, &folded) {
                likeness = likeness.max(WORD_LIKENESS);
            }
            if likeness >= LEAST_LIKENESS && !found.iter().any(|(_, other)| other == name) {
                found.push((likeness, name));
            }
        }
        found.sort_by(|(a, left), (b, right)| b.total_cmp(a).then_with(|| left.cmp(right)));
        found
            .into_iter()
            .take(count)
            .map(|(_, name)| name)
            .collect()
    }

    #[test]
    fn short_cuts_change_nothing() {
        let larder: Vec<&str> = pomace_larder::ingredients()
            .iter()
            .flat_map(|row| std::iter::once(&row.name).chain(&row.synonyms).copied())
            .collect();
        let index = NameIndex::new(larder.iter().copied());
        for (at, name) in larder.iter().enumerate().step_by(9) {
            let letters: Vec<char> = name.chars().collect();
            let hole = at % letters.len();
            let short: String = letters
                .iter()
                .take(hole)
                .chain(letters.iter().skip(hole + 1))
                .collect();
            let mut turned = letters.clone();
            turned.swap(hole, (hole + 1) % letters.len());
            let turned: String = turned.into_iter().collect();
            let wordless = name.split(' ').next_back().unwrap();
            let more = format!("{name} of the house");
            for query in [short.as_str(), &turned, wordless, &more] {
                let near: Vec<&str> = index
                    .nearest(query, 3)
                    .into_iter()
                    .map(|near| near.name)
                    .collect();
                assert_eq!(near, plainly(query, &larder, 3), "{query}");
            }
        }
    }

    #[test]
    fn nothing_is_found_once_the_effort_is_spent() {
        let index = NameIndex::new(["honey", "whey"]);
        let mut effort = 50;
        assert_eq!(index.nearest_within("hony", 1, &mut effort).len(), 1);
        assert_eq!(effort, 0);
        assert!(index.nearest_within("hony", 1, &mut effort).is_empty());
    }
}
