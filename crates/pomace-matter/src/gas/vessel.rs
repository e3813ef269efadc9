//! A closed vessel: gas shared between the liquid and the space above it.

use super::ATMOSPHERE_BAR;
use super::solubility::{Gas, factor, molarity};
use crate::mixture::Mixture;
use crate::range::{GAS_PRESSURE, GAS_TEMPERATURE, Outside};
use crate::scalar::{Scalar, Sloped};
use crate::units::ICE_POINT_KELVIN;

const R: f64 = 0.0820574;

/// A vessel about to be closed.
#[derive(Clone, Copy, Debug)]
pub struct Charge<S = f64> {
    /// Which gas.
    pub gas: Gas,
    /// All of it, dissolved or not, g.
    pub gas_grams: S,
    /// The liquid, without the gas.
    pub liquid: Mixture<S>,
    /// Volume of the liquid, L.
    pub liquid_litres: S,
    /// Volume above it, L.
    pub space_litres: S,
    /// Temperature, °C.
    pub celsius: S,
}

/// A vessel at rest.
#[derive(Clone, Copy, Debug)]
pub struct Charged<S = f64> {
    /// Gas pressure above the liquid, bar; the air that was there comes on top.
    pub gas_bar: S,
    /// What a gauge shows if the air was left in: bar above the air outside.
    pub gauge_bar: S,
    /// Gas in the liquid, g.
    pub dissolved_grams: S,
    /// Gas above it, g.
    pub space_grams: S,
}

/// Moles in liquid and space under `p` atm.
fn total<S: Scalar>(gas: Gas, p: S, t: S, factor: S, litres: S, space: S) -> S {
    molarity(gas, p, t) * factor * litres + p * space / ((t + ICE_POINT_KELVIN) * R)
}

/// Where a charged vessel comes to rest: n = c(p) V + p W/RT, one root in p.
///
/// # Errors
/// [`Outside`] above 25 bar, and as [`super::dissolved`]; also for a vessel that has no answer, such as
/// one without room.
pub fn settle<S: Scalar>(charge: &Charge<S>) -> Result<Charged<S>, Outside> {
    let factor = factor(&charge.liquid)?;
    GAS_TEMPERATURE.check(charge.celsius)?;
    let moles = charge.gas_grams / charge.gas.molar_mass();
    let (t, litres, space) = (
        charge.celsius.value(),
        charge.liquid_litres.value(),
        charge.space_litres.value(),
    );
    let (mut p, mut slope) = (1.0, 1.0);
    for _ in 0..100 {
        let plain = |v: f64| Sloped::<1>::from(v);
        let f = total(
            charge.gas,
            Sloped::variable(p, 0),
            plain(t),
            plain(factor.value()),
            plain(litres),
            plain(space),
        );
        slope = f.slopes[0];
        let step = (moles.value() - f.value) / slope;
        // Not `clamp`, which panics where the gas is no number.
        p = (p + step).max(0.5 * p).min(2.0 * p + 0.1);
        if step.abs() < 1e-12 {
            break;
        }
    }
    GAS_PRESSURE.check(p * ATMOSPHERE_BAR)?;
    let residual = total(
        charge.gas,
        S::from(p),
        charge.celsius,
        factor,
        charge.liquid_litres,
        charge.space_litres,
    ) - moles;
    let settled = residual.value().abs() <= 1e-9 * moles.value().max(1e-3);
    if !settled {
        return Err(GAS_PRESSURE.not_found());
    }
    let p = S::implicit(p, residual, slope);
    let in_liquid = molarity(charge.gas, p, charge.celsius) * factor * charge.liquid_litres;
    let gas_bar = p * ATMOSPHERE_BAR;
    Ok(Charged {
        gas_bar,
        // Air of one atmosphere was closed in, and one atmosphere is outside: they cancel.
        gauge_bar: gas_bar,
        dissolved_grams: in_liquid * charge.gas.molar_mass(),
        space_grams: charge.gas_grams - in_liquid * charge.gas.molar_mass(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::substance::Substance;
    use crate::units::Grams;

    #[test]
    fn a_vessel_without_an_answer_is_refused() {
        let vessel = |gas_grams, space_litres, celsius| Charge {
            gas: Gas::CarbonDioxide,
            gas_grams,
            liquid: Mixture::of(&[(Substance::Water, Grams(500.0))]),
            liquid_litres: 0.0,
            space_litres,
            celsius,
        };
        assert!(settle(&vessel(5.0, 0.0, 5.0)).is_err());
        assert!(settle(&vessel(f64::NAN, 0.5, 5.0)).is_err());
        assert!(settle(&vessel(5.0, 0.5, 120.0)).is_err());
        assert!(settle(&vessel(0.0, 0.5, 5.0)).unwrap().gas_bar.abs() < 1e-9);
    }

    #[test]
    fn a_charger_in_half_a_litre() {
        // models.md G2 (ideal there, so a little lower here): 8 g N₂O, 0.5 L of water and 0.5 L of
        // space at 5 °C: 3.94 atm, 8.4 g/L dissolved, 4.2 g above.
        let charged = settle(&Charge {
            gas: Gas::NitrousOxide,
            gas_grams: 8.0,
            liquid: Mixture::of(&[(Substance::Water, Grams(500.0))]),
            liquid_litres: 0.5,
            space_litres: 0.5,
            celsius: 5.0,
        })
        .unwrap();
        assert!(
            (charged.gas_bar / ATMOSPHERE_BAR - 3.94).abs() < 0.12,
            "{charged:?}"
        );
        assert!((charged.space_grams - 3.8).abs() < 0.5, "{charged:?}");
        assert!((charged.space_grams + charged.dissolved_grams - 8.0).abs() < 1e-9);
    }
}
