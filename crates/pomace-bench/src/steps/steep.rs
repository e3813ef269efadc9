//! Steep: a solid gives up what is dissolved in it, and takes up the liquid in exchange.
//!
//! Sap and liquid move towards one composition; the sap keeps its mass. The pore water of wet
//! pieces is thereby the largest effect on the strength of a spirit (models.md E2).

use pomace_matter::Scalar;

use crate::remark::Assumption;
use crate::steps::dissolve;
use crate::stream::{is_sap, sap_and_dry};
use crate::vessel::Vessel;

/// How far the exchange goes in the end.
const REACH: Assumption = Assumption::new(
    "share of the exchange that a long steep reaches",
    (0.85, 0.75, 0.95),
    "of balance",
    "common practice, no source",
);

/// Two ways at once: half is washed off in minutes, half diffuses out in hours.
const WASH: Assumption = Assumption::new(
    "pace of the wash",
    (15.0, 5.0, 40.0),
    "min",
    "common practice, no source",
);
const DIFFUSION: Assumption = Assumption::new(
    "pace of the diffusion",
    (240.0, 60.0, 720.0),
    "min",
    "common practice, no source",
);

/// Steeps for `seconds`, or long where no time is given.
pub(crate) fn run<S: Scalar>(vessel: &mut Vessel<'_, S>, seconds: Option<f64>) {
    dissolve::run(vessel);
    let (sap, dry) = sap_and_dry(&vessel.stream.pieces);
    let free = vessel.stream.liquid.only(is_sap, true);
    let particles = vessel.stream.liquid.without(&free);
    let (inside, outside) = (sap.total().0, free.total().0);
    if inside.value() <= 0.0 || outside.value() <= 0.0 {
        return;
    }
    let progress = match seconds {
        None => S::from(1.0),
        Some(s) => {
            let left = |pace: S| (S::from(-s / 60.0) / pace).exp() * 0.5;
            let (wash, diffusion) = (vessel.assume(WASH), vessel.assume(DIFFUSION));
            -(left(wash) + left(diffusion)) + 1.0
        }
    };
    let reach = vessel.assume(REACH) * progress;
    let all = sap + free;
    let share = inside / (inside + outside);
    vessel.exchanges(share, reach);
    let sap = sap * (-reach + 1.0) + all * (share * reach);
    vessel.stream.pieces = sap + dry;
    vessel.stream.liquid = all.without(&sap) + particles;
}
