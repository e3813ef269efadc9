//! Refractive index, and what a refractometer therefore shows.
//!
//! Every substance bends light by an amount of its own per gram (its *specific refraction*); the
//! sum over a liquid, times its density, gives the Lorentz–Lorenz term of its index (models.md
//! A3). Water and ethanol do not add: the pair has a specific refraction of its own. Particles do
//! not refract.

pub mod brix;
pub mod specific;

use crate::density;
use crate::mixture::Mixture;
use crate::range::Outside;
use crate::scalar::Scalar;
use crate::substance::Substance;
use crate::units::Celsius;

/// Refractive index of the clear liquid at the sodium D line and 20 °C.
///
/// (n² − 1)/(n² + 2) = ρ/1000 · [ (w + e) r(p) + Σ mⱼ rⱼ(s) ] / m, with the density of this crate.
/// Accuracy: `tests/reference/MANIFEST.csv` for solutions of one substance and for ethanol and
/// water; mixtures of ethanol *and* solids are unvalidated.
///
/// # Errors
/// As [`density::volume`].
pub fn index<S: Scalar>(liquid: &Mixture<S>) -> Result<S, Outside> {
    let makeup = density::Makeup::of(liquid);
    let volume = density::volume_of(&makeup, Celsius(S::from(20.0)))?.0;
    Ok(index_in(&makeup, volume))
}

/// [`index`] of a liquid whose volume at 20 °C is known, mL.
pub(crate) fn index_in<S: Scalar>(makeup: &density::Makeup<'_, S>, volume: S) -> S {
    let (liquid, solvent) = (makeup.liquid, makeup.solvent);
    let ethanol = liquid.grams(Substance::Ethanol);
    let mut refraction = S::zero();
    if solvent.value() > 0.0 {
        refraction += solvent * specific::ethanol_water(ethanol / solvent);
    }
    refraction += specific::of_all(liquid, makeup.solids, makeup.ions);
    // Particles take room, and do not refract.
    index_from(refraction / (volume - density::room_of_particles(liquid)))
}

/// The index whose Lorentz–Lorenz term is `l`.
fn index_from<S: Scalar>(l: S) -> S {
    ((l * 2.0 + 1.0) / (-l + 1.0)).sqrt()
}
