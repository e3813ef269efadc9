//! What every page works with: the store, and the book as it is open.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, PoisonError, RwLock, RwLockReadGuard, RwLockWriteGuard};

use pomace_bench::Memo;
use pomace_book::edit::{Draft, Path};
use pomace_book::{ReadOnce, Source, demo, names};
use pomace_store::{Change, Edge, Id, Index, Outcome, Revision, Stamp, Store, Token, When, Write};

use crate::change::List;
use crate::kitchen::{Kitchen, Opening};

/// Store and book.
pub(crate) struct App {
    pub store: Store,
    kitchen: RwLock<Kitchen>,
    /// Preps as they were made, for the next change to what they go into.
    pub memo: Arc<Memo>,
    /// Whether all drinks were placed since the book was opened.
    is_marked: AtomicBool,
    /// Whether what is changed is kept; a demo is not.
    pub is_demo: bool,
}

/// A save that somebody else's went before.
#[derive(Debug)]
pub(crate) struct Overtaken {
    pub theirs: Revision,
}

/// What came of a save.
pub(crate) type Saved = Result<Stamp, Overtaken>;

/// A text to be saved.
pub(crate) struct Saving<'a> {
    pub document: &'a Id,
    /// The revision it was made from; none for a new document.
    pub based_on: Option<u64>,
    pub text: &'a str,
    /// kind and name, where the text tells none.
    pub kind: &'a str,
    pub name: &'a str,
    pub who: &'a str,
    pub why: Option<&'a str>,
}

impl App {
    pub(crate) async fn open(store: Store, is_demo: bool) -> Result<Self, pomace_store::Error> {
        let mut opening = Opening::begin();
        store.each(|document| opening.take(document)).await?;
        let kitchen = opening.finish();
        Ok(Self {
            store,
            kitchen: RwLock::new(kitchen),
            memo: Arc::default(),
            is_marked: AtomicBool::new(false),
            is_demo,
        })
    }

