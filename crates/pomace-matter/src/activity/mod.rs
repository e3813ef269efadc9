//! Activity of water, and where the liquid freezes: one model.
//!
//! Three terms add up in ln a_w: [`ethanol`], dissolved [`molecules`] and [`salts`]; a small cross
//! term holds for ethanol that sugar and salt push out. The liquid freezes where the sum meets the
//! [`ice_line`] ([`freezing`]).

pub mod freezing;
pub mod ice_line;

mod ethanol;
mod molecules;
mod salts;
mod solutes;

pub use solutes::Solutes;

use ethanol::EthanolTerm;
use molecules::MoleculeTerm;
use salts::SaltTerm;

use crate::mixture::Mixture;
use crate::range::{ACTIVITY_TEMPERATURE, Outside};
use crate::scalar::Scalar;
use crate::substance::Substance;
use crate::units::{Celsius, ICE_POINT_KELVIN};

/// Molar mass of water, kg/mol.
pub(crate) const WATER_KG_PER_MOL: f64 = Substance::Water.molar_mass() / 1000.0;

/// Salting-out of ethanol, kg/mol: an estimate, 0.03 ± 0.04 (models.md B3).
const SALTING_OUT: f64 = 0.03;

/// All of a liquid that moves the activity of its water, ready for any temperature.
#[derive(Clone, Copy, Debug)]
pub struct Activity<S> {
    ethanol: Option<EthanolTerm<S>>,
    molecules: Option<MoleculeTerm<S>>,
    salts: Option<SaltTerm<S>>,
    cross: S,
}

impl<S: Scalar> Activity<S> {
    /// Reads a liquid. Particles, fat, protein and unnamed matter do not count.
    ///
    /// # Errors
    /// As [`Solutes::in_water`].
    pub fn of(liquid: &Mixture<S>) -> Result<Self, Outside> {
        Solutes::of(liquid).in_water(liquid.grams(Substance::Water))
    }

    /// ln a_w at a temperature in kelvins.
    #[must_use]
    pub fn ln_activity(&self, kelvin: S) -> S {
        let mut sum = self.cross;
        if let Some(ethanol) = &self.ethanol {
            sum += ethanol.ln_activity(kelvin);
        }
        if let Some(molecules) = &self.molecules {
            sum += molecules.ln_activity(kelvin);
        }
        if let Some(salts) = &self.salts {
            sum += salts.ln_activity(kelvin);
        }
        sum
    }

    /// The same terms in another number type.
    #[must_use]
    pub fn convert<T: Scalar>(&self, with: impl Fn(S) -> T + Copy) -> Activity<T> {
        Activity {
            ethanol: self.ethanol.map(|t| t.convert(with)),
            molecules: self.molecules.map(|t| t.convert(with)),
            salts: self.salts.map(|t| t.convert(with)),
            cross: with(self.cross),
        }
    }
}

/// Water activity of a liquid.
///
/// Accuracy: `tests/reference/water_activity.csv` for solutions of one substance; mixtures of
/// ethanol *and* solids are unvalidated.
///
/// # Errors
/// As [`Activity::of`], and [`Outside`] for a temperature beyond −58…60 °C.
pub fn water_activity<S: Scalar>(
    liquid: &Mixture<S>,
    temperature: Celsius<S>,
) -> Result<S, Outside> {
    let t = ACTIVITY_TEMPERATURE.check(temperature.0)?;
    Ok(Activity::of(liquid)?
        .ln_activity(t + ICE_POINT_KELVIN)
        .exp())
}
