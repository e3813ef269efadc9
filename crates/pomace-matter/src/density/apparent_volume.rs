//! The room that one gram of a dissolved substance takes up: apparent specific volume, cm³/g.
//!
//! φ(s, t) = φ₀ + φ₁ s + φ₂ s² + (t − 20)(e₀ + e₁ s) + (t − 20)² f, `s` the crowding: the mass share
//! of all dissolved solids, no more than the data reached. Sugars and acids without temperature
//! data of their own borrow sucrose's change with temperature. Ions have their own crowding, the
//! share of ions among water and ions. How the constants were got: `fits/apparent_volumes.py`,
//! `fits/ions.py`, `fits/RESULTS.md` section 2.

use super::sucrose_water;
use crate::mixture::Mixture;
use crate::scalar::Scalar;
use crate::substance::{Kind, Substance};

/// Volume lost per mole of charge when an organic acid gives a proton away, cm³/mol
/// (electrostriction; from trisodium citrate against citric acid, CRC).
const IONISATION: f64 = -11.8;

/// The same for carbon dioxide that turns into bicarbonate, and its change with the share of ions
/// (from sodium hydrogen carbonate, CRC; a mole of water is counted apart).
const IONISATION_OF_CARBON_DIOXIDE: [f64; 2] = [-25.644, 151.0];

/// The share of ions that those data reached.
const TOP_OF_BICARBONATE: f64 = 0.02;

/// φ₀, φ₁, φ₂ at 20 °C, and the share of solids that the data reached.
struct Room {
    at_20c: [f64; 3],
    top: f64,
    warmth: Warmth,
}

/// How φ moves with temperature.
enum Warmth {
    /// Not known, or not at all.
    Constant,
    /// As sucrose does, gram for gram.
    LikeSucrose,
    /// e₀, e₁, f.
    Own([f64; 3]),
}

const fn room(at_20c: [f64; 3], top: f64, warmth: Warmth) -> Room {
    Room {
        at_20c,
        top,
        warmth,
    }
}

const fn constants(substance: Substance) -> Room {
    use Substance as X;
    use Warmth::{Constant, LikeSucrose, Own};
    match substance {
        X::Glucose | X::OtherSugars => room([0.61844, 0.02816, 0.0], 0.60, LikeSucrose),
        X::Fructose => room([0.60939, 0.03069, 0.0], 0.48, LikeSucrose),
        X::Maltose => room([0.61398, 0.02136, 0.0], 0.60, LikeSucrose),
        X::Lactose => room([0.60604, 0.01551, 0.0], 0.18, LikeSucrose),
        X::Glycerol => room(
            [0.77482, -0.02191, 0.04387],
            0.60,
            Own([0.0007673, -0.0004805, -6.486e-6]),
        ),
        X::Polyols => room([0.65318, 0.02147, 0.0], 0.15, LikeSucrose),
        X::Citric | X::Ascorbic => room([0.59412, 0.01995, 0.0], 0.30, LikeSucrose),
        // From memory: partial molar volumes of about 82.7 and 83.5 cm³/mol, ± 2 %.
        X::Malic | X::OtherAcids => room([0.617, 0.02, 0.0], 0.30, LikeSucrose),
        X::Tartaric => room([0.556, 0.02, 0.0], 0.30, LikeSucrose),
        X::Lactic => room([0.77794, 0.02751, 0.0], 0.60, LikeSucrose),
        X::Acetic => room([0.85933, 0.05108, 0.02805], 0.62, LikeSucrose),
        X::Phosphoric => room([0.47435, 0.04220, 0.0], 0.40, Constant),
        // From memory.
        X::Protein => room([0.735, 0.0, 0.0], 0.0, Constant),
        X::Fat => room([1.08, 0.0, 0.0], 0.0, Constant),
        X::Fibre | X::Starch => room([0.63, 0.0, 0.0], 0.0, Constant),
        X::Ash => room([0.41, 0.0, 0.0], 0.0, Constant),
        X::Caffeine => room([0.74, 0.0, 0.0], 0.0, Constant),
        X::CarbonDioxide => room([0.75, 0.0, 0.0], 0.0, Constant),
        X::Other => room([0.62, 0.0, 0.0], 0.0, LikeSucrose),
        // Ions, on the convention that the proton takes no room.
        X::Sodium => room(
            [-0.01456, 0.60866, 0.0],
            0.26,
            Own([0.0016648, -0.0031473, -1.5817e-5]),
        ),
        X::Potassium => room(
            [0.24701, 0.35569, 0.0],
            0.24,
            Own([0.000611, -0.00051, -9.08e-6]),
        ),
        X::Calcium => room([-0.37362, 0.70429, 0.0], 0.20, Constant),
        X::Magnesium => room([-0.70954, 1.05549, 0.0], 0.20, Constant),
        X::Chloride => room(
            [0.50489, 0.0, 0.0],
            0.26,
            Own([0.0016648, -0.0031473, -1.5817e-5]),
        ),
        X::Water | X::Ethanol | X::Sucrose => room([1.0, 0.0, 0.0], 0.0, Constant),
    }
}

