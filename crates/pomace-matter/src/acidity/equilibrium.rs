//! The charge balance, solved for pH and ionic strength together.
//!
//! Unknowns p = pH and I. With L(I) = A(√I/(1+√I) − 0.3 I), log γ = −z² L for ions and +0.1 I for
//! neutral acids (models.md D and G7):
//!
//! F₁ = m_H − m_OH + (strong charge) − Σ C⟨j⟩,
//! F₂ = I − ½(m_H + m_OH + Σ C⟨j²⟩) − (strength of strong ions),
//!
//! ⟨·⟩ the average over the species of an acid, j the protons it has lost.

use std::f64::consts::LN_10;

use super::acids::MOST_STEPS;
use super::ionic::{Ionic, LANES, MOST_ACIDS, Plain};
use crate::range::{IONIC_STRENGTH, Outside};
use crate::scalar::Scalar;

/// Factor of I in log γ of a neutral acid.
pub(super) const NEUTRAL: f64 = 0.1;
/// Factor of I in the Davies term.
const DAVIES: f64 = 0.3;
/// pH is sought between these.
const BRACKET: (f64, f64) = (-1.5, 15.0);

/// The solved state of an acid liquid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Equilibrium<S> {
    /// −log₁₀ of the activity of protons.
    pub ph: S,
    /// Ionic strength, mol per kg of water.
    pub ionic_strength: S,
}

/// Residuals of the balance at one point, with their slopes.
#[derive(Clone, Copy, Default)]
pub(super) struct Balance {
    pub charge: f64,
    charge_by_p: f64,
    pub charge_by_i: f64,
    pub strength: f64,
    strength_by_p: f64,
    pub strength_by_i: f64,
}

/// Averages over the species of `L` acids side by side: ⟨jⁿ⟩ of the protons j that they have lost, and the
/// share that has lost any.
struct Lost<const L: usize> {
    mean: [f64; L],
    square: [f64; L],
    cube: [f64; L],
    fourth: [f64; L],
    any: [f64; L],
}

impl<const L: usize> Lost<L> {
    /// Of acids with these products of constants, at these powers of pH and activity.
    #[inline(always)]
    fn of(constants: [&[f64; L]; MOST_STEPS], powers: &[f64; MOST_STEPS]) -> Self {
        let mut lost = Self {
            mean: [0.0; L],
            square: [0.0; L],
            cube: [0.0; L],
            fourth: [0.0; L],
            any: [0.0; L],
        };
        let [first, second, third] = constants;
        for (acid, ((first, second), third)) in first.iter().zip(second).zip(third).enumerate() {
            let [one, two, three] = [first * powers[0], second * powers[1], third * powers[2]];
            let all = 1.0 / (1.0 + one + two + three);
            let [one, two, three] = [one, two, three].map(|weight| weight * all);
            lost.mean[acid] = one + 2.0 * two + 3.0 * three;
            lost.square[acid] = one + 4.0 * two + 9.0 * three;
            lost.cube[acid] = one + 8.0 * two + 27.0 * three;
            lost.fourth[acid] = one + 16.0 * two + 81.0 * three;
            lost.any[acid] = one + two + three;
        }
        lost
    }

    /// Variance of j; covariance of j and j²; variance of j².
    #[inline(always)]
    fn spread(&self, acid: usize) -> [f64; 3] {
        let (mean, square) = (self.mean[acid], self.square[acid]);
        [
            square - mean * mean,
            self.cube[acid] - square * mean,
            self.fourth[acid] - square * square,
        ]
    }
}

/// L and its slope.
fn davies(a: f64, i: f64) -> (f64, f64) {
    let root = i.sqrt();
    (
        a * (root / (1.0 + root) - DAVIES * i),
        a * (0.5 / (root * (1.0 + root) * (1.0 + root)) - DAVIES),
    )
}

