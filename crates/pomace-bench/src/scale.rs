//! Scale: what so many serves, or so much of a prep, ask of every prep and of the shelf.
//!
//! A drink asks so many times its lines. A prep is then made as much larger as what is asked of it, of
//! what it keeps or of what one of its steps leaves, whichever is more; and so on down to the shelf. Steps
//! that lose fixed grams do not scale in proportion, so the size of a prep is found by making it.

use std::collections::BTreeMap;

use pomace_book::{DocumentId, Spot};

use crate::bench::Bench;
use crate::dose::{Measure, ShareOf};
use crate::error::RunError;
use crate::inputs::Inputs;
use crate::made::Made;
use crate::program::{Origin, Program, Work};

/// How much is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Wanted {
    /// So many serves of a drink.
    Serves(f64),
    /// So many times a prep as it is written.
    Batches(f64),
    /// Grams of what a prep keeps.
    Grams(f64),
    /// Millilitres at 20 °C of what a prep keeps, or of what a drink is before its ice.
    Millilitres(f64),
}

/// A prep, as large as it is needed.
#[derive(Clone, Debug)]
pub struct Batch {
    /// The prep.
    pub id: DocumentId,
    /// How many times as large as written.
    pub factor: f64,
    /// What is wanted of it, g.
    pub wanted_grams: f64,
    /// What it gives.
    pub made: Made,
    /// Grams that others take of what each step leaves.
    pub taken: Vec<(usize, f64)>,
}

/// Everything that is needed.
#[derive(Clone, Debug, Default)]
pub struct Plan {
    /// How many serves, where a drink is asked for.
    pub serves: Option<f64>,
    /// The lines of the drink: spot and grams.
    pub lines: Vec<(Spot, f64)>,
    /// Preps in the order in which they are made.
    pub batches: Vec<Batch>,
    /// From the shelf: name and grams, by name.
    pub shelf: Vec<(String, f64)>,
}

impl Plan {
    /// Grams of an item of the shelf, by its name.
    #[must_use]
    pub fn of_shelf(&self, name: &str) -> Option<f64> {
        let same = |other: &str| pomace_book::names::same(other, name);
        let found = self.shelf.iter().find(|(other, _)| same(other));
        found.map(|(_, grams)| *grams)
    }

    /// Grams of whatever has this name: an item of the shelf, or what a prep is wanted for.
    #[must_use]
    pub fn grams_of(&self, bench: &Bench<'_>, name: &str) -> Option<f64> {
        self.of_shelf(name).or_else(|| {
            let id = bench.book().by_name(name)?;
            let batch = self.batches.iter().find(|b| b.id == id)?;
            Some(batch.wanted_grams)
        })
    }
}

/// What is asked of each thing, g.
#[derive(Default)]
struct Asked {
    kept: BTreeMap<DocumentId, f64>,
    left: BTreeMap<(DocumentId, usize), f64>,
    shelf: BTreeMap<usize, f64>,
}

impl Asked {
    fn of(&mut self, origin: Origin, grams: f64) {
        match origin {
            Origin::Shelf(index) => *self.shelf.entry(index).or_default() += grams,
            Origin::Made(id) => *self.kept.entry(id).or_default() += grams,
            Origin::Left(id, step) => *self.left.entry((id, step)).or_default() += grams,
            // It goes round within its own prep.
            Origin::OwnLeft(_) => {}
        }
    }
}

impl Program {
    /// The same, so many times as large; shares and what is read off a gauge stay as they are.
    fn times(&self, factor: f64) -> Self {
        use pomace_book::{SugarUsed, Target};
        let mut larger = self.clone();
        for (place, intake) in larger.intakes.iter_mut().enumerate() {
            intake.dose = intake.dose.times(factor);
            // `all` of what another prep gives is that much of a batch as written.
            let is_all_of_another = match intake.origin {
                Origin::Left(..) => true,
                Origin::Made(_) => place == 0,
                Origin::Shelf(_) | Origin::OwnLeft(_) => false,
            };
            if let Measure::Share(share, ShareOf::Vessel) = &mut intake.dose.measure
                && is_all_of_another
            {
                *share *= factor;
            }
        }
        for op in &mut larger.ops {
            match &mut op.work {
                Work::Simmer { to: Some(to), .. } | Work::Dry { to: Some(to), .. } => match to {
                    Target::ToGrams(x) | Target::ToMillilitres(x) => *x *= factor,
                    Target::LossShare(_) | Target::ToBrix(_) => {}
                },
                Work::Ferment {
                    used: Some(SugarUsed::Grams(x)),
                    ..
                } => *x *= factor,
                _ => {}
            }
        }
        larger
    }
}

