//! The heat that ethanol and water give off when they meet.

use crate::scalar::{Scalar, polynomial};

/// A molar excess property of ethanol and water: x(1 − x) Σ aₖ x^(k/2), `x` the mole fraction of
/// ethanol.
struct Excess {
    by_half_powers: [f64; 10],
}

/// Excess enthalpy at 25 °C, J/mol.
/// Source: Larkin (1975), *J. Chem. Thermodynamics* 7:137, evaluated at 298.15 K.
const ENTHALPY_AT_25C: Excess = Excess {
    by_half_powers: [
        -22692.8, 50624.1, 0.0, -62778.1, 0.0, 43870.8, 0.0, 0.0, 0.0, -11666.8,
    ],
};

/// Excess heat capacity at 25 °C, J/(mol K). Fitted to specific heats of Melinder's tables and Perry's
/// (`fits/heat.py`), for all mole fractions, −10…41 °C.
const HEAT_CAPACITY: Excess = Excess {
    by_half_powers: [
        280.266, -588.292, 304.055, 60.176, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0,
    ],
};

/// How the excess heat capacity rises with temperature: this times x(1 − x), J/(mol K²); same fit.
const HEAT_CAPACITY_RISE: f64 = 0.409;

impl Excess {
    /// The property of the mixture, per mole of both.
    fn molar<S: Scalar>(&self, x: S) -> S {
        let v = x.value().max(0.0);
        let u = v.sqrt();
        let (p, by_u) = polynomial(&self.by_half_powers, u);
        let by_x = if u > 0.0 { by_u * 0.5 / u } else { 0.0 };
        x.chain(
            v * (1.0 - v) * p,
            (1.0 - 2.0 * v) * p + v * (1.0 - v) * by_x,
        )
    }

    /// The share of water in it, per mole of water: H − x dH/dx.
    fn of_water<S: Scalar>(&self, x: S) -> S {
        let v = x.value().max(0.0);
        let u = v.sqrt();
        let (mut first, mut second) = ([0.0; 10], [0.0; 10]);
        for (k, a) in self.by_half_powers.iter().enumerate() {
            let half = k as f64 / 2.0;
            first[k] = -half * a;
            second[k] = (half + 1.0) * a;
        }
        let (p, p_by_u) = polynomial(&first, u);
        let (q, q_by_u) = polynomial(&second, u);
        let by_x = if u > 0.0 {
            (p_by_u + v * q_by_u) * 0.5 / u
        } else {
            0.0
        };
        x.chain(v * (p + v * q), p + 2.0 * v * q + v * by_x)
    }
}

/// Excess enthalpy, J/mol of both, at ethanol mole fraction `x` and `t` in °C.
///
/// H = H₂₅(x) + C(x) d + D x(1 − x) d²/2, d = t − 25 °C. Negative: mixing warms. Valid for 0 ≤ x ≤ 1,
/// −20…40 °C; between 80 and 100 % ethanol by mass it is interpolation.
#[must_use]
pub fn enthalpy<S: Scalar>(x: S, t: S) -> S {
    let d = t - 25.0;
    ENTHALPY_AT_25C.molar(x)
        + HEAT_CAPACITY.molar(x) * d
        + x * (-x + 1.0) * d * d * (0.5 * HEAT_CAPACITY_RISE)
}

/// The share of water in the excess enthalpy at one composition, J per mole of water.
#[derive(Clone, Copy, Debug)]
pub struct HeatOfWater<S> {
    /// At 25 °C.
    pub at_25c: S,
    /// Per kelvin from 25 °C.
    pub slope: S,
    /// Per square kelvin.
    pub curve: S,
}

impl<S: Scalar> HeatOfWater<S> {
    /// At ethanol mole fraction `x`: H − x dH/dx.
    #[must_use]
    pub fn of(x: S) -> Self {
        Self {
            at_25c: ENTHALPY_AT_25C.of_water(x),
            slope: HEAT_CAPACITY.of_water(x),
            curve: x * x * (0.5 * HEAT_CAPACITY_RISE),
        }
    }

    /// At `t` in °C.
    #[must_use]
    pub fn at(&self, t: S) -> S {
        let d = t - 25.0;
        self.at_25c + (self.slope + self.curve * d) * d
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scalar::Sloped;

    #[test]
    fn least_at_fifteen_per_cent() {
        // models.md B2: minimum −810 J/mol at x = 0.15 (Larkin 1975; often quoted as −780).
        assert!((enthalpy(0.15, 25.0) + 810.0).abs() < 5.0);
    }

    #[test]
    fn water_share_follows_from_the_whole() {
        for x in [0.01, 0.1, 0.25, 0.36] {
            let h = enthalpy(Sloped::<1>::variable(x, 0), Sloped::from(5.0));
            let water = HeatOfWater::of(Sloped::<1>::variable(x, 0)).at(Sloped::from(5.0));
            assert!((water.value - (h.value - x * h.slopes[0])).abs() < 1e-6);
            let at = |x: f64| HeatOfWater::of(x).at(5.0);
            let difference = (at(x + 1e-6) - at(x - 1e-6)) / 2e-6;
            assert!((water.slopes[0] - difference).abs() < 1e-3 * difference.abs().max(1.0));
        }
    }
}
