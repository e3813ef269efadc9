//! The ice line: the activity that water must have to be in balance with ice.

use crate::scalar::Scalar;
use crate::units::{GAS_CONSTANT, ICE_POINT_KELVIN};

/// Heat of melting at 0 °C, J/mol.
const MELTING_HEAT: f64 = 6009.5;
/// Heat capacity of water less that of ice at 0 °C, J/(mol K).
const HEAT_CAPACITY_STEP: f64 = 37.9;

/// Natural logarithm of the activity of water in balance with ice, `kelvin` the temperature.
///
/// ln a = −(ΔH − ΔC T₀)/R · (1/T − 1/T₀) + ΔC/R · ln(T/T₀). Against IAPWS (ice Ih 2006 and
/// IAPWS-95) within 0.0009 to −20 °C: `tests/reference/thermal.csv`.
/// Source: integrated Gibbs–Helmholtz relation, constants of models.md B1.
#[must_use]
pub fn ln_activity<S: Scalar>(kelvin: S) -> S {
    let t = kelvin.value();
    let zero = ICE_POINT_KELVIN;
    let a = (MELTING_HEAT - HEAT_CAPACITY_STEP * zero) / GAS_CONSTANT;
    let b = HEAT_CAPACITY_STEP / GAS_CONSTANT;
    kelvin.chain(
        -a * (1.0 / t - 1.0 / zero) + b * (t / zero).ln(),
        a / (t * t) + b / t,
    )
}
