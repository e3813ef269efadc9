//! The book as it is open: every document read once, found by id and by name.
//!
//! A page needs one document and what that leans on, not the whole book: [`Kitchen::around`] takes just
//! these out, so that a change to a drink costs the same in a book of ten drinks and in one of ten thousand.

mod marks;
mod near;
mod search;
#[cfg(test)]
#[allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a panic is a failed test"
)]
mod tests;

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

use pomace_book::{Book, Document, DocumentId, Finding, ReadOnce, Source, names::fold};
use pomace_store::{Id, Revision};

pub(crate) use marks::Mark;
use near::Marks;
pub(crate) use search::Found;

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
    names: HashMap<String, HashSet<Id>>,
    /// Documents by the names that they mention.
    mentioned: HashMap<String, HashSet<Id>>,
    /// Those that hold the house's settings; of more than one the first counts.
    houses: BTreeSet<Id>,
    marks: Marks,
}

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
    /// Takes up a whole book, read on all cores: a large one takes a blink, not a breath.
    pub(crate) fn open(revisions: &[(Revision, String, String)]) -> Self {
        let cores = std::thread::available_parallelism().map_or(1, usize::from);
        let share = revisions.len().div_ceil(cores).max(1);
        let read: Vec<Result<ReadOnce, Vec<Finding>>> = std::thread::scope(|scope| {
            let readers: Vec<_> = revisions
                .chunks(share)
                .map(|chunk| {
                    scope.spawn(move || {
                        chunk
                            .iter()
                            .map(|(revision, _, name)| read(name, &revision.text))
                            .collect::<Vec<_>>()
                    })
                })
                .collect();
            readers
                .into_iter()
                .flat_map(|reader| reader.join().unwrap_or_default())
                .collect()
        });
        let mut kitchen = Self::default();
        for ((revision, kind, name), read) in revisions.iter().zip(read) {
            kitchen.put_read(revision, kind, name, read);
        }
        kitchen
    }

    /// Takes up a revision of a document; `kind` and `name` stand in where the text tells none.
    pub(crate) fn put(&mut self, revision: &Revision, kind: &str, name: &str) {
        let id = revision.stamp.document.clone();
        self.take_out(&id);
        if !revision.stamp.removes {
            self.put_read(revision, kind, name, read(name, &revision.text));
        }
    }

    fn put_read(
        &mut self,
        revision: &Revision,
        kind: &str,
        name: &str,
        read: Result<ReadOnce, Vec<Finding>>,
    ) {
        let id = revision.stamp.document.clone();
        let (kind, name) = match &read {
            Ok(read) => (
                read.document().kind().to_owned(),
                read.document().name().value.clone(),
            ),
            Err(_) => (kind.to_owned(), name.to_owned()),
        };
        if let Ok(read) = &read {
            for own in own_names(read.document()) {
                self.names.entry(own).or_default().insert(id.clone());
            }
            for mention in mentioned_by(read.document()) {
                self.mentioned
                    .entry(mention)
                    .or_default()
                    .insert(id.clone());
            }
        }
        if kind == "house" {
            self.houses.insert(id.clone());
        }
        let kept = Kept {
            revision: revision.stamp.revision,
            when: revision.stamp.when.as_str().to_owned(),
            who: revision.stamp.who.clone(),
            kind,
            name,
            text: revision.text.clone(),
            read,
        };
        self.documents.insert(id, kept);
    }

    fn take_out(&mut self, id: &Id) {
        let Some(kept) = self.documents.remove(id) else {
            return;
        };
        self.marks.take_out(id);
        self.houses.remove(id);
        let Ok(read) = &kept.read else { return };
        let forget = |table: &mut HashMap<String, HashSet<Id>>, names: Vec<String>| {
            for name in names {
                if let Some(ids) = table.get_mut(&name) {
                    ids.remove(id);
                    if ids.is_empty() {
                        table.remove(&name);
                    }
                }
            }
        };
        forget(&mut self.names, own_names(read.document()));
        forget(&mut self.mentioned, mentioned_by(read.document()));
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

    /// The house's name, if it has a document of its own.
    pub(crate) fn house(&self) -> Option<&Kept> {
        self.documents.get(self.houses.first()?)
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
            let mut leant_on: Vec<&Id> = self.names.get(&name).into_iter().flatten().collect();
            leant_on.sort();
            for other in leant_on {
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

fn read(name: &str, text: &str) -> Result<ReadOnce, Vec<Finding>> {
    ReadOnce::of(Source::new(name, text))
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
