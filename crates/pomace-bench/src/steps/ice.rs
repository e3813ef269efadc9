//! Shake and stir: the drink meets ice.

use pomace_matter::ice::chilling::{Motion, approach, part_way};
use pomace_matter::ice::{Chill, Chilled};
use pomace_matter::{Outside, Scalar};

use crate::remark::Remark;
use crate::vessel::Vessel;

/// Ice, vessel and time of a step, each in its unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Chilling {
    pub motion: Motion,
    pub seconds: f64,
    /// All ice as it comes, g, with the water on it.
    pub ice_grams: f64,
    pub ice_celsius: f64,
    /// Water on the ice, share of its mass.
    pub wetness: f64,
    pub vessel_joules_per_kelvin: f64,
    pub vessel_celsius: f64,
}

/// Grams of melt, surface water counted, that went into the drink.
pub(crate) fn run<S: Scalar>(vessel: &mut Vessel<S>, with: &Chilling) -> Result<S, Outside> {
    let surface = with.ice_grams * with.wetness;
    vessel.add_ice(S::from(with.ice_grams));
    let chill = Chill {
        liquid: vessel.stream.liquid,
        liquid_celsius: vessel.stream.celsius,
        ice_grams: S::from(with.ice_grams - surface),
        ice_celsius: S::from(with.ice_celsius),
        surface_water_grams: S::from(surface),
        vessel_joules_per_kelvin: S::from(with.vessel_joules_per_kelvin),
        vessel_celsius: S::from(with.vessel_celsius),
        gained_joules: S::zero(),
    };
    let share = approach(S::from(with.seconds), with.motion.time_constant_seconds());
    let Chilled {
        liquid,
        celsius,
        melt_grams,
        ice_grams,
        ..
    } = part_way(&chill, share)?;
    vessel.stream.liquid = liquid;
    vessel.stream.celsius = celsius;
    vessel.stream.ice += ice_grams - with.ice_grams;
    if ice_grams.value() <= 0.0 {
        vessel.remark(Remark::IceGone);
    }
    Ok(melt_grams + surface)
}
