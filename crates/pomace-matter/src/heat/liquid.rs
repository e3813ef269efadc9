//! Heat content of a liquid.

use std::ops::Add;

use super::mixing;
use crate::mixture::Mixture;
use crate::scalar::{Formula, Scalar, joined, polynomial};
use crate::substance::{Set, Substance};

/// Enthalpy of water, J/g in powers of °C: IAPWS-95, carried on below 0 °C; within 0.0094 J/g at
/// −20…100 °C (`fits/extensions_heat.py`).
const WATER: [f64; 8] = [
    0.0,
    4.2180658,
    -1.7359469e-3,
    5.0901338e-5,
    -1.0773514e-6,
    1.4606136e-8,
    -1.0476964e-10,
    3.0204161e-13,
];
/// Enthalpy of ethanol, J/g: CoolProp's reference equation, within 0.0014 J/g at −40…78 °C.
const ETHANOL: [f64; 6] = [
    0.0,
    2.2569827,
    3.1794298e-3,
    9.8379581e-6,
    4.9906e-9,
    -8.34153e-11,
];
/// Enthalpy of what is dissolved, J/g: from the specific heat of sucrose solutions (Bubnik 1995,
/// Llano 2005) to 60 %, within 0.8 % of the solution's at 0…80 °C.
const SOLIDS: [f64; 3] = [0.0, 1.66045, 3.83e-3];

/// Enthalpy of a liquid and all that is in it, J, `t` in °C.
///
/// Σ mⱼ hⱼ(t) + n H(x, t): water, ethanol and solids each by their own heat, and the heat of mixing
/// of ethanol and water ([`mixing`], known to 41 °C). Sugar's own heat of solution is left out. Valid for
/// −20…100 °C, with ethanol −20…78 °C.
#[must_use]
pub fn liquid_enthalpy<S: Scalar>(liquid: &Mixture<S>, t: S) -> S {
    HeatCarriers::of(liquid).enthalpy(t)
}

/// The three masses that hold the heat of a liquid, g.
#[derive(Clone, Copy, Debug)]
pub struct HeatCarriers<S> {
    /// Water.
    pub water: S,
    /// Ethanol.
    pub ethanol: S,
    /// All else.
    pub solids: S,
}

impl<S: Scalar> HeatCarriers<S> {
    /// Those of a liquid.
    #[must_use]
    pub fn of(liquid: &Mixture<S>) -> Self {
        Self {
            water: liquid.grams(Substance::Water),
            ethanol: liquid.grams(Substance::Ethanol),
            solids: liquid.sum(Set::ALL.without(Set::SOLVENTS)),
        }
    }

    /// [`liquid_enthalpy`], J, `t` in °C.
    #[must_use]
    pub fn enthalpy(&self, t: S) -> S {
        joined(&Enthalpy, [self.water, self.ethanol, self.solids, t])
    }

    /// So many times as much.
    #[must_use]
    pub fn times(self, times: S) -> Self {
        Self {
            water: self.water * times,
            ethanol: self.ethanol * times,
            solids: self.solids * times,
        }
    }

    /// The same in another number type.
    #[must_use]
    pub fn convert<T: Scalar>(&self, with: impl Fn(S) -> T) -> HeatCarriers<T> {
        HeatCarriers {
            water: with(self.water),
            ethanol: with(self.ethanol),
            solids: with(self.solids),
        }
    }
}

impl<S: Scalar> Add for HeatCarriers<S> {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            water: self.water + other.water,
            ethanol: self.ethanol + other.ethanol,
            solids: self.solids + other.solids,
        }
    }
}

struct Enthalpy;

impl Formula<4> for Enthalpy {
    fn at<S: Scalar>(&self, [water, ethanol, solids, t]: [S; 4]) -> S {
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
