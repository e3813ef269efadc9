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
use super::ionic::{Acid, Ionic, MOST_ACIDS};
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

/// Averages over the species of one acid.
#[derive(Clone, Copy)]
struct Species {
    /// The share of each species, by the protons it has lost.
    weight: [f64; MOST_STEPS + 1],
    /// ⟨j⟩, ⟨j²⟩.
    lost: f64,
    lost_squared: f64,
    /// Covariances of j with j, j² and e; of j² with e.
    var: f64,
    cov_square: f64,
    cov_e: f64,
    cov_square_e: f64,
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
    /// 10^pH.
    alkaline: f64,
    /// Activity coefficient of a neutral acid.
    neutral: f64,
    /// 1/γ of an ion of one charge, and its fourth and ninth power.
    ion: [f64; MOST_STEPS + 1],
    /// d log₁₀(1/γ) / dI of an ion of one charge.
    l_slope: f64,
}

impl Powers {
    fn at(a: f64, p: f64, i: f64) -> Self {
        let (l, l_slope) = davies(a, i);
        let one = (LN_10 * l).exp();
        let four = (one * one) * (one * one);
        Self {
            alkaline: (LN_10 * p).exp(),
            neutral: (LN_10 * NEUTRAL * i).exp(),
            ion: [1.0, one, four, four * four * one],
            l_slope,
        }
    }

    /// Protons and hydroxide, mol/kg.
    fn protons_and_hydroxide(&self, water: f64) -> (f64, f64) {
        (
            self.ion[1] / self.alkaline,
            water * self.alkaline * self.ion[1],
        )
    }
}

fn species(acid: &Acid<f64>, at: &Powers) -> Species {
    let mut weight = [1.0, 0.0, 0.0, 0.0];
    let mut total = 1.0;
    let mut power = at.neutral;
    for step in 0..MOST_STEPS.min(acid.steps) {
        power *= at.alkaline;
        weight[step + 1] = acid.constants[step] * power * at.ion[step + 1];
        total += weight[step + 1];
    }
    // ⟨j⟩, ⟨j²⟩, ⟨j³⟩, ⟨j⁴⟩, and the share that has lost any.
    let (mut j1, mut j2, mut j3, mut j4, mut any) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for (w, n) in weight.iter_mut().zip([0.0, 1.0, 2.0, 3.0]) {
        *w /= total;
        let (n1, n2) = (*w * n, *w * n * n);
        any += if n > 0.0 { *w } else { 0.0 };
        j1 += n1;
        j2 += n2;
        j3 += n2 * n;
        j4 += n2 * n * n;
    }
    // e = ln 10 (0.1 + j² L′) of a species that has lost any.
    let (neutral, ion) = (LN_10 * NEUTRAL, LN_10 * at.l_slope);
    let e1 = neutral * any + ion * j2;
    let (je, j2e) = (neutral * j1 + ion * j3, neutral * j2 + ion * j4);
    Species {
        weight,
        lost: j1,
        lost_squared: j2,
        var: j2 - j1 * j1,
        cov_square: j3 - j2 * j1,
        cov_e: je - j1 * e1,
        cov_square_e: j2e - j2 * e1,
    }
}

impl Species {
    /// Slopes of ⟨j⟩ and ⟨j²⟩ in a shift of every pK: a higher one of step k makes every species past it rarer.
    fn by_shift(&self) -> (f64, f64) {
        let mut by_shift = (0.0, 0.0);
        let (mut tail, mut tail_j, mut tail_j2) = (0.0, 0.0, 0.0);
        for (w, n) in self.weight.iter().zip([0.0, 1.0, 2.0, 3.0]).skip(1).rev() {
            tail += w;
            tail_j += w * n;
            tail_j2 += w * n * n;
            by_shift.0 -= LN_10 * (tail_j - tail * self.lost);
            by_shift.1 -= LN_10 * (tail_j2 - tail * self.lost_squared);
        }
        by_shift
    }
}

pub(super) fn balance(ionic: &Ionic<f64>, p: f64, i: f64) -> Balance {
    let at = Powers::at(ionic.debye_huckel, p, i);
    let (protons, hydroxide) = at.protons_and_hydroxide(ionic.water_constant);
    let mut b = Balance {
        charge: protons - hydroxide + ionic.strong_charge,
        charge_by_p: -LN_10 * (protons + hydroxide),
        charge_by_i: LN_10 * at.l_slope * (protons - hydroxide),
        strength: i - 0.5 * (protons + hydroxide) - ionic.strong_strength,
        strength_by_p: -0.5 * LN_10 * (hydroxide - protons),
        strength_by_i: 1.0 - 0.5 * LN_10 * at.l_slope * (protons + hydroxide),
    };
    for acid in ionic.acids() {
        let s = species(acid, &at);
        let c = acid.molality;
        b.charge -= c * s.lost;
        b.charge_by_p -= LN_10 * c * s.var;
        b.charge_by_i -= c * s.cov_e;
        b.strength -= 0.5 * c * s.lost_squared;
        b.strength_by_p -= 0.5 * LN_10 * c * s.cov_square;
        b.strength_by_i -= 0.5 * c * s.cov_square_e;
    }
    b
}

