//! Pour: off the ice, through a sieve, into a glass.

use pomace_matter::{Mixture, Scalar};

use crate::record::Destination;
use crate::remark::Assumption;
use crate::steps::separate::Filter;
use crate::vessel::Vessel;

/// What stays on tin, ice and sieve.
const OFF_ICE: Assumption = Assumption::new(
    "liquid left on ice, tin and sieve",
    (3.0, 1.0, 6.0),
    "g",
    "common practice, no source",
);
const PLAIN: Assumption = Assumption::new(
    "liquid left in the vessel",
    (1.0, 0.3, 2.0),
    "g",
    "common practice, no source",
);

/// Pours a drink: the ice of the service stays behind, and so do pieces. Ice that was beaten in goes
/// along.
pub(crate) fn run<S: Scalar>(vessel: &mut Vessel<'_, S>, filter: Filter) {
    let off_ice = vessel.ice.value() > 0.0 || filter != Filter::Sieve;
    vessel.throw_ice();
    if vessel.stream.pieces.weight().0 > 0.0 {
        let beaten_in = std::mem::take(&mut vessel.stream.ice);
        let pieces = std::mem::take(&mut vessel.stream.pieces);
        vessel.set_rest_aside(pieces);
        vessel.stream.ice = beaten_in;
        vessel.stream.pieces = Mixture::default();
    }
    let film = if off_ice { OFF_ICE } else { PLAIN };
    vessel.lose_fixed(Destination::Drain, film, "vessel");
}
