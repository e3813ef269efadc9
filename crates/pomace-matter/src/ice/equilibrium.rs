//! Where drink and ice come to rest.
//!
//! Unknown melt y and temperature T: the liquid with the melt in it is on its freezing line, and no
//! heat is lost. Newton in both, exact slopes (models.md C and G7). If all the ice melts before, T
//! alone is unknown.

use super::melting::{Melting, with_melt};
use super::{Chill, Chilled};
use crate::activity::freezing::{Freezing, of_activity};
use crate::heat::ice_enthalpy;
use crate::range::{ACTIVITY_TEMPERATURE, Outside};
use crate::scalar::{Scalar, Sloped};

/// Two unknowns: melt and temperature.
type Two = Sloped<2>;

/// Ice and drink at rest.
///
/// Accuracy: energy and water close exactly; final temperature and dilution of real drinks are
/// **unvalidated** (no independent rows), and follow the ice's temperature, its wetness and the
/// vessel more than anything else.
///
/// # Errors
/// [`Outside`] as [`crate::activity::Solutes::in_water`], for the liquid before or after.
pub fn settle<S: Scalar>(chill: &Chill<S>) -> Result<Chilled<S>, Outside> {
    let melting = Melting::of(chill);
    let plain = melting.convert(Scalar::value);
    if let Some(t) = all_melts(&melting, &plain)? {
        return Ok(Chilled {
            liquid: with_melt(chill, chill.ice_grams),
            celsius: t,
            melt_grams: chill.ice_grams,
            ice_grams: S::zero(),
            ice_celsius: S::zero(),
        });
    }
    let (melt, t, jacobian) = solve(&plain)?;
    let [f, e] = residuals(&melting, S::from(melt), S::from(t))?;
    let ([y_by_f, t_by_f], [y_by_e, t_by_e]) = (
        solve2(&jacobian, [-1.0, 0.0]),
        solve2(&jacobian, [0.0, -1.0]),
    );
    let melt = f * y_by_f + e * y_by_e + melt;
    let celsius = f * t_by_f + e * t_by_e + t;
    // Where no ice is left, the drink takes another course.
    (chill.ice_grams - melt).kink();
    Ok(Chilled {
        liquid: with_melt(chill, melt),
        celsius,
        melt_grams: melt,
        ice_grams: chill.ice_grams - melt,
        ice_celsius: celsius,
    })
}

/// Distance from the freezing line, and heat that does not close, in units of 100 kJ.
fn residuals<S: Scalar>(melting: &Melting<S>, melt: S, t: S) -> Result<[S; 2], Outside> {
    let heat = melting.heat_without_ice(melt, t) + (melting.ice - melt) * ice_enthalpy(t);
    Ok([
        melting.above_ice_line(melt, t)?,
        (heat - melting.heat) / 1e5,
    ])
}

/// Melt, temperature and the slopes of the residuals there.
fn solve(plain: &Melting<f64>) -> Result<(f64, f64, [[f64; 2]; 2]), Outside> {
    let sloped = plain.convert(Two::from);
    let mut melt = (0.4 * plain.liquid.water).min(0.9 * plain.ice);
    // A strong spirit needs more melt before the models reach it.
    let mut activity = plain.activity(melt);
    while activity.is_err() && melt < 0.9 * plain.ice {
        melt = (1.5 * melt + 1.0).min(0.9 * plain.ice);
        activity = plain.activity(melt);
    }
    let mut t = match of_activity(&activity?) {
        Freezing::At(t) => t.0,
        Freezing::StaysLiquid => -58.0,
    };
    let mut jacobian = [[0.0; 2]; 2];
    let mut settled = false;
    for _ in 0..60 {
        let [f, e] = residuals(&sloped, Two::variable(melt, 0), Two::variable(t, 1))?;
        jacobian = [f.slopes, e.slopes];
        let [dy, dt] = solve2(&jacobian, [-f.value, -e.value]);
        // Never past the ice there is, nor through the floor of the water there is.
        let dy = dy.clamp(
            -0.5 * (plain.liquid.water + melt),
            0.5 * (plain.ice - melt).max(1e-9),
        );
        melt += dy;
        t += dt.clamp(-10.0, 10.0);
        // Newton squares its error: after this step less than 1e-9 is left.
        if dy.abs() < 1e-5 * (1.0 + melt.abs()) && dt.abs() < 1e-5 {
            settled = true;
            break;
        }
    }
    if settled {
        Ok((melt, t, jacobian))
    } else {
        Err(ACTIVITY_TEMPERATURE.not_found())
    }
}

fn solve2(j: &[[f64; 2]; 2], right: [f64; 2]) -> [f64; 2] {
    let determinant = j[0][0] * j[1][1] - j[0][1] * j[1][0];
    [
        (right[0] * j[1][1] - j[0][1] * right[1]) / determinant,
        (j[0][0] * right[1] - right[0] * j[1][0]) / determinant,
    ]
}

/// The final temperature if the ice does not last; `None` if some is left.
fn all_melts<S: Scalar>(melting: &Melting<S>, plain: &Melting<f64>) -> Result<Option<S>, Outside> {
    let t = plain.temperature(plain.ice, plain.heat, 0.0);
    let line = plain.above_ice_line(plain.ice, t.clamp(-58.0, 0.0))?;
    // Warmer than its freezing point: below the line, where ice cannot stay.
    if t.is_nan() || (t < 0.0 && line > 0.0) {
        return Ok(None);
    }
    let celsius = melting.temperature(melting.ice, melting.heat, t);
    celsius.kink();
    if t < 0.0 {
        melting.above_ice_line(melting.ice, celsius)?.kink();
    }
    Ok(Some(celsius))
}
