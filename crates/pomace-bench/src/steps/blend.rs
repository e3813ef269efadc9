//! Blend and whip: everything into one liquid, without ice.

use pomace_matter::{Mixture, Scalar};

use crate::record::Destination;
use crate::remark::Assumption;
use crate::steps::dissolve;
use crate::vessel::Vessel;

/// What stays on the walls of a jug.
const WALLS: Assumption = Assumption::new(
    "purée left on jug and blade",
    (8.0, 3.0, 15.0),
    "g",
    "common practice, no source",
);

/// Pieces become particles of the liquid; their sap is free.
pub(crate) fn run<S: Scalar>(vessel: &mut Vessel<'_, S>) {
    let pieces = std::mem::take(&mut vessel.stream.pieces);
    let thick = pieces.weight().0 > 0.0;
    vessel.stream.liquid += pieces;
    vessel.stream.pieces = Mixture::default();
    dissolve::run(vessel);
    if thick {
        vessel.lose_fixed(Destination::Drain, WALLS, "jug and blade");
    }
}
