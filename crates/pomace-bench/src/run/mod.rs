//! Programs run: one loop for preps and drinks.

mod measure;
mod work;

use std::sync::Arc;

use pomace_book::{Book, DocumentId, Spot};
use pomace_matter::units::Celsius;
use pomace_matter::{Scalar, density};

use crate::dose::{Measure, ShareOf};
use crate::error::{Place, RunError};
use crate::flow::{Came, Ledger};
use crate::house::{House, ROOM};
use crate::inputs::Inputs;
use crate::made::{Made, Mixed};
use crate::portion::Portion;
use crate::program::{Intake, Op, Origin, Program, Work};
use crate::record::Record;
use crate::shelf::Shelf;
use crate::steps::ice;
use crate::stream::Stream;
use crate::vessel::Vessel;
use measure::place_of;
use work::{dissolve_dry, remark_dose, work};

/// What a prep gives, or why it gives nothing.
pub(crate) type Outcome<S> = Result<Arc<Made<S>>, RunError>;

/// The name of a document.
pub(crate) fn name_of(book: &Book, id: DocumentId) -> String {
    let document = book.document(id);
    document.map_or_else(String::new, |d| d.name().value.clone())
}

/// Runs programs. Preps are made once in a run, or taken from whoever keeps them.
pub(crate) struct Runner<'a, S: Scalar> {
    pub programs: &'a [Option<Arc<Program>>],
    pub book: &'a Book,
    pub shelf: &'a Shelf,
    pub house: &'a House,
    pub inputs: &'a Inputs,
    /// Preps made before and kept.
    pub kept: Option<&'a dyn Fn(DocumentId) -> Outcome<S>>,
    /// Preps made in this run.
    pub made: Vec<(DocumentId, Outcome<S>)>,
    /// Whose the grams are, for the next program that runs; not kept unless it is asked for.
    pub ledger: Option<Box<Ledger>>,
}

/// A program at work.
struct Running<'a, S: Scalar> {
    document: DocumentId,
    program: &'a Program,
    vessel: Vessel<'a, S>,
    records: Vec<Record>,
    /// What was in the vessel after steps whose share something is, g.
    shared: Vec<(usize, S)>,
    /// Grams of each intake, as far as it came in.
    amounts: Vec<Option<S>>,
}

impl<'a, S: Scalar> Runner<'a, S> {
    /// Makes a prep, and first what it is made with.
    pub(crate) fn make(&mut self, id: DocumentId) -> Outcome<S> {
        if let Some((_, outcome)) = self.made.iter().find(|(made, _)| *made == id) {
            return outcome.clone();
        }
        let outcome = match self.kept {
            Some(kept) => kept(id),
            None => self.prep(id).map(Arc::new),
        };
        self.made.push((id, outcome.clone()));
        outcome
    }

    /// Makes a prep anew.
    pub(crate) fn prep(&mut self, id: DocumentId) -> Result<Made<S>, RunError> {
        let program = self.program(id, false)?;
        self.prep_as(id, program)
    }

    /// Makes a prep by a program of its own.
    pub(crate) fn prep_as(
        &mut self,
        id: DocumentId,
        program: &'a Program,
    ) -> Result<Made<S>, RunError> {
        let mut running = self.begin(id, program);
        for index in 0..program.ops.len() {
            self.step(&mut running, index)?;
        }
        self.traces(&mut running)?;
        self.ledger = running.vessel.ledger.take();
        let kept = std::mem::take(&mut running.vessel.stream);
        let grams_per_ml = density::density(&kept.liquid, Celsius(S::from(20.0)))
            .ok()
            .filter(|_| kept.pieces.is_empty() || kept.pieces.weight().0 <= 0.0)
            .map(|d| d.0 / 1000.0);
        Ok(Made {
            kept,
            amounts: running.amounts(),
            left: running.vessel.left_by,
            records: running.records,
            grams_per_ml,
        })
    }