    /// The book, to read. What it holds is whole even where a thread broke off: a change puts a document
    /// in or takes it out, and nothing between.
    pub(crate) fn kitchen(&self) -> RwLockReadGuard<'_, Kitchen> {
        self.kitchen.read().unwrap_or_else(PoisonError::into_inner)
    }

    pub(crate) fn kitchen_mut(&self) -> RwLockWriteGuard<'_, Kitchen> {
        self.kitchen.write().unwrap_or_else(PoisonError::into_inner)
    }

    /// Saves a text; answers when it is on disk. A new name is written into the documents that call for
    /// the old one, in the same breath.
    pub(crate) async fn save(
        self: &Arc<Self>,
        token: &Token,
        saving: &Saving<'_>,
    ) -> Result<Saved, pomace_store::Error> {
        let mut changes = vec![self.change(saving)];
        changes.extend(self.renamings(saving));
        let outcome = self.store.save_all(token, &changes).await?;
        let stamps = match outcome {
            Outcome::Saved(stamps) => stamps,
            Outcome::Conflict(theirs) => {
                // The document itself, or one that a new name would have changed.
                let own = theirs.iter().find(|t| t.stamp.document == *saving.document);
                let Some(theirs) = own.or(theirs.first()).cloned() else {
                    return Err(self.at_fault("a conflict with nobody"));
                };
                return Ok(Err(Overtaken { theirs }));
            }
        };
        let mut kitchen = self.kitchen_mut();
        for (stamp, change) in stamps.iter().zip(&changes) {
            if let Write::Text(text) = &change.write {
                let revision = Revision {
                    stamp: stamp.clone(),
                    text: text.clone(),
                };
                kitchen.put(&revision, &change.index.kind, &change.index.name);
            }
        }
        let mut moved: Vec<Id> = stamps
            .iter()
            .flat_map(|stamp| kitchen.leaning_on(&stamp.document))
            .collect();
        drop(kitchen);
        moved.sort_unstable();
        moved.dedup();
        // A syrup may be in thousands of drinks: nobody waits for them.
        let app = Arc::clone(self);
        std::mem::drop(tokio::task::spawn_blocking(move || app.mark(moved)));
        match stamps.into_iter().next() {
            Some(stamp) => Ok(Ok(stamp)),
            None => Err(self.at_fault("a save was answered without a revision")),
        }
    }

    fn at_fault(&self, detail: &str) -> pomace_store::Error {
        pomace_store::Error::OurFault {
            place: self.store.place().to_string(),
            detail: detail.to_owned(),
        }
    }

    /// Takes a document out of the book; its revisions stay.
    pub(crate) async fn take_out(&self, id: &Id, who: &str) -> Result<bool, pomace_store::Error> {
        let Some(kept) = self.kitchen().get(id).cloned() else {
            return Ok(false);
        };
        let change = Change {
            document: id.clone(),
            based_on: Some(kept.revision),
            write: Write::Remove,
            who: who.to_owned(),
            when: When::now(),
            why: None,
            index: Index::of(&kept.kind, &kept.name),
        };
        let Outcome::Saved(stamps) = self.store.save(&Token::new(), &change).await? else {
            return Ok(false);
        };
        let mut kitchen = self.kitchen_mut();
        for stamp in stamps {
            let revision = Revision {
                stamp,
                text: kept.text.clone(),
            };
            kitchen.put(&revision, &kept.kind, &kept.name);
        }
        Ok(true)
    }

    fn change(&self, saving: &Saving<'_>) -> Change {
        Change {
            document: saving.document.clone(),
            based_on: saving.based_on,
            write: Write::Text(saving.text.to_owned()),
            who: saving.who.to_owned(),
            when: When::now(),
            why: saving.why.map(str::to_owned),
            index: self.index(saving.text, saving.kind, saving.name),
        }
    }

    /// What a text can be found by.
    fn index(&self, text: &str, kind: &str, name: &str) -> Index {
        let Ok(read) = ReadOnce::of(Source::new(name, text)) else {
            return Index::of(kind, name);
        };
        let document = read.document();
        let mut index = Index::of(document.kind(), &document.name().value);
        let kitchen = self.kitchen();
        let mut mentions = document.mentions();
        mentions.sort_unstable();
        mentions.dedup();
        for mention in mentions {
            let leads_to = kitchen.named(mention).map(|(id, _)| id.clone()).min();
            index.uses.push(Edge {
                name: mention.to_owned(),
                document: leads_to,
            });
        }
        index
    }

    /// Changes to the documents that call for a document by a name it no longer has.
    fn renamings(&self, saving: &Saving<'_>) -> Vec<Change> {
        let kitchen = self.kitchen();
        let Some(before) = kitchen.get(saving.document) else {
            return Vec::new();
        };
        let Ok(read) = ReadOnce::of(Source::new(saving.name, saving.text)) else {
            return Vec::new();
        };
        let (old, new) = (before.name.clone(), read.document().name().value.clone());
        // Where another document has the old name too, the calls are its own.
        let is_alone = kitchen.named(&old).count() == 1;
        if names::same(&old, &new) || !is_alone {
            return Vec::new();
        }
        let calling = kitchen.mentioning(&old);
        let others = calling.into_iter().filter(|id| id != saving.document);
        let mut changed: Vec<(Id, u64, String, String, String)> = Vec::new();
        for id in others {
            let Some(kept) = kitchen.get(&id) else {
                continue;
            };
            if let Some(text) = called_anew(&kept.text, &old, &new) {
                changed.push((
                    id,
                    kept.revision,
                    kept.kind.clone(),
                    kept.name.clone(),
                    text,
                ));
            }
        }
        drop(kitchen);
        let why = format!("{old} is now called {new}");
        changed
            .iter()
            .map(|(id, revision, kind, name, text)| {
                self.change(&Saving {
                    document: id,
                    based_on: Some(*revision),
                    text,
                    kind,
                    name,
                    who: saving.who,
                    why: Some(&why),
                })
            })
            .collect()
    }

    /// Puts the demo's documents into the book.
    pub(crate) async fn take_demo(&self, who: &str) -> Result<(), pomace_store::Error> {
        let changes: Vec<Change> = demo::DOCUMENTS
            .iter()
            .map(|(_, text)| {
                let id = Id::new(&When::now());
                self.change(&Saving {
                    document: &id,
                    based_on: None,
                    text,
                    kind: "drink",
                    name: "demo",
                    who,
                    why: Some("the demo"),
                })
            })
            .collect();
        if let Outcome::Saved(stamps) = self.store.save_all(&Token::new(), &changes).await? {
            let mut kitchen = self.kitchen_mut();
            for (stamp, change) in stamps.iter().zip(&changes) {
                if let Write::Text(text) = &change.write {
                    let revision = Revision {
                        stamp: stamp.clone(),
                        text: text.clone(),
                    };
                    kitchen.put(&revision, &change.index.kind, &change.index.name);
                }
            }
            drop(kitchen);
            self.mark_all();
        }
        Ok(())
    }

    /// Works out where all drinks stand, one by one, so that nobody waits for it.
    pub(crate) fn mark_all(&self) {
        let ids: Vec<Id> = self
            .kitchen()
            .documents()
            .map(|(id, _)| id.clone())
            .collect();
        self.mark(ids);
        self.is_marked.store(true, Ordering::Release);
    }

    /// Whether it is known where the drinks stand; of a book just opened it is not yet.
    pub(crate) fn is_marked(&self) -> bool {
        self.is_marked.load(Ordering::Acquire)
    }

    fn mark(&self, ids: Vec<Id>) {
        for id in ids {
            let mark = self.kitchen().mark_of(&id);
            self.kitchen_mut().set_mark(&id, mark);
        }
    }
}

/// A text in which everything that was called by one name is called by another; `None` where nothing is.
fn called_anew(text: &str, old: &str, new: &str) -> Option<String> {
    let mut draft = Draft::open(text).ok()?;
    let mut is_changed = false;
    let mut call = |path: Path| {
        if draft
            .get(&path)
            .is_some_and(|called| names::same(&called, old))
        {
            is_changed |= draft.set(&path, new).is_ok();
        }
    };
    call(Path::top("like"));
    call(Path::within("told", "base"));
    call(Path::within("told", "solid"));
    for list in [List::Line, List::Step, List::Garnish] {
        // As many as a text of this length can hold.
        for index in 0..text.matches(list.key()).count() {
            for key in ["what", "fat"] {
                call(Path::item(list.key(), index, key));
            }
        }
    }
    is_changed.then(|| draft.to_text())
}

#[cfg(test)]
mod tests {
    use super::called_anew;

    #[test]
    fn a_new_name_is_written_where_the_old_one_was_called() {
        let text = "drink = \"D\"\n[[line]]\nwhat = \"Peel  shrub\" # ours\n[[line]]\nwhat = \"gin, 40 %\"\n[[step]]\ndo = \"add\"\nwhat = \"peel shrub\"\n";
        let renamed = called_anew(text, "Peel shrub", "Rind shrub").unwrap();
        assert_eq!(renamed.matches("Rind shrub").count(), 2);
        assert!(renamed.contains("\"Rind shrub\" # ours"));
        assert_eq!(called_anew(text, "whey", "whey, cleared"), None);
    }
}
