//! A chill with everything counted that melt does not change.

use super::Chill;
use crate::activity::{Solutes, ice_line};
use crate::heat::{HeatCarriers, ice_enthalpy};
use crate::mixture::Mixture;
use crate::range::Outside;
use crate::scalar::Scalar;
use crate::substance::Substance;
use crate::units::ICE_POINT_KELVIN;

/// Liquid, ice and vessel, ready for any melt and temperature.
#[derive(Clone, Copy, Debug)]
pub(super) struct Melting<S> {
    solutes: Solutes<S>,
    /// The liquid with the surface water of the ice.
    pub liquid: HeatCarriers<S>,
    pub ice: S,
    pub vessel: S,
    /// All the heat there is, J, counted from liquid at 0 °C.
    pub heat: S,
}

impl<S: Scalar> Melting<S> {
    pub(super) fn of(chill: &Chill<S>) -> Self {
        let liquid = &chill.liquid;
        let mut carriers = HeatCarriers::of(liquid);
        // Surface water at 0 °C counts zero.
        let heat = carriers.enthalpy(chill.liquid_celsius)
            + chill.ice_grams * ice_enthalpy(chill.ice_celsius)
            + chill.vessel_joules_per_kelvin * chill.vessel_celsius
            + chill.gained_joules;
        carriers.water += chill.surface_water_grams;
        Self {
            solutes: Solutes::of(liquid),
            liquid: carriers,
            ice: chill.ice_grams,
            vessel: chill.vessel_joules_per_kelvin,
            heat,
        }
    }

    /// ln a_w of the liquid with `melt`, less that of ice: below zero, ice melts on; above, water freezes.
    pub(super) fn above_ice_line(&self, melt: S, t: S) -> Result<S, Outside> {
        let kelvin = t + ICE_POINT_KELVIN;
        let activity = self.solutes.in_water(self.liquid.water + melt)?;
        Ok(activity.ln_activity(kelvin) - ice_line::ln_activity(kelvin))
    }

    /// The activity of the liquid with `melt`.
    pub(super) fn activity(&self, melt: S) -> Result<crate::activity::Activity<S>, Outside> {
        self.solutes.in_water(self.liquid.water + melt)
    }

    /// Heat of liquid with `melt` and vessel at `t`, J.
    pub(super) fn heat_without_ice(&self, melt: S, t: S) -> S {
        let mut liquid = self.liquid;
        liquid.water += melt;
        liquid.enthalpy(t) + self.vessel * t
    }

    pub(super) fn convert<T: Scalar>(&self, with: impl Fn(S) -> T + Copy) -> Melting<T> {
        Melting {
            solutes: self.solutes.convert(with),
            liquid: self.liquid.convert(with),
            ice: with(self.ice),
            vessel: with(self.vessel),
            heat: with(self.heat),
        }
    }

    /// The temperature at which liquid with `melt` and vessel hold `heat`, found from `start`.
    pub(super) fn temperature(&self, melt: S, heat: S, start: f64) -> S {
        use crate::scalar::Sloped;
        let plain = self.convert(|s| Sloped::<1>::from(s.value()));
        let plain_melt = Sloped::from(melt.value());
        let (mut t, mut slope) = (start, 1.0);
        for _ in 0..60 {
            let f = plain.heat_without_ice(plain_melt, Sloped::variable(t, 0));
            slope = f.slopes[0];
            let step = ((heat.value() - f.value) / slope).clamp(-40.0, 40.0);
            t += step;
            // Newton squares its error: what is left after this step is below 1e-10 K.
            if step.abs() < 1e-4 {
                break;
            }
        }
        S::implicit(t, self.heat_without_ice(melt, S::from(t)) - heat, slope)
    }
}

/// The liquid of a chill with its surface water and `melt`.
pub(super) fn with_melt<S: Scalar>(chill: &Chill<S>, melt: S) -> Mixture<S> {
    let mut liquid = chill.liquid;
    liquid.put(Substance::Water, chill.surface_water_grams + melt);
    liquid
}
