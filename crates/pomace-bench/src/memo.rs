//! Preps kept with their doubt, so that what did not change is not made again.
//!
//! A prep is kept by everything that it was made from: its program, the ingredients that it takes, and the
//! preps that it takes from, as they were kept. That is compared whole, so no answer is ever stale; and what is
//! kept is what any run would take up, so no answer depends on whether it was kept.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use pomace_book::DocumentId;
use pomace_matter::scalar::{Scalar, tracing};

use crate::bench::Bench;
use crate::error::RunError;
use crate::inputs::Inputs;
use crate::program::{Origin, Program};
use crate::run::Runner;
use crate::shelf::Item;
use crate::with_slopes::WithSlopes;

/// Preps of one book as it changes, or of many.
#[derive(Debug, Default)]
pub struct Memo(Mutex<Inside>);

#[derive(Debug, Default)]
struct Inside {
    /// Those that were used last first.
    preps: VecDeque<Arc<Kept>>,
    /// How many were ever kept.
    count: u64,
}

/// Everything that a prep is made from.
#[derive(Debug)]
pub(crate) struct Content<'a> {
    pub id: DocumentId,
    pub program: &'a Arc<Program>,
    /// What it takes from the shelf.
    pub items: Vec<&'a Arc<Item>>,
    /// What it takes from other preps.
    pub preps: Vec<Arc<Kept>>,
}

/// A prep as it was made, with the slopes of its numbers.
#[derive(Debug)]
pub(crate) struct Kept {
    id: DocumentId,
    program: Arc<Program>,
    items: Vec<Arc<Item>>,
    /// Which they were: their numbers.
    preps: Vec<u64>,
    /// Its own number in the memo, never given twice.
    number: u64,
    result: WithSlopes,
}

impl Kept {
    fn is_of(&self, content: &Content<'_>) -> bool {
        self.id == content.id
            && (Arc::ptr_eq(&self.program, content.program) || self.program == *content.program)
            && self
                .preps
                .iter()
                .eq(content.preps.iter().map(|prep| &prep.number))
            && self.items.iter().eq(content.items.iter().copied())
    }

    /// The prep with its slopes.
    pub(crate) const fn result(&self) -> &WithSlopes {
        &self.result
    }
}

impl Memo {
    /// How many preps are kept, those that were used last: some 15 kB each.
    pub const MOST: usize = 256;

    /// How many preps are kept now.
    #[must_use]
    pub fn len(&self) -> usize {
        self.inside().preps.len()
    }

    /// Whether none is.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    fn inside(&self) -> MutexGuard<'_, Inside> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The prep that was made from just that, if it is kept.
    pub(crate) fn find(&self, content: &Content<'_>) -> Option<Arc<Kept>> {
        let all = &mut self.inside().preps;
        let place = all.iter().position(|kept| kept.is_of(content))?;
        let kept = all.remove(place)?;
        all.push_front(Arc::clone(&kept));
        Some(kept)
    }

    /// Keeps what was made from that.
    pub(crate) fn keep(&self, content: Content<'_>, result: WithSlopes) -> Arc<Kept> {
        let mut inside = self.inside();
        inside.count += 1;
        let kept = Arc::new(Kept {
            id: content.id,
            program: Arc::clone(content.program),
            items: content.items.into_iter().cloned().collect(),
            preps: content.preps.iter().map(|prep| prep.number).collect(),
            number: inside.count,
            result,
        });
        inside.preps.truncate(Self::MOST - 1);
        inside.preps.push_front(Arc::clone(&kept));
        kept
    }
}

impl Bench<'_> {
    /// A run that takes up what is made with slopes already.
    pub(crate) fn noting<S: Scalar, R>(
        &self,
        inputs: &Inputs,
        id: DocumentId,
        run: impl FnOnce(&mut Runner<'_, S>) -> R,
    ) -> R {
        let program = self.program(id);
        let kept = |other: DocumentId| {
            let is_taken = |step: usize| {
                let mut origins = program.into_iter().flat_map(|program| program.origins());
                origins.any(|origin| origin == Origin::Left(other, step))
            };
            let made = self.sloped(other)?.result().take_up(inputs, is_taken);
            Ok(Arc::new(made))
        };
        self.run(inputs, Some(&kept), run)
    }

    /// A prep with its slopes, taken from the memo or made in a run of its own.
    pub(crate) fn sloped(&self, id: DocumentId) -> Result<Arc<Kept>, RunError> {
        let place = self.sloped.get(id.0).ok_or(RunError::Nothing)?;
        let make = || {
            let content = self.content(id)?;
            if let Some(kept) = self.memo.find(&content) {
                return Ok(kept);
            }
            let inputs = Inputs::noting();
            for prep in &content.preps {
                prep.result().note_sources(&inputs);
            }
            let result = tracing(|| {
                let made = self.noting(&inputs, id, |runner| runner.prep(id))?;
                Ok(WithSlopes::of(&made, inputs.into_sources()))
            })?;
            Ok(self.memo.keep(content, result))
        };
        place.get_or_init(make).clone()
    }

    /// Everything that a prep is made from.
    fn content(&self, id: DocumentId) -> Result<Content<'_>, RunError> {
        let program = self.program(id).ok_or(RunError::Nothing)?;
        let (mut items, mut preps) = (Vec::new(), Vec::new());
        for origin in program.origins() {
            match origin {
                Origin::Shelf(index) => items.extend(self.shelf().shared(index)),
                Origin::Made(prep) | Origin::Left(prep, _) => preps.push(self.sloped(prep)?),
                Origin::OwnLeft(_) => {}
            }
        }
        Ok(Content {
            id,
            program,
            items,
            preps,
        })
    }
}
