//! Minutes in the glass: a drink that waits over ice.
//!
//! Drink and ice go on to rest, while the room warms both. Nobody stirs, so it takes minutes; a block
//! takes longer than cubes. Pace and warmth are assumed, and the ice where it was not told; [`GlassIce`] says
//! which.

use pomace_matter::ice::Chill;
use pomace_matter::ice::chilling::{approach, part_way};
use pomace_matter::{Outside, Scalar};

use crate::house::ROOM;
use crate::inputs::Inputs;
use crate::remark::Assumption;
use crate::stream::Stream;

/// A drink after some minutes in the glass.
#[derive(Clone, Debug, PartialEq)]
pub struct Minute<S: Scalar = f64> {
    /// Minutes since it was served.
    pub minute: u32,
    /// What there is to drink.
    pub stream: Stream<S>,
    /// Water from the ice in the glass, g.
    pub melt: S,
}

/// Ice that a drink is poured over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GlassIce {
    /// All of it, g.
    pub(crate) grams: Told,
    /// Whether it is one large piece.
    pub(crate) is_block: bool,
    /// Its temperature, °C.
    pub(crate) celsius: Told,
}

/// Something that was told, or stands in for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Told {
    Known(f64),
    Usual(Assumption),
}

impl GlassIce {
    /// All of it, g.
    #[must_use]
    pub const fn grams(&self) -> f64 {
        self.grams.value()
    }

    /// What is taken as usual of the time in the glass, as nouns.
    #[must_use]
    pub fn assumed(&self) -> Vec<&'static str> {
        let told = [self.grams, self.celsius];
        let usual = told.iter().filter_map(|told| match told {
            Told::Known(_) => None,
            Told::Usual(assumption) => Some(assumption.what),
        });
        [WARMTH.what, PACE].into_iter().chain(usual).collect()
    }

    /// Whether it is one large piece.
    #[must_use]
    pub const fn is_block(&self) -> bool {
        self.is_block
    }
}

impl Told {
    pub(crate) fn or(told: Option<f64>, usual: Assumption) -> Self {
        told.map_or(Self::Usual(usual), Self::Known)
    }

    const fn value(&self) -> f64 {
        match self {
            Self::Known(value) => *value,
            Self::Usual(assumption) => assumption.value,
        }
    }

    fn read<S: Scalar>(&self, inputs: &Inputs) -> S {
        match self {
            Self::Known(value) => S::from(*value),
            Self::Usual(assumption) => inputs.assume(assumption),
        }
    }
}

const PRACTICE: &str = "assumed, no source";

/// Ice that fills a glass where no weight is told, cubes and one block.
pub(crate) const FILLED: [Assumption; 2] = [
    Assumption::new("ice in the glass", (120.0, 80.0, 160.0), "g", PRACTICE),
    Assumption::new("ice in the glass", (110.0, 80.0, 140.0), "g", PRACTICE),
];

/// What is known only to a factor of two, and stands in an exponent.
pub(crate) const PACE: &str = "pace of the ice in the glass";

/// Heat that a glass in a room takes up.
pub(crate) const WARMTH: Assumption = Assumption::new(
    "warmth of the room through the glass",
    (0.5, 0.3, 0.9),
    "W/K",
    PRACTICE,
);
/// Time in which a drink that is left alone covers 63 % of its way to rest: over cubes, over a block.
pub(crate) const CUBES: Assumption = Assumption::new(PACE, (90.0, 45.0, 180.0), "s", PRACTICE);
pub(crate) const BLOCK: Assumption = Assumption::new(PACE, (240.0, 120.0, 480.0), "s", PRACTICE);

/// How long it is followed, in minutes from the moment it is served.
pub const MINUTES: std::ops::RangeInclusive<u32> = 0..=15;

/// The drink at some minutes from the moment it is served.
pub(crate) fn over_time<S: Scalar>(
    served: &Stream<S>,
    ice: &GlassIce,
    inputs: &Inputs,
    at: &[u32],
) -> Result<Vec<Minute<S>>, Outside> {
    let pace: S = inputs.assume(if ice.is_block { &BLOCK } else { &CUBES });
    let warmth: S = inputs.assume(&WARMTH);
    let (ice_grams, ice_celsius) = (ice.grams.read(inputs), ice.celsius.read(inputs));
    let mut minutes = Vec::with_capacity(at.len());
    for &minute in at {
        if minute == 0 {
            minutes.push(Minute {
                minute,
                stream: served.clone(),
                melt: S::zero(),
            });
            continue;
        }
        let seconds = 60.0 * f64::from(minute);
        let chill = Chill {
            liquid: served.liquid,
            liquid_celsius: served.celsius,
            ice_grams,
            ice_celsius,
            surface_water_grams: S::zero(),
            vessel_joules_per_kelvin: S::zero(),
            vessel_celsius: S::from(ROOM),
            gained_joules: (-served.celsius + ROOM) * warmth * seconds,
        };
        let share = approach(S::from(seconds) / pace, 1.0);
        let now = part_way(&chill, share)?;
        let mut stream = served.clone();
        stream.liquid = now.liquid;
        stream.celsius = now.celsius;
        minutes.push(Minute {
            minute,
            stream,
            melt: now.melt_grams,
        });
    }
    Ok(minutes)
}
