//! All documents of a house, held together.

use std::collections::{BTreeMap, HashMap};
use std::path::Path;
use std::sync::Arc;

use crate::document::{Document, Parsed, Source};
use crate::finding::{Finding, Place};
use crate::load;
use crate::names::fold;
use crate::read::faults::Lines;
use crate::read::parse;
use crate::span::Span;
use crate::trial;

/// Index of a document in its book.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct DocumentId(pub usize);

/// All documents of a house, each read once.
#[derive(Clone, Debug, Default)]
pub struct Book {
    entries: Vec<ReadOnce>,
    findings: Vec<Finding>,
    by_name: HashMap<String, DocumentId>,
    /// Which documents are variants of others.
    variants: BTreeMap<DocumentId, Variant>,
}

/// A document that was read once, to be put into as many books as wanted.
#[derive(Clone, Debug)]
pub struct ReadOnce(Arc<Entry>);

#[derive(Debug)]
struct Entry {
    source: Source,
    document: Document,
    findings: Vec<Finding>,
}

impl ReadOnce {
    /// Reads a text.
    ///
    /// # Errors
    /// Its faults, where not even its name could be read.
    pub fn of(source: Source) -> Result<Self, Vec<Finding>> {
        let Parsed { document, findings } = parse(&source);
        match document {
            Some(document) => Ok(Self(Arc::new(Entry {
                source,
                document,
                findings,
            }))),
            None => Err(findings),
        }
    }

    /// Where it came from, and its text.
    #[must_use]
    pub fn source(&self) -> &Source {
        &self.0.source
    }

    /// What it says.
    #[must_use]
    pub fn document(&self) -> &Document {
        &self.0.document
    }

    /// Every fault found while reading.
    #[must_use]
    pub fn findings(&self) -> &[Finding] {
        &self.0.findings
    }
}

/// Whose variant a document is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Variant {
    /// The document that tells of it.
    pub base: DocumentId,
    /// Which of its trials.
    pub trial: usize,
}

impl Book {
    /// An empty book.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Reads a document into the book; `None` where not even its name could be read. Its faults
    /// join [`Book::findings`].
    pub fn add(&mut self, source: Source) -> Option<DocumentId> {
        match ReadOnce::of(source) {
            Ok(read) => Some(self.put(&read)),
            Err(findings) => {
                self.findings.extend(findings);
                None
            }
        }
    }

    /// Puts a document that was read before into the book.
    pub fn put(&mut self, read: &ReadOnce) -> DocumentId {
        self.findings.extend_from_slice(read.findings());
        let id = DocumentId(self.entries.len());
        let name = fold(read.document().name());
        self.by_name.entry(name).or_insert(id);
        self.entries.push(read.clone());
        id
    }

    /// The same book with the variants of a document beside it, or of all; nothing is made with them.
    /// A trial that could not be read, and one that was promoted, has none.
    #[must_use]
    pub fn with_trials(&self, only: Option<DocumentId>) -> Self {
        let mut book = self.clone();
        for (id, document) in self.documents() {
            if only.is_some_and(|only| only != id) {
                continue;
            }
            let Some(source) = self.source(id) else {
                continue;
            };
            for (place, trial) in document.trials().iter().enumerate() {
                if trial.promoted || !trial.is_whole {
                    continue;
                }
                let path = format!("{} ({}. trial)", source.path, place + 1);
                match trial::variant(&source.text, trial) {
                    Ok(text) => {
                        if let Some(added) = book.add(Source::new(path, text)) {
                            let variant = Variant {
                                base: id,
                                trial: place,
                            };
                            book.variants.insert(added, variant);
                        }
                    }
                    Err(error) => {
                        let finding = trial::cannot(self, id, trial, &error);
                        book.findings.push(finding);
                    }
                }
            }
        }
        book
    }

    /// Whose variant a document is; `None` for what is written itself.
    #[must_use]
    pub fn variant(&self, id: DocumentId) -> Option<Variant> {
        self.variants.get(&id).copied()
    }

    /// The variants of a document that stand beside it, in the order of its trials.
    pub fn variants(&self, of: DocumentId) -> impl Iterator<Item = (DocumentId, usize)> {
        self.variants
            .iter()
            .filter(move |(_, variant)| variant.base == of)
            .map(|(id, variant)| (*id, variant.trial))
    }

    /// Reads a file, or every `.toml` file of a folder and its folders. What cannot be read is
    /// among the [`Book::findings`], and the rest is read all the same.
    #[must_use]
    pub fn load(path: &Path) -> Self {
        Self::of(load::sources(path))
    }

    /// Reads a file and the other documents of its folder, which it may lean on; not the folders
    /// below, which may hold anything.
    #[must_use]
    pub fn beside(file: &Path) -> Self {
        Self::of(load::beside(file))
    }

    fn of(loaded: load::Loaded) -> Self {
        let mut book = Self::new();
        book.findings = loaded.findings;
        for source in loaded.sources {
            book.add(source);
        }
        book
    }

    /// All documents, in the order in which they came.
    pub fn documents(&self) -> impl ExactSizeIterator<Item = (DocumentId, &Document)> {
        self.entries
            .iter()
            .enumerate()
            .map(|(index, entry)| (DocumentId(index), entry.document()))
    }

    /// One document.
    #[must_use]
    pub fn document(&self, id: DocumentId) -> Option<&Document> {
        self.entries.get(id.0).map(ReadOnce::document)
    }

    /// Where a document came from, with its text.
    #[must_use]
    pub fn source(&self, id: DocumentId) -> Option<&Source> {
        self.entries.get(id.0).map(ReadOnce::source)
    }

    /// A place in a document, for a finding about it.
    #[must_use]
    pub fn place(&self, id: DocumentId, span: Span, key: &str) -> Place {
        let Some(source) = self.source(id) else {
            return Place::default();
        };
        let (line, column) = Lines::of(&source.text).place(&source.text, span.start);
        Place {
            path: source.path.clone(),
            line,
            column,
            span,
            key: key.to_owned(),
        }
    }

    /// The document of this name, whatever its case, accents and spaces; the first of two.
    #[must_use]
    pub fn by_name(&self, name: &str) -> Option<DocumentId> {
        self.by_name.get(&fold(name)).copied()
    }

    /// How many documents there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether there is no document.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// Every fault found while reading, document by document.
    #[must_use]
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }
}
