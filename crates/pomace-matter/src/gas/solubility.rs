//! Solubility of carbon dioxide and of laughing gas.

use super::ATMOSPHERE_BAR;
use crate::density;
use crate::mixture::Mixture;
use crate::range::{GAS_PRESSURE, GAS_STRENGTH, GAS_TEMPERATURE, Outside};
use crate::scalar::{Scalar, polynomial};
use crate::units::{Celsius, GramsPerLitre, ICE_POINT_KELVIN};

/// A gas that drinks are charged with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gas {
    /// Carbon dioxide.
    CarbonDioxide,
    /// Nitrous oxide.
    NitrousOxide,
}

impl Gas {
    /// Molar mass, g/mol.
    #[must_use]
    pub const fn molar_mass(self) -> f64 {
        match self {
            Self::CarbonDioxide => 44.009,
            Self::NitrousOxide => 44.013,
        }
    }

    /// Coefficients of ln K₀ = a + b/u + c ln u, u = T/100 K, K₀ in mol/(L atm).
    /// Sources: Weiss (1974), Mar. Chem. 2:203; Weiss and Price (1980), Mar. Chem. 8:347.
    const fn henry(self) -> [f64; 3] {
        match self {
            Self::CarbonDioxide => [-58.0931, 90.5069, 22.2940],
            Self::NitrousOxide => [-62.7062, 97.3066, 24.1406],
        }
    }
}

/// Molar gas constant, L atm/(mol K).
const R: f64 = 0.0820574;
/// Partial molar volume of the dissolved gas, L/mol.
const MOLAR_VOLUME: f64 = 0.0323;

/// Weiss measured to 40 °C. His curve meets Carroll's data (CRC Handbook) within 2.4 % to 60 °C and
/// leaves them by 0.15 % per kelvin from there: bent back, fitted to those rows at 80 °C.
const HOT: f64 = 60.0;
const BENT_PER_KELVIN: f64 = -0.0015;

/// K₀ in pure water, mol/(L atm), `t` in °C.
pub(super) fn henry<S: Scalar>(gas: Gas, t: S) -> S {
    let [a, b, c] = gas.henry();
    let u = (t + ICE_POINT_KELVIN) / 100.0;
    let hotter = (t - HOT).at_least(0.0);
    (S::from(b) / u + u.ln() * c + a + hotter * BENT_PER_KELVIN).exp()
}

/// Second virial coefficient of carbon dioxide, L/mol (Weiss 1974); used for both gases.
fn virial<S: Scalar>(t: S) -> S {
    let (value, slope) = polynomial(
        &[-1636.75, 12.0408, -0.0327957, 3.16528e-5],
        t.value() + ICE_POINT_KELVIN,
    );
    t.chain(value / 1000.0, slope / 1000.0)
}

/// mol/L dissolved in water under `p` atm of the gas.
pub(super) fn molarity<S: Scalar>(gas: Gas, p: S, t: S) -> S {
    let rt = (t + ICE_POINT_KELVIN) * R;
    let fugacity = p * (virial(t) * p / rt).exp();
    henry(gas, t) * fugacity * ((-p + 1.0) * MOLAR_VOLUME / rt).exp()
}

/// How much less a drink takes up than water: (0.86 − 0.01 A)(1 − 0.00144 S)/0.86, A in %vol, S sugar
/// in g/L.
///
/// Source: the method for sparkling wine in Regulation (EEC) 2676/90, as quoted (models.md G2), to
/// 14 %vol and 100 g/L. Between 14 and 45 %vol the value at 14 is held, since solubility there passes
/// a minimum; 15 % doubt.
#[must_use]
pub fn solvent_factor<S: Scalar>(strength_percent: S, sugar_g_per_l: S) -> S {
    let a = strength_percent.at_most(14.0);
    let sugar = -(sugar_g_per_l.at_most(400.0) * 0.00144) + 1.0;
    (-(a * 0.01) + 0.86) * sugar / 0.86
}

/// Gas dissolved in a liquid under `bar` of that gas (absolute), at rest.
///
/// c = K₀ f exp((1 − p) v/RT), f = p exp(B p/RT), times [`solvent_factor`]. Against Carroll (1991),
/// Murray and Riley (1971) and an independent engine: `tests/reference/gas_solubility.csv`; 3 % in
/// water, 7 % in wine, 15 % at 15–45 %vol.
///
/// # Errors
/// [`Outside`] beyond −5…80 °C, 25 bar or 45 %vol.
pub fn dissolved<S: Scalar>(
    gas: Gas,
    liquid: &Mixture<S>,
    bar: S,
    temperature: Celsius<S>,
) -> Result<GramsPerLitre<S>, Outside> {
    let t = GAS_TEMPERATURE.check(temperature.0)?;
    let p = GAS_PRESSURE.check(bar)? / ATMOSPHERE_BAR;
    let factor = factor(liquid)?;
    Ok(GramsPerLitre(
        molarity(gas, p, t) * factor * gas.molar_mass(),
    ))
}

/// [`solvent_factor`] of a liquid.
pub(super) fn factor<S: Scalar>(liquid: &Mixture<S>) -> Result<S, Outside> {
    let volume = density::volume(liquid, Celsius(S::from(20.0)))?;
    let strength = GAS_STRENGTH.check(density::strength_in(liquid, volume).0)?;
    Ok(solvent_factor(
        strength,
        liquid.sugars() / volume.0 * 1000.0,
    ))
}
