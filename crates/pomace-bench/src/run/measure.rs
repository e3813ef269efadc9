//! So much of where it comes from.

use pomace_book::{DocumentId, Spot};
use pomace_larder::Form;
use pomace_matter::Scalar;

use super::{Outcome, Runner, Running, name_of};
use crate::dose::{Measure, ShareOf, Stuff, Unmeasured};
use crate::error::{Place, RunError};
use crate::inputs::SourceKey;
use crate::portion::{Matter, Portion};
use crate::program::{Intake, Origin};
use crate::stream::Stream;

impl<'a, S: Scalar> Runner<'a, S> {
    /// So much of where it comes from.
    pub(super) fn measure(
        &mut self,
        intake: &Intake,
        running: &Running<'a, S>,
    ) -> Result<Portion<'a, S>, RunError> {
        let source = self.source(intake.origin, running)?;
        let (matter, stuff) = (source.matter, source.stuff);
        let name = &intake.called;
        let place = place_of(intake.spot);
        let mut shared = Ok(S::zero());
        // Read before, since it may need another line's measure.
        if let Measure::Share(_, of) = intake.dose.measure {
            shared = self.mass_of(of, running);
        }
        let shared = match (shared?, &intake.dose.measure) {
            (whole, Measure::Share(_, ShareOf::Vessel)) => {
                if intake.origin.is_left()
                    || (whole.value() <= 0.0 && matches!(intake.origin, Origin::Made(_)))
                {
                    // `all` of a by-product is all that is left of it.
                    matter.total()
                } else if whole.value() <= 0.0 {
                    return Err(RunError::ShareOfNothing { place });
                } else {
                    whole
                }
            }
            (whole, _) => whole,
        };
        let key = SourceKey::Pour(running.document, intake.spot);
        let grams = intake
            .dose
            .grams(&stuff, self.inputs, key, name, |_| shared)
            .map_err(|error| match error {
                Unmeasured::NoDensity => RunError::NoDensity {
                    place,
                    name: name.to_string(),
                },
                Unmeasured::NoPieceWeight => RunError::NoPieceWeight {
                    place,
                    name: name.to_string(),
                },
            })?;
        let total = matter.total();
        if total.value() <= 0.0 {
            let name = name.to_string();
            return Err(if intake.origin.is_left() {
                RunError::NothingLeft { place, name }
            } else {
                RunError::Needs(name)
            });
        }
        Ok(Portion {
            times: grams / total,
            grams,
            matter,
        })
    }

    /// The mass that a share is a share of.
    fn mass_of(&mut self, of: ShareOf, running: &Running<'a, S>) -> Result<S, RunError> {
        Ok(match of {
            ShareOf::Vessel => running.vessel.stream.total(),
            ShareOf::Brought(step) => running.brought(step),
            ShareOf::Named(step) => {
                let brought = running.brought(step);
                if brought.value() > 0.0 {
                    brought
                } else {
                    let after = running.shared.iter().find(|(shared, _)| *shared == step);
                    after.map_or(S::zero(), |(_, grams)| *grams)
                }
            }
            ShareOf::Left(step) => running.vessel.left_by.grams(step),
            ShareOf::Line(line) => {
                let program = running.program;
                let other = |i: &Intake| i.spot == Spot::Line(line);
                match program.intakes.iter().position(other) {
                    None => S::zero(),
                    Some(place) => match (running.amounts.get(place), program.intakes.get(place)) {
                        (Some(Some(grams)), _) => *grams,
                        // It enters later; the resolver has refused circles.
                        (_, Some(intake)) => self.measure(intake, running)?.grams,
                        _ => S::zero(),
                    },
                }
            }
        })
    }

    /// Matter of an origin, and how it is measured.
    pub(super) fn source(
        &mut self,
        origin: Origin,
        running: &Running<'a, S>,
    ) -> Result<Source<'a, S>, RunError> {
        match origin {
            Origin::Shelf(index) => {
                let item = self.shelf.get(index).ok_or(RunError::Nothing)?;
                Ok(Source {
                    stuff: Stuff {
                        form: item.form,
                        grams_per_ml: item.grams_per_ml.map(S::from),
                        piece_grams: item.piece_grams,
                    },
                    matter: Matter::Item(item.read(index, self.inputs)),
                })
            }
            Origin::Made(id) => {
                let made = self.needed(id)?;
                Ok(Source {
                    stuff: stuff_of(&made.kept, made.grams_per_ml),
                    matter: Matter::Kept(made),
                })
            }
            Origin::Left(id, step) => {
                let made = self.needed(id)?;
                Ok(Source::left(made.left.get(step)))
            }
            Origin::OwnLeft(step) => {
                let left = running.vessel.left_by.get(step);
                Ok(Source::left(left))
            }
        }
    }

    /// A prep that something is made with.
    fn needed(&mut self, id: DocumentId) -> Outcome<S> {
        let made = self.make(id);
        made.map_err(|_| RunError::Needs(name_of(self.book, id)))
    }
}

/// Where something comes from.
pub(super) struct Source<'a, S: Scalar> {
    pub matter: Matter<'a, S>,
    stuff: Stuff<S>,
}

impl<S: Scalar> Source<'_, S> {
    /// Of what a step left behind.
    fn left(left: Option<&Stream<S>>) -> Self {
        let left = Box::new(left.cloned().unwrap_or_default());
        Self {
            stuff: stuff_of(&left, None),
            matter: Matter::Left(left),
        }
    }
}

fn stuff_of<S: Scalar>(stream: &Stream<S>, grams_per_ml: Option<S>) -> Stuff<S> {
    let pours = stream.liquid.weight().0 > 0.0;
    Stuff {
        form: if pours { Form::Liquid } else { Form::Pieces },
        grams_per_ml,
        piece_grams: None,
    }
}

pub(super) const fn place_of(spot: Spot) -> Place {
    match spot {
        Spot::Line(i) => Place::Line(i),
        Spot::Step(i) => Place::Step(i),
        Spot::Garnish(i) => Place::Garnish(i),
    }
}
