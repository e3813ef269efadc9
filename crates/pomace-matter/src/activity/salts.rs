//! What strong ions do to the activity of water.
//!
//! Sodium and potassium chloride follow Pitzer's equation from −22 to 40 °C. Cations beyond the
//! chloride are balanced by acid anions, which the acids' own terms already count as molecules, so
//! only the cation is added, with a constant osmotic coefficient.

use super::WATER_KG_PER_MOL;
use crate::mixture::Mixture;
use crate::scalar::{Scalar, polynomial};
use crate::substance::{Kind, Substance};
use crate::units::ICE_POINT_KELVIN;

/// Pitzer's coefficients as cubics in °C, −22…40 °C: laid here through the temperature functions
/// printed in PHREEQC's public `pitzer.dat` (`fits/osmotic_salts.py`), nothing fitted to freezing.
struct Pitzer {
    b0: [f64; 4],
    b1: [f64; 4],
    c: [f64; 4],
}

const SODIUM_CHLORIDE: Pitzer = Pitzer {
    b0: [0.0494208, 0.00141782, -1.8787e-5, 1.37262e-7],
    b1: [0.246349, 0.0016389, -2.20091e-5, 2.06194e-7],
    c: [0.00499543, -1.7512e-4, 1.6168e-6, -9.23583e-9],
};

const POTASSIUM_CHLORIDE: Pitzer = Pitzer {
    b0: [0.029301, 9.57409e-4, -9.54987e-6, 5.093e-8],
    b1: [0.172539, 0.00212334, -1.73273e-5, 1.25231e-7],
    c: [0.00124251, -1.0393e-4, 1.05722e-6, -5.82747e-9],
};

/// Debye–Hückel slope of the osmotic coefficient in powers of t − 25 °C, fitted to IAPWS R8-97
/// (permittivity) and IAPWS-95 (density), −20…60 °C, within 0.0003.
const DEBYE_HUCKEL: [f64; 4] = [0.391267, 6.566511e-4, 2.93405e-6, 2.0635e-8];

/// Osmotic coefficient of a cation balanced by the first charge of an acid (models.md B3, 0.93),
/// and by a further charge of the same acid (0.53, from CRC freezing points of citrate; both
/// `fits/RESULTS.md` section 3).
const WITH_FIRST_CHARGE: f64 = 0.93;
const WITH_FURTHER_CHARGE: f64 = 0.53;

/// The same for a cation balanced by bicarbonate, whose carbon dioxide is counted as a molecule: 2φ − 1
/// with φ 0.825 (sodium hydrogen carbonate, CRC freezing points; `fits/RESULTS.md` section 3).
const WITH_BICARBONATE: f64 = 0.65;

/// Osmotic coefficient at molal strength `m`, root `s` of it, `t` in °C.
fn osmotic<S: Scalar>(salt: &Pitzer, m: S, s: S, decay: S, t: S) -> S {
    let at = |c: &[f64], x: S| {
        let (value, slope) = polynomial(c, x.value());
        x.chain(value, slope)
    };
    let long_range = at(&DEBYE_HUCKEL, t - 25.0) * s / (s * 1.2 + 1.0);
    let pair = at(&salt.b0, t) + at(&salt.b1, t) * decay;
    -long_range + m * pair + m * m * at(&salt.c, t) + 1.0
}

/// Strong ions, counted; the water may vary.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ions<S> {
    /// Moles of charge of sodium, calcium and magnesium; of potassium and of what counts like it.
    sodium_like: S,
    potassium_like: S,
    chloride: S,
    /// Particles per charge of the cations.
    particles: S,
    /// Moles of weak acids and of carbon dioxide, which balance what chloride does not.
    acids: S,
    carbon_dioxide: S,
}

