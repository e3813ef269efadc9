//! The room that one gram of a dissolved substance takes up: apparent specific volume, cm³/g.
//!
//! φ(s, t) = φ₀ + φ₁ s + φ₂ s² + φ₃ s³ + (t − 20)(e₀ + e₁ s) + (t − 20)²(f₀ + f₁ s), `s` the crowding:
//! the mass share of all dissolved solids, no more than the data reached; past them sugars follow
//! sucrose. Sugars and acids without temperature data of their own borrow sucrose's change with
//! temperature. Ions have their own crowding, the share of ions among water and ions. How the
//! constants were got: `fits/apparent_volumes.py`, `fits/ions.py`, `fits/extensions_volumes.py`,
//! `fits/extensions_syrups.py`, `fits/RESULTS.md` sections 2 and 10.

use super::{Makeup, sucrose_water};
use crate::mixture::Mixture;
use crate::scalar::{Scalar, Sloped, polynomial};
use crate::substance::{Kind, Set, Substance};

/// Volume lost per mole of charge when an organic acid gives a proton away, cm³/mol, and its change with
/// the share of ions (electrostriction; laid here through trisodium citrate against citric acid, CRC,
/// 3–36 %, within 0.7 kg/m³).
const IONISATION: [f64; 2] = [-10.22, 32.13];

/// The share of ions that those data reached.
const TOP_OF_CITRATE: f64 = 0.131;

/// The same for carbon dioxide that turns into bicarbonate, and its change with the share of ions
/// (from sodium hydrogen carbonate, CRC; a mole of water is counted apart).
const IONISATION_OF_CARBON_DIOXIDE: [f64; 2] = [-25.644, 151.0];

/// The share of ions that those data reached.
const TOP_OF_BICARBONATE: f64 = 0.02;

/// φ₀ … φ₃ at 20 °C.
#[derive(Clone, Copy)]
struct Room {
    at_20c: [f64; 4],
    warmth: Warmth,
}

/// How φ moves with temperature.
#[derive(Clone, Copy)]
enum Warmth {
    /// Not known, or not at all.
    Constant,
    /// As sucrose does, gram for gram.
    LikeSucrose,
    /// Data of its own.
    Own(Expansion),
}

/// (t − 20)(e₀ + e₁ s) + (t − 20)²(f₀ + f₁ s) between the ends of the data, °C; beyond them held, or a
/// square would make a warm liquid shrink.
#[derive(Clone, Copy)]
struct Expansion {
    e: [f64; 2],
    f: [f64; 2],
    from: f64,
    to: f64,
}

const fn room(at_20c: [f64; 4], warmth: Warmth) -> Room {
    Room { at_20c, warmth }
}

const fn sugar(zero: f64, one: f64) -> Room {
    room([zero, one, 0.0, 0.0], Warmth::LikeSucrose)
}

const fn own(e: [f64; 2], f: [f64; 2], from: f64, to: f64) -> Warmth {
    Warmth::Own(Expansion { e, f, from, to })
}

/// Of sodium and of chloride alike, so that the salt comes out as measured.
const fn as_sodium_chloride() -> Warmth {
    own([0.0016648, -0.0031473], [-1.5817e-5, 0.0], 5.0, 40.0)
}

/// The crowding that the data of a substance reached, in density and refraction alike: the share of
/// dissolved solids, for ions that of ions among water and ions. Zero where there are no data.
pub(crate) const fn top_of_data(substance: Substance) -> f64 {
    use Substance as X;
    match substance {
        X::Glucose | X::OtherSugars | X::Maltose => 0.60,
        X::Fructose => 0.48,
        X::Lactose => 0.18,
        X::Glycerol => 1.0,
        X::Polyols => 0.15,
        X::Citric | X::Ascorbic | X::Tartaric => 0.30,
        X::Malic | X::OtherAcids => 0.40,
        X::Lactic | X::Acetic => 0.90,
        X::Phosphoric => 0.85,
        X::Sodium | X::Chloride => 0.26,
        X::Potassium => 0.24,
        X::Calcium | X::Magnesium => 0.20,
        _ => 0.0,
    }
}

/// The crowding to which a substance's own curve is drawn: to the end of its data. That of acetic acid
/// runs on into the pure acid: 9 kg/m³ and 0.005 in the index off there, held still it would be three times
/// that.
pub(crate) const fn carried_to(substance: Substance) -> f64 {
    match substance {
        Substance::Acetic => 1.0,
        _ => top_of_data(substance),
    }
}

