//! Forgiving search over the book and the larder.

use std::cmp::Reverse;
use std::collections::{HashMap, HashSet};

use pomace_book::names::fold;
use pomace_larder::matching::{Grade, Index};
use pomace_store::Id;

use super::{Kept, Kitchen};

/// The kind of what the built-in catalogue holds.
pub(crate) const LARDER: &str = "larder";

/// Something found.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Found {
    /// Its name, as a line would write it.
    pub name: String,
    /// drink, prep, ingredient, house; [`LARDER`].
    pub kind: String,
    /// A document of the book; none of the larder's.
    pub id: Option<Id>,
}

/// The names of a book, prepared for search.
#[derive(Debug, Default)]
pub(super) struct Names {
    index: Index,
    /// Whose name it is, by the key of the index, and of which kind that is.
    owners: Vec<Option<(Id, String)>>,
    keys: HashMap<Id, usize>,
}

impl Names {
    pub(super) fn of<'k>(documents: impl Iterator<Item = (&'k Id, &'k Kept)>) -> Self {
        let mut names = Self::default();
        for (id, kept) in documents {
            names.put(id, kept);
        }
        names
    }

    pub(super) fn put(&mut self, id: &Id, kept: &Kept) {
        let key = self.index.insert(&kept.name);
        if self.owners.len() <= key {
            self.owners.resize(key + 1, None);
        }
        if let Some(owner) = self.owners.get_mut(key) {
            *owner = Some((id.clone(), kept.kind.clone()));
        }
        self.keys.insert(id.clone(), key);
    }

    pub(super) fn take_out(&mut self, id: &Id) {
        if let Some(key) = self.keys.remove(id) {
            self.index.remove(key);
            if let Some(owner) = self.owners.get_mut(key) {
                *owner = None;
            }
        }
    }

    fn owner(&self, key: usize) -> Option<&(Id, String)> {
        self.owners.get(key)?.as_ref()
    }
}

impl Kitchen {
    /// What words may mean, the likeliest first: by their grade, in each the house's own before the
    /// larder's. What is met with slips, or in part, comes only where nothing is closer. `kinds` says
    /// what may come.
    pub(crate) fn find(&self, words: &str, kinds: &[&str], count: usize) -> Vec<Found> {
        let names = self.searched();
        let allowed = |kind: &str| kinds.contains(&kind);
        let of_a_kind = |key: usize| names.owner(key).is_some_and(|(_, kind)| allowed(kind));
        let own = names.index.search_among(words, count, of_a_kind);
        let mut found: Vec<(Grade, Found)> = Vec::new();
        for hit in own {
            let Some((id, kind)) = names.owner(hit.key) else {
                continue;
            };
            let Some(kept) = self.documents.get(id) else {
                continue;
            };
            let one = Found {
                name: kept.name.clone(),
                kind: kind.clone(),
                id: Some(id.clone()),
            };
            found.push((Grade::of(hit.score), one));
        }
        if allowed(LARDER) {
            let own: HashSet<String> = found.iter().map(|(_, one)| fold(&one.name)).collect();
            let hits = pomace_larder::search(words, count).into_iter();
            found.extend(
                hits.filter(|hit| !own.contains(&fold(hit.matched)))
                    .map(|hit| {
                        let one = Found {
                            name: hit.matched.to_owned(),
                            kind: LARDER.to_owned(),
                            id: None,
                        };
                        (Grade::of(hit.score), one)
                    }),
            );
        }
        // Each of the two is in order, the house's first: of a grade they stay so.
        found.sort_by_key(|(grade, _)| Reverse(*grade));
        let best = found.first().map(|(grade, _)| *grade);
        found.retain(|(grade, _)| *grade >= Grade::Words || Some(*grade) == best);
        found.truncate(count);
        found.into_iter().map(|(_, one)| one).collect()
    }

    /// The names as they are searched, prepared when they are first wanted.
    pub(crate) fn prepare_search(&self) {
        let _ = self.searched();
    }

    fn searched(&self) -> &Names {
        self.searched
            .get_or_init(|| Names::of(self.documents.iter()))
    }
}
