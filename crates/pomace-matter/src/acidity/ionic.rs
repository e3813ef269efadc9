//! What the charge balance needs to know of a liquid.

use std::f64::consts::LN_10;

use super::acids::{ACIDS, MOST_STEPS, Step, WATER, debye_huckel};
use crate::scalar::Scalar;

/// How many acids a liquid can hold here: those of the table and one more for buffers.
pub(super) const MOST_ACIDS: usize = ACIDS.len() + 1;

/// A weak acid in a liquid.
#[derive(Clone, Copy, Debug, Default)]
pub struct Acid<S> {
    /// Total molality, mol per kg of water.
    pub molality: S,
    /// What the solvent adds to the pK of every step.
    pub shift: S,
    /// Product of the constants up to each step, 10^−Σ pK, the shift included.
    pub(super) constants: [f64; MOST_STEPS],
}

/// Acids, strong ions and constants of a liquid, per kilogram of its water.
#[derive(Clone, Copy, Debug)]
pub struct Ionic<S> {
    acids: [Acid<S>; MOST_ACIDS],
    count: usize,
    /// Strong cations less strong anions, mol of charge per kg of water.
    pub strong_charge: S,
    /// Ionic strength of the strong ions alone, mol per kg of water.
    pub strong_strength: S,
    /// Debye–Hückel constant A.
    pub debye_huckel: f64,
    /// Ion product of water, (mol/kg)².
    pub water_constant: f64,
}

impl<S: Scalar> Ionic<S> {
    /// Water with nothing in it, `t` in °C.
    #[must_use]
    pub fn pure_water(t: f64) -> Self {
        Self {
            acids: [Acid::default(); MOST_ACIDS],
            count: 0,
            strong_charge: S::zero(),
            strong_strength: S::zero(),
            debye_huckel: debye_huckel(t),
            water_constant: (-LN_10 * WATER.at(t)).exp(),
        }
    }

    /// Adds an acid: its steps, its molality, what to add to every pK, `t` in °C.
    ///
    /// An acid past the last place is left out.
    pub fn add(&mut self, steps: &[Step], molality: S, shift: S, t: f64) {
        self.put(
            products(steps, t),
            molality,
            shift,
            (-LN_10 * shift.value()).exp(),
        );
    }

    /// Adds an acid by the products of its constants; the shift makes each of them so many times what it is.
    pub(super) fn put(&mut self, constants: [f64; MOST_STEPS], molality: S, shift: S, times: f64) {
        if let Some(place) = self.acids.get_mut(self.count) {
            let [one, two, three] = constants;
            *place = Acid {
                molality,
                shift,
                constants: [
                    one * times,
                    two * times * times,
                    three * times * times * times,
                ],
            };
            self.count += 1;
        }
    }

    /// The acids present.
    #[must_use]
    pub fn acids(&self) -> &[Acid<S>] {
        &self.acids[..self.count]
    }

    /// The bare numbers, side by side.
    pub(super) fn plain(&self) -> Plain {
        let mut plain = Plain {
            molality: [0.0; ABREAST],
            constants: [[0.0; ABREAST]; MOST_STEPS],
            count: self.count,
            strong_charge: self.strong_charge.value(),
            strong_strength: self.strong_strength.value(),
            debye_huckel: self.debye_huckel,
            water_constant: self.water_constant,
        };
        for (place, acid) in self.acids().iter().enumerate() {
            plain.molality[place] = acid.molality.value();
            for (all, own) in plain.constants.iter_mut().zip(acid.constants) {
                all[place] = own;
            }
        }
        plain
    }
}

/// Products of the constants up to each step, 10^−Σ pK, `t` in °C; none past the last.
pub(super) fn products(steps: &[Step], t: f64) -> [f64; MOST_STEPS] {
    let mut products = [0.0; MOST_STEPS];
    let mut sum = 0.0;
    for (product, step) in products.iter_mut().zip(steps) {
        sum += step.at(t);
        *product = (-LN_10 * sum).exp();
    }
    products
}

/// So many acids are worked out at once.
pub(super) const LANES: usize = 2;

/// Places for all acids, whole lanes.
const ABREAST: usize = MOST_ACIDS.next_multiple_of(LANES);

/// [`Ionic`] without slopes, its acids side by side.
pub(super) struct Plain {
    molality: [f64; ABREAST],
    /// As [`Acid::constants`], by step.
    constants: [[f64; ABREAST]; MOST_STEPS],
    count: usize,
    pub strong_charge: f64,
    pub strong_strength: f64,
    pub debye_huckel: f64,
    pub water_constant: f64,
}

impl Plain {
    /// Molalities and constants of so many acids at once; places without an acid have none of either.
    #[inline]
    pub(super) fn abreast(
        &self,
    ) -> impl Iterator<Item = (&[f64; LANES], [&[f64; LANES]; MOST_STEPS])> {
        let [one, two, three] = self.constants.each_ref().map(|step| step.as_chunks().0);
        let all = self
            .molality
            .as_chunks()
            .0
            .iter()
            .zip(one)
            .zip(two)
            .zip(three);
        all.map(|(((molality, one), two), three)| (molality, [one, two, three]))
            .take(self.count.div_ceil(LANES))
    }
}
