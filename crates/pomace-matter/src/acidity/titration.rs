//! Titration: base against pH, and its inverse.

use super::equilibrium::{balance, moved};
use super::ionic::Ionic;
use crate::range::{IONIC_STRENGTH, Outside, PH};
use crate::scalar::Scalar;

/// Where a titration of acid ends: pH 8.2, the colour change of phenolphthalein.
pub const ENDPOINT_PH: f64 = 8.2;

/// Strong base, mol per kg of water, that brings the liquid to this pH; negative: strong acid.
///
/// At a fixed pH the charge balance is explicit in the base `x`; only the ionic strength that the
/// base brings along is unknown: x = −F₁(I), F₂(I) = ½|x|. The residual is below zero at I = 0, so a
/// bracketed Newton in I cannot miss.
///
/// # Errors
/// [`Outside`] for a pH that is none, or an ionic strength above 3 mol/kg.
pub fn base_to_reach<S: Scalar>(ionic: &Ionic<S>, ph: f64) -> Result<S, Outside> {
    let p = PH.check(ph)?;
    let plain = ionic.plain();
    let (mut low, mut high) = (0.0, IONIC_STRENGTH.high);
    let mut i = (plain.strong_strength + 0.05).min(0.5 * high);
    let mut b = balance(&plain, p, i);
    let mut settled = false;
    for _ in 0..200 {
        let f = residual(&b);
        let newton = i - f / slope(&b);
        // Tested before the bracket: a converged point on its edge would be bisected away. Newton squares its
        // error: after this step none is left.
        if (newton - i).abs() < 1e-6 * i {
            b.charge += b.charge_by_i * (newton - i);
            i = newton;
            settled = true;
            break;
        }
        if f > 0.0 {
            high = i;
        } else {
            low = i;
        }
        i = if newton > low && newton < high {
            newton
        } else {
            0.5 * (low + high)
        };
        b = balance(&plain, p, i);
    }
    if !settled {
        let at_most = residual(&balance(&plain, p, IONIC_STRENGTH.high));
        return Err(if at_most.is_nan() || at_most < 0.0 {
            // At the bound the ions would come to more than the bound: to so much.
            Outside {
                range: IONIC_STRENGTH,
                given: IONIC_STRENGTH.high - at_most,
            }
        } else {
            IONIC_STRENGTH.not_found()
        });
    }
    let inputs = moved(ionic, &plain, p, i);
    let di = -(inputs.strength - inputs.charge * (0.5 * b.charge.signum())) / slope(&b);
    Ok(-(inputs.charge + di * b.charge_by_i + b.charge))
}

fn residual(b: &super::equilibrium::Balance) -> f64 {
    b.strength - 0.5 * b.charge.abs()
}

fn slope(b: &super::equilibrium::Balance) -> f64 {
    b.strength_by_i - 0.5 * b.charge.signum() * b.charge_by_i
}

#[cfg(test)]
mod tests {
    use super::super::{acids::ACIDS, solve};
    use super::*;
    use crate::scalar::Sloped;

    #[test]
    fn base_found_brings_the_ph_back() {
        let mut ionic = Ionic::pure_water(25.0);
        ionic.add(ACIDS[0].steps, 0.05, 0.0, 25.0);
        for ph in [2.5, 3.5, 5.0, 7.0, 8.2] {
            let base = base_to_reach(&ionic, ph).unwrap();
            let mut salted = ionic;
            salted.strong_charge = base;
            salted.strong_strength = 0.5 * base.abs();
            let back = solve(&salted).unwrap().ph;
            assert!((back - ph).abs() < 1e-9, "{ph}: {back}");
        }
    }

    /// Found by review: the first solver slid to an ionic strength of nothing for strong buffers.
    #[test]
    fn strong_buffers_come_back_or_are_refused() {
        let mut refused = 0;
        for acid in &ACIDS {
            for c in [0.01, 0.1, 0.3, 0.5, 1.0, 2.0] {
                for step in 4..28 {
                    let ph = 0.5 * f64::from(step);
                    let mut ionic = Ionic::pure_water(25.0);
                    ionic.add(acid.steps, c, 0.0, 25.0);
                    let Ok(base) = base_to_reach(&ionic, ph) else {
                        refused += 1;
                        continue;
                    };
                    ionic.strong_charge = base;
                    ionic.strong_strength = 0.5 * base.abs();
                    let back = solve(&ionic).unwrap().ph;
                    assert!(
                        (back - ph).abs() < 1e-7,
                        "{:?} {c} {ph}: {back}",
                        acid.substance
                    );
                }
            }
        }
        // What is refused holds more than 3 mol/kg of ions.
        assert!(refused < 200, "{refused}");
    }

    #[test]
    fn slopes_agree_with_differences() {
        let build = |c: f64| {
            let mut ionic = Ionic::pure_water(25.0);
            ionic.add(
                ACIDS[0].steps,
                Sloped::<1>::variable(c, 0),
                Sloped::from(0.0),
                25.0,
            );
            base_to_reach(&ionic, 4.0).unwrap()
        };
        let difference = (build(0.0501).value - build(0.0499).value) / 0.0002;
        let exact = build(0.05).slopes[0];
        assert!(
            (exact - difference).abs() < 1e-5 * difference.abs(),
            "{exact} {difference}"
        );
    }
}
