//! Finding an ingredient by a name that a person types.

use std::sync::LazyLock;

use crate::catalogue::{by_id, ingredients};
use crate::ingredient::Ingredient;
use crate::matching::Index;

/// An ingredient that a search found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hit {
    /// The ingredient.
    pub ingredient: &'static Ingredient,
    /// How close, 0 to 100; see [`crate::matching::Match::score`].
    pub score: f64,
    /// Which of its names was found.
    pub matched: &'static str,
}

struct Names {
    index: Index,
    owners: Vec<(usize, &'static str)>,
}

static NAMES: LazyLock<Names> = LazyLock::new(|| {
    let mut owners = Vec::new();
    let mut keys = Vec::new();
    for (position, ingredient) in ingredients().iter().enumerate() {
        for name in std::iter::once(&ingredient.name).chain(&ingredient.synonyms) {
            keys.push(*name);
            owners.push((position, *name));
        }
        // An id is typed, but never shown: what it matched is the name.
        keys.push(ingredient.id);
        owners.push((position, ingredient.name));
    }
    Names {
        index: Index::new(keys),
        owners,
    }
});

/// The ingredient that a name means, whatever its case, accents, punctuation, plural and order of
/// words; no guessing beyond that.
///
/// ```
/// use pomace_larder::find;
/// assert_eq!(find("Limes").map(|i| i.id), Some("lime_flesh"));
/// assert_eq!(find("vinegar, cider").map(|i| i.id), Some("vinegar_cider"));
/// assert_eq!(find("lmie"), None);
/// ```
#[must_use]
pub fn find(name: &str) -> Option<&'static Ingredient> {
    by_id(name.trim()).or_else(|| {
        let key = NAMES.index.find(name)?;
        ingredients().get(NAMES.owners.get(key)?.0)
    })
}

/// The ingredients closest to what was typed, best first, at most `limit`.
#[must_use]
pub fn search(query: &str, limit: usize) -> Vec<Hit> {
    let mut seen = vec![false; ingredients().len()];
    let mut hits = Vec::new();
    for found in NAMES.index.search(query, usize::MAX) {
        if hits.len() == limit {
            break;
        }
        let Some(&(position, matched)) = NAMES.owners.get(found.key) else {
            continue;
        };
        let (Some(ingredient), Some(seen)) = (ingredients().get(position), seen.get_mut(position))
        else {
            continue;
        };
        if !std::mem::replace(seen, true) {
            hits.push(Hit {
                ingredient,
                score: found.score,
                matched,
            });
        }
    }
    hits
}

/// The name closest to what was typed, for "did you mean"; none if nothing is close.
///
/// ```
/// assert_eq!(pomace_larder::nearest("qiunce"), Some("quince"));
/// ```
#[must_use]
pub fn nearest(query: &str) -> Option<&'static str> {
    NAMES
        .owners
        .get(NAMES.index.nearest(query)?)
        .map(|(_, name)| *name)
}
