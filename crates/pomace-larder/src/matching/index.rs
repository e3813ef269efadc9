//! An index over names.

use std::collections::HashMap;

use super::fold::words;
use super::slip::{Fit, Word, allowed_slips};

/// A name that a search found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Match {
    /// Position of the name in the list that the index was made of.
    pub key: usize,
    /// How close: 98–100 exact, 80–90 prefix, 60–80 words, 40–60 words with slips, below that
    /// only a part of the words.
    pub score: f64,
}

/// Names, prepared for search. Building costs a few microseconds for each name.
#[derive(Clone, Debug, Default)]
pub struct Index {
    keys: Vec<Key>,
    vocabulary: Vec<Word>,
    /// Position of each word in the vocabulary.
    places: HashMap<String, usize>,
    /// Names with each word of the vocabulary, in their order, each once.
    with_word: Vec<Vec<usize>>,
    by_text: HashMap<String, Vec<usize>>,
    by_sorted: HashMap<String, Vec<usize>>,
    by_joined: HashMap<String, Vec<usize>>,
}

#[derive(Clone, Debug)]
struct Key {
    /// The folded words with single spaces.
    text: String,
    /// The same, words in the order of the alphabet.
    sorted: String,
    /// The same, words run together.
    joined: Word,
    /// Positions of its words in the vocabulary.
    words: Vec<usize>,
}

/// The lowest score that [`Index::nearest`] trusts.
const CLOSE: f64 = 40.0;

impl Index {
    /// An index over names; they are told apart by their position.
    pub fn new<K: AsRef<str>>(names: impl IntoIterator<Item = K>) -> Self {
        let mut index = Self::default();
        for name in names {
            index.push(name.as_ref());
        }
        index
    }

    fn push(&mut self, name: &str) {
        let position = self.keys.len();
        let parts = words(name);
        let (text, sorted, joined) = shapes(&parts);
        let mut words = Vec::with_capacity(parts.len());
        for part in parts {
            let next = self.vocabulary.len();
            let place = *self.places.entry(part).or_insert_with_key(|part| {
                self.vocabulary.push(Word::new(part.clone()));
                next
            });
            if place == next {
                self.with_word.push(Vec::new());
            }
            if let Some(with) = self.with_word.get_mut(place)
                && with.last() != Some(&position)
            {
                with.push(position);
            }
            words.push(place);
        }
        for (map, shape) in [
            (&mut self.by_text, &text),
            (&mut self.by_sorted, &sorted),
            (&mut self.by_joined, &joined.text),
        ] {
            map.entry(shape.clone()).or_default().push(position);
        }
        self.keys.push(Key {
            text,
            sorted,
            joined,
            words,
        });
    }

    /// How many names it holds.
    #[must_use]
    pub fn len(&self) -> usize {
        self.keys.len()
    }

