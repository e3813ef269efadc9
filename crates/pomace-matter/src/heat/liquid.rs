//! Heat content of a liquid.

use super::mixing;
use crate::mixture::Mixture;
use crate::scalar::{Scalar, polynomial};
use crate::substance::{Kind, Substance};

/// Enthalpy of water, J/g in powers of °C: IAPWS-95, carried on below 0 °C; within 0.009 J/g at
/// −20…40 °C (`fits/heat.py`).
const WATER: [f64; 6] = [
    0.0,
    4.217806,
    -1.701701e-3,
    5.332663e-5,
    -1.178007e-6,
    1.138991e-8,
];
/// Enthalpy of ethanol, J/g: CoolProp's reference equation, within 0.004 J/g at −40…45 °C.
const ETHANOL: [f64; 4] = [0.0, 2.257039, 3.187101e-3, 9.67901e-6];
/// Enthalpy of what is dissolved, J/g: from the specific heat of sucrose solutions (Bubnik 1995,
/// Llano 2005) to 60 %, within 0.7 % of the solution's.
const SOLIDS: [f64; 3] = [0.0, 1.645, 4.42e-3];

/// Enthalpy of a liquid and all that is in it, J, `t` in °C.
///
/// Σ mⱼ hⱼ(t) + n H(x, t): water, ethanol and solids each by their own heat, and the heat of mixing
/// of ethanol and water ([`mixing`]). Sugar's own heat of solution is left out.
#[must_use]
pub fn liquid_enthalpy<S: Scalar>(liquid: &Mixture<S>, t: S) -> S {
    let solids = liquid.sum(|s| s.kind() != Kind::Solvent);
    enthalpy_of(
        liquid.grams(Substance::Water),
        liquid.grams(Substance::Ethanol),
        solids,
        t,
    )
}

/// [`liquid_enthalpy`] of so many grams of water, ethanol and all else.
#[must_use]
pub fn enthalpy_of<S: Scalar>(water: S, ethanol: S, solids: S, t: S) -> S {
    let at = |c: &[f64]| {
        let (value, slope) = polynomial(c, t.value());
        t.chain(value, slope)
    };
    let mut heat = water * at(&WATER) + ethanol * at(&ETHANOL) + solids * at(&SOLIDS);
    if ethanol.value() > 0.0 && water.value() > 0.0 {
        let moles_of_ethanol = ethanol / Substance::Ethanol.molar_mass();
        let moles = moles_of_ethanol + water / Substance::Water.molar_mass();
        heat += moles * mixing::enthalpy(moles_of_ethanol / moles, t);
    }
    heat
}

/// Specific heat of a liquid, J/(g K), `t` in °C.
///
/// Accuracy: 3 % to 40 % ethanol by mass and to 60 % sucrose, `tests/reference/thermal.csv`.
#[must_use]
pub fn liquid_heat_capacity(liquid: &Mixture, t: f64) -> f64 {
    use crate::scalar::Sloped;
    let lifted = liquid.lift::<Sloped<1>>();
    liquid_enthalpy(&lifted, Sloped::variable(t, 0)).slopes[0] / liquid.total().0
}
