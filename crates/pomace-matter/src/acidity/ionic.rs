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
    /// Number of steps.
    pub steps: usize,
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
    /// An acid past the last place, or of no amount, is left out.
    pub fn add(&mut self, steps: &[Step], molality: S, shift: S, t: f64) {
        if let Some(place) = self.acids.get_mut(self.count) {
            *place = Acid {
                molality,
                shift,
                steps: steps.len().min(MOST_STEPS),
                ..Acid::default()
            };
            let mut sum = 0.0;
            for (constant, step) in place.constants.iter_mut().zip(steps) {
                sum += shift.value() + step.at(t);
                *constant = (-LN_10 * sum).exp();
            }
            self.count += 1;
        }
    }

    /// The acids present.
    #[must_use]
    pub fn acids(&self) -> &[Acid<S>] {
        &self.acids[..self.count]
    }

    /// The same without slopes.
    #[must_use]
    pub fn values(&self) -> Ionic<f64> {
        let mut plain = Ionic::<f64> {
            acids: [Acid::default(); MOST_ACIDS],
            count: self.count,
            strong_charge: self.strong_charge.value(),
            strong_strength: self.strong_strength.value(),
            debye_huckel: self.debye_huckel,
            water_constant: self.water_constant,
        };
        for (mine, theirs) in plain.acids.iter_mut().zip(self.acids()) {
            *mine = Acid {
                molality: theirs.molality.value(),
                shift: theirs.shift.value(),
                steps: theirs.steps,
                constants: theirs.constants,
            };
        }
        plain
    }
}