/// The crowding that the volumes of a liquid depend on, and what is common to all of them.
#[derive(Clone, Copy, Debug)]
pub(super) struct Crowd<S> {
    solids: S,
    ions: S,
    t: S,
    /// Sucrose's volume at this crowding and temperature, and what warmth has added to it.
    sucrose: S,
    sucrose_warmth: S,
}

impl<S: Scalar> Crowd<S> {
    pub(super) fn of(liquid: &Mixture<S>, solids: S, t: S) -> Self {
        let ions = super::ions_share(liquid);
        let sucrose = sucrose_water::apparent_volume(solids, t);
        let sucrose_warmth = sucrose - sucrose_water::apparent_volume(solids, S::from(20.0));
        Self {
            solids,
            ions,
            t,
            sucrose,
            sucrose_warmth,
        }
    }

    /// Apparent specific volume of a substance, cm³/g.
    pub(super) fn volume_of(&self, substance: Substance) -> S {
        if substance == Substance::Sucrose {
            return self.sucrose;
        }
        let room = constants(substance);
        let crowd = if substance.kind() == Kind::Ion {
            self.ions
        } else {
            self.solids
        };
        let s = crowd.at_most(room.top);
        let [zero, one, two] = room.at_20c;
        let phi = (s * two + one) * s + zero;
        match room.warmth {
            Warmth::Constant => phi,
            Warmth::LikeSucrose => phi + self.sucrose_warmth,
            Warmth::Own([e0, e1, f]) => {
                let warmer = self.t - 20.0;
                phi + warmer * (s * e1 + e0) + warmer * warmer * f
            }
        }
    }
}

/// What the volume of a liquid loses because its acids are partly neutralised, mL.
///
/// Strong cations are matched with the organic acids first, then with carbon dioxide.
pub(super) fn electrostriction<S: Scalar>(liquid: &Mixture<S>) -> S {
    let charge = liquid.strong_ion_charge();
    if charge.value() <= 0.0 {
        return S::zero();
    }
    let mut protons = S::zero();
    for (substance, grams) in liquid.iter() {
        if substance.kind() == Kind::Acid && grams.value() > 0.0 {
            let steps = match substance {
                Substance::Citric => 3.0,
                Substance::Malic | Substance::Tartaric | Substance::OtherAcids => 2.0,
                Substance::Phosphoric => 1.5,
                _ => 1.0,
            };
            protons += grams / substance.molar_mass() * steps;
        }
    }
    let smaller = |a: S, b: S| if a.value() < b.value() { a } else { b };
    let from_acids = smaller(charge, protons);
    let from_gas = smaller(charge - from_acids, liquid.moles(Substance::CarbonDioxide));
    let [at_once, by_ions] = IONISATION_OF_CARBON_DIOXIDE;
    from_acids * IONISATION
        + from_gas * (super::ions_share(liquid).at_most(TOP_OF_BICARBONATE) * by_ions + at_once)
}