    /// Mixes a drink.
    pub(crate) fn drink(&mut self, id: DocumentId) -> Result<Mixed<S>, RunError> {
        let program = self.program(id, true)?;
        self.drink_as(id, program)
    }

    /// Mixes a drink by a program of its own.
    pub(crate) fn drink_as(
        &mut self,
        id: DocumentId,
        program: &'a Program,
    ) -> Result<Mixed<S>, RunError> {
        let mut running = self.begin(id, program);
        let mut before = None;
        let mut melt = S::zero();
        for (index, op) in program.ops.iter().enumerate() {
            if matches!(op.work, Work::Ice { .. }) {
                self.bring_in(&mut running, index)?;
                dissolve_dry(&mut running.vessel);
                before.get_or_insert_with(|| running.vessel.stream.clone());
                melt += self.over_ice(&mut running, op, index)?;
                running.end_step(index);
            } else {
                self.step(&mut running, index)?;
            }
        }
        let last = |read: &dyn Fn(&Op) -> bool| program.ops.iter().rev().find(|op| read(op));
        let garnish = self.garnish(&running)?;
        self.traces(&mut running)?;
        self.ledger = running.vessel.ledger.take();
        let after = running.vessel.stream.clone();
        Ok(Mixed {
            before: before.unwrap_or_else(|| after.clone()),
            after,
            melt,
            amounts: running.amounts(),
            garnish,
            on_ice: std::mem::take(&mut running.vessel.on_ice),
            glass_ice: last(&|op| op.over.is_some()).and_then(|op| op.over),
            glass_ml: last(&|op| op.glass_ml.is_some()).and_then(|op| op.glass_ml),
            beaten: program.ops.iter().filter_map(Op::beaten).max(),
            records: running.records,
        })
    }

    fn program(&self, id: DocumentId, is_drink: bool) -> Result<&'a Program, RunError> {
        let programs = self.programs;
        programs
            .get(id.0)
            .and_then(Option::as_deref)
            .filter(|program| program.is_drink == is_drink)
            .ok_or(RunError::Nothing)
    }

    fn begin(&mut self, document: DocumentId, program: &'a Program) -> Running<'a, S> {
        Running {
            document,
            program,
            vessel: Vessel::empty(self.inputs, ROOM, self.ledger.take()),
            records: Vec::new(),
            shared: Vec::new(),
            amounts: vec![None; program.intakes.len()],
        }
    }

    /// One step: what comes in, what is done, what is written down.
    fn step(&mut self, running: &mut Running<'a, S>, index: usize) -> Result<(), RunError> {
        self.bring_in(running, index)?;
        let Some(op) = running.program.ops.get(index) else {
            return Ok(());
        };
        if running.program.is_drink {
            dissolve_dry(&mut running.vessel);
        }
        if let Some(celsius) = op.celsius {
            running.vessel.stream.celsius = S::from(celsius);
        }
        let pours = running.vessel.stream.liquid.weight().0 > 0.0;
        if matches!(op.work, Work::Charge { .. }) && !pours {
            return Err(RunError::NothingToCharge { step: index });
        }
        work(op, &mut running.vessel).map_err(|outside| RunError::Outside {
            step: index,
            outside,
        })?;
        running.end_step(index);
        Ok(())
    }

    fn bring_in(&mut self, running: &mut Running<'a, S>, index: usize) -> Result<(), RunError> {
        let program = running.program;
        for (place, intake) in program.intakes.iter().enumerate() {
            if intake.step != index {
                continue;
            }
            let portion = self.measure(intake, running)?;
            remark_dose(&mut running.vessel, &intake.dose, portion.grams.value());
            if let Some(amount) = running.amounts.get_mut(place) {
                *amount = Some(portion.grams);
            }
            if let Some(ledger) = &mut running.vessel.ledger {
                match intake.origin {
                    Origin::OwnLeft(step) => ledger.back(step, portion.times.value()),
                    _ => ledger.enter(Came::Spot(intake.spot), portion.to_stream().lift()),
                }
            }
            if let Origin::OwnLeft(step) = intake.origin {
                running.take_back(step, portion.grams, place_of(intake.spot))?;
            }
            if program.is_drink {
                running.vessel.pour_in(&portion);
            } else {
                running.vessel.put(&portion);
            }
        }
        Ok(())
    }

    fn over_ice(
        &mut self,
        running: &mut Running<'a, S>,
        op: &Op,
        index: usize,
    ) -> Result<S, RunError> {
        let Work::Ice {
            motion,
            ice,
            seconds,
        } = &op.work
        else {
            return Ok(S::zero());
        };
        if running.vessel.stream.liquid.weight().0 <= 0.0 {
            return Err(RunError::NoLiquid { step: index });
        }
        let with = self
            .house
            .chilling(&mut running.vessel, *motion, ice.as_ref(), *seconds);
        ice::run(&mut running.vessel, &with).map_err(|outside| RunError::Outside {
            step: index,
            outside,
        })
    }

    /// What is in it by an unknown amount still brings its allergens.
    fn traces(&mut self, running: &mut Running<'a, S>) -> Result<(), RunError> {
        for origin in &running.program.traces {
            let source = self.source(*origin, running)?;
            let basis = running.vessel.stream.carried.basis;
            running.vessel.stream.carried.join(source.matter.carried());
            running.vessel.stream.carried.basis = basis;
        }
        Ok(())
    }

    fn garnish(
        &mut self,
        running: &Running<'a, S>,
    ) -> Result<Vec<(usize, S, Stream<S>)>, RunError> {
        running
            .program
            .crowns
            .iter()
            .map(|crown| {
                let portion = self.measure(&crown.intake, running)?;
                let grams = portion.grams;
                let eaten = Portion {
                    times: portion.times * crown.eaten,
                    ..portion
                };
                Ok((crown.place, grams, eaten.to_stream()))
            })
            .collect()
    }
}

