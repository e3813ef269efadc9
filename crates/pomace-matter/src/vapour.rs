//! What leaves a pan: water and ethanol by vapour–liquid equilibrium.
//!
//! Ethanol is the more volatile, the less of it there is; so a simmer takes it faster than water,
//! and never all of it (models.md G4).

use crate::mixture::Mixture;
use crate::scalar::{Scalar, Sloped};
use crate::substance::Substance;
use crate::units::ICE_POINT_KELVIN;

/// Pressure of the air, kPa.
const AIR: f64 = 101.325;

/// ln p = a − b/(T + c), kPa and K. Fitted to CoolProp 8.0.0 at 10–105 °C, within 0.22 %.
struct Antoine {
    a: f64,
    b: f64,
    c: f64,
}

const ETHANOL: Antoine = Antoine {
    a: 16.76988,
    b: 3741.2251,
    c: -43.7137,
};
const WATER: Antoine = Antoine {
    a: 16.52245,
    b: 3958.6137,
    c: -40.5644,
};

impl Antoine {
    fn ln_pressure<S: Scalar>(&self, kelvin: S) -> S {
        S::from(-self.b) / (kelvin + self.c) + self.a
    }
}

/// Partial pressures of ethanol and water, kPa, over a liquid of ethanol mole fraction `x`.
///
/// van Laar activity coefficients, fitted to Hála (1968), Pemberton and Mash (1978) and pressures
/// at 50 and 90 °C (models.md G4); 25–100 °C. Sugars raise the volatility; left out, + 10 % doubt.
#[must_use]
pub fn partial_pressures<S: Scalar>(x: S, kelvin: S) -> (S, S) {
    let a = kelvin * 0.00255 + (1.71226 - 0.00255 * 350.0);
    let b = kelvin * -0.00089 + (0.95069 + 0.00089 * 350.0);
    let water = -x + 1.0;
    let sum = a * x + b * water;
    let ln_ethanol = a * (b * water / sum).squared();
    let ln_water = b * (a * x / sum).squared();
    (
        x * (ln_ethanol + ETHANOL.ln_pressure(kelvin)).exp(),
        water * (ln_water + WATER.ln_pressure(kelvin)).exp(),
    )
}

/// Where a liquid of ethanol mole fraction `x` boils under `kilopascals`, K.
#[must_use]
pub fn boiling_kelvin(x: f64, kilopascals: f64) -> f64 {
    let mut kelvin = ICE_POINT_KELVIN + 90.0;
    for _ in 0..50 {
        let (e, w) = partial_pressures(Sloped::<1>::from(x), Sloped::variable(kelvin, 0));
        let pressure = e + w;
        // In ln p against 1/T the curve is nearly straight.
        let step = (kilopascals / pressure.value).ln() * pressure.value / pressure.slopes[0];
        kelvin += step.clamp(-40.0, 40.0);
        if step.abs() < 1e-10 {
            break;
        }
    }
    kelvin
}

/// What leaves a liquid that boils in the open until `grams` have gone: water and ethanol only.
///
/// dnₑ/dn_w = pₑ/p_w, integrated over the mass that leaves (fourth-order Runge–Kutta). Weigh the
/// pan: no clock tells this. Checked against published equilibria; against published retention in
/// cooking it is **unvalidated**.
#[must_use]
pub fn boil_off<S: Scalar>(liquid: &Mixture<S>, grams: S) -> Mixture<S> {
    const STEPS: usize = 64;
    let (water, ethanol) = (
        liquid.grams(Substance::Water),
        liquid.grams(Substance::Ethanol),
    );
    if ethanol.value() <= 0.0 {
        return Mixture::of(&[(Substance::Water, crate::units::Grams(grams))]);
    }
    let molar = (
        Substance::Water.molar_mass(),
        Substance::Ethanol.molar_mass(),
    );
    // Share of ethanol in the next gram that leaves.
    let share = |gone_water: S, gone_ethanol: S| {
        let e = (ethanol - gone_ethanol).at_least(0.0) / molar.1;
        let w = (water - gone_water).at_least(1e-12) / molar.0;
        let x = e / (e + w);
        let kelvin = S::from(boiling_kelvin(x.value(), AIR));
        let (pe, pw) = partial_pressures(x, kelvin);
        pe * molar.1 / (pe * molar.1 + pw * molar.0)
    };
    let h = grams / STEPS as f64;
    let (mut gone, mut gone_ethanol) = (S::zero(), S::zero());
    for _ in 0..STEPS {
        let at = |extra: S, more: S| {
            let e = gone_ethanol + more;
            share(gone + extra - e, e)
        };
        let k1 = at(S::zero(), S::zero());
        let k2 = at(h * 0.5, h * 0.5 * k1);
        let k3 = at(h * 0.5, h * 0.5 * k2);
        let k4 = at(h, h * k3);
        gone_ethanol += h * (k1 + (k2 + k3) * 2.0 + k4) / 6.0;
        gone += h;
    }
    let gone_ethanol = if gone_ethanol.value() > ethanol.value() {
        ethanol
    } else {
        gone_ethanol
    };
    let mut left = Mixture::default();
    left.set(Substance::Ethanol, gone_ethanol);
    left.set(Substance::Water, grams - gone_ethanol);
    left
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Grams;

    #[test]
    fn worked_points() {
        // models.md G4: x, y, boiling °C.
        for (x, y, celsius) in [
            (0.01, 0.1091, 97.03),
            (0.05, 0.3326, 90.18),
            (0.10, 0.4462, 86.22),
            (0.20, 0.5378, 82.95),
            (0.40, 0.6183, 80.58),
        ] {
            let kelvin = boiling_kelvin(x, AIR);
            let (e, w) = partial_pressures(x, kelvin);
            assert!((kelvin - 273.15 - celsius).abs() < 0.01, "{x}: {kelvin}");
            assert!((e / (e + w) - y).abs() < 2e-4, "{x}: {}", e / (e + w));
        }
    }

    #[test]
    fn ethanol_kept_in_a_pan() {
        // models.md G4: share kept when 5, 10 and 20 % of the mass have boiled off.
        for (abv_mass, kept) in [
            (0.04, [0.638, 0.374, 0.098]),
            (0.333, [0.891, 0.783, 0.573]),
        ] {
            for (gone, kept) in [5.0, 10.0, 20.0].into_iter().zip(kept) {
                let liquid = Mixture::of(&[
                    (Substance::Ethanol, Grams(100.0 * abv_mass)),
                    (Substance::Water, Grams(100.0 * (1.0 - abv_mass))),
                ]);
                let left = boil_off(&liquid, gone);
                let share = 1.0 - left.grams(Substance::Ethanol) / (100.0 * abv_mass);
                assert!((share - kept).abs() < 0.012, "{abv_mass} {gone}: {share}");
                assert!((left.total().0 - gone).abs() < 1e-9);
            }
        }
    }
}