impl Bench<'_> {
    /// What so much of a drink or a prep asks for.
    ///
    /// # Errors
    /// [`RunError`] where something in it cannot be computed, or where it gives nothing that could be
    /// measured as wanted.
    pub fn scale(&self, id: DocumentId, wanted: Wanted) -> Result<Plan, RunError> {
        let program = self.program(id).ok_or(RunError::Nothing)?;
        let mut asked = Asked::default();
        let mut plan = Plan::default();
        if program.is_drink {
            let mixed = self.drink(id)?;
            let serves = match wanted {
                Wanted::Serves(n) | Wanted::Batches(n) => n,
                Wanted::Grams(grams) => grams / mixed.before.total(),
                Wanted::Millilitres(ml) => {
                    let volume = crate::report::Figures::of(&mixed.before)
                        .get(pomace_matter::liquid::Property::Volume)
                        .ok_or(RunError::Nothing)?;
                    ml / volume
                }
            };
            plan.serves = Some(serves);
            plan.lines = (mixed.amounts.iter().copied())
                .chain(
                    mixed
                        .garnish
                        .iter()
                        .map(|(i, g, _)| (Spot::Garnish(*i), *g)),
                )
                .map(|(spot, grams)| (spot, grams * serves))
                .collect();
            let crowns = program.crowns.iter().map(|c| &c.intake);
            for intake in program.intakes.iter().chain(crowns) {
                let found = plan.lines.iter().find(|(spot, _)| *spot == intake.spot);
                asked.of(intake.origin, found.map_or(0.0, |(_, grams)| *grams));
            }
        } else {
            let made = self.prep(id)?;
            let grams = match wanted {
                Wanted::Batches(n) => self.sized(id, n)?.kept.total(),
                Wanted::Grams(grams) => grams,
                Wanted::Millilitres(ml) => ml * made.grams_per_ml.ok_or(RunError::Nothing)?,
                Wanted::Serves(_) => return Err(RunError::Nothing),
            };
            asked.kept.insert(id, grams);
        }
        // What is made with others comes before them.
        for needed in self.needs(id).into_iter().rev() {
            if self.program(needed).is_none_or(|p| p.is_drink) {
                continue;
            }
            let kept = asked.kept.get(&needed).copied().unwrap_or(0.0);
            let taken: Vec<(usize, f64)> = asked
                .left
                .iter()
                .filter(|((prep, _), _)| *prep == needed)
                .map(|((_, step), grams)| (*step, *grams))
                .collect();
            if kept <= 0.0 && taken.iter().all(|(_, g)| *g <= 0.0) {
                continue;
            }
            let batch = self.batch(needed, kept, taken)?;
            let intakes = self.program(needed).map_or(&[][..], |p| &p.intakes);
            for intake in intakes {
                let found = batch
                    .made
                    .amounts
                    .iter()
                    .find(|(spot, _)| *spot == intake.spot);
                asked.of(intake.origin, found.map_or(0.0, |(_, grams)| *grams));
            }
            plan.batches.push(batch);
        }
        plan.batches.reverse();
        plan.shelf = asked
            .shelf
            .iter()
            .filter(|(_, grams)| **grams > 0.0)
            .filter_map(|(index, grams)| Some((self.shelf().get(*index)?.name.to_string(), *grams)))
            .collect();
        plan.shelf.sort_by(|a, b| a.0.cmp(&b.0));
        Ok(plan)
    }

    /// A prep as large as what is wanted of it.
    fn batch(
        &self,
        id: DocumentId,
        kept: f64,
        taken: Vec<(usize, f64)>,
    ) -> Result<Batch, RunError> {
        let mut factor = 1.0;
        let mut made = self.sized(id, factor)?;
        // What a prep gives is nearly in proportion; a handful of makings finds the size.
        let mut is_met = false;
        for _ in 0..60 {
            let mut short = ratio(kept, made.kept.total());
            for (step, grams) in &taken {
                let there = made.left.grams(*step);
                short = short.max(ratio(*grams, there));
            }
            is_met = (short - 1.0).abs() < 1e-10;
            if is_met || !short.is_finite() {
                break;
            }
            factor *= short;
            made = self.sized(id, factor)?;
        }
        if !is_met {
            return Err(RunError::DoesNotScale(self.name_of(id)));
        }
        Ok(Batch {
            id,
            factor,
            wanted_grams: kept,
            made,
            taken,
        })
    }

    /// A prep made so many times as large as written.
    fn sized(&self, id: DocumentId, factor: f64) -> Result<Made, RunError> {
        let program = self.program(id).ok_or(RunError::Nothing)?.times(factor);
        let kept = |other: DocumentId| self.prep(other);
        self.run(&Inputs::values(), Some(&kept), |runner| {
            runner.prep_as(id, &program)
        })
    }
}

/// How many times `there` is `wanted`; nothing wanted is nothing.
fn ratio(wanted: f64, there: f64) -> f64 {
    if wanted <= 0.0 { 0.0 } else { wanted / there }
}
