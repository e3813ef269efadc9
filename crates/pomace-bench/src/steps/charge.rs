//! Charge: gas under pressure, dissolved to rest.

use pomace_book::Gas as Kind;
use pomace_matter::gas::{self, AIR_BAR, Gas};
use pomace_matter::units::Celsius;
use pomace_matter::{Outside, Scalar, Substance, density};

use crate::house::FRIDGE;
use crate::remark::{Assumption, Remark};
use crate::vessel::Vessel;

const PRESSURE: Assumption = Assumption::new(
    "pressure on the gauge",
    (2.5, 1.5, 3.5),
    "bar",
    "common practice, no source",
);

const LOSS: Assumption = Assumption::new(
    "gas lost on the way to the glass",
    (30.0, 10.0, 60.0),
    "% of it",
    "common practice, no source",
);

/// Charges what pours to balance with the gas, less what opening and pouring lose.
pub(crate) fn run<S: Scalar>(
    vessel: &mut Vessel<'_, S>,
    kind: Option<Kind>,
    gauge_bar: Option<f64>,
    celsius: Option<f64>,
) -> Result<(), Outside> {
    let t = celsius.unwrap_or(FRIDGE);
    vessel.stream.celsius = S::from(t);
    let gauge = match gauge_bar {
        Some(bar) => S::from(bar),
        None => vessel.assume(PRESSURE),
    };
    let gas = match kind.unwrap_or(Kind::CarbonDioxide) {
        Kind::CarbonDioxide => Gas::CarbonDioxide,
        Kind::NitrousOxide => Gas::NitrousOxide,
        // Nitrogen hardly dissolves: it brings bubbles, not mass.
        Kind::Nitrogen => {
            vessel.remark(Remark::UnderPressure {
                gauge_bar: gauge.value(),
                grams_per_litre: 0.0,
            });
            return Ok(());
        }
    };
    let liquid = &vessel.stream.liquid;
    let found = gas::dissolved(gas, liquid, gauge + AIR_BAR, Celsius(S::from(t)))?;
    let litres = density::volume(liquid, Celsius(S::from(20.0)))?.0 / 1000.0;
    let lost = vessel.assume(LOSS) / 100.0;
    vessel.remark(Remark::UnderPressure {
        gauge_bar: gauge.value(),
        grams_per_litre: found.0.value(),
    });
    if gas == Gas::CarbonDioxide {
        let stays = found.0 * litres * (-lost + 1.0);
        let there = vessel.stream.liquid.grams(Substance::CarbonDioxide);
        let more = stays.greater(there) - there;
        vessel.stream.liquid.put(Substance::CarbonDioxide, more);
        vessel.take_from_air(more);
    }
    Ok(())
}
