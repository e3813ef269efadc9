//! Freeze and thaw: water into ice and back.

use pomace_matter::ice::slush;
use pomace_matter::units::Celsius;
use pomace_matter::{Outside, Scalar, Substance};

use crate::remark::Assumption;
use crate::vessel::Vessel;

/// A freezer, where no temperature is given.
const FREEZER: Assumption = Assumption::new(
    "temperature of the freezer",
    (-18.0, -24.0, -14.0),
    "°C",
    "common practice, no source",
);

/// Freezes the liquid as far as it will go at the temperature. The water in pieces stays with them.
pub(crate) fn freeze<S: Scalar>(
    vessel: &mut Vessel<'_, S>,
    celsius: Option<f64>,
) -> Result<(), Outside> {
    let t = match celsius {
        Some(t) => S::from(t),
        None => vessel.assume(FREEZER),
    };
    vessel.stream.celsius = t;
    let water = vessel.stream.liquid.grams(Substance::Water);
    if water.value() <= 0.0 {
        return Ok(());
    }
    let ice = slush::ice_at(&vessel.stream.liquid, Celsius(t))?.0;
    vessel.stream.liquid.put(Substance::Water, -ice);
    vessel.stream.ice += ice;
    Ok(())
}

/// All ice back to water.
pub(crate) fn thaw<S: Scalar>(vessel: &mut Vessel<'_, S>, celsius: Option<f64>) {
    let ice = std::mem::take(&mut vessel.stream.ice);
    vessel.stream.liquid.put(Substance::Water, ice);
    vessel.stream.celsius = S::from(celsius.unwrap_or(crate::house::FRIDGE));
}
