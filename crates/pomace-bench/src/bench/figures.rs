//! What becomes of a document, in figures, and how sure they are.

use pomace_book::{Document, DocumentId};
use pomace_matter::Scalar;

use super::Bench;
use crate::doubt::{Doubt, Moves, Study};
use crate::error::RunError;
use crate::glass::{MINUTES, PACE};
use crate::inputs::{Inputs, SourceKey};
use crate::made::Mixed;
use crate::numbers::{self, DrinkNumbers, Later, Named};
use crate::report::DrinkReport;
use crate::stream::Stream;

impl Bench<'_> {
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
        let minutes: Vec<u32> = MINUTES.collect();
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
