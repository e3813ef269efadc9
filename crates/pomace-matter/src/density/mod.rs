//! Density of a drink, its volume and its strength.
//!
//! A drink is water and ethanol, whose density is known to the gram ([`ethanol_water`]), and
//! dissolved solids, each of which takes up a *room of its own* ([`apparent_volume`]): so many
//! cubic centimetres per gram, depending a little on how crowded the liquid is and on the
//! temperature. The volumes of solvent and solids are added (models.md A2).

mod apparent_volume;
pub mod ethanol_water;
mod makeup;
pub mod sucrose_water;

pub(crate) use apparent_volume::{carried_to, of_particles as room_of_particles, top_of_data};

use crate::mixture::Mixture;
use crate::range::{
    DENSITY_TEMPERATURE, DENSITY_TEMPERATURE_DRY, IONS_SHARE, LIQUID_DENSITY, MASS, Outside,
    SOLIDS_SHARE,
};
use crate::scalar::{Formula, Scalar, joined};
use crate::substance::{Kind, Set, Substance};
use crate::units::{Celsius, KilogramsPerCubicMetre, Millilitres, VolumePercent};

pub use ethanol_water::PURE_ETHANOL_20C;
pub(crate) use makeup::Makeup;

/// The temperature at which volumes and strengths are stated.
pub const STANDARD_TEMPERATURE: Celsius = Celsius(20.0);

/// Density of water at 20 °C, kg/m³ (OIML R 22).
pub const WATER_20C: f64 = 998.20;

/// Mass share of dissolved solids in the liquid: all but water, ethanol, gas and particles.
#[must_use]
pub fn solids_share<S: Scalar>(liquid: &Mixture<S>) -> S {
    liquid.sum(Set::DISSOLVED) / liquid.sum(Set::SOLUBLE)
}

/// Volume of a liquid with all that is dissolved or suspended in it, in millilitres.
///
/// v = (w + e)/ρ(p, t) + Σ mⱼ φⱼ(s, t): `w`, `e` grams of water and ethanol, ρ the density of
/// their mixture, φ the apparent specific volume of a solid at solids share `s`.
///
/// Valid for −20…40 °C, without ethanol to 80 °C, solids to 86 % of the mass ([`solids_share`] may
/// be 1 where they are glycerol, lactic or acetic acid, which are liquids themselves) and ions to 27 %
/// of water and ions. Accuracy: `tests/reference/MANIFEST.csv` and `MANIFEST-own.csv` for solutions
/// of one substance; mixtures of ethanol *and* solids are unvalidated.
///
/// # Errors
/// [`Outside`] for an empty mixture, a temperature, a solids share or an ions share out of range, and
/// for a sum of rooms that no liquid has.
pub fn volume<S: Scalar>(
    liquid: &Mixture<S>,
    temperature: Celsius<S>,
) -> Result<Millilitres<S>, Outside> {
    volume_of(&Makeup::of(liquid), temperature)
}

/// [`volume`] of a liquid whose makeup is counted.
pub(crate) fn volume_of<S: Scalar>(
    makeup: &Makeup<'_, S>,
    temperature: Celsius<S>,
) -> Result<Millilitres<S>, Outside> {
    let liquid = makeup.liquid;
    let total = MASS.check(makeup.total.value())?;
    let water = liquid.grams(Substance::Water);
    let ethanol = liquid.grams(Substance::Ethanol);
    let t = if ethanol.value() > 0.0 {
        &DENSITY_TEMPERATURE
    } else {
        &DENSITY_TEMPERATURE_DRY
    }
    .check(temperature.0)?;
    let mut millilitres = S::zero();
    if makeup.solvent.value() > 0.0 {
        let sucrose = liquid.grams(Substance::Sucrose);
        millilitres = joined(&SolventVolume, [water, ethanol, sucrose, t]);
    }
    // What would be a solid without water, only where it can matter.
    if makeup.solids.value() * 100.0 > SOLIDS_SHARE.high {
        let crystalline = liquid.sum(Set::DISSOLVED)
            - liquid.grams(Substance::Glycerol)
            - liquid.grams(Substance::Lactic)
            - liquid.grams(Substance::Acetic);
        if crystalline.value() > 0.0 {
            SOLIDS_SHARE.check(crystalline / (crystalline + makeup.solvent) * 100.0)?;
        }
    }
    // Also where they are none now: their slopes count.
    if liquid.has(Set::ALL.without(Set::SOLVENTS)) {
        IONS_SHARE.check(makeup.ions.value() * 100.0)?;
        let more = [millilitres, makeup.electrostriction];
        millilitres = apparent_volume::of_all(makeup, t, more);
    }
    // NaN is no volume either.
    let density = total / millilitres.value() * 1000.0;
    if LIQUID_DENSITY.holds(density) {
        Ok(Millilitres(millilitres))
    } else {
        Err(Outside {
            range: LIQUID_DENSITY,
            given: density,
        })
    }
}