const fn constants(substance: Substance) -> Room {
    use Substance as X;
    use Warmth::{Constant, LikeSucrose};
    match substance {
        X::Glucose | X::OtherSugars => sugar(0.61844, 0.02816),
        X::Fructose => sugar(0.60939, 0.03069),
        X::Maltose => sugar(0.61398, 0.02136),
        X::Lactose => sugar(0.60604, 0.01551),
        X::Glycerol => room(
            [0.77331, -0.01311, 0.03297, 0.0],
            own(
                [7.6832e-4, -3.8768e-4],
                [-1.0853e-5, 1.1669e-5],
                -20.0,
                40.0,
            ),
        ),
        X::Polyols => room([0.65318, 0.02147, 0.0, 0.0], LikeSucrose),
        X::Citric | X::Ascorbic => room([0.59412, 0.01995, 0.0, 0.0], LikeSucrose),
        // A maker's list after Lange and Sinks (1930); unnamed acids count as malic acid.
        X::Malic | X::OtherAcids => room([0.612, 0.06, 0.0, 0.0], LikeSucrose),
        // From memory: a partial molar volume of about 83.5 cm³/mol, ± 2 %.
        X::Tartaric => room([0.556, 0.02, 0.0, 0.0], LikeSucrose),
        X::Lactic => room([0.78401, -0.00466, 0.03826, 0.0], LikeSucrose),
        X::Acetic => room(
            [0.85699, 0.07361, -0.03252, 0.04863],
            own([1.5852e-3, -6.565e-4], [0.0, 0.0], 0.0, 40.0),
        ),
        X::Phosphoric => room(
            [0.47092, 0.07638, -0.09888, 0.09007],
            own([4.0594e-4, -1.1736e-4], [-8.19e-7, 0.0], 15.0, 40.0),
        ),
        // From memory.
        X::Protein => room([0.735, 0.0, 0.0, 0.0], Constant),
        X::Fat => room([1.08, 0.0, 0.0, 0.0], Constant),
        X::Fibre | X::Starch => room([0.63, 0.0, 0.0, 0.0], Constant),
        X::Ash => room([0.41, 0.0, 0.0, 0.0], Constant),
        X::Caffeine => room([0.74, 0.0, 0.0, 0.0], Constant),
        X::CarbonDioxide => room([0.75, 0.0, 0.0, 0.0], Constant),
        X::Other => room([0.62, 0.0, 0.0, 0.0], LikeSucrose),
        // Ions, on the convention that the proton takes no room.
        X::Sodium => room([-0.01456, 0.60866, 0.0, 0.0], as_sodium_chloride()),
        X::Potassium => room(
            [0.24701, 0.35569, 0.0, 0.0],
            own([0.000611, -0.00051], [-9.08e-6, 0.0], 10.0, 40.0),
        ),
        X::Calcium => room([-0.37362, 0.70429, 0.0, 0.0], Constant),
        X::Magnesium => room([-0.70954, 1.05549, 0.0, 0.0], Constant),
        X::Chloride => room([0.50489, 0.0, 0.0, 0.0], as_sodium_chloride()),
        X::Water | X::Ethanol | X::Sucrose => room([1.0, 0.0, 0.0, 0.0], Constant),
    }
}

/// [`constants`] by substance.
static ROOMS: [Room; Substance::COUNT] = {
    let mut rooms = [constants(Substance::Water); Substance::COUNT];
    let mut index = 0;
    while index < Substance::COUNT {
        rooms[index] = constants(Substance::ALL[index]);
        index += 1;
    }
    rooms
};

/// The crowding that the volumes of a liquid depend on, and what is common to all of them.
#[derive(Clone, Copy, Debug)]
struct Crowd<S> {
    solids: S,
    ions: S,
    t: S,
    /// Sucrose's volume at this crowding and temperature, and at 20 °C.
    sucrose: S,
    sucrose_at_20c: S,
}

/// Volume of the particles in a liquid, mL: it depends on nothing else.
pub(crate) fn of_particles<S: Scalar>(liquid: &Mixture<S>) -> S {
    let particles = liquid.part(Set::INSOLUBLE);
    S::linear(particles.map(|(x, grams)| (grams, ROOMS[x as usize].at_20c[0])))
}

