//! Preps made and drinks mixed, each prep once.

use std::sync::Arc;

use pomace_book::{DocumentId, Spot};
use pomace_matter::{Mixture, Scalar};

use super::Bench;
use crate::error::RunError;
use crate::inputs::Inputs;
use crate::made::{Made, Mixed};
use crate::program::{Origin, Program};
use crate::run::{Outcome, Runner};

impl Bench<'_> {
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
}
