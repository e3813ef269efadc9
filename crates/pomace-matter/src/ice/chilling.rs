//! The way to rest: chilling stopped after a time.
//!
//! Melt approaches its end as 1 − e^(−t/τ); the temperature follows from the heat at that melt, not
//! from a law of its own (models.md C).

use super::equilibrium::settle;
use super::melting::{Melting, with_melt};
use super::{Chill, Chilled};
use crate::heat::ice_enthalpy;
use crate::range::Outside;
use crate::scalar::Scalar;

/// How a drink is moved over ice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Motion {
    /// Shaken.
    Shake,
    /// Stirred.
    Stir,
    /// Poured from tin to tin over ice.
    Throw,
    /// Spun in crushed ice.
    Swizzle,
    /// Beaten with ice in a blender: to rest in any time that people blend.
    Blend,
}

impl Motion {
    /// Time in which melt covers 63 % of its way, seconds: estimates; a house learns its own.
    ///
    /// Shaking 3–4 s (models.md C). Stirring is set so that half a minute in a room-warm glass gives
    /// what bars find, 40 to 50 % of dilution and −5 to −1 °C (common practice, no source), and two
    /// minutes come to rest; models.md's 15–20 s would give a half more than that. Throwing, swizzling
    /// and blending are assumed between.
    #[must_use]
    pub const fn time_constant_seconds(self) -> f64 {
        match self {
            Self::Shake => 3.5,
            Self::Stir => 26.0,
            Self::Throw => 10.0,
            Self::Swizzle => 8.0,
            Self::Blend => 3.0,
        }
    }
}

/// Share of the way to rest after a time.
#[must_use]
pub fn approach<S: Scalar>(seconds: S, time_constant: f64) -> S {
    -(seconds / -time_constant).exp() + 1.0
}

/// Drink and ice when melt has come this share of its way to rest.
///
/// Ice left is taken to have come the same share of the way to the final temperature.
///
/// # Errors
/// As [`settle`].
pub fn part_way<S: Scalar>(chill: &Chill<S>, share: S) -> Result<Chilled<S>, Outside> {
    Ok(toward(chill, &settle(chill)?, share))
}

/// [`part_way`] to a rest that is already known, for many shares of one way.
#[must_use]
pub fn toward<S: Scalar>(chill: &Chill<S>, rest: &Chilled<S>, share: S) -> Chilled<S> {
    let melting = Melting::of(chill);
    let melt_grams = rest.melt_grams * share;
    let ice_grams = chill.ice_grams - melt_grams;
    let ice_celsius = chill.ice_celsius + (rest.ice_celsius - chill.ice_celsius) * share;
    let heat = melting.heat - ice_grams * ice_enthalpy(ice_celsius);
    Chilled {
        liquid: with_melt(chill, melt_grams),
        celsius: melting.temperature(melt_grams, heat, rest.celsius.value()),
        melt_grams,
        ice_grams,
        ice_celsius,
    }
}
