//! Juice: what a squeezer or a press takes out of a fruit, by its usual yield.

use pomace_larder::yields::Yield;
use pomace_matter::{Mixture, Scalar};

use crate::remark::{Assumption, Remark};
use crate::stream::{Stream, sap_and_dry};
use crate::vessel::Vessel;

/// Where the larder has no yield for the fruit.
const USUAL: Assumption = Assumption::new(
    "juice",
    (45.0, 30.0, 65.0),
    "% of the weight",
    "common practice, no source",
);

/// Share of the dry matter that goes along as pulp.
const PULP: Assumption = Assumption::new(
    "pulp that goes into the juice",
    (5.0, 1.0, 15.0),
    "% of the solids",
    "common practice, no source",
);

/// Juices the pieces; peel, cores and the rest are set aside.
pub(crate) fn run<S: Scalar>(vessel: &mut Vessel<S>, usual: Option<&'static Yield>) {
    let pieces = vessel.stream.pieces;
    let mass = pieces.total().0;
    if mass.value() <= 0.0 {
        return;
    }
    let usual = usual.map_or(USUAL, |entry| Assumption::of_yield("juice", entry));
    vessel.remark(Remark::Assumed(usual));
    vessel.remark(Remark::Assumed(PULP));
    let (sap, dry) = sap_and_dry(&pieces);
    let pulp = dry * S::from(PULP.value / 100.0);
    let wanted = mass * (usual.value / 100.0) - pulp.total().0;
    let inside = sap.total().0;
    // Never more than there is, and a little always stays.
    let share = if inside.value() > 0.0 {
        (wanted / inside).at_least(0.0).at_most(0.97)
    } else {
        S::zero()
    };
    let juice = sap * share + pulp;
    vessel.stream.liquid += juice;
    let left = Stream {
        pieces: pieces.without(&juice),
        celsius: vessel.stream.celsius,
        carried: vessel.stream.carried.clone(),
        ..Stream::default()
    };
    vessel.stream.pieces = Mixture::default();
    vessel.set_aside(&left);
}
