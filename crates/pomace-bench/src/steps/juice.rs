//! Juice: what a squeezer or a press takes out of a fruit, by its usual yield.

use pomace_matter::Scalar;

use crate::remark::Assumption;
use crate::stream::sap_and_dry;
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
pub(crate) fn run<S: Scalar>(vessel: &mut Vessel<'_, S>, usual: Option<Assumption>) {
    let pieces = vessel.stream.pieces;
    let mass = pieces.total().0;
    if mass.value() <= 0.0 {
        return;
    }
    let percent = vessel.assume(usual.unwrap_or(USUAL));
    let pulp_percent = vessel.assume(PULP);
    let (sap, dry) = sap_and_dry(&pieces);
    let pulp = dry * (pulp_percent / 100.0);
    let wanted = mass * percent / 100.0 - pulp.total().0;
    let inside = sap.total().0;
    // Never more than there is, and a little always stays.
    let share = if inside.value() > 0.0 {
        (wanted / inside).greater(S::zero()).lesser(S::from(0.97))
    } else {
        S::zero()
    };
    let juice = sap * share + pulp;
    vessel.stream.liquid += juice;
    vessel.set_rest_aside(pieces.without(&juice));
}
