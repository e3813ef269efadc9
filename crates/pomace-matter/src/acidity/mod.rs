//! pH and titratable acidity.
//!
//! A sour liquid holds weak acids, which give away protons one after another, and strong ions
//! (potassium in juice, sodium in a salt, chloride), which stay what they are. The pH is where the
//! charges cancel: protons and strong cations on one side, acid anions on the other. Ions in a
//! crowd act less than their number, by an activity coefficient that depends on the ionic
//! strength, which the acids in turn decide: two unknowns, solved together ([`equilibrium`]).
//!
//! Never average pH: add acid, ions and water, then solve.

pub mod acids;
mod equilibrium;
mod ionic;
mod titration;

pub use equilibrium::{Equilibrium, solve};
pub use ionic::{Acid, Ionic};
pub use titration::{ENDPOINT_PH, base_to_reach};

use std::f64::consts::LN_10;
use std::sync::LazyLock;

use crate::density;
use crate::mixture::Mixture;
use crate::range::{ACID_TEMPERATURE, Outside, WATER_SHARE};
use crate::scalar::Scalar;
use crate::substance::{Kind, Set, Substance};
use crate::units::{Celsius, Millilitres, VolumePercent};

/// The acids, strong ions and constants of a liquid, per kilogram of its water.
///
/// The pH of a drink is stated at 25 °C; other temperatures serve buffers.
///
/// # Errors
/// [`Outside`] where water is less than 30 % of the mass, or the temperature is not 0…50 °C.
pub fn ionic_of<S: Scalar>(liquid: &Mixture<S>, temperature: Celsius) -> Result<Ionic<S>, Outside> {
    ionic_at(liquid, temperature, None)
}

/// [`ionic_of`], where the strength may be known already.
pub(crate) fn ionic_at<S: Scalar>(
    liquid: &Mixture<S>,
    temperature: Celsius,
    strength: Option<VolumePercent<S>>,
) -> Result<Ionic<S>, Outside> {
    let t = ACID_TEMPERATURE.check(temperature.0)?;
    let water = liquid.grams(Substance::Water);
    check_water(liquid)?;
    let shift = if liquid.grams(Substance::Ethanol).value() > 0.0 {
        let strength = strength.map_or_else(|| density::strength(liquid), Ok);
        strength?.0 * acids::ETHANOL_SHIFT_PER_VOLUME_PERCENT
    } else {
        S::zero()
    };
    let kilograms = water / 1000.0;
    let mut ionic = Ionic::pure_water(t);
    let times = (-LN_10 * shift.value()).exp();
    for (place, acid) in acids::ACIDS.iter().enumerate() {
        let moles = liquid.moles(acid.substance);
        if moles.value() > 0.0 {
            let products = if (t - 25.0).abs() < f64::EPSILON {
                AT_25C[place]
            } else {
                ionic::products(acid.steps, t)
            };
            let (shift, times) = if acid.carboxylic {
                (shift, times)
            } else {
                (S::zero(), 1.0)
            };
            ionic.put(products, moles / kilograms, shift, times);
        }
    }
    ionic.strong_charge = strong_charge(liquid) / kilograms;
    let mut strength = liquid.unlisted_charge;
    if strength.value() < 0.0 {
        strength = -strength;
    }
    let ions = liquid.iter().filter(|(s, _)| s.kind() == Kind::Ion);
    let listed = ions.map(|(s, grams)| (grams, s.charge().powi(2) / s.molar_mass()));
    strength += S::linear(listed);
    ionic.strong_strength = strength / kilograms * 0.5;
    Ok(ionic)
}

/// The constants of all acids at 25 °C, where most is asked for.
static AT_25C: LazyLock<[[f64; acids::MOST_STEPS]; acids::ACIDS.len()]> =
    LazyLock::new(|| acids::ACIDS.map(|acid| ionic::products(acid.steps, 25.0)));

fn check_water<S: Scalar>(liquid: &Mixture<S>) -> Result<(), Outside> {
    let water = liquid.grams(Substance::Water).value();
    let share = water / liquid.weight_of(Set::SOLUBLE).0;
    WATER_SHARE.check(share * 100.0).map(|_| ())
}

