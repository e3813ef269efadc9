//! The way of a drink over ice: how cold and how thin it is by the second.

use pomace_matter::ice::Chill;
use pomace_matter::ice::chilling::{approach, toward};
use pomace_matter::ice::equilibrium::settle;

/// More moments than anybody draws.
const MOMENTS: u32 = 1000;

/// A drink that met ice in one step.
#[derive(Clone, Copy, Debug)]
pub struct OnIce<S = f64> {
    /// Drink, ice and vessel at the beginning.
    pub chill: Chill<S>,
    /// How long, s.
    pub seconds: S,
    /// Time in which melt covers 63 % of its way to rest, s.
    pub pace_seconds: S,
}

/// A drink at a moment over ice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// Since it met the ice, s.
    pub seconds: f64,
    /// Water that went into it since, g, the water on the ice counted.
    pub melt_grams: f64,
    /// Temperature, °C.
    pub celsius: f64,
}

impl OnIce {
    /// The way: its beginning, a moment for each so many seconds, and its end. Where the models end there is
    /// only the beginning.
    #[must_use]
    pub fn way(&self, every_seconds: f64) -> Vec<Moment> {
        let begin = Moment {
            seconds: 0.0,
            melt_grams: 0.0,
            celsius: self.chill.liquid_celsius,
        };
        let Ok(rest) = settle(&self.chill) else {
            return vec![begin];
        };
        let before_its_end = (1_u32..=MOMENTS)
            .map(|part| f64::from(part) * every_seconds)
            .take_while(|seconds| *seconds < self.seconds - 1e-6);
        let way = before_its_end.chain([self.seconds]).map(|seconds| {
            let share = approach(seconds / self.pace_seconds, 1.0);
            let now = toward(&self.chill, &rest, share);
            Moment {
                seconds,
                melt_grams: now.melt_grams + self.chill.surface_water_grams,
                celsius: now.celsius,
            }
        });
        std::iter::once(begin).chain(way).collect()
    }
}