/// Substances of which there is enough to matter, more crowded than the data of their room and
/// refraction reached: 5 % of the mass, and 2 % of it past the end.
pub(crate) fn beyond_data<S: Scalar>(makeup: &Makeup<'_, S>) -> impl Iterator<Item = Substance> {
    let all = makeup.total.value();
    let (solids, ions) = (makeup.solids.value(), makeup.ions.value());
    makeup
        .liquid
        .iter()
        .filter(move |(substance, grams)| {
            let crowd = if substance.kind() == Kind::Ion {
                ions
            } else {
                solids
            };
            let top = top_of_data(*substance);
            top > 0.0 && grams.value() > 0.05 * all && crowd > top + 0.02
        })
        .map(|(substance, _)| substance)
}

/// Volume of so many grams of water and ethanol, with sucrose in them, at `t` in °C: mL.
struct SolventVolume;

impl Formula<4> for SolventVolume {
    fn at<S: Scalar>(&self, [water, ethanol, sucrose, t]: [S; 4]) -> S {
        let solvent = water + ethanol;
        let sweetness = sucrose / (sucrose + (solvent + sucrose) * 0.01);
        solvent / solvent_density(ethanol / solvent, t, sweetness) * 1000.0
    }
}

/// Density of the solvent, kg/m³.
///
/// The ethanol–water standard and the sucrose standard each bring their own water, up to 0.004 kg/m³
/// apart. `sucrose`, 0 to 1, moves from the one to the other, so that each standard is met in its
/// own field without a step. Above 40 °C only sucrose's is known.
fn solvent_density<S: Scalar>(p: S, t: S, sucrose: S) -> S {
    let joint = t.at_most(DENSITY_TEMPERATURE.high);
    let apart = ethanol_water::density(S::zero(), joint) - sucrose_water::water(joint);
    let base = if t.value() > DENSITY_TEMPERATURE.high {
        sucrose_water::water(t) + apart
    } else {
        ethanol_water::density(p, t)
    };
    base - apart * sucrose
}

/// Density of a liquid, kg/m³; see [`volume`].
///
/// ```
/// use pomace_matter::{Mixture, Substance, density, units::{Celsius, Grams}};
/// let syrup = Mixture::of(&[(Substance::Water, Grams(50.0)), (Substance::Sucrose, Grams(50.0))]);
/// let rho = density::density(&syrup, Celsius(20.0)).unwrap();
/// assert!((rho.0 - 1229.6).abs() < 0.1);
/// ```
///
/// # Errors
/// As [`volume`].
pub fn density<S: Scalar>(
    liquid: &Mixture<S>,
    temperature: Celsius<S>,
) -> Result<KilogramsPerCubicMetre<S>, Outside> {
    density_of(&Makeup::of(liquid), temperature)
}

/// [`density`] of a liquid whose makeup is counted.
pub(crate) fn density_of<S: Scalar>(
    makeup: &Makeup<'_, S>,
    temperature: Celsius<S>,
) -> Result<KilogramsPerCubicMetre<S>, Outside> {
    let volume = volume_of(makeup, temperature)?;
    Ok(KilogramsPerCubicMetre(makeup.total / volume.0 * 1000.0))
}

/// Alcoholic strength: volume of the ethanol as pure ethanol, over the volume of the liquid, both
/// at 20 °C.
///
/// # Errors
/// As [`volume`].
pub fn strength<S: Scalar>(liquid: &Mixture<S>) -> Result<VolumePercent<S>, Outside> {
    let volume = volume(liquid, Celsius(S::from(STANDARD_TEMPERATURE.0)))?;
    Ok(strength_in(liquid, volume))
}

/// [`strength`] where the volume at 20 °C is already known.
#[must_use]
pub fn strength_in<S: Scalar>(liquid: &Mixture<S>, volume_20c: Millilitres<S>) -> VolumePercent<S> {
    VolumePercent(liquid.grams(Substance::Ethanol) / volume_20c.0 * (100_000.0 / PURE_ETHANOL_20C))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Grams;

    #[test]
    fn a_shot_of_spirit_and_water_shrinks() {
        // models.md A2: 50 mL at 96 %vol and 50 mL of water give 96.96 mL.
        let p = ethanol_water::mass_fraction(VolumePercent(96.0)).unwrap().0;
        let spirit = 50.0 * ethanol_water::density(p, 20.0) / 1000.0;
        let water = 50.0 * ethanol_water::density(0.0, 20.0) / 1000.0;
        let mix = Mixture::of(&[
            (Substance::Ethanol, Grams(spirit * p)),
            (Substance::Water, Grams(spirit * (1.0 - p) + water)),
        ]);
        let v = volume(&mix, Celsius(20.0)).unwrap().0;
        assert!((v - 96.96).abs() < 0.01, "{v}");
    }
}