/// What all species share at one pH and ionic strength: powers of ten, computed once.
#[derive(Clone, Copy)]
struct Powers {
    /// Protons and hydroxide, mol/kg.
    protons: f64,
    hydroxide: f64,
    /// What multiplies the constants of a species that has lost one, two or three protons.
    of_lost: [f64; MOST_STEPS],
    /// d log₁₀(1/γ) / dI of an ion of one charge.
    l_slope: f64,
}

impl Powers {
    fn at(plain: &Plain, p: f64, i: f64) -> Self {
        let (l, l_slope) = davies(plain.debye_huckel, i);
        // 1/γ of an ion of one charge, and its fourth and ninth power.
        let one = (LN_10 * l).exp();
        let four = (one * one) * (one * one);
        let alkaline = (LN_10 * p).exp();
        let neutral = (LN_10 * NEUTRAL * i).exp();
        let first = neutral * alkaline;
        let second = first * alkaline;
        Self {
            protons: one / alkaline,
            hydroxide: plain.water_constant * alkaline * one,
            of_lost: [
                first * one,
                second * four,
                second * alkaline * four * four * one,
            ],
            l_slope,
        }
    }
}

pub(super) fn balance(plain: &Plain, p: f64, i: f64) -> Balance {
    let at = Powers::at(plain, p, i);
    // e = ln 10 (0.1 + j² L′) of a species that has lost any.
    let (neutral, ion) = (LN_10 * NEUTRAL, LN_10 * at.l_slope);
    // Σ C of: ⟨j⟩, ⟨j²⟩, their covariances with j, and with e.
    let mut sums = [[0.0; LANES]; 6];
    for (molality, constants) in plain.abreast() {
        let lost = Lost::of(constants, &at.of_lost);
        for acid in 0..LANES {
            let c = molality[acid];
            let (mean, square) = (lost.mean[acid], lost.square[acid]);
            let [variance, with_square, of_square] = lost.spread(acid);
            let none = neutral * (1.0 - lost.any[acid]);
            sums[0][acid] += c * mean;
            sums[1][acid] += c * variance;
            sums[2][acid] += c * (none * mean + ion * with_square);
            sums[3][acid] += c * square;
            sums[4][acid] += c * with_square;
            sums[5][acid] += c * (none * square + ion * of_square);
        }
    }
    let [charge, by_p, by_i, strength, strength_by_p, strength_by_i] =
        sums.map(|lanes| lanes.iter().sum::<f64>());
    let Powers {
        protons, hydroxide, ..
    } = at;
    Balance {
        charge: protons - hydroxide + plain.strong_charge - charge,
        charge_by_p: -LN_10 * (protons + hydroxide + by_p),
        charge_by_i: ion * (protons - hydroxide) - by_i,
        strength: i - 0.5 * (protons + hydroxide + strength) - plain.strong_strength,
        strength_by_p: -0.5 * LN_10 * (hydroxide - protons + strength_by_p),
        strength_by_i: 1.0 - 0.5 * (ion * (protons + hydroxide) + strength_by_i),
    }
}

/// pH and ionic strength.
///
/// Newton in both unknowns from a bracketed start; where a step runs away, the nested solve (pH
/// inside, ionic strength outside) takes over. Slopes come from the solved balance.
///
/// # Errors
/// [`Outside`] for an ionic strength above 3 mol/kg, and for numbers that are none.
pub fn solve<S: Scalar>(ionic: &Ionic<S>) -> Result<Equilibrium<S>, Outside> {
    let plain = ionic.plain();
    let (p, i) = match together(&plain) {
        Some(found) => found,
        None => nested(&plain)?,
    };
    IONIC_STRENGTH.check(i)?;
    if !S::HAS_SLOPES {
        return Ok(Equilibrium {
            ph: S::from(p),
            ionic_strength: S::from(i),
        });
    }
    Ok(with_slopes(ionic, &plain, p, i))
}

