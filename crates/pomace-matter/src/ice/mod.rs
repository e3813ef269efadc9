//! A drink and ice: how cold it gets and how much melts.
//!
//! Ice and drink end where the drink would freeze on its own ([`equilibrium`]): the liquid has
//! taken up so much melt, and is so cold, that ice and liquid are in balance. Shaking gets close
//! to that in seconds; stirring is stopped on the way ([`chilling`]). A slush is held at a temperature
//! until ice and liquid agree ([`slush`]).

pub mod chilling;
pub mod equilibrium;
mod melting;
pub mod slush;

use crate::mixture::Mixture;

/// A drink about to meet ice.
#[derive(Clone, Copy, Debug)]
pub struct Chill<S = f64> {
    /// The liquid.
    pub liquid: Mixture<S>,
    /// Its temperature, °C.
    pub liquid_celsius: S,
    /// Dry ice mass, g, without the water on its surface.
    pub ice_grams: S,
    /// Temperature inside the ice, °C, 0 or below.
    pub ice_celsius: S,
    /// Water on the surface of the ice, g, at 0 °C.
    pub surface_water_grams: S,
    /// Heat capacity of the vessel that takes part, J/K.
    pub vessel_joules_per_kelvin: S,
    /// Temperature of the vessel, °C.
    pub vessel_celsius: S,
    /// Heat that comes in from hands and air meanwhile, J.
    pub gained_joules: S,
}

/// A drink that has met ice.
#[derive(Clone, Copy, Debug)]
pub struct Chilled<S = f64> {
    /// The liquid with its melt and the surface water.
    pub liquid: Mixture<S>,
    /// Its temperature, °C.
    pub celsius: S,
    /// Melt, g; negative where water froze onto the ice. Surface water is not counted here.
    pub melt_grams: S,
    /// Ice left, g.
    pub ice_grams: S,
    /// Temperature of that ice, °C.
    pub ice_celsius: S,
}
