//! Dry: water into the air, to a moisture or a weight.

use pomace_book::Target;
use pomace_matter::vapour::boil_off;
use pomace_matter::{Mixture, Scalar, Substance};

use crate::record::Destination;
use crate::remark::Assumption;
use crate::vessel::Vessel;

/// Moisture of a dried peel or leather where none is said.
const USUAL: Assumption = Assumption::new(
    "moisture after drying",
    (12.0, 8.0, 18.0),
    "% of the weight",
    "common practice, no source",
);

/// Dries everything in the vessel: m₁ = m₀ (1 − w₀)/(1 − w₁), w the share of what can leave. Ethanol
/// goes before the water does.
pub(crate) fn run<S: Scalar>(
    vessel: &mut Vessel<'_, S>,
    moisture: Option<f64>,
    to: Option<Target>,
) {
    vessel.stirred();
    let all = vessel.stream.matter();
    let mass = all.total().0;
    let volatile = all.grams(Substance::Water) + all.grams(Substance::Ethanol);
    let to_share = |w: S| mass - (mass - volatile) / (-w + 1.0);
    let gone = match (moisture, to) {
        (Some(w), _) => to_share(S::from(w.min(0.99))),
        (None, Some(Target::ToGrams(grams))) => mass - grams,
        (None, Some(Target::LossShare(share))) => mass * share,
        _ => {
            let w = vessel.assume(USUAL) / 100.0;
            to_share(w)
        }
    };
    let gone = gone.greater(S::zero()).lesser(volatile);
    let vapour = boil_off(&all, gone);
    vessel.stream.pieces = all.without(&vapour);
    vessel.stream.liquid = Mixture::default();
    vessel.stream.crystals = Mixture::default();
    vessel.lose(Destination::Air, vapour.weight().0);
}
