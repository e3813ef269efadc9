//! Dry: water into the air, to a moisture or a weight.

use pomace_book::Target;
use pomace_matter::{Mixture, Scalar, Substance};

use crate::record::Destination;
use crate::remark::{Assumption, Remark};
use crate::vessel::Vessel;

/// Moisture of a dried peel or leather where none is said.
const USUAL: Assumption = Assumption::new(
    "moisture after drying",
    (12.0, 8.0, 18.0),
    "% of the weight",
    "common practice, no source",
);

/// Dries everything in the vessel: m₁ = m₀ (1 − w₀)/(1 − w₁), w the share of water.
pub(crate) fn run<S: Scalar>(vessel: &mut Vessel<S>, moisture: Option<f64>, to: Option<Target>) {
    let stream = &mut vessel.stream;
    let mut all = stream.liquid + stream.pieces + stream.crystals;
    let (mass, water) = (all.total().0, all.grams(Substance::Water));
    let mut assumed = None;
    let gone = match (moisture, to) {
        (Some(w), _) => mass - (mass - water) / (1.0 - w.min(0.99)),
        (None, Some(Target::ToGrams(grams))) => mass - grams,
        (None, Some(Target::LossShare(share))) => mass * share,
        _ => {
            assumed = Some(USUAL);
            mass - (mass - water) / (1.0 - USUAL.value / 100.0)
        }
    };
    let gone = gone.at_least(0.0).at_most(water.value());
    all.put(Substance::Water, -gone);
    stream.pieces = all;
    stream.liquid = Mixture::default();
    stream.crystals = Mixture::default();
    vessel.lose(Destination::Air, gone);
    if let Some(assumed) = assumed {
        vessel.remark(Remark::Assumed(assumed));
    }
}
