//! Simmer: water and ethanol into the air, to a weight.

use pomace_book::Target;
use pomace_matter::density;
use pomace_matter::substance::Set;
use pomace_matter::units::Celsius;
use pomace_matter::vapour::boil_off;
use pomace_matter::{Scalar, Substance};

use crate::record::Destination;
use crate::remark::{Assumption, Remark};
use crate::steps::{dissolve, steep};
use crate::vessel::Vessel;

/// An open pan, where only the time is known.
const OPEN_PAN: Assumption = Assumption::new(
    "water lost from an open pan",
    (8.0, 4.0, 15.0),
    "g/min",
    "common practice, no source; weigh the pan",
);

/// Boiling point of a sugary pan, near enough for what the step does with it, °C.
const HOT: f64 = 100.0;

/// Simmers to a target, or for a time; `extract` as for [`steep::run`].
pub(crate) fn run<S: Scalar>(
    vessel: &mut Vessel<'_, S>,
    to: Option<Target>,
    seconds: Option<f64>,
    extract: Option<Assumption>,
) {
    let kitchen = vessel.stream.celsius;
    vessel.stream.celsius = S::from(HOT);
    dissolve::run(vessel);
    if vessel.stream.pieces.weight().0 > 0.0 {
        steep::run(vessel, seconds, extract);
    }
    let total = vessel.stream.total();
    let volatile = vessel.stream.liquid.grams(Substance::Water)
        + vessel.stream.liquid.grams(Substance::Ethanol);
    let gone = match to {
        Some(Target::LossShare(share)) => total * share,
        Some(Target::ToGrams(grams)) => total - grams,
        Some(Target::ToMillilitres(millilitres)) => to_volume(vessel, millilitres),
        Some(Target::ToBrix(brix)) => {
            let solids = vessel
                .stream
                .liquid
                .sum(Set::SOLUBLE.without(Set::SOLVENTS));
            vessel.stream.liquid.total().0 - solids / (brix / 100.0)
        }
        None => vessel.assume(OPEN_PAN) * (seconds.unwrap_or(0.0) / 60.0),
    };
    // A pan boiled dry is not a simmer: at most 95 % of what can go.
    let gone = gone.greater(S::zero()).lesser(volatile * 0.95);
    let ethanol = vessel.stream.liquid.grams(Substance::Ethanol);
    let vapour = boil_off(&vessel.stream.liquid, gone);
    vessel.stream.liquid = vessel.stream.liquid.without(&vapour);
    vessel.lose(Destination::Air, vapour.weight().0);
    if ethanol.value() > 0.0 {
        let left = vessel.stream.liquid.grams(Substance::Ethanol).value() / ethanol.value();
        vessel.remark(Remark::AlcoholStays {
            percent: 100.0 * left,
        });
    }
    vessel.stream.celsius = kitchen;
}

/// Grams to lose until the liquid fills a volume at 20 °C.
fn to_volume<S: Scalar>(vessel: &Vessel<'_, S>, millilitres: f64) -> S {
    let after = |gone: S| {
        let liquid = vessel
            .stream
            .liquid
            .without(&boil_off(&vessel.stream.liquid, gone));
        density::volume(&liquid, Celsius(S::from(20.0))).map(|v| v.0)
    };
    let mut gone = S::zero();
    for _ in 0..20 {
        let Ok(volume) = after(gone) else { break };
        let off = volume - millilitres;
        gone = (gone + off * GRAMS_PER_ML).at_least(0.0);
        if off.value().abs() < 1e-6 {
            break;
        }
    }
    gone
}

/// What a millilitre of lost volume weighs, near enough to converge.
const GRAMS_PER_ML: f64 = 0.95;
