//! Readings of instruments, and what they tell of a liquid.
//!
//! A hydrometer and a refractometer are both graduated in sucrose, and both are wrong as soon as
//! there is ethanol: it lightens the liquid and bends light more, sugar does both the other way
//! round or alike. For that very reason the two readings *together* give strength and sugar, and
//! well (models.md A4).

use crate::density::{self, PURE_ETHANOL_20C, sucrose_water};
use crate::mixture::Mixture;
use crate::range::{Outside, READ_BRIX, READ_DENSITY, STRENGTH};
use crate::refraction;
use crate::scalar::{Scalar, Sloped};
use crate::substance::Substance;
use crate::units::{Brix, Celsius, KilogramsPerCubicMetre};

/// What a hydrometer graduated in sucrose shows for a liquid of this density at 20 °C.
///
/// # Errors
/// [`Outside`] for a density beyond 0…85 % sucrose by more than a little (light spirits go below
/// zero and are refused below −1 °Bx).
pub fn hydrometer_brix<S: Scalar>(density: KilogramsPerCubicMetre<S>) -> Result<Brix<S>, Outside> {
    let wanted = density.0.value();
    let (mut q, mut slope) = ((wanted - 998.2) / 450.0, 400.0);
    for _ in 0..60 {
        let rho = sucrose_water::density(
            Sloped::<1>::variable(q.clamp(-0.05, 0.9), 0),
            Sloped::from(20.0),
        );
        slope = rho.slopes[0];
        let step = (wanted - rho.value) / slope;
        q = (q + step).clamp(-0.05, 0.9);
        if step.abs() < 1e-14 {
            break;
        }
    }
    READ_BRIX.check(q * 100.0)?;
    if (sucrose_water::density(q, 20.0) - wanted).abs() > 1e-7 {
        return Err(READ_BRIX.not_found());
    }
    Ok(Brix(density.0.chain(q * 100.0, 100.0 / slope)))
}

/// A reading with its standard deviation, in the unit of the reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading<T> {
    /// What the instrument showed.
    pub value: T,
    /// One standard deviation of it.
    pub deviation: f64,
}

/// A number found from readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// The number.
    pub value: f64,
    /// One standard deviation from the instruments alone.
    pub from_instruments: f64,
    /// One standard deviation with the doubt of the models.
    pub in_all: f64,
}

/// Strength and sugar found from two readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contents {
    /// Strength, %vol.
    pub strength_percent: Found,
    /// Sugar as sucrose, g/L.
    pub sugar_g_per_l: Found,
    /// Whether a small negative number was set to zero.
    pub clamped: bool,
}

/// Why two readings gave no answer.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum ReadingError {
    /// A reading out of range.
    #[error(transparent)]
    Outside(#[from] Outside),
    /// No liquid of water, ethanol, sugar and the declared acid reads so.
    #[error(
        "the readings contradict each other: they would need {strength_percent:.1} %vol and {sugar_g_per_l:.0} g/L of sugar; check the instruments, the temperature (20 °C), bubbles and the declared acid"
    )]
    Contradiction {
        /// Strength that would fit.
        strength_percent: f64,
        /// Sugar that would fit.
        sugar_g_per_l: f64,
    },
    /// The search came to no end: what it holds is no answer.
    #[error(
        "no strength and sugar were found for these readings; they are off by {density:.2} kg/m³ and {brix:.2} °Bx at the last try"
    )]
    NotFound {
        /// What is left of the density, kg/m³.
        density: f64,
        /// What is left of the refractometer reading, °Bx.
        brix: f64,
    },
}

/// A litre that weighs what the densimeter says: ethanol, sugar, what is declared, and water.
fn litre(
    rho: f64,
    declared: &Mixture,
    strength: Sloped<2>,
    sugar: Sloped<2>,
) -> Mixture<Sloped<2>> {
    let ethanol = strength * (PURE_ETHANOL_20C / 100.0);
    let mut liquid = declared.lift::<Sloped<2>>();
    liquid.put(Substance::Ethanol, ethanol);
    liquid.put(Substance::Sucrose, sugar);
    let water = -(ethanol + sugar) + (rho - declared.total().0);
    liquid.set(Substance::Water, water);
    liquid
}