/// Charge of the strong ions, mol. A charge of less than 0.3 % of the ions may be the rounding of a salt
/// written as two ions: it counts as far as there is acid to hold it.
fn strong_charge<S: Scalar>(liquid: &Mixture<S>) -> S {
    let charge = liquid.strong_ion_charge();
    let size = charge.value().abs();
    let ions = || -> f64 {
        let charges = liquid
            .iter()
            .map(|(s, g)| g.value() / s.molar_mass() * s.charge());
        charges.map(f64::abs).sum()
    };
    if size > 0.0 && size < 0.003 * ions() {
        let mut acid = S::zero();
        for moles in acids::moles(liquid) {
            acid += moles;
        }
        if acid.value() < size {
            return acid * charge.value().signum();
        }
    }
    charge
}

/// pH of a liquid at 25 °C.
///
/// Accuracy: 0.016 against the primary standards, 0.021 against an independent speciation engine
/// to ionic strength 0.5 (`tests/reference/acid_ph.csv`); above 30 %vol indicative only; real
/// juices carry buffers that no table lists.
///
/// # Errors
/// As [`ionic_of`]; [`Outside`] for an ionic strength above 3 mol/kg.
pub fn ph<S: Scalar>(liquid: &Mixture<S>) -> Result<S, Outside> {
    Ok(solve(&ionic_of(liquid, Celsius(25.0))?)?.ph)
}

/// Strong base that brings water alone to the end of a titration, mol per kg.
static BLANK: LazyLock<f64> = LazyLock::new(|| {
    let water = Ionic::pure_water(25.0);
    base_to_reach(&water, ENDPOINT_PH).unwrap_or_default()
});

/// A sample is titrated in this many times its mass of water.
const DILUTED: f64 = 20.0;

/// Titratable acidity to pH 8.2, counted as citric acid: grams in the whole of the liquid.
///
/// As a titration is done: in much water, and degassed; carbon dioxide that strong ions hold as
/// bicarbonate stays.
///
/// # Errors
/// As [`ph`].
pub fn titratable_as_citric<S: Scalar>(liquid: &Mixture<S>) -> Result<S, Outside> {
    let mut sample = *liquid;
    let gas = liquid.moles(Substance::CarbonDioxide);
    if gas.value() > 0.0 {
        let mut held = liquid.strong_ion_charge();
        for (acid, moles) in acids::ACIDS.iter().zip(acids::moles(liquid)) {
            if acid.substance != Substance::CarbonDioxide {
                held -= moles * acid.steps.len() as f64;
            }
        }
        let held = held.at_least(0.0).at_most(gas.value());
        sample.set(
            Substance::CarbonDioxide,
            held * Substance::CarbonDioxide.molar_mass(),
        );
    }
    check_water(liquid)?;
    let added = liquid.total().0 * DILUTED;
    sample.put(Substance::Water, added);
    // So much water is in it that it is as dense as water within 1 %, and its ethanol shifts next to nothing.
    let volume = Millilitres(sample.total().0 / (density::WATER_20C / 1000.0));
    let strength = density::strength_in(&sample, volume);
    let ionic = ionic_at(&sample, Celsius(25.0), Some(strength))?;
    let equivalents = base_to_reach(&ionic, ENDPOINT_PH)? * sample.grams(Substance::Water) / 1000.0;
    // What water itself takes to reach that pH is no acid of the liquid.
    let blank = sample.grams(Substance::Water) * (*BLANK / 1000.0);
    Ok((equivalents - blank) * (Substance::Citric.molar_mass() / 3.0))
}

/// Moles of unlisted positive charge that a liquid must hold to show this pH at 25 °C.
///
/// The inverse of [`ph`]: explicit, since charge enters the balance alone.
///
/// # Errors
/// As [`ph`], and [`Outside`] for a pH that is none.
pub fn unlisted_charge_for_ph(liquid: &Mixture, ph: f64) -> Result<f64, Outside> {
    let mut bare = *liquid;
    bare.unlisted_charge = 0.0;
    let ionic = ionic_of(&bare, Celsius(25.0))?;
    Ok(base_to_reach(&ionic, ph)? * liquid.grams(Substance::Water) / 1000.0)
}
