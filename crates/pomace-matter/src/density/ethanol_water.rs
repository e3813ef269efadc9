//! Ethanol and water: density, and strength to mass fraction and back.
//!
//! Source: OIML International Recommendation R 22 (1975), the general formula with its 54
//! coefficients (also the annex of Council Directive 76/766/EEC). Read in two public
//! transcriptions, see `tests/reference/oiml_r22.md`.

use crate::range::{Outside, STRENGTH};
use crate::scalar::{Scalar, polynomial};
use crate::units::{MassFraction, VolumePercent};

/// A: polynomial in the ethanol mass fraction at 20 °C, kg/m³.
const A: [f64; 12] = [
    998.20123,
    -192.9769495,
    389.1238958,
    -1668.103923,
    13522.15441,
    -88292.78388,
    306287.4042,
    -613838.1234,
    747017.2998,
    -547846.1354,
    223446.0334,
    -39032.85426,
];
/// B: polynomial in t − 20 °C for pure water, from the first power, kg/m³.
const B: [f64; 6] = [
    -0.20618513,
    -0.0052682542,
    3.6130013e-05,
    -3.8957702e-07,
    7.169354e-09,
    -9.9739231e-11,
];
/// C: for each power of t − 20 °C from the first, polynomial in the mass fraction from the first
/// power, kg/m³.
const C1: [f64; 11] = [
    0.1693443461530087,
    -10.46914743455169,
    71.96353469546523,
    -704.7478054272792,
    3924.090430035045,
    -12101.64659068747,
    22486.46550400788,
    -26055.62982188164,
    18523.73922069467,
    -7420.201433430137,
    1285.617841998974,
];
const C2: [f64; 10] = [
    -0.0119301300505701,
    0.2517399633803461,
    -2.170575700536993,
    13.53034988843029,
    -50.29988758547014,
    109.635566657757,
    -142.2753946421155,
    108.043594285623,
    -44.14153236817392,
    7.442971530188783,
];
const C3: [f64; 9] = [
    -0.0006802995733503803,
    0.01876837790289664,
    -0.2002561813734156,
    1.02299296671922,
    -2.895696483903638,
    4.810060584300675,
    -4.672147440794683,
    2.458043105903461,
    -0.5411227621436812,
];
const C4: [f64; 4] = [
    4.075376675622027e-06,
    -8.76305857347111e-06,
    6.515031360099368e-06,
    -1.51578483698721e-06,
];
const C5: [f64; 2] = [-2.788074354782409e-08, 1.345612883493354e-08];

/// Density of pure ethanol at 20 °C, kg/m³, which defines %vol: the formula at p = 1, printed in the
/// standard as 789.24.
pub const PURE_ETHANOL_20C: f64 = {
    let (mut sum, mut k) = (0.0, 0);
    while k < A.len() {
        sum += A[k];
        k += 1;
    }
    sum
};

/// Density of ethanol and water, kg/m³, for an ethanol mass fraction `p` and `t` in °C.
///
/// ρ = Σ Aₖ pᵏ⁻¹ + Σ Bₖ (t−20)ᵏ + Σᵢ Σₖ Cᵢₖ pᵏ (t−20)ⁱ. Valid for 0 ≤ p ≤ 1 and −20…40 °C above
/// the freezing line; used below it too, for drinks that sugar keeps liquid (unvalidated there).
/// Accuracy: `tests/reference/ethanol_water_density.csv`.
#[must_use]
pub fn density<S: Scalar>(p: S, t: S) -> S {
    let (pv, dt) = (p.value(), t.value() - 20.0);
    let (mut rho, mut by_p) = polynomial(&A, pv);
    let (b, b_slope) = polynomial(&B, dt);
    rho += dt * b;
    let mut by_t = b + dt * b_slope;
    let mut power = 1.0;
    for (i, c) in [&C1[..], &C2, &C3, &C4, &C5].into_iter().enumerate() {
        let (value, slope) = polynomial(c, pv);
        by_t += (i as f64 + 1.0) * power * pv * value;
        power *= dt;
        rho += power * pv * value;
        by_p += power * (value + pv * slope);
    }
    p.chain2(t, rho, by_p, by_t)
}

/// Strength of ethanol and water of that mass fraction, %vol: 100 p ρ(p, 20 °C) / ρ(1, 20 °C).
#[must_use]
pub fn strength<S: Scalar>(p: MassFraction<S>) -> VolumePercent<S> {
    VolumePercent(p.0 * density(p.0, S::from(20.0)) * (100.0 / PURE_ETHANOL_20C))
}

/// Mass fraction of ethanol and water of that strength.
///
/// Newton's rule on the strength, which rises with the mass fraction everywhere.
///
/// # Errors
/// [`Outside`] below 0 and above 100 %vol.
pub fn mass_fraction<S: Scalar>(strength: VolumePercent<S>) -> Result<MassFraction<S>, Outside> {
    // A mass fraction of one may come out as 100 %vol and a rounding.
    let rounded = if strength.0.value() <= 100.0 + 1e-9 {
        strength.0.at_most(100.0)
    } else {
        strength.0
    };
    let target = STRENGTH.check(rounded)?.value();
    let mut p = target / 100.0 * 0.85;
    for _ in 0..60 {
        let (value, slope) = strength_of(p);
        let step = (target - value) / slope;
        p = (p + step).clamp(0.0, 1.0);
        if step.abs() < 1e-14 {
            break;
        }
    }
    let (value, slope) = strength_of(p);
    if (value - target).abs() < 1e-9 {
        Ok(MassFraction(strength.0.chain(p, 1.0 / slope)))
    } else {
        Err(STRENGTH.not_found())
    }
}

/// Strength in %vol at a mass fraction, and its slope.
fn strength_of(p: f64) -> (f64, f64) {
    let strength = strength(MassFraction(crate::scalar::Sloped::<1>::variable(p, 0))).0;
    (strength.value, strength.slopes[0])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn anchors_of_the_standard() {
        // Self-test values of `tests/reference/oiml_r22.md`, computed there from the same formula.
        for (p, t, rho) in [
            (0.30, -15.0, 972.6933),
            (0.50, 0.0, 929.1724),
            (0.10, 40.0, 974.7783),
            (1.0, 0.0, 806.2151),
        ] {
            assert!((density(p, t) - rho).abs() < 5e-5, "{p} {t}");
        }
    }

    #[test]
    fn strength_there_and_back() {
        for i in 0..=1000 {
            let p = f64::from(i) / 1000.0;
            let back = mass_fraction(strength(MassFraction(p))).unwrap().0;
            assert!((back - p).abs() < 1e-10, "{p} {back}");
        }
        assert!(mass_fraction(VolumePercent(100.1)).is_err());
        assert!(mass_fraction(VolumePercent(f64::NAN)).is_err());
    }
}
