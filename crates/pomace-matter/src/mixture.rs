//! A mixture: grams of each substance.

use std::ops::{Add, AddAssign, Mul};

use crate::scalar::Scalar;
use crate::substance::{Kind, Substance};
use crate::units::Grams;

/// Grams of each substance, and the charge of strong ions that are known only by their effect.
///
/// A juice of known acids and known pH holds strong ions that no table lists; their charge is
/// carried in [`Mixture::unlisted_charge`] so that it mixes like matter does.
///
/// ```
/// use pomace_matter::{Mixture, Substance, units::Grams};
/// let syrup = Mixture::of(&[(Substance::Water, Grams(50.0)), (Substance::Sucrose, Grams(50.0))]);
/// assert_eq!(syrup.total().0, 100.0);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mixture<S = f64> {
    grams: [S; Substance::COUNT],
    /// Moles of positive charge beyond the listed ions.
    pub unlisted_charge: S,
}

impl<S: Scalar> Default for Mixture<S> {
    fn default() -> Self {
        Self {
            grams: [S::zero(); Substance::COUNT],
            unlisted_charge: S::zero(),
        }
    }
}

impl<S: Scalar> Mixture<S> {
    /// A mixture of the given substances.
    #[must_use]
    pub fn of(parts: &[(Substance, Grams<S>)]) -> Self {
        let mut mixture = Self::default();
        for (substance, grams) in parts {
            mixture.grams[*substance as usize] += grams.0;
        }
        mixture
    }

    /// Grams of one substance.
    #[inline(always)]
    #[must_use]
    pub fn grams(&self, substance: Substance) -> S {
        self.grams[substance as usize]
    }

    /// Moles of one substance.
    #[must_use]
    pub fn moles(&self, substance: Substance) -> S {
        self.grams(substance) / substance.molar_mass()
    }

    /// Sets the grams of one substance.
    pub fn set(&mut self, substance: Substance, grams: S) {
        self.grams[substance as usize] = grams;
    }

    /// Adds grams of one substance; a negative number takes away.
    pub fn put(&mut self, substance: Substance, grams: S) {
        self.grams[substance as usize] += grams;
    }

    /// Every substance with its grams.
    pub fn iter(&self) -> impl Iterator<Item = (Substance, S)> + '_ {
        Substance::ALL.into_iter().zip(self.grams)
    }

    /// The whole mass.
    #[must_use]
    pub fn total(&self) -> Grams<S> {
        Grams(self.sum(|_| true))
    }

    /// Sum of the masses of the substances that `which` picks.
    #[must_use]
    pub fn sum(&self, which: impl Fn(Substance) -> bool) -> S {
        let mut total = S::zero();
        for (substance, grams) in self.iter() {
            if which(substance) {
                total += grams;
            }
        }
        total
    }

    /// Grams of all sugars.
    #[must_use]
    pub fn sugars(&self) -> S {
        self.sum(|s| s.kind() == Kind::Sugar)
    }

    /// Grams of all acids.
    #[must_use]
    pub fn acids(&self) -> S {
        self.sum(|s| s.kind() == Kind::Acid)
    }

    /// The part that `which` picks; the unlisted charge goes with `charge`.
    #[must_use]
    pub fn only(&self, which: impl Fn(Substance) -> bool, charge: bool) -> Self {
        let mut part = Self::default();
        for (substance, grams) in self.iter() {
            if which(substance) {
                part.set(substance, grams);
            }
        }
        if charge {
            part.unlisted_charge = self.unlisted_charge;
        }
        part
    }

    /// What is left when `part` is taken away.
    #[must_use]
    pub fn without(&self, part: &Self) -> Self {
        let mut rest = *self;
        for (substance, grams) in part.iter() {
            rest.grams[substance as usize] -= grams;
        }
        rest.unlisted_charge -= part.unlisted_charge;
        rest
    }

    /// Charge of all strong ions, moles: listed ions and [`Mixture::unlisted_charge`].
    ///
    /// Positive where cations outweigh chloride, as in every juice.
    #[must_use]
    pub fn strong_ion_charge(&self) -> S {
        use Substance::{Calcium, Chloride, Magnesium, Potassium, Sodium};
        let mut charge = self.unlisted_charge;
        for ion in [Sodium, Potassium, Calcium, Magnesium, Chloride] {
            charge += self.moles(ion) * ion.charge();
        }
        charge
    }

    /// The mixture without slopes.
    #[must_use]
    pub fn values(&self) -> Mixture<f64> {
        Mixture {
            grams: self.grams.map(Scalar::value),
            unlisted_charge: self.unlisted_charge.value(),
        }
    }
}

impl Mixture<f64> {
    /// The same mixture in another number type, as constants.
    #[must_use]
    pub fn lift<S: Scalar>(&self) -> Mixture<S> {
        Mixture {
            grams: self.grams.map(S::from),
            unlisted_charge: S::from(self.unlisted_charge),
        }
    }

    /// Whether every number is finite and no mass is below zero.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        self.unlisted_charge.is_finite() && self.grams.iter().all(|g| g.is_finite() && *g >= 0.0)
    }
}

impl<S: Scalar> AddAssign for Mixture<S> {
    fn add_assign(&mut self, other: Self) {
        for (mine, theirs) in self.grams.iter_mut().zip(other.grams) {
            *mine += theirs;
        }
        self.unlisted_charge += other.unlisted_charge;
    }
}

impl<S: Scalar> Add for Mixture<S> {
    type Output = Self;
    fn add(mut self, other: Self) -> Self {
        self += other;
        self
    }
}

impl<S: Scalar> Mul<S> for Mixture<S> {
    type Output = Self;
    fn mul(mut self, factor: S) -> Self {
        for grams in &mut self.grams {
            *grams = *grams * factor;
        }
        self.unlisted_charge = self.unlisted_charge * factor;
        self
    }
}
