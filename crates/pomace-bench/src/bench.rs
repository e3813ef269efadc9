//! A book on the bench: compiled, and ready to run.

use std::collections::HashSet;
use std::sync::{Arc, OnceLock};

use pomace_book::{Book, Document, DocumentId, Finding, Graph, Gravity, Reading, Spot};
use pomace_matter::{Mixture, Scalar};

use crate::compile::{Change, Compiler, To};
use crate::doubt::{Doubt, Moves, Study};
use crate::error::RunError;
use crate::finding;
use crate::glass::PACE;
use crate::house::House;
use crate::inputs::{Inputs, SourceKey};
use crate::made::{Made, Mixed};
use crate::memo::{Kept, Memo};
use crate::numbers::{self, DrinkNumbers, Later, Named};
use crate::program::{Origin, Program};
use crate::report::DrinkReport;
use crate::run::{Outcome, Runner, name_of};
use crate::shelf::{Item, Shelf};
use crate::stream::Stream;

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

    /// Everything there is to say about the documents: reading, names, amounts.
    #[must_use]
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }

    /// [`Bench::findings`], and what shows only when every prep is made and every drink mixed.
    #[must_use]
    pub fn check(&self) -> Vec<Finding> {
        let mut findings = self.findings.clone();
        // A document with a fault is missing something: what follows from that helps nobody.
        let faulty: HashSet<&str> = self
            .findings
            .iter()
            .filter(|f| f.gravity == Gravity::Stop)
            .map(|f| f.place.path.as_str())
            .collect();
        for (id, document) in self.book.documents() {
            if self
                .book
                .source(id)
                .is_some_and(|s| faulty.contains(s.path.as_str()))
            {
                continue;
            }
            let amounts = match document {
                Document::Prep(_) => self.prep(id).map(|made| made.amounts.clone()),
                Document::Drink(_) => self.drink(id).map(|mixed| mixed.amounts),
                Document::Ingredient(_) | Document::House(_) => continue,
            };
            let error = match amounts {
                Ok(amounts) => {
                    findings.extend(self.beyond_what_is_left(id, &amounts));
                    continue;
                }
                Err(error) => error,
            };
            // What a document lacks because another has no result is told there.
            if !matches!(error, RunError::Needs(_) | RunError::Nothing) {
                findings.push(finding::of_error(self.book, id, document, &error));
            }
        }
        findings
    }

    /// By-products that a document takes more of than one batch, as written, leaves.
    fn beyond_what_is_left(&self, id: DocumentId, amounts: &[(Spot, f64)]) -> Vec<Finding> {
        let Some(program) = self.program(id) else {
            return Vec::new();
        };
        let mut findings = Vec::new();
        for intake in &program.intakes {
            let Origin::Left(prep, step) = intake.origin else {
                continue;
            };
            let wanted = amounts.iter().find(|(spot, _)| *spot == intake.spot);
            let left = self.prep(prep).ok().and_then(|made| {
                let left = made.left.get(step)?.total();
                (left > 0.0).then_some(left)
            });
            if let (Some((spot, wanted)), Some(left)) = (wanted, left)
                && *wanted > left * (1.0 + 1e-6)
            {
                let of = self.name_of(prep);
                findings.push(finding::more_batches(
                    self.book,
                    id,
                    *spot,
                    &of,
                    wanted / left,
                ));
            }
        }
        findings
    }

    pub(crate) fn program(&self, id: DocumentId) -> Option<&Arc<Program>> {
        self.programs.get(id.0)?.as_ref()
    }

    pub(crate) fn name_of(&self, id: DocumentId) -> String {
        name_of(self.book, id)
    }

    pub(crate) fn run<'r, S: Scalar, R>(
        &'r self,
        inputs: &'r Inputs,
        kept: Option<&'r dyn Fn(DocumentId) -> Outcome<S>>,
        run: impl FnOnce(&mut Runner<'r, S>) -> R,
    ) -> R {
        run(&mut Runner {
            programs: &self.programs,
            book: self.book,
            shelf: &self.shelf,
            house: &self.house,
            inputs,
            kept,
            made: Vec::new(),
            ledger: None,
        })
    }

    /// A prep as it is written; made the first time it is asked for, and kept.
    ///
    /// # Errors
    /// [`RunError`] where the document is no prep, or something in it cannot be computed.
    pub fn prep(&self, id: DocumentId) -> Outcome<f64> {
        let Some(place) = self.made.get(id.0) else {
            return Err(RunError::Nothing);
        };
        // What it needs first, so that a long chain of preps does not nest.
        if place.get().is_none() {
            for needed in self.needs(id) {
                if needed != id {
                    // What stopped it is told where it is asked for.
                    let _ = self.prep_alone(needed);
                }
            }
        }
        self.prep_alone(id)
    }

    fn prep_alone(&self, id: DocumentId) -> Outcome<f64> {
        let Some(place) = self.made.get(id.0) else {
            return Err(RunError::Nothing);
        };
        place
            .get_or_init(|| {
                let kept = |other: DocumentId| self.prep_alone(other);
                self.run(&Inputs::values(), Some(&kept), |r| r.prep(id))
                    .map(Arc::new)
            })
            .clone()
    }

    /// Everything that a document is made with, each thing after what it needs itself, and the
    /// document last.
    #[must_use]
    pub fn needs(&self, id: DocumentId) -> Vec<DocumentId> {
        // A bit for each document of the book.
        let mut seen = vec![0_u64; self.rank.len() / 64 + 1];
        let mut is_new = |id: DocumentId| {
            let (word, bit) = (seen.get_mut(id.0 / 64), 1 << (id.0 % 64));
            word.is_some_and(|word| {
                let is_new = *word & bit == 0;
                *word |= bit;
                is_new
            })
        };
        is_new(id);
        let mut wanted = vec![id];
        let mut next = 0;
        while let Some(document) = wanted.get(next).copied() {
            let used = self.graph.uses(document).iter().copied();
            wanted.extend(used.filter(|id| is_new(*id)));
            next += 1;
        }
        wanted.sort_by_key(|d| self.rank.get(d.0).copied());
        wanted
    }

    /// Makes a prep anew, in any number type.
    ///
    /// # Errors
    /// As [`Bench::prep`].
    pub fn make<S: Scalar>(&self, id: DocumentId) -> Result<Made<S>, RunError> {
        self.anew(&Inputs::values(), id, |r| r.prep(id))
    }

    /// Mixes a drink anew, with all its preps, in any number type.
    ///
    /// # Errors
    /// [`RunError`] where the document is no drink, or something in it cannot be computed.
    pub fn mix<S: Scalar>(&self, id: DocumentId) -> Result<Mixed<S>, RunError> {
        self.anew(&Inputs::values(), id, |r| r.drink(id))
    }

    /// A run that keeps nothing, and makes first what is needed first.
    pub(crate) fn anew<S: Scalar, R>(
        &self,
        inputs: &Inputs,
        id: DocumentId,
        run: impl FnOnce(&mut Runner<'_, S>) -> R,
    ) -> R {
        if inputs.is_noting() {
            for needed in self.needs(id) {
                if needed != id
                    && let Ok(kept) = self.sloped(needed)
                {
                    kept.result().note_sources(inputs);
                }
            }
            return self.noting(inputs, id, run);
        }
        self.run(inputs, None, |runner| {
            for needed in self.needs(id) {
                if needed != id {
                    let _ = runner.make(needed);
                }
            }
            run(runner)
        })
    }

    /// Mixes a drink from preps that are kept.
    ///
    /// # Errors
    /// As [`Bench::mix`].
    pub fn drink(&self, id: DocumentId) -> Result<Mixed, RunError> {
        let kept = |other: DocumentId| self.prep(other);
        self.run(&Inputs::values(), Some(&kept), |r| r.drink(id))
    }

    /// A drink from preps that are kept, with so many times as much of one line, step or garnish.
    ///
    /// # Errors
    /// As [`Bench::mix`].
    pub fn drink_with(&self, id: DocumentId, spot: Spot, times: f64) -> Result<Mixed, RunError> {
        let program = self.program(id).filter(|program| program.is_drink);
        let mut program = Program::clone(program.ok_or(RunError::Nothing)?);
        let crowns = program.crowns.iter_mut().map(|crown| &mut crown.intake);
        for intake in program.intakes.iter_mut().chain(crowns) {
            if intake.spot == spot {
                intake.dose = intake.dose.times(times);
            }
        }
        let kept = |other: DocumentId| self.prep(other);
        let inputs = Inputs::values();
        self.run(&inputs, Some(&kept), |runner| runner.drink_as(id, &program))
    }

    /// An ingredient of the book, as it stands on the shelf.
    #[must_use]
    pub fn ingredient(&self, id: DocumentId) -> Option<&Item> {
        self.shelf.of_document(id)
    }

    /// What so many grams of a line or of a step's addition bring into a drink.
    #[must_use]
    pub fn brings(&self, drink: DocumentId, spot: Spot, grams: f64) -> Option<Mixture> {
        let program = self.programs.get(drink.0)?.as_ref()?;
        let intake = program.intakes.iter().find(|i| i.spot == spot)?;
        let stream = match intake.origin {
            Origin::Shelf(index) => self.shelf.get(index)?.gram.clone(),
            Origin::Made(prep) => self.prep(prep).ok()?.kept.clone(),
            Origin::Left(prep, step) => self.prep(prep).ok()?.left.get(step)?.clone(),
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
        let minutes: Vec<u32> = crate::glass::MINUTES.collect();
        self.report_at(id, &minutes)
    }

    /// The same, and of what becomes of it in the glass only some minutes.
    ///
    /// # Errors
    /// As [`Bench::mix`].
    pub fn report_at(
        &self,
        id: DocumentId,
        minutes: &[u32],
    ) -> Result<(Mixed, DrinkReport), RunError> {
        let mixed = self.drink(id)?;
        let mut all = mixed.after.clone();
        for (_, _, eaten) in &mixed.garnish {
            all.carried.join(&eaten.carried);
        }
        let cautions = self.cautions(&all);
        let report = DrinkReport::at(&mixed, cautions, minutes);
        Ok((mixed, report))
    }

    /// The doubt of every figure of a drink before ice, as served and of a serve; see
    /// [`doubt`](crate::doubt).
    ///
    /// # Errors
    /// As [`Bench::mix`].
    pub fn doubt_of_drink(&self, id: DocumentId) -> Result<Doubt, RunError> {
        Doubt::of(&Whole { bench: self, id })
    }

    /// The doubt of every figure of a drink some minutes after it was served over ice.
    ///
    /// # Errors
    /// As [`Bench::mix`].
    pub fn doubt_of_minute(&self, id: DocumentId, minute: u32) -> Result<Doubt, RunError> {
        Doubt::of(&InGlass {
            bench: self,
            id,
            minute,
        })
    }

    /// The doubt of every figure of what a prep keeps.
    ///
    /// # Errors
    /// As [`Bench::prep`].
    pub fn doubt_of_prep(&self, id: DocumentId) -> Result<Doubt, RunError> {
        Doubt::of(&Whole { bench: self, id })
    }

    /// A drink with some sources of doubt moved by so many standard deviations, also at some minutes in its
    /// glass.
    ///
    /// # Errors
    /// As [`Bench::mix`].
    pub fn mix_moved(
        &self,
        id: DocumentId,
        moves: Moves,
        minutes: &[u32],
    ) -> Result<DrinkReport, RunError> {
        let inputs = Inputs::moved(moves);
        let mixed = self.anew(&inputs, id, |r| r.drink(id))?;
        Ok(DrinkReport::with_inputs(
            &mixed,
            Vec::new(),
            minutes,
            &inputs,
        ))
    }

    /// The amounts of a document, and of the preps it needs, that can be read in two ways.
    #[must_use]
    pub fn questions(&self, id: DocumentId) -> Vec<Question> {
        self.needs(id)
            .into_iter()
            .rev()
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

    /// The same book with one question answered by its reading of that index.
    #[must_use]
    pub fn answered(&self, question: &Question, reading: usize) -> Self {
        self.with(&[Change {
            document: question.document,
            spot: question.spot,
            to: To::Reading(reading),
        }])
    }
}

/// A document with everything that it is made with.
pub(crate) struct Whole<'b, 'a> {
    pub bench: &'b Bench<'a>,
    pub id: DocumentId,
}

impl Study for Whole<'_, '_> {
    fn numbers<S: Scalar>(&self, inputs: &Inputs) -> Result<Named<S>, RunError> {
        let Self { bench, id } = *self;
        if matches!(bench.book.document(id), Some(Document::Drink(_))) {
            let mixed = bench.anew(inputs, id, |r| r.drink(id))?;
            Ok(DrinkNumbers::of(&mixed).list())
        } else {
            let made = bench.anew(inputs, id, |r| r.prep(id))?;
            Ok(numbers::of_prep(&made))
        }
    }
}

/// A drink at a minute in its glass.
struct InGlass<'b, 'a> {
    bench: &'b Bench<'a>,
    id: DocumentId,
    minute: u32,
}

impl Study for InGlass<'_, '_> {
    fn numbers<S: Scalar>(&self, inputs: &Inputs) -> Result<Named<S>, RunError> {
        let mixed = self.bench.anew(inputs, self.id, |r| r.drink(self.id))?;
        let mut list = Vec::new();
        for later in Later::of(&mixed, inputs, &[self.minute]) {
            later.list(&mut list);
        }
        Ok(list)
    }

    fn curves_along(&self) -> Option<SourceKey> {
        Some(SourceKey::Assumed(PACE))
    }
}
