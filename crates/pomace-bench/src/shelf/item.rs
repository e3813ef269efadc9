//! One ingredient, ready to be measured out, and how well it is known.

use std::sync::Arc;

use pomace_larder::{Basis, Form};
use pomace_matter::heat::HeatCarriers;
use pomace_matter::substance::Set;
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

/// One gram of an ingredient, read with its doubt: what is dissolved or dry in it moves together against the
/// water, and its strength apart.
pub(crate) struct ItemRead<'a, S: Scalar> {
    item: &'a Item,
    /// Nothing where it is what it is: sugar, salt, water.
    doubt: Option<Doubtful<S>>,
}

/// Factors of what is in a gram.
#[derive(Clone, Copy)]
struct Doubtful<S> {
    contents: S,
    strength: S,
}

/// What a place in a gram comes to, so many times.
struct Parts<S> {
    water: S,
    /// Factors of ethanol, and of all that is neither.
    ethanol: S,
    others: S,
}

impl Item {
    /// One gram of it, read with its doubt.
    pub(crate) fn read<S: Scalar>(&self, index: usize, inputs: &Inputs) -> ItemRead<'_, S> {
        let key = index as u32;
        let basis = self.gram.carried.basis.unwrap_or(Basis::Assumed);
        let held = [&self.gram.liquid, &self.gram.crystals, &self.gram.pieces];
        let grams = |substance| held.map(|matter| matter.grams(substance)).iter().sum();
        let (water, ethanol): (f64, f64) = (grams(Substance::Water), grams(Substance::Ethanol));
        let solids = 1.0 - water - ethanol;
        if water < 0.03 || (solids < 0.003 && ethanol <= 0.0) {
            return ItemRead {
                item: self,
                doubt: None,
            };
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
        ItemRead {
            item: self,
            doubt: Some(Doubtful { contents, strength }),
        }
    }
}

impl<'a, S: Scalar> ItemRead<'a, S> {
    /// The gram as it is told.
    pub(crate) fn gram(&self) -> &'a Stream {
        &self.item.gram
    }

    fn parts(&self, place: &Mixture, times: S) -> Parts<S> {
        let Some(Doubtful { contents, strength }) = self.doubt else {
            return Parts {
                water: times * place.grams(Substance::Water),
                ethanol: times,
                others: times,
            };
        };
        let ethanol = place.grams(Substance::Ethanol);
        let others = place.total().0 - place.grams(Substance::Water) - ethanol;
        let rest = -(strength * ethanol + contents * others) + place.total().0;
        Parts {
            water: rest.at_least(0.0) * times,
            ethanol: strength * times,
            others: contents * times,
        }
    }

    /// Adds so many grams to a stream without looking at the temperature.
    pub(crate) fn put_into(&self, stream: &mut Stream<S>, times: S) {
        let gram = self.gram();
        self.put(&gram.liquid, &mut stream.liquid, times);
        self.put(&gram.pieces, &mut stream.pieces, times);
        stream
            .crystals
            .put_times_of(&gram.crystals, Set::ALL, times);
        stream.carried.join(&gram.carried);
    }

    fn put(&self, place: &Mixture, into: &mut Mixture<S>, times: S) {
        if place.total().0 <= 0.0 {
            return;
        }
        let parts = self.parts(place, times);
        let ethanol = place.grams(Substance::Ethanol);
        into.put(Substance::Water, parts.water);
        if ethanol > 0.0 {
            into.put(Substance::Ethanol, parts.ethanol * ethanol);
        }
        into.put_times_of(place, Set::ALL.without(Set::SOLVENTS), parts.others);
    }

    /// What holds the heat of so many grams: the liquid, and all else.
    pub(crate) fn heat_carriers(&self, times: S) -> [HeatCarriers<S>; 2] {
        let of = |place: &Mixture| {
            let parts = self.parts(place, times);
            let plain = HeatCarriers::of(place);
            HeatCarriers {
                water: parts.water,
                ethanol: parts.ethanol * plain.ethanol,
                solids: parts.others * plain.solids,
            }
        };
        let crystals = HeatCarriers::of(&self.gram().crystals).convert(|grams| times * grams);
        [of(&self.gram().liquid), of(&self.gram().pieces) + crystals]
    }
}
