//! Heat content of ice.

use crate::scalar::{Scalar, polynomial};

/// J/g in powers of °C: IAPWS ice Ih (2006) at −40…0 °C, heat of melting within 0.003 % to −20 °C
/// (`fits/heat.py`).
const ICE: [f64; 3] = [-333.423, 2.09613, 3.6533e-3];

/// Enthalpy of ice, J/g, `t` in °C (0 or below), counted from liquid water at 0 °C.
///
/// Accuracy: `tests/reference/thermal.csv` (IAPWS ice Ih).
#[must_use]
pub fn ice_enthalpy<S: Scalar>(t: S) -> S {
    let (value, slope) = polynomial(&ICE, t.value());
    t.chain(value, slope)
}

/// Specific heat of ice, J/(g K), `t` in °C.
#[must_use]
pub fn ice_heat_capacity(t: f64) -> f64 {
    polynomial(&ICE, t).1
}
