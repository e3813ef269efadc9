//! Texture: foam and how it falls, particles, body. What cannot be predicted is not.

use pomace_matter::substance::{Kind, Set};
use pomace_matter::units::Celsius;
use pomace_matter::{Mixture, Substance, density};

use crate::remark::Assumption;

/// How air was beaten in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Beaten {
    /// Shaken with ice.
    Shaken,
    /// Whipped without ice.
    Whipped,
}

/// What a drink is like in the mouth, as far as it can be said.
#[derive(Clone, Debug, PartialEq)]
pub struct Texture {
    /// Foam on top when it is served, mL; none without something that holds it.
    pub foam_ml: Option<f64>,
    /// Volume with its foam, mL.
    pub volume_with_foam_ml: f64,
    /// Minutes until half the foam has drained; its source and range.
    pub foam_half_minutes: Option<Assumption>,
    /// Particles, g/100 mL.
    pub suspended_g_per_100ml: f64,
    /// Dissolved solids without sugar and acid, g/100 mL: what gives body beside sweetness.
    pub body_g_per_100ml: f64,
    /// What the foam stands on.
    pub assumed: Vec<Assumption>,
}

const PRACTICE: &str = "common practice, no source";

/// Less protein than this holds no foam, g/100 mL; assumed.
const HOLDS_FOAM: f64 = 0.15;

const SHAKEN: Assumption = Assumption::new(
    "foam of a shaken drink",
    (15.0, 10.0, 25.0),
    "% of its volume",
    PRACTICE,
);
const WHIPPED: Assumption = Assumption::new(
    "volume that whipping adds",
    (30.0, 25.0, 33.0),
    "% of its volume",
    PRACTICE,
);
const HALF: Assumption = Assumption::new(
    "time until half the foam has drained",
    (12.0, 5.0, 30.0),
    "min",
    PRACTICE,
);

impl Texture {
    /// Of a liquid that was beaten so.
    #[must_use]
    pub fn of(liquid: &Mixture, celsius: f64, beaten: Option<Beaten>) -> Option<Self> {
        let volume = density::volume(liquid, Celsius(celsius)).ok()?.0;
        if volume <= 0.0 {
            return None;
        }
        let per_100 = |grams: f64| 100.0 * grams / volume;
        let protein = per_100(liquid.grams(Substance::Protein));
        let overrun = match beaten {
            Some(Beaten::Whipped) => Some(WHIPPED),
            Some(Beaten::Shaken) => Some(SHAKEN),
            None => None,
        }
        .filter(|_| protein >= HOLDS_FOAM);
        let foam_ml = overrun.map(|o| volume * o.value / 100.0);
        Some(Self {
            foam_ml,
            volume_with_foam_ml: volume + foam_ml.unwrap_or(0.0),
            foam_half_minutes: overrun.map(|_| HALF),
            suspended_g_per_100ml: per_100(liquid.sum(Set::INSOLUBLE)),
            body_g_per_100ml: per_100(
                liquid.sum(Set::of_kind(Kind::Polyol).and(Set::of_kind(Kind::Colloid))),
            ),
            assumed: overrun.into_iter().chain(overrun.map(|_| HALF)).collect(),
        })
    }

    /// Foam left after some minutes, mL: half and half again.
    #[must_use]
    pub fn foam_after(&self, minutes: f64) -> f64 {
        match (self.foam_ml, &self.foam_half_minutes) {
            (Some(foam), Some(half)) => foam * 0.5_f64.powf(minutes / half.value),
            _ => 0.0,
        }
    }
}
