//! Heat content of liquids and of ice.
//!
//! Enthalpies in joules, zero for every pure liquid at 0 °C; ice lies below by its heat of melting.

mod ice;
mod liquid;
pub mod mixing;

pub use ice::{ice_enthalpy, ice_heat_capacity};
pub use liquid::{HeatCarriers, liquid_enthalpy, liquid_heat_capacity};
