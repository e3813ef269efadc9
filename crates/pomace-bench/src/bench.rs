//! A book on the bench: compiled, and ready to run.

use pomace_book::{Book, Document, DocumentId, Finding, Graph, Gravity, Reading, Spot};
use pomace_matter::{Mixture, Scalar};

use crate::compile::{Choice, Compiler};
use crate::finding;
use crate::house::House;
use crate::program::{Origin, Program};
use crate::report::DrinkReport;
use crate::run::{Made, Mixed, RunError, Runner};
use crate::shelf::{Item, Shelf};
use crate::stream::Stream;

/// A compiled book.
pub struct Bench<'a> {
    book: &'a Book,
    graph: Graph,
    house: House,
    shelf: Shelf,
    programs: Vec<Option<Program>>,
    findings: Vec<Finding>,
}

/// An amount that can be read in more than one way.
#[derive(Clone, Debug)]
pub struct Question {
    /// The document that asks.
    pub document: DocumentId,
    /// Where in it.
    pub spot: Spot,
    /// As written.
    pub text: String,
    /// Why it can be read so.
    pub why: String,
    /// The readings, the likelier first.
    pub readings: Vec<Reading>,
}

impl<'a> Bench<'a> {
    /// Compiles a book. Everything that there is to say about its documents, from reading them to
    /// compiling them, is among the [`Bench::findings`].
    #[must_use]
    pub fn new(book: &'a Book) -> Self {
        let (graph, found) = pomace_book::resolve(book);
        let mut findings: Vec<Finding> = book.findings().to_vec();
        findings.extend(found);
        Self::compile(book, graph, findings, None)
    }

    fn compile(
        book: &'a Book,
        graph: Graph,
        mut findings: Vec<Finding>,
        choice: Option<Choice>,
    ) -> Self {
        let house = House::of(book);
        let mut shelf = Shelf::default();
        let mut programs: Vec<Option<Program>> = book.documents().map(|_| None).collect();
        for id in graph.order.clone() {
            let mut compiler = Compiler {
                book,
                graph: &graph,
                house: &house,
                shelf: &mut shelf,
                findings: &mut findings,
                choice,
            };
            if let Some(place) = programs.get_mut(id.0) {
                *place = compiler.document(id);
            }
        }
        Self {
            book,
            graph,
            house,
            shelf,
            programs,
            findings,
        }
    }

