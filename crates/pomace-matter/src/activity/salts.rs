//! What strong ions do to the activity of water.
//!
//! The chlorides of sodium, potassium, calcium and magnesium follow Pitzer's equation from −22 to
//! 40 °C, each at the ionic strength of all of them together. Cations beyond the chloride are balanced
//! by acid anions, which the acids' own terms already count as molecules, so only the cation is added,
//! with a constant osmotic coefficient.

use super::WATER_KG_PER_MOL;
use crate::mixture::Mixture;
use crate::range::{IONS_SHARE, Outside};
use crate::scalar::{Formula, Scalar, joined, polynomial};
use crate::substance::{Kind, Set, Substance};
use crate::units::ICE_POINT_KELVIN;

/// Pitzer's coefficients as cubics in °C, −22…40 °C: laid here through the temperature functions
/// printed in PHREEQC's public `pitzer.dat` (`fits/osmotic_salts.py`, `fits/extensions_chlorides.py`).
/// Nothing is fitted to freezing but the bend of calcium's `b0` in the cold.
struct Pitzer {
    /// Charges of the cation.
    charge: f64,
    b0: [f64; 4],
    b1: [f64; 4],
    c: [f64; 4],
}

const SODIUM_CHLORIDE: Pitzer = Pitzer {
    charge: 1.0,
    b0: [0.0494208, 0.00141782, -1.8787e-5, 1.37262e-7],
    b1: [0.246349, 0.0016389, -2.20091e-5, 2.06194e-7],
    c: [0.00499543, -1.7512e-4, 1.6168e-6, -9.23583e-9],
};

const POTASSIUM_CHLORIDE: Pitzer = Pitzer {
    charge: 1.0,
    b0: [0.029301, 9.57409e-4, -9.54987e-6, 5.093e-8],
    b1: [0.172539, 0.00212334, -1.73273e-5, 1.25231e-7],
    c: [0.00124251, -1.0393e-4, 1.05722e-6, -5.82747e-9],
};

const CALCIUM_CHLORIDE: Pitzer = Pitzer {
    charge: 2.0,
    b0: [0.315825, 2.49482e-4, -9.86e-6, 0.0],
    b1: [1.43495, 7.18258e-3, -8.19e-7, 0.0],
    c: [5.4573e-4, 1.47807e-5, -1.43486e-6, 7.65337e-9],
};

const MAGNESIUM_CHLORIDE: Pitzer = Pitzer {
    charge: 2.0,
    b0: [0.365816, -6.07498e-4, 5.94e-7, 0.0],
    b1: [1.55116, 3.3038e-3, 2.6e-5, 0.0],
    c: [9.30649e-3, -1.17905e-4, 2.418e-7, 0.0],
};

/// The salts, in the order of [`Ions::cations`].
const SALTS: [&Pitzer; 4] = [
    &SODIUM_CHLORIDE,
    &POTASSIUM_CHLORIDE,
    &CALCIUM_CHLORIDE,
    &MAGNESIUM_CHLORIDE,
];

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

/// Osmotic coefficient at ionic strength `i`, root `s` of it, decay e^(−2 s), `t` in °C:
/// 1 − z Aφ s/(1 + 1.2 s) + 2ν₊ν₋/ν m (B₀ + B₁ e^(−2s)) + 2(ν₊ν₋)^1.5/ν m² C.
impl Formula<4> for Pitzer {
    fn at<S: Scalar>(&self, [i, s, decay, t]: [S; 4]) -> S {
        let at = |c: &[f64], x: S| {
            let (value, slope) = polynomial(c, x.value());
            x.chain(value, slope)
        };
        let z = self.charge;
        let long_range = at(&DEBYE_HUCKEL, t - 25.0) * s / (s * 1.2 + 1.0) * z;
        let pair = at(&self.b0, t) + at(&self.b1, t) * decay;
        // Molality of the salt that has this ionic strength, and factors of one cation and z anions.
        let m = i * (2.0 / (z * (z + 1.0)));
        let (by_pair, by_three) = (2.0 * z / (z + 1.0), 2.0 * z * z.sqrt() / (z + 1.0));
        -long_range + m * pair * by_pair + m * m * at(&self.c, t) * by_three + 1.0
    }
}

/// Strong ions, counted; the water may vary.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ions<S> {
    /// Moles of charge of sodium, of potassium and what counts like it, of calcium and of magnesium.
    cations: [S; 4],
    chloride: S,
    /// Grams of all of them, to know whether they are too many.
    grams: f64,
    /// Moles of weak acids and of carbon dioxide, which balance what chloride does not.
    acids: S,
    carbon_dioxide: S,
}

fn smaller<S: Scalar>(a: S, b: S) -> S {
    if a.value() < b.value() { a } else { b }
}

