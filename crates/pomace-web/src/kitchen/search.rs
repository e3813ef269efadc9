//! Forgiving search over the book and the larder.

use std::collections::HashSet;

use pomace_book::names::{NameIndex, fold};
use pomace_store::Id;

use super::Kitchen;

/// Something found.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Found {
    /// Its name, as a line would write it.
    pub name: String,
    /// drink, prep, ingredient; `larder` of what the built-in catalogue holds.
    pub kind: String,
    /// A document of the book; none of the larder's.
    pub id: Option<Id>,
}

impl Kitchen {
    /// What a word may mean, the likeliest first: names that begin so, names with a word that begins so,
    /// then names that are close. `kinds` says what may come; the larder only where an ingredient may.
    pub(crate) fn find(&self, words: &str, kinds: &[&str], count: usize) -> Vec<Found> {
        let wanted = fold(words);
        if wanted.is_empty() {
            return Vec::new();
        }
        let allowed = |kind: &str| kinds.contains(&kind);
        let mut found: Vec<(usize, usize, Found)> = Vec::new();
        for (id, kept) in self.documents.iter().filter(|(_, k)| allowed(&k.kind)) {
            if let Some(rank) = rank(&fold(&kept.name), &wanted) {
                let one = Found {
                    name: kept.name.clone(),
                    kind: kept.kind.clone(),
                    id: Some(id.clone()),
                };
                found.push((rank, kept.name.len(), one));
            }
        }
        found.sort_by(|a, b| (a.0, a.1, &a.2.name).cmp(&(b.0, b.1, &b.2.name)));
        let mut found: Vec<Found> = found.into_iter().map(|(_, _, one)| one).collect();
        if found.is_empty() {
            let names = self.documents.values().filter(|k| allowed(&k.kind));
            let index = NameIndex::new(names.map(|kept| kept.name.as_str()));
            for near in index.nearest(words, 3) {
                found.extend(self.named(near.name).take(1).map(|(id, kept)| Found {
                    name: kept.name.clone(),
                    kind: kept.kind.clone(),
                    id: Some(id.clone()),
                }));
            }
        }
        found.truncate(count);
        if allowed("ingredient") && found.len() < count {
            let own: HashSet<String> = found.iter().map(|one| fold(&one.name)).collect();
            for hit in pomace_larder::search(words, count) {
                let name = hit.matched;
                if !own.contains(&fold(name)) && found.len() < count {
                    found.push(Found {
                        name: name.to_owned(),
                        kind: "larder".to_owned(),
                        id: None,
                    });
                }
            }
        }
        found
    }
}

/// How well a folded name meets folded words; the less, the better.
fn rank(name: &str, wanted: &str) -> Option<usize> {
    if name == wanted {
        Some(0)
    } else if name.starts_with(wanted) {
        Some(1)
    } else if wanted
        .split(' ')
        .all(|word| name.split([' ', '-', '/']).any(|own| own.starts_with(word)))
    {
        Some(2)
    } else if wanted.len() > 2 && name.contains(wanted) {
        Some(3)
    } else {
        None
    }
}