/// Volume of all that is dissolved or suspended, with more volumes, mL.
pub(super) fn of_all<S: Scalar>(makeup: &Makeup<'_, S>, t: S, more: [S; 2]) -> S {
    let (solids, ions) = (makeup.solids, makeup.ions);
    let parts = makeup.liquid.part(Set::ALL.without(Set::SOLVENTS));
    let (s, i, celsius) = (solids.value(), ions.value(), t.value());
    let more = more.map(|volume| (volume, 1.0));
    if !S::HAS_SLOPES {
        let crowd = Crowd::of(s, i, celsius);
        let parts = parts.map(|(x, grams)| (grams, crowd.volume_of(x)));
        return S::linear(parts.chain(more));
    }
    // The rooms depend on three numbers only, so their slopes are found along these three.
    let crowd = Crowd::of(
        Sloped::<3>::variable(s, 0),
        Sloped::variable(i, 1),
        Sloped::variable(celsius, 2),
    );
    let mut rooms = [0.0; Substance::COUNT];
    let mut sum = Sloped::<3>::zero();
    for (substance, grams) in parts.clone() {
        let room = crowd.volume_of(substance);
        rooms[substance as usize] = room.value;
        sum += room * grams.value();
    }
    let [by_solids, by_ions, by_t] = sum.slopes;
    let crowding = [(solids, by_solids), (ions, by_ions), (t, by_t)];
    let parts = parts.map(|(x, grams)| (grams, rooms[x as usize]));
    let whole = more
        .iter()
        .fold(sum.value, |sum, (volume, _)| sum + volume.value());
    S::chain_all(whole, parts.chain(crowding).chain(more))
}

impl<S: Scalar> Crowd<S> {
    fn of(solids: S, ions: S, t: S) -> Self {
        Self {
            solids,
            ions,
            t,
            sucrose: sucrose_water::apparent_volume(solids, t),
            sucrose_at_20c: sucrose_water::apparent_volume(solids, S::from(20.0)),
        }
    }

    /// Apparent specific volume of a substance, cm³/g.
    fn volume_of(&self, substance: Substance) -> S {
        if substance == Substance::Sucrose {
            return self.sucrose;
        }
        let room = &ROOMS[substance as usize];
        let top = top_of_data(substance);
        let crowd = if substance.kind() == Kind::Ion {
            self.ions
        } else {
            self.solids
        };
        let s = crowd.at_most(carried_to(substance));
        let (value, slope) = polynomial(&room.at_20c, s.value());
        let mut phi = s.chain(value, slope);
        // Past its own data a sugar takes up what sucrose does there (`fits/RESULTS.md` section 10.2;
        // within 0.7 % of water in honey).
        if substance.kind() == Kind::Sugar && crowd.value() > top {
            phi += self.sucrose_at_20c - sucrose_water::apparent_volume(top, 20.0);
        }
        match &room.warmth {
            Warmth::Constant => phi,
            Warmth::LikeSucrose => phi + (self.sucrose - self.sucrose_at_20c),
            Warmth::Own(Expansion { e, f, from, to }) => {
                let warmer = self.t.at_least(*from).at_most(*to) - 20.0;
                phi + warmer * ((s * e[1] + e[0]) + warmer * (s * f[1] + f[0]))
            }
        }
    }
}

/// What the volume of a liquid loses because its acids are partly neutralised, mL.
///
/// Strong cations are matched with the organic acids first, then with carbon dioxide.
pub(super) fn electrostriction<S: Scalar>(liquid: &Mixture<S>, ions: S) -> S {
    let charge = liquid.strong_ion_charge();
    if charge.value() <= 0.0 {
        return S::zero();
    }
    let steps = |acid: Substance| match acid {
        Substance::Citric => 3.0,
        Substance::Malic | Substance::Tartaric | Substance::OtherAcids => 2.0,
        Substance::Phosphoric => 1.5,
        _ => 1.0,
    };
    let acids = liquid
        .iter()
        .filter(|(s, grams)| s.kind() == Kind::Acid && grams.value() > 0.0);
    let protons = S::linear(acids.map(|(s, grams)| (grams, steps(s) / s.molar_mass())));
    let smaller = |a: S, b: S| if a.value() < b.value() { a } else { b };
    let from_acids = smaller(charge, protons);
    let from_gas = smaller(charge - from_acids, liquid.moles(Substance::CarbonDioxide));
    let lost = |[at_once, by_ions]: [f64; 2], top: f64| ions.at_most(top) * by_ions + at_once;
    from_acids * lost(IONISATION, TOP_OF_CITRATE)
        + from_gas * lost(IONISATION_OF_CARBON_DIOXIDE, TOP_OF_BICARBONATE)
}
