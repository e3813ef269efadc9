//! The book as it is open: every document read once, found by id and by name.
//!
//! A page needs one document and what that leans on, not the whole book: [`Kitchen::around`] takes just
//! these out, so that a change to a drink costs the same in a book of ten drinks and in one of ten thousand.

mod marks;
mod near;
mod opening;
mod search;
#[cfg(test)]
#[allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a panic is a failed test"
)]
mod tests;

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};
use std::sync::OnceLock;

use pomace_book::{Book, Document, DocumentId, Finding, ReadOnce, names::fold};
use pomace_store::{Current, Id, Revision};

pub(crate) use marks::Mark;
use near::Marks;
pub(crate) use opening::Opening;
use opening::Taken;
use search::Names;
pub(crate) use search::{Found, LARDER};

/// A document of the book, as it is now.
#[derive(Clone, Debug)]
pub(crate) struct Kept {
    /// The revision it is at.
    pub revision: u64,
    /// When that was written: an ISO text.
    pub when: String,
    /// Who wrote it.
    pub who: String,
    /// drink, prep, ingredient, house.
    pub kind: String,
    /// Its name; the last one that could be read.
    pub name: String,
    pub text: String,
    /// What it says; its faults where not even its name could be read.
    pub read: Result<ReadOnce, Vec<Finding>>,
}

/// All documents of a house.
#[derive(Debug, Default)]
pub(crate) struct Kitchen {
    documents: BTreeMap<Id, Kept>,
    /// Documents by name and by the names of what they leave behind.
    names: Table,
    /// Documents by the names that they mention.
    mentioned: Table,
    /// Those that hold the house's settings; of more than one the first counts.
    houses: BTreeSet<Id>,
    marks: Marks,
    /// The names as they are searched, once somebody did.
    searched: OnceLock<Names>,
}

/// Documents by a folded name; of each their ids in order.
type Table = HashMap<String, Vec<Id>>;

/// A document with what it leans on.
pub(crate) struct Around {
    pub book: Book,
    /// The document asked for.
    pub document: DocumentId,
    /// The store's ids, by the place in the book.
    pub ids: Vec<Option<Id>>,
}

impl Around {
    /// The store's id of a document of this book.
    pub(crate) fn id_of(&self, document: DocumentId) -> Option<&Id> {
        self.ids.get(document.0)?.as_ref()
    }
}

impl Kitchen {
    /// Takes up a revision of a document; `kind` and `name` stand in where the text tells none.
    pub(crate) fn put(&mut self, revision: &Revision, kind: &str, name: &str) {
        let stamp = revision.stamp.clone();
        self.take_out(&stamp.document);
        if stamp.removes {
            return;
        }
        let taken = Taken::of(Current {
            document: stamp.document,
            kind: kind.to_owned(),
            name: name.to_owned(),
            revision: stamp.revision,
            who: stamp.who,
            when: stamp.when,
            text: revision.text.clone(),
        });
        let (id, kept) = self.enter(taken);
        if let Some(names) = self.searched.get_mut() {
            names.put(&id, &kept);
        }
        self.documents.insert(id, kept);
    }

    /// All documents of a book, in the order of their ids.
    fn of(all: Vec<Taken>) -> Self {
        let mut kitchen = Self::default();
        let documents = all.into_iter().map(|taken| kitchen.enter(taken));
        // Put in at once: one by one each would look for its place.
        let documents = documents.collect();
        kitchen.documents = documents;
        kitchen
    }

    /// Enters a document under its names.
    fn enter(&mut self, taken: Taken) -> (Id, Kept) {
        let Taken {
            id,
            kept,
            names,
            mentions,
        } = taken;
        enter(&mut self.names, &id, names);
        enter(&mut self.mentioned, &id, mentions);
        if kept.kind == "house" {
            self.houses.insert(id.clone());
        }
        (id, kept)
    }

    fn take_out(&mut self, id: &Id) {
        let Some(kept) = self.documents.remove(id) else {
            return;
        };
        self.marks.take_out(id);
        self.houses.remove(id);
        if let Some(names) = self.searched.get_mut() {
            names.take_out(id);
        }
        let Ok(read) = &kept.read else { return };
        forget(&mut self.names, id, own_names(read.document()));
        forget(&mut self.mentioned, id, mentioned_by(read.document()));
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.documents.is_empty()
    }

