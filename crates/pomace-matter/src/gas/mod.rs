//! Gas in a drink: how much dissolves, and what a closed vessel comes to.

mod solubility;
mod vessel;

pub use solubility::{Gas, dissolved, solvent_factor};
pub use vessel::{Charge, Charged, settle};

/// The pressure of the air, bar: what a gauge leaves out.
pub const AIR_BAR: f64 = 1.01325;

/// One atmosphere in bar.
pub(crate) const ATMOSPHERE_BAR: f64 = 1.01325;