    /// Whether it holds no name.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.keys.is_empty()
    }

    /// The first name that is the same when folded; words in the same order go before others, and
    /// both before words run together.
    #[must_use]
    pub fn find(&self, name: &str) -> Option<usize> {
        let mut parts = words(name);
        if parts.is_empty() {
            return None;
        }
        let first = |found: Option<&Vec<usize>>| found.and_then(|at| at.first()).copied();
        // One string serves all three: a name that is found costs no other allocation.
        let text = parts.join(" ");
        first(self.by_text.get(&text))
            .or_else(|| {
                parts.sort_unstable();
                first(self.by_sorted.get(&parts.join(" ")))
            })
            .or_else(|| first(self.by_joined.get(&text.replace(' ', ""))))
    }

    /// Every name that is the same when folded, closest first.
    pub fn equals(&self, name: &str) -> impl Iterator<Item = usize> + use<> {
        let (text, sorted, joined) = shapes(&words(name));
        let mut found: Vec<usize> = Vec::new();
        if !text.is_empty() {
            let grades = [
                self.by_text.get(&text),
                self.by_sorted.get(&sorted),
                self.by_joined.get(&joined.text),
            ];
            for position in grades.into_iter().flatten().flatten() {
                if !found.contains(position) {
                    found.push(*position);
                }
            }
        }
        found.into_iter()
    }

    /// Every name whose words all occur in `text`, the one with most words first.
    pub fn within(&self, text: &str) -> impl Iterator<Item = usize> + use<> {
        let mut given: Vec<usize> = words(text)
            .iter()
            .filter_map(|word| self.places.get(word).copied())
            .collect();
        given.sort_unstable();
        given.dedup();
        let mut found: Vec<(usize, usize)> = Vec::new();
        let with = given.iter().filter_map(|word| self.with_word.get(*word));
        for position in with.flatten() {
            let Some(key) = self.keys.get(*position) else {
                continue;
            };
            if key.words.iter().all(|word| given.contains(word)) {
                found.push((usize::MAX - key.words.len(), *position));
            }
        }
        found.sort_unstable();
        found.dedup();
        found.into_iter().map(|(_, position)| position)
    }

    /// The names closest to `query`, best first, at most `limit`; ties go to the shorter name,
    /// then to the earlier one.
    #[must_use]
    pub fn search(&self, query: &str, limit: usize) -> Vec<Match> {
        let parts = words(query);
        if parts.is_empty() {
            return Vec::new();
        }
        let (text, sorted, joined) = shapes(&parts);
        let typed: Vec<Word> = parts.into_iter().map(Word::new).collect();
        let fits: Vec<Vec<Fit>> = typed
            .iter()
            .map(|word| self.vocabulary.iter().map(|name| word.fit(name)).collect())
            .collect();

        let mut found: Vec<Match> = self
            .keys
            .iter()
            .enumerate()
            .filter_map(|(position, key)| {
                let score = if key.text == text {
                    100.0
                } else if key.sorted == sorted {
                    99.0
                } else if key.joined.text == joined.text {
                    98.0
                } else {
                    prefix_score(key, &text, &joined.text)
                        .max(self.word_score(key, &typed, &fits))
                        .max(joined_score(key, &joined))
                };
                (score > 0.0).then_some(Match {
                    key: position,
                    score,
                })
            })
            .collect();
        let letters = |found: &Match| self.keys.get(found.key).map_or(0, |key| key.joined.letters);
        found.sort_by(|a, b| {
            b.score
                .total_cmp(&a.score)
                .then_with(|| letters(a).cmp(&letters(b)))
                .then_with(|| a.key.cmp(&b.key))
        });
        found.truncate(limit);
        found
    }

    /// The name closest to `query`, if it is close enough to be meant.
    #[must_use]
    pub fn nearest(&self, query: &str) -> Option<usize> {
        self.search(query, 1)
            .first()
            .filter(|best| best.score >= CLOSE)
            .map(|best| best.key)
    }

    fn word_score(&self, key: &Key, typed: &[Word], fits: &[Vec<Fit>]) -> f64 {
        let mut letters = 0.0;
        let mut covered = 0.0;
        let mut slips = false;
        let mut unfit = 0;
        let mut used: Vec<usize> = Vec::new();
        for (word, fits) in typed.iter().zip(fits) {
            let mut best = (0.0, usize::MAX, false);
            for name in &key.words {
                let Some(fit) = fits.get(*name) else { continue };
                if fit.quality > best.0 {
                    best = (fit.quality, *name, fit.slips);
                }
            }
            let length = word.letters as f64;
            letters += length;
            covered += length * best.0;
            slips |= best.2;
            if best.1 == usize::MAX {
                unfit += 1;
            } else if !used.contains(&best.1) {
                used.push(best.1);
            }
        }
        let share = covered / letters;
        let named: usize = used
            .iter()
            .filter_map(|name| self.vocabulary.get(*name))
            .map(|word| word.letters)
            .sum();
        let breadth = named as f64 / key.joined.letters.max(1) as f64;
        if unfit > 0 {
            if share < 0.3 {
                0.0
            } else {
                10.0 + 30.0 * share * (0.7 + 0.3 * breadth)
            }
        } else {
            let base = if slips { 40.0 } else { 60.0 };
            base + 19.0 * share * (0.7 + 0.3 * breadth)
        }
    }
}

/// Score of a name that begins with what was typed.
fn prefix_score(key: &Key, text: &str, joined: &str) -> f64 {
    if key.text.starts_with(text) || key.joined.text.starts_with(joined) {
        80.0 + 10.0 * joined.len() as f64 / key.joined.text.len().max(1) as f64
    } else {
        0.0
    }
}

/// Score of a name whose words run together are a few slips away: a space lost or misplaced.
fn joined_score(key: &Key, joined: &Word) -> f64 {
    if joined.letters < 4 {
        return 0.0;
    }
    match joined.slips(&key.joined, allowed_slips(joined.letters)) {
        Some(slips) => 40.0 + 19.5 * (1.0 - slips as f64 / joined.letters as f64),
        None => 0.0,
    }
}

/// The folded words with spaces, in the order of the alphabet, and run together.
fn shapes(parts: &[String]) -> (String, String, Word) {
    let mut sorted: Vec<&str> = parts.iter().map(String::as_str).collect();
    sorted.sort_unstable();
    (parts.join(" "), sorted.join(" "), Word::new(parts.concat()))
}
