//! Where a liquid begins to freeze.

use super::ethanol::freezing_of_spirit;
use super::{Activity, ice_line};
use crate::mixture::Mixture;
use crate::range::{ETHANOL_MOLALITY, Outside};
use crate::scalar::{Scalar, Sloped};
use crate::substance::Substance;
use crate::units::{Celsius, ICE_POINT_KELVIN, MassFraction};

/// No freezing point is sought below this, K.
const LOWEST: f64 = 215.0;

/// The freezing point of a liquid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Freezing<S = f64> {
    /// Ice begins to form at this temperature.
    At(Celsius<S>),
    /// No ice above −58 °C.
    StaysLiquid,
}

impl<S: Scalar> Freezing<S> {
    /// The temperature, if there is one.
    #[must_use]
    pub fn celsius(self) -> Option<Celsius<S>> {
        match self {
            Self::At(t) => Some(t),
            Self::StaysLiquid => None,
        }
    }
}

/// Freezing point of a liquid: where the activity of its water meets the ice line.
///
/// Accuracy: `tests/reference/freezing_point.csv` for solutions of one substance (ethanol 0.13 K to
/// 60 % by mass against the table it is laid through, 0.4 K against another); mixtures of ethanol
/// *and* solids are unvalidated. A liquid may stay unfrozen some kelvins below (supercooling).
///
/// # Errors
/// As [`Activity::of`].
pub fn freezing_point<S: Scalar>(liquid: &Mixture<S>) -> Result<Freezing<S>, Outside> {
    Ok(of_activity(&Activity::of(liquid)?))
}

/// Freezing point of ethanol and water alone: the curve that the ethanol term is laid through, read
/// directly. Equal to [`freezing_point`], and several times faster.
///
/// # Errors
/// [`Outside`] beyond 68 % of ethanol by mass.
pub fn of_spirit<S: Scalar>(ethanol: MassFraction<S>) -> Result<Celsius<S>, Outside> {
    let p = ethanol.0;
    let molality = p / (-p + 1.0) * (1000.0 / Substance::Ethanol.molar_mass());
    let molality = ETHANOL_MOLALITY.check(molality)?;
    Ok(Celsius(freezing_of_spirit(molality) - ICE_POINT_KELVIN))
}

/// [`freezing_point`] of a liquid that has been read.
#[must_use]
pub fn of_activity<S: Scalar>(activity: &Activity<S>) -> Freezing<S> {
    let plain = activity.convert(|s| Sloped::<1>::from(s.value()));
    let gap = |kelvin: f64| {
        let t = Sloped::<1>::variable(kelvin, 0);
        plain.ln_activity(t) - ice_line::ln_activity(t)
    };
    if gap(ICE_POINT_KELVIN).value >= 0.0 {
        return Freezing::At(Celsius(S::zero()));
    }
    let (mut low, mut high) = (LOWEST, ICE_POINT_KELVIN);
    // The ice line falls about 0.0097 per kelvin: a start within a kelvin for most drinks.
    let mut kelvin = (ICE_POINT_KELVIN + gap(ICE_POINT_KELVIN).value * 103.0).clamp(LOWEST, high);
    let mut slope = -0.01;
    for _ in 0..100 {
        let g = gap(kelvin);
        slope = g.slopes[0];
        let step = -g.value / slope;
        // Tested before the bracket: in the other order a converged point on the edge of the
        // bracket is bisected away.
        // Newton squares its error: what is left after this step is below 1e-9 K.
        if step.abs() < 1e-4 {
            kelvin += step;
            break;
        }
        if g.value > 0.0 {
            low = kelvin;
        } else {
            high = kelvin;
        }
        let next = kelvin + step;
        kelvin = if next > low && next < high {
            next
        } else {
            0.5 * (low + high)
        };
        if high - low < 1e-10 {
            if low <= LOWEST {
                return Freezing::StaysLiquid;
            }
            break;
        }
    }
    let residual = activity.ln_activity(S::from(kelvin)) - ice_line::ln_activity(kelvin);
    Freezing::At(Celsius(
        S::implicit(kelvin, residual, slope) - ICE_POINT_KELVIN,
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Grams;

    #[test]
    fn both_ways_to_freeze_a_spirit_agree() {
        for percent in 0..=68 {
            let p = f64::from(percent) / 100.0;
            let liquid = Mixture::of(&[
                (Substance::Ethanol, Grams(p)),
                (Substance::Water, Grams(1.0 - p)),
            ]);
            let general = freezing_point(&liquid).unwrap().celsius().unwrap().0;
            assert!(
                (general - of_spirit(MassFraction(p)).unwrap().0).abs() < 1e-9,
                "{percent}"
            );
        }
    }
}
