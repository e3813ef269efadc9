//! What is dissolved, counted once; the water may then vary.
//!
//! Melting ice changes nothing but the water: the counts here stay, and [`Solutes::in_water`] is a
//! handful of divisions.

use super::ethanol::EthanolTerm;
use super::molecules::Molecules;
use super::salts::Ions;
use super::{Activity, SALTING_OUT, WATER_KG_PER_MOL};
use crate::mixture::Mixture;
use crate::range::{ETHANOL_MOLALITY, Outside, WATER_SHARE};
use crate::scalar::Scalar;
use crate::substance::{Set, Substance};

/// Everything dissolved in a liquid that moves the activity of its water.
#[derive(Clone, Copy, Debug)]
pub struct Solutes<S> {
    /// Grams of all that is dissolved, without the water.
    grams: f64,
    /// Moles of ethanol.
    ethanol: S,
    molecules: Molecules<S>,
    ions: Ions<S>,
}

impl<S: Scalar> Solutes<S> {
    /// Counts a liquid. Particles, protein and unnamed matter have mass, but move nothing.
    #[must_use]
    pub fn of(liquid: &Mixture<S>) -> Self {
        Self {
            grams: liquid
                .weight_of(Set::SOLUBLE.without(Set::of(Substance::Water)))
                .0,
            ethanol: liquid.moles(Substance::Ethanol),
            molecules: Molecules::of(liquid),
            ions: Ions::of(liquid),
        }
    }

    /// In so many grams of water.
    ///
    /// # Errors
    /// [`Outside`] where water is less than 30 % of what is dissolved and itself, ethanol beyond
    /// 68 % of water and ethanol by mass, or ions beyond 27 % of water and ions.
    pub fn in_water(&self, water: S) -> Result<Activity<S>, Outside> {
        let share = water.value() / (water.value() + self.grams);
        WATER_SHARE.check(share * 100.0)?;
        let kilograms = water / 1000.0;
        let ethanol = ETHANOL_MOLALITY.check(self.ethanol / kilograms)?;
        let salts = self.ions.in_water(kilograms)?;
        let mut others = self.molecules.for_salting_out() / kilograms;
        if let Some(salts) = &salts {
            others += salts.molality() * 1.5;
        }
        Ok(Activity {
            ethanol: EthanolTerm::new(ethanol),
            molecules: self
                .molecules
                .in_water(water / Substance::Water.molar_mass()),
            salts,
            cross: ethanol * others * (-2.0 * WATER_KG_PER_MOL * SALTING_OUT),
        })
    }

    /// The same counts in another number type.
    #[must_use]
    pub fn convert<T: Scalar>(&self, with: impl Fn(S) -> T + Copy) -> Solutes<T> {
        Solutes {
            grams: self.grams,
            ethanol: with(self.ethanol),
            molecules: self.molecules.convert(with),
            ions: self.ions.convert(with),
        }
    }
}
