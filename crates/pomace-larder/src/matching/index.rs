//! An index over names.

use std::collections::HashMap;

use super::fold::words;
use super::slip::{Fit, Word, allowed_slips};

/// A name that a search found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Match {
    /// The name, by its key: its position in the list that the index was made of, or what
    /// [`Index::insert`] answered.
    pub key: usize,
    /// How close: the bands of [`Grade`].
    pub score: f64,
}

/// How a name was met, the better the greater.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// Only a part of what was typed is in the name; scores below 40.
    Part,
    /// All of it, some with slips; 40–60.
    Slips,
    /// All of it: whole words, beginnings of words, or pieces within words; 60–80.
    Words,
    /// The name begins so; 80–90.
    Beginning,
    /// The same words, in any order or run together; 98–100.
    Same,
}

impl Grade {
    /// The grade of a score.
    #[must_use]
    pub const fn of(score: f64) -> Self {
        match score {
            98.0.. => Self::Same,
            80.0.. => Self::Beginning,
            60.0.. => Self::Words,
            40.0.. => Self::Slips,
            _ => Self::Part,
        }
    }
}

/// Names, prepared for search. Building costs a few microseconds for each name.
#[derive(Clone, Debug, Default)]
pub struct Index {
    /// Names by their keys; none where one was taken out.
    keys: Vec<Option<Key>>,
    /// Keys that were taken out, to be given anew.
    vacant: Vec<usize>,
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

/// The lowest grade that [`Index::nearest`] trusts.
const CLOSE: Grade = Grade::Slips;
/// Words of a query that are looked for one by one; of a longer one the others only count where the
/// whole of it is a name, or begins one.
const QUERY_WORDS: usize = 12;

impl Index {
    /// An index over names; they are told apart by their position.
    pub fn new<K: AsRef<str>>(names: impl IntoIterator<Item = K>) -> Self {
        let mut index = Self::default();
        for name in names {
            index.insert(name.as_ref());
        }
        index
    }

    /// Takes a name in; gives the key it is found by.
    pub fn insert(&mut self, name: &str) -> usize {
        let key = self.vacant.pop().unwrap_or(self.keys.len());
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
            if let Some(with) = self.with_word.get_mut(place) {
                put(with, key);
            }
            words.push(place);
        }
        for (map, shape) in [
            (&mut self.by_text, &text),
            (&mut self.by_sorted, &sorted),
            (&mut self.by_joined, &joined.text),
        ] {
            put(map.entry(shape.clone()).or_default(), key);
        }
        let name = Some(Key {
            text,
            sorted,
            joined,
            words,
        });
        match self.keys.get_mut(key) {
            Some(place) => *place = name,
            None => self.keys.push(name),
        }
        key
    }

    /// Takes a name out; its key may be given to another one.
    pub fn remove(&mut self, key: usize) {
        let Some(name) = self.keys.get_mut(key).and_then(Option::take) else {
            return;
        };
        for word in &name.words {
            // The word stays in the vocabulary, where nothing leads to it any more.
            if let Some(with) = self.with_word.get_mut(*word) {
                with.retain(|other| *other != key);
            }
        }
        for (map, shape) in [
            (&mut self.by_text, &name.text),
            (&mut self.by_sorted, &name.sorted),
            (&mut self.by_joined, &name.joined.text),
        ] {
            if let Some(keys) = map.get_mut(shape) {
                keys.retain(|other| *other != key);
                if keys.is_empty() {
                    map.remove(shape);
                }
            }
        }
        self.vacant.push(key);
    }

    /// How many names it holds.
    #[must_use]
    pub fn len(&self) -> usize {
        self.keys.len() - self.vacant.len()
    }

    /// Whether it holds no name.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
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
            let Some(Some(key)) = self.keys.get(*position) else {
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
        self.search_among(query, limit, |_| true)
    }

