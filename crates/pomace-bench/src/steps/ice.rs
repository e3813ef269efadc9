//! Shake, stir and their like: the drink meets ice.

use pomace_matter::Scalar;
use pomace_matter::ice::chilling::{Motion, approach, part_way};
use pomace_matter::ice::{Chill, Chilled};

use pomace_matter::Outside;

use crate::on_ice::OnIce;
use crate::remark::Remark;
use crate::vessel::Vessel;

/// Ice, vessel and time of a step, each in its unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Chilling<S> {
    pub motion: Motion,
    pub seconds: S,
    /// Pace of the motion, s.
    pub pace_seconds: S,
    /// New ice as it comes, g, with the water on it.
    pub ice_grams: S,
    pub ice_celsius: S,
    /// Water on the ice, share of its mass.
    pub wetness: S,
    pub vessel_joules_per_kelvin: S,
    pub vessel_celsius: S,
}

/// Moves the drink over ice; gives the grams of water that went into it, surface water counted.
///
/// Ice that is there already goes on cooling, dry and as cold as the drink.
pub(crate) fn run<S: Scalar>(vessel: &mut Vessel<'_, S>, with: &Chilling<S>) -> Result<S, Outside> {
    let surface = with.ice_grams * with.wetness;
    let old = vessel.ice + vessel.stream.ice;
    vessel.add_ice(with.ice_grams);
    let new = with.ice_grams - surface;
    let all = new + old;
    let old_celsius = vessel.stream.celsius.at_most(0.0);
    let ice_celsius = if all.value() > 0.0 {
        (new * with.ice_celsius + old * old_celsius) / all
    } else {
        with.ice_celsius
    };
    let chill = Chill {
        liquid: vessel.stream.liquid,
        liquid_celsius: vessel.stream.celsius,
        ice_grams: all,
        ice_celsius,
        surface_water_grams: surface,
        vessel_joules_per_kelvin: with.vessel_joules_per_kelvin,
        vessel_celsius: with.vessel_celsius,
        gained_joules: S::zero(),
    };
    let on_ice = OnIce {
        chill,
        seconds: with.seconds,
        pace_seconds: with.pace_seconds,
    };
    vessel.on_ice.push(on_ice);
    let share = approach(with.seconds / with.pace_seconds, 1.0);
    let Chilled {
        liquid,
        celsius,
        melt_grams,
        ice_grams,
        ..
    } = part_way(&chill, share)?;
    vessel.stream.liquid = liquid;
    vessel.stream.celsius = celsius;
    // Beaten in, the ice is part of the drink; else it is only in the way.
    if with.motion == Motion::Blend {
        vessel.stream.ice = ice_grams;
        vessel.ice = S::zero();
    } else {
        vessel.stream.ice = S::zero();
        vessel.ice = ice_grams;
    }
    if ice_grams.value() <= 1e-9 {
        vessel.remark(Remark::IceGone);
    }
    Ok(melt_grams + surface)
}
