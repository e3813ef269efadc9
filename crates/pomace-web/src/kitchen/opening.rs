//! A book is taken up: read on all cores while the store still hands over the rest of it.

use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread::{self, JoinHandle};

use pomace_book::{ReadOnce, Source};
use pomace_store::{Current, Id};

use super::{Kept, Kitchen, mentioned_by, own_names};

/// Documents that a reader is handed at once: few enough that the last ones do not wait for a whole
/// share, and enough that handing over costs nothing.
const HANDFUL: usize = 64;

/// A document with the names that it is entered under.
pub(super) struct Taken {
    pub id: Id,
    pub kept: Kept,
    /// See [`own_names`].
    pub names: Vec<String>,
    /// See [`mentioned_by`].
    pub mentions: Vec<String>,
}

impl Taken {
    /// Reads a text; kind and name that are given stand in where it tells none.
    pub(super) fn of(document: Current) -> Self {
        let Current {
            document: id,
            kind,
            name,
            revision,
            who,
            when,
            text,
        } = document;
        let read = ReadOnce::of(Source::new(name.as_str(), text.as_str()));
        let (kind, name, names, mentions) = match &read {
            Ok(read) => {
                let document = read.document();
                (
                    document.kind().to_owned(),
                    document.name().value.clone(),
                    own_names(document),
                    mentioned_by(document),
                )
            }
            Err(_) => (kind, name, Vec::new(), Vec::new()),
        };
        let kept = Kept {
            revision,
            when: when.as_str().to_owned(),
            who,
            kind,
            name,
            text,
            read,
        };
        Self {
            id,
            kept,
            names,
            mentions,
        }
    }
}

/// What a reader is handed, and where it gives back what it made of that.
type Reader = (Sender<Vec<Current>>, JoinHandle<Vec<Taken>>);

/// A book on its way in.
pub(crate) struct Opening {
    readers: Vec<Reader>,
    /// What is not handed over yet.
    held: Vec<Current>,
    /// Which reader comes next.
    next: usize,
}

impl Opening {
    pub(crate) fn begin() -> Self {
        let cores = thread::available_parallelism().map_or(1, usize::from);
        let reader = |_| {
            let (sender, texts) = channel();
            (sender, thread::spawn(move || read(&texts)))
        };
        Self {
            readers: (0..cores).map(reader).collect(),
            held: Vec::with_capacity(HANDFUL),
            next: 0,
        }
    }

    pub(crate) fn take(&mut self, document: Current) {
        self.held.push(document);
        if self.held.len() == HANDFUL {
            let full = std::mem::replace(&mut self.held, Vec::with_capacity(HANDFUL));
            self.hand_over(full);
        }
    }

    fn hand_over(&mut self, handful: Vec<Current>) {
        self.next = (self.next + 1) % self.readers.len().max(1);
        if let Some((reader, _)) = self.readers.get(self.next) {
            // Only a reader that broke off does not take it, and then nothing is opened.
            let _ = reader.send(handful);
        }
    }

    /// The whole book.
    pub(crate) fn finish(mut self) -> Kitchen {
        let last = std::mem::take(&mut self.held);
        self.hand_over(last);
        let (senders, readers): (Vec<_>, Vec<_>) = self.readers.into_iter().unzip();
        drop(senders);
        let mut all = Vec::new();
        for reader in readers {
            match reader.join() {
                Ok(some) => all.extend(some),
                // A book with documents missing must not be served.
                Err(broke) => std::panic::resume_unwind(broke),
            }
        }
        // Each reader has them in order.
        all.sort_by(|one: &Taken, other| one.id.cmp(&other.id));
        Kitchen::of(all)
    }
}

fn read(texts: &Receiver<Vec<Current>>) -> Vec<Taken> {
    texts.iter().flatten().map(Taken::of).collect()
}