    pub(crate) fn get(&self, id: &Id) -> Option<&Kept> {
        self.documents.get(id)
    }

    pub(crate) fn documents(&self) -> impl Iterator<Item = (&Id, &Kept)> {
        self.documents.iter()
    }

    /// The document of the house's settings, if it has one.
    pub(crate) fn house_id(&self) -> Option<&Id> {
        self.houses.first()
    }

    /// The house's settings, if it has a document of its own.
    pub(crate) fn house(&self) -> Option<&Kept> {
        self.documents.get(self.house_id()?)
    }

    /// Documents of a name, whatever its case and accents.
    pub(crate) fn named(&self, name: &str) -> impl Iterator<Item = (&Id, &Kept)> {
        let folded = fold(name);
        let ids = self.names.get(&folded).into_iter().flatten();
        ids.filter_map(|id| Some((id, self.documents.get(id)?)))
            .filter(move |(_, kept)| fold(&kept.name) == folded)
    }

    /// Documents that mention a name.
    pub(crate) fn mentioning(&self, name: &str) -> Vec<Id> {
        let ids = self.mentioned.get(&fold(name)).into_iter().flatten();
        ids.cloned().collect()
    }

    /// A document, whose text may be another than the one that is kept, with all that it leans on and the
    /// house's settings.
    pub(crate) fn around(&self, id: Option<&Id>, read: &ReadOnce) -> Around {
        let mut book = Book::new();
        let mut ids = Vec::new();
        let mut put = |id: Option<&Id>, read: &ReadOnce| {
            ids.push(id.cloned());
            book.put(read)
        };
        for other in self.houses.iter().filter(|other| Some(*other) != id) {
            if let Some(Kept {
                read: Ok(house), ..
            }) = self.documents.get(other)
            {
                put(Some(other), house);
            }
        }
        let document = put(id, read);
        let mut seen: HashSet<&Id> = id.into_iter().collect();
        let mut wanted = mentioned_by(read.document());
        while let Some(name) = wanted.pop() {
            for other in self.names.get(&name).into_iter().flatten() {
                if !seen.insert(other) {
                    continue;
                }
                if let Some(Kept { read: Ok(read), .. }) = self.documents.get(other) {
                    put(Some(other), read);
                    wanted.extend(mentioned_by(read.document()));
                }
            }
        }
        Around {
            book,
            document,
            ids,
        }
    }
}

/// Enters a document under names.
fn enter(table: &mut Table, id: &Id, names: Vec<String>) {
    for name in names {
        let ids = table.entry(name).or_default();
        // A book that is opened comes in the order of its ids.
        if ids.last().is_none_or(|last| last < id) {
            ids.push(id.clone());
        } else if let Err(place) = ids.binary_search(id) {
            ids.insert(place, id.clone());
        }
    }
}

/// Takes a document away from names.
fn forget(table: &mut Table, id: &Id, names: Vec<String>) {
    for name in names {
        if let Some(ids) = table.get_mut(&name) {
            if let Ok(place) = ids.binary_search(id) {
                ids.remove(place);
            }
            if ids.is_empty() {
                table.remove(&name);
            }
        }
    }
}

/// The names by which a document can be called for: its own, and those of what it leaves behind.
fn own_names(document: &Document) -> Vec<String> {
    let steps = document.steps().iter();
    let left = steps.filter_map(|step| step.by_product.as_ref());
    std::iter::once(document.name())
        .chain(left)
        .map(|name| fold(name))
        .collect()
}

/// The names that a document mentions, folded, with their beginnings: `quince / peel` may be a part of
/// `quince`, `leather, one strip` is `leather`.
fn mentioned_by(document: &Document) -> Vec<String> {
    let mut names = Vec::new();
    for mention in document.mentions() {
        let folded = fold(mention);
        for (at, _) in folded.match_indices([',', '/']) {
            names.extend(folded.get(..at).map(|begin| begin.trim_end().to_owned()));
        }
        names.push(folded);
    }
    names.sort_unstable();
    names.dedup();
    names
}