impl<S: Scalar> Ions<S> {
    pub(super) fn of(liquid: &Mixture<S>) -> Self {
        use Substance::{Calcium, CarbonDioxide, Chloride, Magnesium, Potassium, Sodium};
        let divalent = liquid.moles(Calcium) + liquid.moles(Magnesium);
        // Charge of unknown origin counts as potassium; unnamed minerals move nothing.
        let hidden = liquid.unlisted_charge;
        let sodium_like = liquid.moles(Sodium) + divalent * 2.0;
        let potassium_like = liquid.moles(Potassium) + hidden.at_least(0.0);
        let cations = sodium_like + potassium_like;
        let mut acids = S::zero();
        for (substance, grams) in liquid.iter() {
            if substance.kind() == Kind::Acid && grams.value() > 0.0 {
                acids += grams / substance.molar_mass();
            }
        }
        Self {
            sodium_like,
            potassium_like,
            chloride: liquid.moles(Chloride) + (-hidden).at_least(0.0),
            particles: if cations.value() > 0.0 {
                (cations - divalent) / cations
            } else {
                S::from(1.0)
            },
            acids,
            carbon_dioxide: liquid.moles(CarbonDioxide),
        }
    }

    /// In so many kilograms of water.
    pub(super) fn in_water(&self, kilograms: S) -> Option<SaltTerm<S>> {
        let cations = self.sodium_like + self.potassium_like;
        if cations.value() + self.chloride.value() <= 0.0 {
            return None;
        }
        let smaller = |a: S, b: S| if a.value() < b.value() { a } else { b };
        let paired = smaller(self.chloride, cations);
        let spare = cations - paired;
        let first = smaller(spare, self.acids);
        let bicarbonate = smaller(spare - first, self.carbon_dioxide);
        let further = spare - first - bicarbonate;
        let beside_acids = first * WITH_FIRST_CHARGE
            + bicarbonate * WITH_BICARBONATE
            + further * WITH_FURTHER_CHARGE;
        let share = if cations.value() > 0.0 {
            self.sodium_like / cations
        } else {
            S::from(1.0)
        };
        let particles = (self.chloride + paired * self.particles) / kilograms;
        let molality = self.chloride / kilograms;
        let root = molality.sqrt();
        Some(SaltTerm {
            molality,
            root,
            decay: (root * -2.0).exp(),
            sodium_like: particles * share,
            potassium_like: particles * (-share + 1.0),
            beside_acids: beside_acids * self.particles / kilograms,
        })
    }

    pub(super) fn convert<T: Scalar>(&self, with: impl Fn(S) -> T) -> Ions<T> {
        Ions {
            sodium_like: with(self.sodium_like),
            potassium_like: with(self.potassium_like),
            chloride: with(self.chloride),
            particles: with(self.particles),
            acids: with(self.acids),
            carbon_dioxide: with(self.carbon_dioxide),
        }
    }
}

/// The part of strong ions in ln a_w, ready for any temperature.
#[derive(Clone, Copy, Debug)]
pub(super) struct SaltTerm<S> {
    /// Molality of the chloride salts, and its root, and e^(−2 root).
    molality: S,
    root: S,
    decay: S,
    /// Particles of sodium-like and of potassium-like chloride, mol/kg.
    sodium_like: S,
    potassium_like: S,
    /// φ times particles of the cations balanced by acids, mol/kg.
    beside_acids: S,
}

impl<S: Scalar> SaltTerm<S> {
    pub(super) fn ln_activity(&self, kelvin: S) -> S {
        let t = kelvin - ICE_POINT_KELVIN;
        let mut osmoles = self.beside_acids;
        for (salt, particles) in [
            (&SODIUM_CHLORIDE, self.sodium_like),
            (&POTASSIUM_CHLORIDE, self.potassium_like),
        ] {
            if particles.value() > 0.0 {
                osmoles += particles * osmotic(salt, self.molality, self.root, self.decay, t);
            }
        }
        osmoles * -WATER_KG_PER_MOL
    }

    /// Molality of salt for the salting-out of ethanol.
    pub(super) fn molality(&self) -> S {
        self.molality + self.beside_acids
    }

    pub(super) fn convert<T: Scalar>(&self, with: impl Fn(S) -> T) -> SaltTerm<T> {
        SaltTerm {
            molality: with(self.molality),
            root: with(self.root),
            decay: with(self.decay),
            sodium_like: with(self.sodium_like),
            potassium_like: with(self.potassium_like),
            beside_acids: with(self.beside_acids),
        }
    }
}
