//! Dissolve: dry solids into the liquid, as far as its water can hold them.

use pomace_matter::saturation::saturated_percent;
use pomace_matter::{Mixture, Scalar, Substance};

use crate::remark::Remark;
use crate::vessel::Vessel;

/// Undissolved solids below this share of the vessel are not worth a word.
const CRUMBS: f64 = 1e-6;

/// Moves crystals into the liquid. What is over saturation stays; ethanol, which lowers it, is left
/// out (the figures warn).
pub(crate) fn run<S: Scalar>(vessel: &mut Vessel<'_, S>) {
    let stays = undissolved(
        &vessel.stream.liquid,
        &vessel.stream.crystals,
        vessel.stream.celsius,
    );
    let taken = vessel.stream.crystals.without(&stays);
    vessel.stream.liquid += taken;
    vessel.stream.crystals = stays;
    let grams = stays.weight().0;
    if grams > CRUMBS * vessel.stream.weight() {
        vessel.remark(Remark::Undissolved { grams });
    }
}

/// The part of the crystals that the liquid cannot take up.
fn undissolved<S: Scalar>(liquid: &Mixture<S>, crystals: &Mixture<S>, celsius: S) -> Mixture<S> {
    let mut stays = Mixture::default();
    // Crystals bring their own water of crystallisation along.
    let water = liquid.grams(Substance::Water) + crystals.grams(Substance::Water);
    if water.value() <= 0.0 {
        return *crystals;
    }
    salt(&mut stays, liquid, crystals, water);
    for (substance, grams) in crystals.iter() {
        if grams.value() <= 0.0 {
            continue;
        }
        let Some(percent) = saturated_percent(substance, celsius.value()) else {
            continue;
        };
        let most = water * (percent / (100.0 - percent));
        let over = liquid.grams(substance) + grams - most;
        over.kink();
        if over.value() > 0.0 {
            stays.set(substance, over.lesser(grams));
        }
    }
    stays
}

/// Sodium chloride in saturated water, g per g of water: 26.4 % at 20 °C, and hardly more in hot water
/// (CRC Handbook, from memory).
const SATURATED_SALT: f64 = 0.359;

/// Salt is told by its ions: of the lesser of the two, what is over saturation stays with its partner.
fn salt<S: Scalar>(stays: &mut Mixture<S>, liquid: &Mixture<S>, crystals: &Mixture<S>, water: S) {
    use Substance::{Chloride, Sodium};
    let (sodium, chloride) = (Sodium.molar_mass(), Chloride.molar_mass());
    let pairs = |m: &Mixture<S>| {
        let (a, b) = (m.grams(Sodium) / sodium, m.grams(Chloride) / chloride);
        if a.value() < b.value() { a } else { b }
    };
    let dry = pairs(crystals);
    if dry.value() <= 0.0 {
        return;
    }
    let over = pairs(liquid) + dry - water * (SATURATED_SALT / (sodium + chloride));
    over.kink();
    if over.value() > 0.0 {
        let over = over.lesser(dry);
        stays.set(Sodium, over * sodium);
        stays.set(Chloride, over * chloride);
    }
}
