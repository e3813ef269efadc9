//! The weak acids, their constants, and how temperature and ethanol move them.

use crate::mixture::Mixture;
use crate::scalar::{Scalar, polynomial};
use crate::substance::Substance;
use crate::units::ICE_POINT_KELVIN;

/// One step of a weak acid: pK(T) = pK(25 °C) + a (1/T − 1/T₂₅) + c (T − T₂₅).
#[derive(Clone, Copy, Debug)]
pub struct Step {
    /// pK at 25 °C and zero ionic strength, molal scale.
    pub at_25c: f64,
    /// a, K.
    pub inverse: f64,
    /// c, 1/K.
    pub linear: f64,
}

/// 25 °C in kelvins.
const T25: f64 = ICE_POINT_KELVIN + 25.0;

const fn step(at_25c: f64, inverse: f64, linear: f64) -> Step {
    Step {
        at_25c,
        inverse,
        linear,
    }
}

impl Step {
    /// pK at `t` in °C.
    #[must_use]
    pub fn at(&self, t: f64) -> f64 {
        let kelvin = t + ICE_POINT_KELVIN;
        self.at_25c + self.inverse * (1.0 / kelvin - 1.0 / T25) + self.linear * (kelvin - T25)
    }
}

/// A weak acid.
#[derive(Clone, Copy, Debug)]
pub struct WeakAcid {
    /// Which substance.
    pub substance: Substance,
    /// Its steps, strongest first.
    pub steps: &'static [Step],
    /// Whether it gives its protons from carboxyl groups, which ethanol weakens.
    pub carboxylic: bool,
}

/// Most steps that an acid has here.
pub const MOST_STEPS: usize = 3;

const MALIC: &[Step] = &[
    step(3.459, 1426.06, 0.014329),
    step(5.097, 1560.08, 0.018233),
];

/// The acids; [`super::Ionic`] holds those of them that a liquid has, in this order.
///
/// Constants at 25 °C: NIST database 46 values as in `tests/reference/acid_pka.csv` and models.md
/// D; lactic acid from memory (CRC); ascorbic acid 4.04 at ionic strength 0.1 (IUPAC list after
/// Serjeant and Dempsey 1979), carried to zero with this crate's own activity coefficients. Unnamed
/// acids count as malic acid.
/// Temperature: Harned–Robinson forms, from memory or fitted (`fits/RESULTS.md`, section 7), checked
/// against the primary standards at 0–50 °C; ascorbic acid's is not known and left out.
pub const ACIDS: [WeakAcid; 9] = [
    WeakAcid {
        substance: Substance::Citric,
        steps: &[
            step(3.128, 1265.87, 0.011774),
            step(4.761, 1502.07, 0.015432),
            step(6.396, 1804.28, 0.022259),
        ],
        carboxylic: true,
    },
    WeakAcid {
        substance: Substance::Malic,
        steps: MALIC,
        carboxylic: true,
    },
    WeakAcid {
        substance: Substance::Lactic,
        steps: &[step(3.86, 1286.49, 0.014776)],
        carboxylic: true,
    },
    WeakAcid {
        substance: Substance::Tartaric,
        steps: &[
            step(3.036, 1525.59, 0.015336),
            step(4.366, 1765.35, 0.019276),
        ],
        carboxylic: true,
    },
    WeakAcid {
        substance: Substance::Acetic,
        steps: &[step(4.756, 1170.48, 0.013399)],
        carboxylic: true,
    },
    WeakAcid {
        substance: Substance::Phosphoric,
        steps: &[
            step(2.148, 799.31, 0.013486),
            step(7.198, 1979.5, 0.01984),
            step(12.375, 767.83, 0.0),
        ],
        carboxylic: false,
    },
    WeakAcid {
        substance: Substance::Ascorbic,
        steps: &[step(4.25, 0.0, 0.0)],
        carboxylic: false,
    },
    WeakAcid {
        substance: Substance::OtherAcids,
        steps: MALIC,
        carboxylic: true,
    },
    WeakAcid {
        substance: Substance::CarbonDioxide,
        steps: &[
            step(6.351, 3404.71, 0.032786),
            step(10.329, 2902.39, 0.02379),
        ],
        carboxylic: false,
    },
];

/// Water: pKw on the molal scale.
pub const WATER: Step = step(13.995, 4470.99, 0.01706);

/// What 1 %vol of ethanol adds to the pK of a carboxylic acid.
///
/// From stoichiometric constants at 12 %vol (Prenesti 2012, as quoted in models.md D).
pub const ETHANOL_SHIFT_PER_VOLUME_PERCENT: f64 = 0.012;

/// Debye–Hückel constant A on the molal scale (decadic), `t` in °C.
///
/// A cubic in t − 25 °C through IAPWS R8-97 (permittivity) and IAPWS-95 (density), −20…60 °C
/// (`fits/debye_huckel.py`).
#[must_use]
pub fn debye_huckel(t: f64) -> f64 {
    polynomial(&[0.50978, 8.555399e-4, 3.82272e-6, 2.6885e-8], t - 25.0).0
}

/// Moles of each acid of [`ACIDS`].
#[must_use]
pub fn moles<S: Scalar>(liquid: &Mixture<S>) -> [S; ACIDS.len()] {
    ACIDS.map(|acid| liquid.moles(acid.substance))
}

/// Phthalic acid, only for the pH standards. First step: van 't Hoff with −2.67 kJ/mol, from memory.
pub const PHTHALIC: &[Step] = &[step(2.950, -139.46, 0.0), step(5.408, 2175.83, 0.025694)];

/// Succinic acid, only for comparison; its change with temperature is not known and left out.
pub const SUCCINIC: &[Step] = &[step(4.207, 0.0, 0.0), step(5.636, 0.0, 0.0)];