    /// The book.
    #[must_use]
    pub const fn book(&self) -> &'a Book {
        self.book
    }

    /// What its names lead to.
    #[must_use]
    pub const fn graph(&self) -> &Graph {
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

    /// Everything there is to say about the documents: reading, names, amounts.
    #[must_use]
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }

    /// [`Bench::findings`], and what shows only when every prep is made and every drink mixed.
    #[must_use]
    pub fn check(&self) -> Vec<Finding> {
        let mut findings = self.findings.clone();
        for (id, document) in self.book.documents() {
            // A document with a fault is missing something: what follows from that helps nobody.
            let path = self.book.source(id).map(|s| s.path.as_str());
            let faulty =
                |f: &Finding| f.gravity == Gravity::Stop && Some(f.place.path.as_str()) == path;
            if self.findings.iter().any(faulty) {
                continue;
            }
            let error = match document {
                Document::Prep(_) => self.make::<f64>(id).err(),
                Document::Drink(_) => self.mix::<f64>(id).err(),
                Document::Ingredient(_) | Document::House(_) => None,
            };
            // What a document lacks because another has no result is told there.
            let error = error.filter(|e| !matches!(e, RunError::Needs(_) | RunError::Nothing));
            findings.extend(error.map(|e| finding::of_error(self.book, id, document, &e)));
        }
        findings
    }

    fn runner<S: Scalar, R>(&self, run: impl FnOnce(&mut Runner<'_, S>) -> R) -> R {
        let names = |id: DocumentId| {
            self.book
                .document(id)
                .map_or_else(String::new, |d| d.name().value.clone())
        };
        let mut runner = Runner {
            programs: &self.programs,
            names: &names,
            shelf: &self.shelf,
            house: &self.house,
            made: vec![None; self.programs.len()],
        };
        run(&mut runner)
    }

    /// Makes a prep as it is written.
    ///
    /// # Errors
    /// [`RunError`] where the document is no prep, or something in it cannot be computed.
    pub fn make<S: Scalar>(&self, id: DocumentId) -> Result<Made<S>, RunError> {
        self.runner(|runner| runner.make(id).cloned())
    }

    /// Mixes a drink as it is written.
    ///
    /// # Errors
    /// [`RunError`] where the document is no drink, or something in it cannot be computed.
    pub fn mix<S: Scalar>(&self, id: DocumentId) -> Result<Mixed<S>, RunError> {
        self.runner(|runner| runner.drink(id))
    }

    /// An ingredient of the book, one gram of it.
    #[must_use]
    pub fn ingredient(&self, id: DocumentId) -> Option<Item> {
        let mut shelf = Shelf::default();
        let reference = pomace_book::Reference::Document(id);
        let index = shelf.item(&reference, self.book, &self.graph, &mut Vec::new())?;
        shelf.get(index).cloned()
    }

    /// What so many grams of a line bring into a drink.
    #[must_use]
    pub fn brings(&self, drink: DocumentId, line: usize, grams: f64) -> Option<Mixture> {
        let Some(Program::Drink(program)) = self.programs.get(drink.0)?.as_ref() else {
            return None;
        };
        let entry = program.entries.iter().find(|e| e.line == line)?;
        let stream = match entry.intake.origin {
            Origin::Shelf(index) => self.shelf.get(index)?.gram.clone(),
            Origin::Made(prep) => self.make(prep).ok()?.kept,
            Origin::Left(prep, step) => self.make::<f64>(prep).ok()?.left.get(step)?.clone(),
            Origin::OwnLeft(_) => return None,
        };
        Some(stream.matter() * (grams / stream.total()))
    }

    /// The warnings that came with what is in a stream, each once.
    #[must_use]
    pub fn cautions(&self, stream: &Stream) -> Vec<String> {
        let mut cautions: Vec<String> = Vec::new();
        for origin in &stream.carried.origins {
            let item = self.shelf.get(*origin as usize);
            for caution in item.iter().flat_map(|i| &i.cautions) {
                if !cautions.contains(caution) {
                    cautions.push(caution.clone());
                }
            }
        }
        cautions
    }

    /// A drink mixed, with its figures.
    ///
    /// # Errors
    /// As [`Bench::mix`].
    pub fn report(&self, id: DocumentId) -> Result<(Mixed, DrinkReport), RunError> {
        let mixed = self.mix(id)?;
        let mut cautions = self.cautions(&mixed.after);
        for (_, _, eaten) in &mixed.garnish {
            cautions.extend(self.cautions(eaten));
        }
        cautions.dedup();
        let report = DrinkReport::of(&mixed, cautions);
        Ok((mixed, report))
    }

    /// The amounts of a document, and of the preps it needs, that can be read in two ways.
    #[must_use]
    pub fn questions(&self, id: DocumentId) -> Vec<Question> {
        let mut wanted = vec![id];
        let mut next = 0;
        while let Some(document) = wanted.get(next).copied() {
            for used in self.graph.uses(document) {
                if !wanted.contains(used) {
                    wanted.push(*used);
                }
            }
            next += 1;
        }
        wanted
            .into_iter()
            .flat_map(|d| self.questions_of(d))
            .collect()
    }

    fn questions_of(&self, document: DocumentId) -> Vec<Question> {
        let Some(doc) = self.book.document(document) else {
            return Vec::new();
        };
        let steps = doc
            .steps()
            .iter()
            .enumerate()
            .map(|(i, s)| (Spot::Step(i), s.amount.as_ref()));
        let (lines, garnish) = match doc {
            Document::Drink(drink) => (drink.lines.as_slice(), drink.garnish.as_slice()),
            _ => (&[][..], &[][..]),
        };
        let lines = lines
            .iter()
            .enumerate()
            .map(|(i, l)| (Spot::Line(i), l.amount.as_ref()));
        let garnish = garnish
            .iter()
            .enumerate()
            .map(|(i, g)| (Spot::Garnish(i), g.amount.as_ref()));
        steps
            .chain(lines)
            .chain(garnish)
            .filter_map(|(spot, amount)| {
                let amount = amount?;
                let Reading::Question { why, readings } = &amount.value.reading else {
                    return None;
                };
                Some(Question {
                    document,
                    spot,
                    text: amount.value.text.clone(),
                    why: why.clone(),
                    readings: readings.clone(),
                })
            })
            .collect()
    }

    /// The same book with one question answered by its reading of that index.
    #[must_use]
    pub fn answered(&self, question: &Question, reading: usize) -> Self {
        let choice = Choice {
            document: question.document,
            spot: question.spot,
            reading,
        };
        Self::compile(self.book, self.graph.clone(), Vec::new(), Some(choice))
    }
}
