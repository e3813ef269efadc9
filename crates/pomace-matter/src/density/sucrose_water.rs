//! Sucrose in water: density, and the room that sucrose takes up.
//!
//! Source: the PTB/ICUMSA polynomial (Bettin, Emmerich, Spieweck, Rauh 1998; printed in Bubnik et
//! al., *Sugar Technologists Manual*, 1995) over water by Kell (1975), as read in two public files
//! (`tests/reference/README.md`, key `icumsa_ptb_eval`).

use crate::scalar::{Scalar, polynomial};

const B: [&[f64]; 5] = [
    &[385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890],
    &[-46.2720, -7.1720, 1.1597, 5.1126, 17.5254],
    &[59.7712, 7.2491, 12.3630, -35.4791],
    &[-47.2207, -21.6977, 27.6301],
    &[18.3184, 12.3081],
];

/// Density of pure water by Kell (1975), kg/m³, `t` in °C. Within 0.01 kg/m³ of OIML R 22 at
/// −10…40 °C.
#[must_use]
pub fn water<S: Scalar>(t: S) -> S {
    let (upper, upper_slope) = polynomial(
        &[
            999.83952,
            16.952577,
            -7.9905127e-3,
            -46.241757e-6,
            105.84601e-9,
            -281.03006e-12,
        ],
        t.value(),
    );
    let lower = 1.0 + 16.887236e-3 * t.value();
    t.chain(
        upper / lower,
        (upper_slope - upper / lower * 16.887236e-3) / lower,
    )
}

/// What sucrose adds to the density of water per share of it, kg/m³, at sucrose mass fraction `q`,
/// `t` in °C: Σ τⁱ Σ bᵢₖ qᵏ⁻¹, τ = (t − 20)/100.
fn excess<S: Scalar>(q: S, t: S) -> S {
    let tau = (t.value() - 20.0) / 100.0;
    let (mut rho, mut by_q, mut by_tau) = (0.0, 0.0, 0.0);
    let (mut power, mut below) = (1.0, 0.0);
    for (i, b) in B.into_iter().enumerate() {
        let (value, slope) = polynomial(b, q.value());
        rho += power * value;
        by_q += power * slope;
        by_tau += i as f64 * below * value;
        below = power;
        power *= tau;
    }
    q.chain2(t, rho, by_q, by_tau / 100.0)
}

/// Density of sucrose in water, kg/m³, at mass fraction `q`, `t` in °C.
///
/// Valid for 0…0.85 and 0…80 °C (0.02 kg/m³ of the published formula); carried on below 0 °C, where
/// nothing checks it.
#[must_use]
pub fn density<S: Scalar>(q: S, t: S) -> S {
    water(t) + q * excess(q, t)
}

/// Apparent specific volume of sucrose, cm³/g, in a liquid with solids share `s`, `t` in °C.
///
/// φ = (1/ρ − (1 − s)/ρ_w)/s = (ρ − e)/(ρ ρ_w), e the excess per share: the second form keeps its
/// digits as s → 0.
#[must_use]
pub fn apparent_volume<S: Scalar>(s: S, t: S) -> S {
    let rho_water = water(t);
    let excess = excess(s, t);
    let rho = rho_water + s * excess;
    (rho - excess) / (rho * rho_water) * 1000.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scalar::Sloped;

    #[test]
    fn volumes_and_density_agree() {
        for (q, t) in [(0.1, 20.0), (0.5, 5.0), (0.8, 35.0)] {
            let v = (1.0 - q) / water(t) * 1000.0 + q * apparent_volume(q, t);
            assert!((1000.0 / v - density(q, t)).abs() < 1e-9);
        }
        let small = apparent_volume(2e-9, 11.0);
        assert!((small - apparent_volume(0.0, 11.0)).abs() < 1e-6, "{small}");
    }

    #[test]
    fn slopes_agree_with_differences() {
        let (q, t, h) = (0.4, 12.0, 1e-5);
        let sloped = density(Sloped::<2>::variable(q, 0), Sloped::variable(t, 1));
        let dq = (density(q + h, t) - density(q - h, t)) / (2.0 * h);
        let dt = (density(q, t + h) - density(q, t - h)) / (2.0 * h);
        assert!((sloped.slopes[0] - dq).abs() < 1e-4 && (sloped.slopes[1] - dt).abs() < 1e-6);
    }
}