/// Strength and sugar from a density and a refractometer reading, both at 20 °C.
///
/// `declared` is what else is known to be in a litre, in grams: above all the acid (10 g/L left out
/// reads as 10 g/L of sugar). Newton in both unknowns; the system is well conditioned everywhere.
///
/// The doubt of the models comes on top of the instruments': 1 % of the room that solids take
/// beside ethanol, and 0.05 to 0.25 °Bx. Mixtures of ethanol and sugar are **unvalidated**.
///
/// # Errors
/// [`ReadingError::Outside`] for readings no drink gives; [`ReadingError::Contradiction`] below
/// −0.5 %vol or −5 g/L; [`ReadingError::NotFound`] where the search does not settle.
pub fn contents(
    density: Reading<KilogramsPerCubicMetre>,
    refraction: Reading<Brix>,
    declared: &Mixture,
) -> Result<Contents, ReadingError> {
    let rho = READ_DENSITY.check(density.value.0)?;
    let brix = READ_BRIX.check(refraction.value.0)?;
    let residuals = |strength: f64, sugar: f64| -> Result<[Sloped<2>; 2], Outside> {
        let (x, y) = (Sloped::variable(strength, 0), Sloped::variable(sugar, 1));
        let liquid = litre(rho, declared, x, y);
        let volume = density::volume(&liquid, Celsius(Sloped::from(20.0)))?;
        let read = refraction::brix::from_index(refraction::index(&liquid)?)?;
        // In units of the readings: kg/m³ and °Bx.
        Ok([volume.0 * (-rho / 1000.0) + rho, read.0 - brix])
    };
    let (mut strength, mut sugar) = (20.0, 100.0);
    let mut inverse = [[0.0; 2]; 2];
    let mut here = residuals(strength, sugar)?;
    for _ in 0..60 {
        let [f, g] = here;
        let determinant = f.slopes[0] * g.slopes[1] - f.slopes[1] * g.slopes[0];
        inverse = [
            [g.slopes[1] / determinant, -f.slopes[1] / determinant],
            [-g.slopes[0] / determinant, f.slopes[0] / determinant],
        ];
        let dx = -(inverse[0][0] * f.value + inverse[0][1] * g.value);
        let dy = -(inverse[1][0] * f.value + inverse[1][1] * g.value);
        // Shorter where the whole step would leave what the models cover.
        let step = (0..12).map(|k| 0.5_f64.powi(k)).find_map(|damp| {
            let (x, y) = (strength + damp * dx, sugar + damp * dy);
            residuals(x, y).ok().map(|found| (x, y, found))
        });
        let Some((x, y, found)) = step else {
            return Err(ReadingError::Contradiction {
                strength_percent: strength + dx,
                sugar_g_per_l: sugar + dy,
            });
        };
        (strength, sugar, here) = (x, y, found);
        if dx.abs() < 1e-10 && dy.abs() < 1e-9 {
            break;
        }
    }
    let [density_left, brix_left] = here.map(|left| left.value);
    let settled = density_left.abs() < 1e-6 && brix_left.abs() < 1e-6;
    if !settled {
        return Err(ReadingError::NotFound {
            density: density_left,
            brix: brix_left,
        });
    }
    if strength < -0.5 || sugar < -5.0 || strength > 100.5 || !strength.is_finite() {
        return Err(ReadingError::Contradiction {
            strength_percent: strength,
            sugar_g_per_l: sugar,
        });
    }
    STRENGTH.check(strength.clamp(0.0, 100.0))?;
    let beside_ethanol = strength.max(0.0) / (strength.max(0.0) + 10.0);
    let model = [
        0.1 + 0.0062 * sugar.max(0.0) * beside_ethanol,
        0.05 + 0.2 * beside_ethanol,
    ];
    let spread = |row: [f64; 2], sd: [f64; 2]| (row[0] * sd[0]).hypot(row[1] * sd[1]);
    let found = |value: f64, row: [f64; 2]| {
        let from_instruments = spread(row, [density.deviation, refraction.deviation]);
        Found {
            value: value.max(0.0),
            from_instruments,
            in_all: from_instruments.hypot(spread(row, model)),
        }
    };
    Ok(Contents {
        strength_percent: found(strength, inverse[0]),
        sugar_g_per_l: found(sugar, inverse[1]),
        clamped: strength < 0.0 || sugar < 0.0,
    })
}