impl<S: Scalar> Running<'_, S> {
    /// Grams that a step brought in.
    fn brought(&self, step: usize) -> S {
        let mut grams = S::zero();
        for (intake, amount) in self.program.intakes.iter().zip(&self.amounts) {
            if intake.step == step && matches!(intake.spot, Spot::Step(_)) {
                grams += amount.unwrap_or_default();
            }
        }
        grams
    }

    /// Grams of each thing that came in.
    fn amounts(&self) -> Vec<(Spot, S)> {
        let amounts = self.program.intakes.iter().zip(&self.amounts);
        amounts
            .filter_map(|(intake, amount)| Some((intake.spot, (*amount)?)))
            .collect()
    }

    /// A by-product that goes back in is no longer left.
    fn take_back(&mut self, step: usize, wanted: S, place: Place) -> Result<(), RunError> {
        let Some(left) = self.vessel.left_by.get_mut(step) else {
            return Ok(());
        };
        let there = left.total();
        if wanted.value() > there.value() * (1.0 + 1e-9) {
            return Err(RunError::MoreThanLeft {
                place,
                wanted_grams: wanted.value(),
                there_grams: there.value(),
            });
        }
        *left = left.share((-(wanted / there) + 1.0).at_least(0.0));
        Ok(())
    }

    /// Writes the step down. Ice that nobody strained off is not drunk: it goes with the last step.
    fn end_step(&mut self, index: usize) {
        if index + 1 == self.program.ops.len() {
            self.vessel.throw_ice();
        }
        let after = ShareOf::Named(index);
        let is_shared = |i: &Intake| matches!(i.dose.measure, Measure::Share(_, of) if of == after);
        if self.program.intakes.iter().any(is_shared) {
            let grams = self.vessel.stream.total() + self.vessel.ice;
            self.shared.push((index, grams));
        }
        let record = self.vessel.finish(index);
        self.records.extend(record);
    }
}
