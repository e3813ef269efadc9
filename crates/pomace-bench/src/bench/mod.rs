//! A book on the bench: compiled, and ready to run.

mod check;
mod figures;
mod making;
mod questions;

use std::sync::{Arc, OnceLock};

use pomace_book::{Book, Document, DocumentId, Finding, Graph};

use crate::compile::{Change, Compiler};
use crate::error::RunError;
use crate::finding;
use crate::house::House;
use crate::memo::{Kept, Memo};
use crate::program::Program;
use crate::run::{Outcome, name_of};
use crate::shelf::{Item, Shelf};

pub(crate) use figures::Whole;
pub use questions::Question;

/// A compiled book.
pub struct Bench<'a> {
    book: &'a Book,
    graph: Arc<Graph>,
    house: House,
    shelf: Shelf,
    programs: Vec<Option<Arc<Program>>>,
    /// Place of each document in the order of computing.
    rank: Vec<usize>,
    findings: Vec<Finding>,
    /// Preps as they stand, each made once: a prep in ten drinks is computed for all of them.
    made: Vec<OnceLock<Outcome<f64>>>,
    /// The same with their slopes, which the memo keeps for other benches too.
    pub(crate) sloped: Vec<OnceLock<Result<Arc<Kept>, RunError>>>,
    pub(crate) memo: Arc<Memo>,
}

impl<'a> Bench<'a> {
    /// Compiles a book. Everything that there is to say about its documents, from reading them to
    /// compiling them, is among the [`Bench::findings`].
    #[must_use]
    pub fn new(book: &'a Book) -> Self {
        Self::with_memo(book, &Arc::default())
    }

    /// The same, where preps that another bench made from the same may be taken up.
    #[must_use]
    pub fn with_memo(book: &'a Book, memo: &Arc<Memo>) -> Self {
        let (graph, found) = pomace_book::resolve(book);
        let mut findings: Vec<Finding> = book.findings().to_vec();
        findings.extend(found);
        Self::compile(book, Arc::new(graph), findings, &[], memo)
    }

    fn compile(
        book: &'a Book,
        graph: Arc<Graph>,
        mut findings: Vec<Finding>,
        changes: &[Change],
        memo: &Arc<Memo>,
    ) -> Self {
        let house = House::of(book);
        let houses = book
            .documents()
            .filter(|(_, d)| matches!(d, Document::House(_)));
        findings.extend(
            houses
                .skip(1)
                .map(|(id, d)| finding::second_house(book, id, d)),
        );
        let mut shelf = Shelf::default();
        let mut programs: Vec<Option<Arc<Program>>> = book.documents().map(|_| None).collect();
        for id in &graph.order {
            let mut compiler = Compiler {
                book,
                graph: &graph,
                house: &house,
                shelf: &mut shelf,
                findings: &mut findings,
                changes,
                traces: Vec::new(),
            };
            if let Some(place) = programs.get_mut(id.0) {
                *place = compiler.document(*id).map(Arc::new);
            }
        }
        let made = programs.iter().map(|_| OnceLock::new()).collect();
        let sloped = programs.iter().map(|_| OnceLock::new()).collect();
        let mut rank = vec![usize::MAX; programs.len()];
        for (place, id) in graph.order.iter().enumerate() {
            if let Some(rank) = rank.get_mut(id.0) {
                *rank = place;
            }
        }
        Self {
            book,
            graph,
            house,
            shelf,
            programs,
            rank,
            findings,
            made,
            sloped,
            memo: Arc::clone(memo),
        }
    }

    /// The same book with some amounts taken otherwise; its texts stay as they are.
    #[must_use]
    pub fn with(&self, changes: &[Change]) -> Self {
        Self::compile(
            self.book,
            Arc::clone(&self.graph),
            Vec::new(),
            changes,
            &self.memo,
        )
    }

    /// The book.
    #[must_use]
    pub const fn book(&self) -> &'a Book {
        self.book
    }

    /// What its names lead to.
    #[must_use]
    pub fn graph(&self) -> &Graph {
        &self.graph
    }

    /// The house's settings.
    #[must_use]
    pub const fn house(&self) -> &House {
        &self.house
    }

    /// The ingredients that the book calls for.
    #[must_use]
    pub const fn shelf(&self) -> &Shelf {
        &self.shelf
    }

    /// An ingredient of the book, as it stands on the shelf.
    #[must_use]
    pub fn ingredient(&self, id: DocumentId) -> Option<&Item> {
        self.shelf.of_document(id)
    }

    /// Everything there is to say about the documents: reading, names, amounts.
    #[must_use]
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }

    pub(crate) fn program(&self, id: DocumentId) -> Option<&Arc<Program>> {
        self.programs.get(id.0)?.as_ref()
    }

    pub(crate) fn name_of(&self, id: DocumentId) -> String {
        name_of(self.book, id)
    }
}