/// pH and ionic strength.
///
/// Newton in both unknowns from a bracketed start; where a step runs away, the nested solve (pH
/// inside, ionic strength outside) takes over. Slopes come from the solved balance.
///
/// # Errors
/// [`Outside`] for an ionic strength above 3 mol/kg, and for numbers that are none.
pub fn solve<S: Scalar>(ionic: &Ionic<S>) -> Result<Equilibrium<S>, Outside> {
    let plain = ionic.values();
    let (p, i) = match together(&plain) {
        Some(found) => found,
        None => nested(&plain)?,
    };
    IONIC_STRENGTH.check(i)?;
    Ok(with_slopes(ionic, &plain, p, i))
}

fn together(ionic: &Ionic<f64>) -> Option<(f64, f64)> {
    let mut i = ionic.strong_strength + 0.02;
    let mut p = at_fixed_strength(ionic, i, 0.05);
    i = (i - balance(ionic, p, i).strength).max(1e-9);
    let mut last = f64::INFINITY;
    for _ in 0..40 {
        let b = balance(ionic, p, i);
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
        if dp.abs() < 1e-12 && di.abs() < 1e-12 {
            return Some((p, i));
        }
        last = step;
    }
    None
}

/// pH at a fixed ionic strength: the charge falls as pH rises, so a bracketed Newton cannot miss.
fn at_fixed_strength(ionic: &Ionic<f64>, i: f64, tolerance: f64) -> f64 {
    let (mut low, mut high) = BRACKET;
    let mut p: f64 = 3.0;
    for _ in 0..200 {
        let b = balance(ionic, p, i);
        if b.charge > 0.0 {
            low = p;
        } else {
            high = p;
        }
        let step = (-b.charge / b.charge_by_p).clamp(-1.5, 1.5);
        let next = p + step;
        if step.abs() < tolerance {
            return next.clamp(low, high);
        }
        p = if next > low && next < high {
            next
        } else {
            0.5 * (low + high)
        };
    }
    p
}

/// The slow and certain way: ionic strength by bisection, pH inside.
fn nested(ionic: &Ionic<f64>) -> Result<(f64, f64), Outside> {
    let residual = |i: f64| {
        let p = at_fixed_strength(ionic, i, 1e-13);
        (p, balance(ionic, p, i).strength)
    };
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

pub(super) fn moved<S: Scalar>(ionic: &Ionic<S>, plain: &Ionic<f64>, p: f64, i: f64) -> Moved<S> {
    if !S::HAS_SLOPES {
        let (charge, strength) = (S::zero(), S::zero());
        return Moved { charge, strength };
    }
    let at = Powers::at(plain.debye_huckel, p, i);
    let species: [Option<Species>; MOST_ACIDS] =
        std::array::from_fn(|acid| plain.acids().get(acid).map(|acid| species(acid, &at)));
    let acids = || ionic.acids().iter().zip(species.iter().flatten());
    let charge = acids().flat_map(|(acid, s)| {
        let by_shift = acid.molality.value() * s.by_shift().0;
        [(acid.molality, -s.lost), (acid.shift, -by_shift)]
    });
    let strength = acids().flat_map(|(acid, s)| {
        let by_shift = acid.molality.value() * s.by_shift().1;
        [
            (acid.molality, -0.5 * s.lost_squared),
            (acid.shift, -0.5 * by_shift),
        ]
    });
    Moved {
        charge: S::chain_all(0.0, charge.chain([(ionic.strong_charge, 1.0)])),
        strength: S::chain_all(0.0, strength.chain([(ionic.strong_strength, -1.0)])),
    }
}

/// d(p, I) = −J⁻¹ F_q for every input q.
fn with_slopes<S: Scalar>(ionic: &Ionic<S>, plain: &Ionic<f64>, p: f64, i: f64) -> Equilibrium<S> {
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
            let (p, i) = nested(&ionic).unwrap();
            let found = solve(&ionic).unwrap();
            assert!((found.ph - p).abs() < 1e-9, "{c}: {} {p}", found.ph);
            assert!((found.ionic_strength - i).abs() < 1e-9);
        }
    }
}
