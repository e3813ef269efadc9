//! How much of a liquid is ice at a temperature: slush, a freezer bottle, a granita.

use crate::activity::{Solutes, ice_line};
use crate::mixture::Mixture;
use crate::range::{ACTIVITY_TEMPERATURE, Outside, WATER_SHARE};
use crate::scalar::{Scalar, Sloped};
use crate::substance::Substance;
use crate::units::{Celsius, Grams, ICE_POINT_KELVIN};

/// Grams of ice in a liquid held at a temperature until nothing changes; zero above its freezing
/// point.
///
/// Water freezes out until what is left of it is so full of solutes that its activity meets the ice
/// line: one unknown, the liquid water. Steep: 0.07 to 0.12 of the mass per kelvin in a usual slush.
/// Mixtures are **unvalidated**; a sugar that crystallises (sucrose below −14 °C) and a liquid that
/// supercools are left out.
///
/// # Errors
/// [`Outside`] where more would freeze than the models follow: less than 30 % of the liquid left
/// being water, or a temperature out of range.
pub fn ice_at<S: Scalar>(
    liquid: &Mixture<S>,
    temperature: Celsius<S>,
) -> Result<Grams<S>, Outside> {
    let t = ACTIVITY_TEMPERATURE.check(temperature.0)?;
    let kelvin = t + ICE_POINT_KELVIN;
    let water = liquid.grams(Substance::Water);
    let solutes = Solutes::of(liquid);
    let line = |w: S| -> Result<S, Outside> {
        Ok(solutes.in_water(w)?.ln_activity(kelvin) - ice_line::ln_activity(kelvin))
    };
    t.kink();
    if t.value() >= 0.0 {
        return Ok(Grams(S::zero()));
    }
    let supercooled = line(water)?;
    supercooled.kink();
    if supercooled.value() <= 0.0 {
        return Ok(Grams(S::zero()));
    }
    let plain = solutes.convert(|s| Sloped::<1>::from(s.value()));
    let plain_kelvin = Sloped::from(kelvin.value());
    let gap = |w: f64| -> Result<Sloped<1>, Outside> {
        let activity = plain.in_water(Sloped::variable(w, 0))?;
        Ok(activity.ln_activity(plain_kelvin) - ice_line::ln_activity(plain_kelvin))
    };
    // Less water, lower activity: the gap rises with the water. The floor is where the models end.
    let (mut low, mut high) = (0.0, water.value());
    let mut w = 0.7 * high;
    let mut slope = 1.0;
    let mut beyond = None;
    for _ in 0..200 {
        match gap(w) {
            Ok(g) => {
                slope = g.slopes[0];
                let step = -g.value / slope;
                if step.abs() < 1e-12 * high {
                    beyond = None;
                    break;
                }
                if g.value > 0.0 {
                    high = w;
                } else {
                    low = w;
                }
                let next = w + step;
                w = if next > low && next < high {
                    next
                } else {
                    0.5 * (low + high)
                };
                beyond = None;
            }
            Err(outside) => {
                low = w;
                w = 0.5 * (low + high);
                beyond = Some(outside);
                if high - low < 1e-9 * water.value() {
                    break;
                }
            }
        }
    }
    if let Some(outside) = beyond {
        return Err(outside);
    }
    let residual = line(S::from(w))?;
    let settled = residual.value().abs() < 1e-9;
    if !settled {
        return Err(WATER_SHARE.not_found());
    }
    Ok(Grams(water - S::implicit(w, residual, slope)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_ice_above_the_freezing_point_and_more_below() {
        let syrup = Mixture::of(&[
            (Substance::Water, Grams(85.0)),
            (Substance::Sucrose, Grams(15.0)),
        ]);
        let at = |t: f64| ice_at(&syrup, Celsius(t)).unwrap().0;
        assert!(at(5.0).abs() < 1e-12 && at(-0.5).abs() < 1e-12);
        assert!(at(-2.0) > 20.0 && at(-4.0) > at(-2.0) && at(-8.0) > at(-4.0));
    }

    #[test]
    fn what_is_left_freezes_at_that_temperature() {
        use crate::activity::freezing::freezing_point;
        let drink = Mixture::of(&[
            (Substance::Water, Grams(75.0)),
            (Substance::Ethanol, Grams(10.0)),
            (Substance::Sucrose, Grams(12.0)),
        ]);
        let ice = ice_at(&drink, Celsius(-9.0)).unwrap().0;
        let mut rest = drink;
        rest.put(Substance::Water, -ice);
        let t = freezing_point(&rest).unwrap().celsius().unwrap().0;
        assert!((t + 9.0).abs() < 1e-8, "{t}");
    }

    #[test]
    fn slopes_agree_with_differences() {
        let build = |ethanol: f64, t: f64| {
            let liquid = Mixture::of(&[
                (Substance::Water, Grams(Sloped::<2>::from(75.0))),
                (Substance::Ethanol, Grams(Sloped::variable(ethanol, 0))),
                (Substance::Sucrose, Grams(Sloped::from(12.0))),
            ]);
            ice_at(&liquid, Celsius(Sloped::variable(t, 1))).unwrap().0
        };
        let exact = build(10.0, -9.0);
        let h = 1e-4;
        let by_ethanol = (build(10.0 + h, -9.0).value - build(10.0 - h, -9.0).value) / (2.0 * h);
        let by_t = (build(10.0, -9.0 + h).value - build(10.0, -9.0 - h).value) / (2.0 * h);
        assert!((exact.slopes[0] - by_ethanol).abs() < 1e-5 * by_ethanol.abs());
        assert!((exact.slopes[1] - by_t).abs() < 1e-5 * by_t.abs());
    }
}
