//! Toast and torch: water into the air by dry heat.

use pomace_matter::{Scalar, Substance};

use crate::record::Destination;
use crate::remark::Assumption;
use crate::vessel::Vessel;

/// What is left in toasted pieces.
const TOASTED: Assumption = Assumption::new(
    "moisture after toasting",
    (3.0, 1.0, 6.0),
    "% of the weight",
    "common practice, no source",
);

/// What a flame takes from a surface.
const TORCHED: Assumption = Assumption::new(
    "weight lost to the flame",
    (4.0, 1.0, 10.0),
    "%",
    "common practice, no source",
);

/// Toasts the pieces. What browning itself takes is left out.
pub(crate) fn toast<S: Scalar>(vessel: &mut Vessel<'_, S>) {
    let pieces = vessel.stream.pieces;
    let dry = pieces.total().0 - pieces.grams(Substance::Water);
    let moisture = vessel.assume(TOASTED);
    let kept = dry * (moisture / (-moisture + 100.0));
    lose_water(vessel, pieces.grams(Substance::Water) - kept);
}

/// Torches what is there.
pub(crate) fn torch<S: Scalar>(vessel: &mut Vessel<'_, S>) {
    let gone = vessel.stream.pieces.total().0 * vessel.assume(TORCHED) / 100.0;
    lose_water(vessel, gone);
}

fn lose_water<S: Scalar>(vessel: &mut Vessel<'_, S>, grams: S) {
    let water = vessel.stream.pieces.grams(Substance::Water);
    let gone = grams.greater(S::zero()).lesser(water);
    vessel.stream.pieces.put(Substance::Water, -gone);
    vessel.lose(Destination::Air, gone.value());
}