fn together(plain: &Plain) -> Option<(f64, f64)> {
    let start = plain.strong_strength + 0.02;
    let (mut p, strength) = at_fixed_strength(plain, start, 0.05);
    let mut i = (start - strength).max(1e-9);
    let mut last = f64::INFINITY;
    for _ in 0..40 {
        let b = balance(plain, p, i);
        let determinant = b.charge_by_p * b.strength_by_i - b.charge_by_i * b.strength_by_p;
        let dp = (b.charge_by_i * b.strength - b.charge * b.strength_by_i) / determinant;
        let di = (b.strength_by_p * b.charge - b.strength * b.charge_by_p) / determinant;
        let step = dp.abs() + di.abs() / i.max(1e-9);
        let runs_away =
            dp.is_nan() || dp.abs() > 2.0 || step > 2.0 * last || i + di <= 0.0 || i + di > 3.0;
        if runs_away {
            return None;
        }
        p += dp;
        i += di;
        // Newton squares its error: after this step less than 1e-9 is left.
        if dp.abs() < 1e-5 && di.abs() < 1e-5 * i {
            return Some((p, i));
        }
        last = step;
    }
    None
}

/// pH at a fixed ionic strength, and the residual of that there: the charge falls as pH rises, so a bracketed
/// Newton cannot miss.
fn at_fixed_strength(plain: &Plain, i: f64, tolerance: f64) -> (f64, f64) {
    let (mut low, mut high) = BRACKET;
    let mut p: f64 = 3.0;
    for _ in 0..200 {
        let b = balance(plain, p, i);
        if b.charge > 0.0 {
            low = p;
        } else {
            high = p;
        }
        let step = (-b.charge / b.charge_by_p).clamp(-1.5, 1.5);
        let next = p + step;
        if step.abs() < tolerance {
            let next = next.clamp(low, high);
            return (next, b.strength + b.strength_by_p * (next - p));
        }
        p = if next > low && next < high {
            next
        } else {
            0.5 * (low + high)
        };
    }
    (p, balance(plain, p, i).strength)
}

