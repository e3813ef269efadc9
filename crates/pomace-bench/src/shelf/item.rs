//! One ingredient, ready to be measured out, and how well it is known.

use std::sync::Arc;

use pomace_larder::{Basis, Form};
use pomace_matter::{Mixture, Scalar, Substance};

use crate::inputs::{Inputs, SourceKey, SourceName};
use crate::stream::Stream;

/// One standard deviation of what is in an ingredient, and of its strength, as a share of it: measured,
/// declared, typical, assumed. Estimates, no source.
const CONTENTS: [f64; 4] = [0.01, 0.02, 0.08, 0.15];
const STRENGTH: [f64; 4] = [0.002, 0.004, 0.03, 0.06];

/// Doubt of what is taken as of something similar, in times the usual one of that; no source, our
/// judgement. What is similar is never known better than a catalogue knows it.
const SIMILAR: f64 = 2.0;

/// Stands behind the name of such a source of doubt.
pub const SIMILAR_MARK: &str = " (only similar)";

/// What the mark means, as a sentence.
#[must_use]
pub fn similar_told() -> String {
    format!(
        "Only similar: taken as of another ingredient, with its doubt × {SIMILAR}; our judgement, no source."
    )
}

/// An ingredient, ready to be measured out.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is called.
    pub name: Arc<str>,
    /// One gram of it, as it comes.
    pub gram: Stream,
    /// How it comes.
    pub form: Form,
    /// Density at 20 °C, g/mL, where it can be measured by volume.
    pub grams_per_ml: Option<f64>,
    /// Weight of one piece, g.
    pub piece_grams: Option<f64>,
    /// What such a piece is called, if that is said: `fruit`.
    pub piece_noun: Option<String>,
    /// Where its composition is from.
    pub source: String,
    /// What was taken for granted.
    pub remarks: Vec<String>,
    /// Warnings that travel with it.
    pub cautions: Vec<String>,
    /// The share of its whole that a part is at the most, %, and the whole's name.
    pub part_of: Option<(String, f64)>,
    /// What its contents and its strength are taken from, where it is only similar to that.
    pub similar: Similar,
}

/// What stands in for figures of its own.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Similar {
    /// Whose contents it is taken to have.
    pub contents: Option<Arc<str>>,
    /// Whose strength.
    pub strength: Option<Arc<str>>,
}

impl Similar {
    /// Times the usual doubt, and a mark behind the name of the source.
    fn widened(of: Option<&Arc<str>>) -> (f64, &'static str) {
        match of {
            None => (1.0, ""),
            Some(_) => (SIMILAR, SIMILAR_MARK),
        }
    }

    pub(super) fn remark(&self) -> Option<String> {
        let (what, of) = match (&self.contents, &self.strength) {
            (Some(of), Some(_)) => ("contents and strength", of),
            (Some(of), None) => ("contents", of),
            (None, Some(of)) => ("strength", of),
            (None, None) => return None,
        };
        Some(format!(
            "{what} taken as of `{of}`, which is only similar: their doubt is × {SIMILAR}, our judgement, no source"
        ))
    }
}

impl Item {
    /// One gram of it, read with its doubt: what is dissolved or dry in it moves together against the
    /// water, and its strength apart.
    pub(crate) fn read<S: Scalar>(&self, index: usize, inputs: &Inputs) -> Stream<S> {
        let key = index as u32;
        let basis = self.gram.carried.basis.unwrap_or(Basis::Assumed);
        let held = [&self.gram.liquid, &self.gram.crystals, &self.gram.pieces];
        let grams = |substance| held.map(|matter| matter.grams(substance)).iter().sum();
        let (water, ethanol): (f64, f64) = (grams(Substance::Water), grams(Substance::Ethanol));
        // A pure thing is what it is: sugar, salt, water.
        let solids = 1.0 - water - ethanol;
        if water < 0.03 || (solids < 0.003 && ethanol <= 0.0) {
            return self.gram.lift();
        }
        let deviation = |by: [f64; 4]| by[basis as usize];
        let contents: S = if solids < 0.003 {
            S::from(1.0)
        } else {
            let (wider, told) = Similar::widened(self.similar.contents.as_ref());
            inputs.read(
                1.0,
                deviation(CONTENTS) * wider,
                SourceKey::Contents(key),
                || SourceName::of("what is in", &self.name, told),
                "a refractometer, and a titration for its acid",
            )
        };
        let strength: S = if ethanol > 0.0 {
            let (wider, told) = Similar::widened(self.similar.strength.as_ref());
            inputs.read(
                1.0,
                deviation(STRENGTH) * wider,
                SourceKey::Strength(key),
                || SourceName::of("the strength of", &self.name, told),
                "a hydrometer and a refractometer together",
            )
        } else {
            S::from(1.0)
        };
        let read = |place: &Mixture| {
            let mut moved = Mixture::default();
            let ethanol = place.grams(Substance::Ethanol);
            let others = place.total().0 - place.grams(Substance::Water) - ethanol;
            for (substance, grams) in place.iter() {
                let factor = match substance {
                    Substance::Water => continue,
                    Substance::Ethanol => strength,
                    _ => contents,
                };
                moved.put(substance, factor * grams);
            }
            moved.unlisted_charge = contents * place.unlisted_charge;
            let rest = -(strength * ethanol + contents * others) + place.total().0;
            moved.set(Substance::Water, rest.at_least(0.0));
            moved
        };
        let empty = |m: &Mixture| m.total().0 <= 0.0;
        Stream {
            liquid: if empty(&self.gram.liquid) {
                Mixture::default()
            } else {
                read(&self.gram.liquid)
            },
            crystals: self.gram.crystals.lift(),
            pieces: if empty(&self.gram.pieces) {
                Mixture::default()
            } else {
                read(&self.gram.pieces)
            },
            ice: S::zero(),
            celsius: S::from(self.gram.celsius),
            carried: self.gram.carried.clone(),
        }
    }
}
