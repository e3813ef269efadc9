//! Steep: a solid gives up what is dissolved in it, and takes up the liquid in exchange.
//!
//! Sap and liquid move towards one composition; the sap keeps its mass. The pore water of wet
//! pieces is thereby the largest effect on the strength of a spirit (models.md E2).
//!
//! Dry leaves and grounds have hardly any sap: of them so much dissolves as the larder's `extract` says.

use pomace_matter::{Mixture, Scalar, Substance};

use crate::remark::Assumption;
use crate::steps::dissolve;
use crate::stream::sap_and_dry;
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

/// Dry leaves and grounds are thin and were opened by the drying: what they give, they give at one pace. At
/// 20 °C all of it in a night, at the boil in minutes.
const INFUSION: Assumption = Assumption::new(
    "pace of the infusion at 20 °C",
    (120.0, 60.0, 240.0),
    "min",
    "common practice, no source",
);
/// Kelvin by which it must be warmer for half of the time.
const HALVED_BY: f64 = 10.0;

/// Pieces with less water than this share of their mass are dry goods.
const DRY: f64 = 0.2;

/// Steeps for `seconds`, or long where no time is given; `extract` is how much of dry goods dissolves, % of
/// them.
pub(crate) fn run<S: Scalar>(
    vessel: &mut Vessel<'_, S>,
    seconds: Option<f64>,
    extract: Option<Assumption>,
) {
    dissolve::run(vessel);
    let pieces = vessel.stream.pieces;
    let (mut sap, mut dry) = sap_and_dry(&pieces);
    let (free, particles) = sap_and_dry(&vessel.stream.liquid);
    if pieces.weight().0 <= 0.0 || free.weight().0 <= 0.0 {
        return;
    }
    let is_dry = pieces.grams(Substance::Water).value() < DRY * pieces.weight().0;
    let reach = match extract.filter(|_| is_dry) {
        Some(extract) => {
            let unnamed = unnamed(
                &sap,
                &dry,
                pieces.total().0 * vessel.assume(extract) / 100.0,
            );
            sap += unnamed;
            dry = dry.without(&unnamed);
            infused(vessel, seconds)
        }
        None => exchanged(vessel, seconds),
    };
    let (inside, outside) = (sap.total().0, free.total().0);
    if inside.value() <= 0.0 {
        return;
    }
    let all = sap + free;
    let share = inside / (inside + outside);
    vessel.exchanges(share, reach);
    let mut sap = sap * (-reach + 1.0);
    sap.put_times(&all, share * reach);
    vessel.stream.pieces = sap + dry;
    vessel.stream.liquid = all.without(&sap) + particles;
}

/// How far sap and liquid have come towards one composition.
fn exchanged<S: Scalar>(vessel: &mut Vessel<'_, S>, seconds: Option<f64>) -> S {
    let progress = match seconds {
        None => S::from(1.0),
        Some(s) => {
            let left = |pace: S| (S::from(-s / 60.0) / pace).exp() * 0.5;
            let (wash, diffusion) = (vessel.assume(WASH), vessel.assume(DIFFUSION));
            -(left(wash) + left(diffusion)) + 1.0
        }
    };
    vessel.assume(REACH) * progress
}

/// How much of what dry goods give has gone over.
fn infused<S: Scalar>(vessel: &mut Vessel<'_, S>, seconds: Option<f64>) -> S {
    let Some(seconds) = seconds else {
        return S::from(1.0);
    };
    let warmth = (vessel.stream.celsius - 20.0) * (std::f64::consts::LN_2 / HALVED_BY);
    let times = S::from(seconds / 60.0) * warmth.exp() / vessel.assume(INFUSION);
    -(-times).exp() + 1.0
}

/// What dissolves beyond what the tables name, so that it is `grams` with that: tannins, browned sugars and
/// gums first, then protein.
fn unnamed<S: Scalar>(sap: &Mixture<S>, dry: &Mixture<S>, grams: S) -> Mixture<S> {
    let named = sap.total().0 - sap.grams(Substance::Water) - sap.grams(Substance::Ethanol);
    let mut rest = (grams - named).at_least(0.0);
    let mut unnamed = Mixture::default();
    for substance in [Substance::Other, Substance::Protein] {
        let given = rest.lesser(dry.grams(substance));
        unnamed.put(substance, given);
        rest -= given;
    }
    unnamed
}