impl<S: Scalar> Ions<S> {
    pub(super) fn of(liquid: &Mixture<S>) -> Self {
        use Substance::{Calcium, CarbonDioxide, Chloride, Magnesium, Potassium, Sodium};
        // Charge of unknown origin counts as potassium; unnamed minerals move nothing.
        let hidden = liquid.unlisted_charge;
        let (more, less) = (hidden.at_least(0.0), (-hidden).at_least(0.0));
        let acids = liquid
            .iter()
            .filter(|(substance, mass)| substance.kind() == Kind::Acid && mass.value() > 0.0);
        let unlisted = more.value() * Potassium.molar_mass() + less.value() * Chloride.molar_mass();
        Self {
            cations: [
                liquid.moles(Sodium),
                liquid.moles(Potassium) + more,
                liquid.moles(Calcium) * 2.0,
                liquid.moles(Magnesium) * 2.0,
            ],
            chloride: liquid.moles(Chloride) + less,
            grams: unlisted + liquid.weight_of(Set::IONS).0,
            acids: S::linear(acids.map(|(s, mass)| (mass, 1.0 / s.molar_mass()))),
            carbon_dioxide: liquid.moles(CarbonDioxide),
        }
    }

    /// In so many kilograms of water; nothing where there are none.
    ///
    /// # Errors
    /// [`Outside`] for more ions than the data of salts reach.
    pub(super) fn in_water(&self, kilograms: S) -> Result<Option<SaltTerm<S>>, Outside> {
        let [_, _, calcium, magnesium] = self.cations;
        let cations = S::linear(self.cations.into_iter().map(|cation| (cation, 1.0)));
        let divalent = calcium + magnesium;
        if cations.value() + self.chloride.value() <= 0.0 {
            return Ok(None);
        }
        let share = self.grams / (self.grams + kilograms.value() * 1000.0);
        IONS_SHARE.check(share * 100.0)?;
        let paired = smaller(self.chloride, cations);
        let spare = cations - paired;
        let first = smaller(spare, self.acids);
        let bicarbonate = smaller(spare - first, self.carbon_dioxide);
        let further = spare - first - bicarbonate;
        let beside_acids = first * WITH_FIRST_CHARGE
            + bicarbonate * WITH_BICARBONATE
            + further * WITH_FURTHER_CHARGE;
        // Chloride is shared out by charge; beyond the cations it counts as sodium's, proton left out.
        let mut ions_per_charge = S::from(1.0);
        let mut particles = [S::zero(); 4];
        let mut strength = (self.chloride - paired) / kilograms;
        particles[0] = strength;
        if cations.value() > 0.0 {
            ions_per_charge = (cations - divalent * 0.5) / cations;
            if paired.value() > 0.0 {
                let per_charge = paired / cations / kilograms;
                for ((particles, cation), salt) in particles.iter_mut().zip(self.cations).zip(SALTS)
                {
                    let z = salt.charge;
                    let charge = cation * per_charge;
                    *particles += charge * (1.0 + 1.0 / z);
                    strength += charge * ((z + 1.0) / 2.0);
                }
            }
        }
        let root = strength.sqrt();
        Ok(Some(SaltTerm {
            strength,
            root,
            decay: (root * -2.0).exp(),
            particles,
            chloride: self.chloride / kilograms,
            beside_acids: beside_acids * ions_per_charge / kilograms,
        }))
    }

    pub(super) fn convert<T: Scalar>(&self, with: impl Fn(S) -> T + Copy) -> Ions<T> {
        Ions {
            cations: self.cations.map(with),
            chloride: with(self.chloride),
            grams: self.grams,
            acids: with(self.acids),
            carbon_dioxide: with(self.carbon_dioxide),
        }
    }
}

/// The part of strong ions in ln a_w, ready for any temperature.
#[derive(Clone, Copy, Debug)]
pub(super) struct SaltTerm<S> {
    /// Ionic strength of the chloride salts, and its root, and e^(−2 root).
    strength: S,
    root: S,
    decay: S,
    /// Particles of each chloride of [`SALTS`], mol/kg.
    particles: [S; 4],
    chloride: S,
    /// φ times particles of the cations balanced by acids, mol/kg.
    beside_acids: S,
}

impl<S: Scalar> SaltTerm<S> {
    pub(super) fn ln_activity(&self, kelvin: S) -> S {
        let t = kelvin - ICE_POINT_KELVIN;
        let mut osmoles = self.beside_acids.value();
        let mut parts = [(self.beside_acids, 1.0); 2 * SALTS.len() + 1];
        let mut count = 1;
        for (salt, particles) in SALTS.into_iter().zip(self.particles) {
            if particles.value() > 0.0 {
                let osmotic = joined(salt, [self.strength, self.root, self.decay, t]);
                osmoles += particles.value() * osmotic.value();
                parts[count] = (particles, osmotic.value());
                parts[count + 1] = (osmotic, particles.value());
                count += 2;
            }
        }
        S::chain_all(osmoles, parts.into_iter().take(count)) * -WATER_KG_PER_MOL
    }

    /// Molality of salt for the salting-out of ethanol.
    pub(super) fn molality(&self) -> S {
        self.chloride + self.beside_acids
    }

    pub(super) fn convert<T: Scalar>(&self, with: impl Fn(S) -> T + Copy) -> SaltTerm<T> {
        SaltTerm {
            strength: with(self.strength),
            root: with(self.root),
            decay: with(self.decay),
            particles: self.particles.map(with),
            chloride: with(self.chloride),
            beside_acids: with(self.beside_acids),
        }
    }
}
