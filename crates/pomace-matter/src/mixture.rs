//! A mixture: grams of each substance.

use std::ops::{Add, AddAssign, Mul};

use crate::scalar::Scalar;
use crate::substance::{Set, Substance};
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
#[derive(Clone, Copy, Debug)]
pub struct Mixture<S = f64> {
    grams: [S; Substance::COUNT],
    /// One bit for each substance that was ever put in: a drink holds a dozen of thirty, and sums
    /// with slopes are dear.
    present: u32,
    /// Moles of positive charge beyond the listed ions.
    pub unlisted_charge: S,
}

const _: () = assert!(Substance::COUNT <= u32::BITS as usize);

/// The substances of a set of bits, in the order of the tables.
#[derive(Clone)]
struct Present(u32);

impl Iterator for Present {
    type Item = Substance;

    #[inline(always)]
    fn next(&mut self) -> Option<Substance> {
        let index = self.0.trailing_zeros() as usize;
        self.0 &= self.0.wrapping_sub(1);
        Substance::ALL.get(index).copied()
    }
}

impl<S: Scalar> PartialEq for Mixture<S> {
    fn eq(&self, other: &Self) -> bool {
        self.grams == other.grams && self.unlisted_charge == other.unlisted_charge
    }
}

impl<S: Scalar> Default for Mixture<S> {
    fn default() -> Self {
        Self {
            grams: [S::zero(); Substance::COUNT],
            present: 0,
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
            mixture.put(*substance, grams.0);
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
    #[inline]
    pub fn set(&mut self, substance: Substance, grams: S) {
        self.present |= 1 << substance as u32;
        self.grams[substance as usize] = grams;
    }

    /// Adds grams of one substance; a negative number takes away.
    #[inline]
    pub fn put(&mut self, substance: Substance, grams: S) {
        self.present |= 1 << substance as u32;
        self.grams[substance as usize] += grams;
    }

    /// Every substance that was put in, with its grams, which may be zero.
    #[inline]
    pub fn iter(&self) -> impl Iterator<Item = (Substance, S)> + Clone + '_ {
        Present(self.present).map(|s| (s, self.grams[s as usize]))
    }

    /// Those of a set that were put in, as [`Mixture::iter`].
    #[inline]
    pub fn part(&self, set: Set) -> impl Iterator<Item = (Substance, S)> + Clone + '_ {
        Present(self.present & set.0).map(|s| (s, self.grams[s as usize]))
    }

    /// Whether any substance of a set was ever put in.
    #[must_use]
    pub const fn has(&self, set: Set) -> bool {
        self.present & set.0 != 0
    }

    /// Whether nothing was ever put in.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.present == 0
    }

    /// The whole mass.
    #[must_use]
    pub fn total(&self) -> Grams<S> {
        Grams(self.sum(Set::ALL))
    }

    /// The whole mass without its slopes.
    #[must_use]
    pub fn weight(&self) -> Grams {
        self.weight_of(Set::ALL)
    }

    /// The mass of the substances of a set without its slopes.
    #[must_use]
    pub fn weight_of(&self, set: Set) -> Grams {
        Grams(self.part(set).map(|(_, grams)| grams.value()).sum())
    }

    /// Sum of the masses of the substances of a set.
    #[must_use]
    pub fn sum(&self, set: Set) -> S {
        if !self.has(set) {
            return S::zero();
        }
        let present = Present(self.present & set.0);
        S::linear(present.map(|s| (self.grams[s as usize], 1.0)))
    }

    /// Grams of all sugars.
    #[must_use]
    pub fn sugars(&self) -> S {
        self.sum(Set::SUGARS)
    }

    /// Grams of all acids.
    #[must_use]
    pub fn acids(&self) -> S {
        self.sum(Set::ACIDS)
    }

    /// Adds so many times another mixture.
    pub fn put_times(&mut self, other: &Self, times: S) {
        let which = Present(other.present).map(|substance| substance as usize);
        S::add_times(&mut self.grams, &other.grams, times, which);
        self.present |= other.present;
        self.unlisted_charge += other.unlisted_charge * times;
    }

    /// Adds so many times the substances of a set that are in a plain mixture, and its unlisted charge.
    pub fn put_times_of(&mut self, other: &Mixture, set: Set, times: S) {
        let present = other.present & set.0;
        let which = Present(present).map(|substance| substance as usize);
        S::add_plain(&mut self.grams, &other.grams, times, which);
        self.present |= present;
        if other.unlisted_charge != 0.0 {
            self.unlisted_charge += times * other.unlisted_charge;
        }
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
        let which = Present(part.present).map(|substance| substance as usize);
        S::add_part(&mut rest.grams, &part.grams, -1.0, which);
        rest.present |= part.present;
        rest.unlisted_charge -= part.unlisted_charge;
        rest
    }

    /// Charge of all strong ions, moles: listed ions and [`Mixture::unlisted_charge`].
    ///
    /// Positive where cations outweigh chloride, as in every juice.
    #[must_use]
    pub fn strong_ion_charge(&self) -> S {
        use Substance::{Calcium, Chloride, Magnesium, Potassium, Sodium};
        let ions = [Sodium, Potassium, Calcium, Magnesium, Chloride];
        let listed = ions.map(|ion| (self.grams(ion), ion.charge() / ion.molar_mass()));
        S::linear(listed.into_iter().chain([(self.unlisted_charge, 1.0)]))
    }

    /// The mixture without slopes.
    #[must_use]
    pub fn values(&self) -> Mixture<f64> {
        self.convert(Scalar::value)
    }

    /// The same mixture in another number type.
    #[must_use]
    pub fn convert<T: Scalar>(&self, mut with: impl FnMut(S) -> T) -> Mixture<T> {
        let mut other = Mixture::<T>::default();
        for (substance, grams) in self.iter() {
            other.grams[substance as usize] = with(grams);
        }
        other.present = self.present;
        other.unlisted_charge = with(self.unlisted_charge);
        other
    }
}

impl Mixture<f64> {
    /// The same mixture in another number type, as constants.
    #[must_use]
    pub fn lift<S: Scalar>(&self) -> Mixture<S> {
        self.convert(S::from)
    }

    /// Whether every number is finite and no mass is below zero.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        self.unlisted_charge.is_finite() && self.iter().all(|(_, g)| g.is_finite() && g >= 0.0)
    }
}

impl<S: Scalar> AddAssign for Mixture<S> {
    fn add_assign(&mut self, other: Self) {
        *self += &other;
    }
}

impl<S: Scalar> AddAssign<&Self> for Mixture<S> {
    fn add_assign(&mut self, other: &Self) {
        let which = Present(other.present).map(|substance| substance as usize);
        S::add_part(&mut self.grams, &other.grams, 1.0, which);
        self.present |= other.present;
        self.unlisted_charge += other.unlisted_charge;
    }
}

impl<S: Scalar> Add for Mixture<S> {
    type Output = Self;
    fn add(mut self, other: Self) -> Self {
        self += &other;
        self
    }
}

impl<S: Scalar> Mul<S> for Mixture<S> {
    type Output = Self;
    fn mul(mut self, factor: S) -> Self {
        let which = Present(self.present).map(|substance| substance as usize);
        S::scale(&mut self.grams, factor, which);
        self.unlisted_charge = self.unlisted_charge * factor;
        self
    }
}
