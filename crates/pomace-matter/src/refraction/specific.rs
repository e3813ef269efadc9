//! Specific refraction: what one gram of a substance adds to the Lorentz–Lorenz term, cm³/g,
//! sodium D line, 20 °C. How the constants were got: `fits/sucrose_refraction.py`,
//! `fits/apparent_volumes.py` and `fits/RESULTS.md`.

use crate::density::{carried_to, top_of_data};
use crate::mixture::Mixture;
use crate::scalar::{Scalar, Sloped, polynomial};
use crate::substance::{Kind, Set, Substance};

/// Ethanol and water, against the mass fraction of ethanol. Fitted here to CRC Handbook 102nd ed.,
/// "Concentrative properties of aqueous solutions", with water pinned to n = 1.33299.
const ETHANOL_WATER: [f64; 7] = [
    0.206060530,
    0.07222756,
    -0.01143595,
    0.06320681,
    -0.12378139,
    0.11714297,
    -0.04253342,
];

/// Sucrose, against the share of dissolved solids. Fitted here to the ICUMSA (1974) scale of
/// refractive index and sucrose (from memory; the CRC table agrees within its rounding).
const SUCROSE: [f64; 4] = [0.20670124, -0.00140046, -0.00185602, 0.00062203];

/// Water and ethanol together, per gram of both, at ethanol mass fraction `p`.
#[must_use]
pub fn ethanol_water<S: Scalar>(p: S) -> S {
    let (value, slope) = polynomial(&ETHANOL_WATER, p.value());
    p.chain(value, slope)
}

/// Sucrose at solids share `s`.
#[must_use]
pub fn sucrose<S: Scalar>(s: S) -> S {
    let (value, slope) = polynomial(&SUCROSE, s.value());
    s.chain(value, slope)
}

/// r₀, r₁, r₂ against the crowding, to where the curve is drawn ([`carried_to`]).
const fn constants(substance: Substance) -> [f64; 3] {
    use Substance as X;
    match substance {
        X::Glucose | X::OtherSugars => [0.207536, -0.003227, 0.0],
        X::Fructose => [0.204956, -0.001911, 0.0],
        X::Maltose => [0.208813, -0.003443, 0.0],
        X::Lactose => [0.207516, 0.001040, 0.0],
        X::Glycerol => [0.223604, -0.001838, 0.001007],
        X::Polyols => [0.213698, 0.0, 0.0],
        X::Citric | X::Ascorbic => [0.192955, -0.0075, 0.0],
        // From memory: Eisenlohr's atomic refractions, ± 1 %.
        X::Malic | X::OtherAcids => [0.1934, -0.0075, 0.0],
        X::Tartaric => [0.1829, -0.0075, 0.0],
        X::Lactic => [0.216800, -0.008559, 0.006369],
        X::Acetic => [0.218208, -0.003016, 0.002506],
        X::Phosphoric => [0.147911, -0.005908, 0.002443],
        // From memory: refractive increment of protein about 0.185 mL/g.
        X::Protein => [0.245, 0.0, 0.0],
        X::Caffeine => [0.25, 0.0, 0.0],
        // So that sodium hydrogen carbonate comes out as in CRC; close to the gas's own 0.150.
        X::CarbonDioxide => [0.1472, 0.0, 0.0],
        X::Ash => [0.145, 0.0, 0.0],
        X::Sodium => [0.06525, -0.0183, 0.0],
        X::Potassium => [0.08901, 0.00362, 0.0],
        X::Calcium => [0.08482, -0.03375, 0.0],
        X::Magnesium => [0.06683, -0.09753, 0.0],
        X::Chloride => [0.21926, 0.0, 0.0],
        X::Water | X::Ethanol | X::Sucrose | X::Other | X::Starch | X::Fibre | X::Fat => [0.0; 3],
    }
}

/// [`constants`] by substance.
static CONSTANTS: [[f64; 3]; Substance::COUNT] = {
    let mut all = [[0.0; 3]; Substance::COUNT];
    let mut index = 0;
    while index < Substance::COUNT {
        all[index] = constants(Substance::ALL[index]);
        index += 1;
    }
    all
};

/// What all that is dissolved adds, at shares of solids and of ions.
pub(super) fn of_all<S: Scalar>(liquid: &Mixture<S>, solids: S, ions: S) -> S {
    let parts = liquid.part(Set::SOLUBLE.without(Set::SOLVENTS));
    let (s, i) = (solids.value(), ions.value());
    if !S::HAS_SLOPES {
        return S::linear(parts.map(|(x, grams)| (grams, of(x, s, i))));
    }
    // The refractions depend on two numbers only, so their slopes are found along these two.
    let (s, i) = (Sloped::<2>::variable(s, 0), Sloped::variable(i, 1));
    let mut own = [0.0; Substance::COUNT];
    let mut sum = Sloped::<2>::zero();
    for (substance, grams) in parts.clone() {
        let refraction = of(substance, s, i);
        own[substance as usize] = refraction.value;
        sum += refraction * grams.value();
    }
    let [by_solids, by_ions] = sum.slopes;
    let parts = parts.map(|(x, grams)| (grams, own[x as usize]));
    S::chain_all(
        sum.value,
        parts.chain([(solids, by_solids), (ions, by_ions)]),
    )
}

/// One dissolved substance; `solids` the mass share of all dissolved solids, `ions` that of ions
/// among water and ions. Unnamed matter counts as sucrose; the other sugars follow it past their data.
#[must_use]
pub fn of<S: Scalar>(substance: Substance, solids: S, ions: S) -> S {
    if matches!(
        substance,
        Substance::Sucrose | Substance::Other | Substance::Starch
    ) {
        return sucrose(solids);
    }
    let top = top_of_data(substance);
    let crowd = if substance.kind() == Kind::Ion {
        ions
    } else {
        solids
    };
    let [r0, r1, r2] = CONSTANTS[substance as usize];
    let s = crowd.at_most(carried_to(substance));
    let own = s * (s * r2 + r1) + r0;
    if substance.kind() == Kind::Sugar && crowd.value() > top {
        own + sucrose(crowd) - sucrose(top)
    } else {
        own
    }
}