/// The slow and certain way: ionic strength by bisection, pH inside.
fn nested(plain: &Plain) -> Result<(f64, f64), Outside> {
    let residual = |i: f64| at_fixed_strength(plain, i, 1e-13);
    let (mut low, mut high) = (1e-12, IONIC_STRENGTH.high);
    let at_most = residual(high).1;
    if at_most.is_nan() || at_most < 0.0 {
        // At the bound the ions would come to more than the bound: to so much.
        return Err(Outside {
            range: IONIC_STRENGTH,
            given: high - at_most,
        });
    }
    for _ in 0..120 {
        let middle = 0.5 * (low + high);
        if residual(middle).1 < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    let i = 0.5 * (low + high);
    Ok((residual(i).0, i))
}

/// How the two residuals move with the inputs, at a fixed pH and ionic strength: zero in value,
/// with the slopes of every input.
pub(super) struct Moved<S> {
    pub charge: S,
    pub strength: S,
}

pub(super) fn moved<S: Scalar>(ionic: &Ionic<S>, plain: &Plain, p: f64, i: f64) -> Moved<S> {
    if !S::HAS_SLOPES {
        let (charge, strength) = (S::zero(), S::zero());
        return Moved { charge, strength };
    }
    let at = Powers::at(plain, p, i);
    // Of each acid ⟨j⟩ and ⟨j²⟩, and how they move with a shift of every pK: less is lost.
    let mut lost = [[0.0; 4]; MOST_ACIDS];
    for (lost, acid) in lost.iter_mut().zip(ionic.acids()) {
        let constants = acid.constants.each_ref().map(std::array::from_ref);
        let of = Lost::of(constants, &at.of_lost);
        let [variance, with_square, _] = of.spread(0);
        let by_shift = -LN_10 * acid.molality.value();
        *lost = [
            of.mean[0],
            of.square[0],
            by_shift * variance,
            by_shift * with_square,
        ];
    }
    let acids = || ionic.acids().iter().zip(&lost);
    let charge = acids().flat_map(|(acid, [mean, _, by_shift, _])| {
        [(acid.molality, -mean), (acid.shift, -by_shift)]
    });
    let strength = acids().flat_map(|(acid, [_, square, _, by_shift])| {
        [
            (acid.molality, -0.5 * square),
            (acid.shift, -0.5 * by_shift),
        ]
    });
    Moved {
        charge: S::chain_all(0.0, charge.chain([(ionic.strong_charge, 1.0)])),
        strength: S::chain_all(0.0, strength.chain([(ionic.strong_strength, -1.0)])),
    }
}

/// d(p, I) = −J⁻¹ F_q for every input q.
fn with_slopes<S: Scalar>(ionic: &Ionic<S>, plain: &Plain, p: f64, i: f64) -> Equilibrium<S> {
    let b = balance(plain, p, i);
    let Moved { charge, strength } = moved(ionic, plain, p, i);
    let determinant = b.charge_by_p * b.strength_by_i - b.charge_by_i * b.strength_by_p;
    let dp = (strength * b.charge_by_i - charge * b.strength_by_i) / determinant;
    let di = (charge * b.strength_by_p - strength * b.charge_by_p) / determinant;
    Equilibrium {
        ph: dp + p,
        ionic_strength: di + i,
    }
}

#[cfg(test)]
mod tests {
    use super::super::acids::ACIDS;
    use super::*;
    use crate::scalar::Sloped;
    use crate::substance::Substance;

    fn with<S: Scalar>(acids: &[(Substance, S)], strong: S, strength: S) -> Ionic<S> {
        let mut ionic = Ionic::pure_water(25.0);
        // The worked points were computed with this rounded value.
        ionic.debye_huckel = 0.509;
        for (substance, molality) in acids {
            let acid = ACIDS.iter().find(|a| a.substance == *substance).unwrap();
            ionic.add(acid.steps, *molality, S::zero(), 25.0);
        }
        ionic.strong_charge = strong;
        ionic.strong_strength = strength;
        ionic
    }

    /// models.md G7: (pH, I, dp/dlnC₁, dp/dSID).
    #[test]
    fn worked_points() {
        let cases = [
            (
                vec![(Substance::Citric, 0.05)],
                0.0,
                [2.241337, 0.006262, -0.23032, 36.9726],
            ),
            (
                vec![(Substance::Citric, 0.3)],
                0.0,
                [1.836170, 0.016601, -0.22306, 13.4511],
            ),
            (
                vec![(Substance::Tartaric, 0.0341)],
                0.0341,
                [3.553472, 0.040411, -1.23683, 34.2012],
            ),
        ];
        for (acids, strong, expected) in cases {
            let c = acids[0].1;
            let sloped: Vec<_> = acids
                .iter()
                .map(|(s, m)| (*s, Sloped::<2>::variable(*m, 0)))
                .collect();
            let charge = Sloped::<2>::variable(strong, 1);
            // The bare acid holds no strong ions; only the salt brings their strength along.
            let strength = charge * if strong > 0.0 { 0.5 } else { 0.0 };
            let found = solve(&with(&sloped, charge, strength)).unwrap();
            assert!((found.ph.value - expected[0]).abs() < 2e-6, "{found:?}");
            assert!((found.ionic_strength.value - expected[1]).abs() < 2e-6);
            assert!(
                (found.ph.slopes[0] * c - expected[2]).abs() < 2e-5,
                "{found:?}"
            );
            assert!((found.ph.slopes[1] - expected[3]).abs() < 2e-3, "{found:?}");
        }
    }

    #[test]
    fn both_ways_agree() {
        for (c, strong, salt) in [
            (0.4, 0.0, 0.0),
            (0.001, 0.0005, 0.4),
            (0.3, 0.5, 0.3),
            (0.2, 0.7, 0.0),
        ] {
            let ionic = with(&[(Substance::Citric, c)], strong, salt + strong / 2.0);
            let (p, i) = nested(&ionic.plain()).unwrap();
            let found = solve(&ionic).unwrap();
            assert!((found.ph - p).abs() < 1e-9, "{c}: {} {p}", found.ph);
            assert!((found.ionic_strength - i).abs() < 1e-9);
        }
    }
}