    /// The same, among the names whose key is wanted.
    #[must_use]
    pub fn search_among(
        &self,
        query: &str,
        limit: usize,
        is_wanted: impl Fn(usize) -> bool,
    ) -> Vec<Match> {
        let parts = words(query);
        if parts.is_empty() || limit == 0 {
            return Vec::new();
        }
        let (text, sorted, joined) = shapes(&parts);
        let typed = self.typed(parts);
        let mut found: Vec<(Match, usize)> = Vec::new();
        for (position, key) in self.keys.iter().enumerate() {
            let Some(key) = key else { continue };
            let score = if key.text == text {
                100.0
            } else if key.sorted == sorted {
                99.0
            } else if key.joined.text == joined.text {
                98.0
            } else {
                match prefix_score(key, &text, &joined.text) {
                    Some(score) => score,
                    None => self.word_score(key, &typed).max(joined_score(key, &joined)),
                }
            };
            if score > 0.0 && is_wanted(position) {
                let found_one = Match {
                    key: position,
                    score,
                };
                found.push((found_one, key.joined.letters));
            }
        }
        let closer = |(a, a_letters): &(Match, usize), (b, b_letters): &(Match, usize)| {
            let by_score = b.score.total_cmp(&a.score);
            by_score
                .then_with(|| a_letters.cmp(b_letters))
                .then_with(|| a.key.cmp(&b.key))
        };
        if limit < found.len() {
            found.select_nth_unstable_by(limit, closer);
            found.truncate(limit);
        }
        found.sort_unstable_by(closer);
        found.into_iter().map(|(found, _)| found).collect()
    }

    /// The name closest to `query`, if it is close enough to be meant.
    #[must_use]
    pub fn nearest(&self, query: &str) -> Option<usize> {
        self.search(query, 1)
            .first()
            .filter(|best| Grade::of(best.score) >= CLOSE)
            .map(|best| best.key)
    }

    /// The words of a query, each once, with how well it fits each word of the vocabulary.
    fn typed(&self, parts: Vec<String>) -> Vec<Typed> {
        let mut words: Vec<String> = Vec::new();
        for part in parts {
            if words.len() == QUERY_WORDS {
                break;
            }
            if !words.contains(&part) {
                words.push(part);
            }
        }
        let words = words.into_iter().map(Word::new);
        words
            .map(|word| Typed {
                letters: word.letters as f64,
                fits: std::iter::zip(&self.vocabulary, &self.with_word)
                    .map(|(name, with)| match with.as_slice() {
                        [] => Fit::NONE,
                        _ => word.fit(name),
                    })
                    .collect(),
            })
            .collect()
    }

    fn word_score(&self, key: &Key, typed: &[Typed]) -> f64 {
        let mut letters = 0.0;
        let mut covered = 0.0;
        let mut slips = false;
        let mut unfit = 0;
        let mut used: Vec<usize> = Vec::new();
        for word in typed {
            let mut best = (0.0, usize::MAX, false);
            for name in &key.words {
                let Some(fit) = word.fits.get(*name) else {
                    continue;
                };
                if fit.quality > best.0 {
                    best = (fit.quality, *name, fit.slips);
                }
            }
            letters += word.letters;
            covered += word.letters * best.0;
            slips |= best.2;
            if best.1 == usize::MAX {
                unfit += 1;
            } else if !used.contains(&best.1) {
                used.push(best.1);
            }
        }
        if used.is_empty() {
            return 0.0;
        }
        let share = covered / letters;
        let named: usize = used
            .iter()
            .filter_map(|name| self.vocabulary.get(*name))
            .map(|word| word.letters)
            .sum();
        let breadth = named as f64 / key.joined.letters.max(1) as f64;
        let fitting = share * (0.7 + 0.3 * breadth);
        if unfit > 0 {
            if share < 0.3 {
                0.0
            } else {
                10.0 + 30.0 * fitting
            }
        } else {
            let base = if slips { 40.0 } else { 60.0 };
            base + 19.0 * fitting
        }
    }
}

/// A typed word.
struct Typed {
    letters: f64,
    /// How well it fits each word of the vocabulary.
    fits: Vec<Fit>,
}

/// Puts a key into its place among others.
fn put(keys: &mut Vec<usize>, key: usize) {
    if let Err(place) = keys.binary_search(&key) {
        keys.insert(place, key);
    }
}

/// Score of a name that begins with what was typed.
fn prefix_score(key: &Key, text: &str, joined: &str) -> Option<f64> {
    let begins = key.text.starts_with(text) || key.joined.text.starts_with(joined);
    begins.then(|| 80.0 + 10.0 * joined.len() as f64 / key.joined.text.len().max(1) as f64)
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
