//! Minutes in the glass: a drink that waits over ice.
//!
//! Drink and ice go on to rest, while the room warms both. Nobody stirs, so it takes minutes; a block
//! takes longer than cubes. Time and warmth are assumed and said to be.

use pomace_matter::ice::Chill;
use pomace_matter::ice::chilling::{approach, part_way};
use pomace_matter::{Outside, Scalar};

use crate::house::ROOM;
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
    pub grams: f64,
    /// Whether it is one large piece.
    pub is_block: bool,
    /// Its temperature, °C.
    pub celsius: f64,
}

const PRACTICE: &str = "assumed, no source";

/// Heat that a glass in a room takes up.
pub(crate) const WARMTH: Assumption = Assumption::new(
    "warmth of the room through the glass",
    (0.5, 0.3, 0.9),
    "W/K",
    PRACTICE,
);
/// Time in which a drink that is left alone covers 63 % of its way to rest.
pub(crate) const CUBES: Assumption = Assumption::new(
    "pace of cubes in the glass",
    (90.0, 45.0, 180.0),
    "s",
    PRACTICE,
);
pub(crate) const BLOCK: Assumption = Assumption::new(
    "pace of a block in the glass",
    (240.0, 120.0, 480.0),
    "s",
    PRACTICE,
);

/// How long it is followed, in minutes from the moment it is served.
pub const MINUTES: std::ops::RangeInclusive<u32> = 0..=15;

/// The drink at some minutes from the moment it is served.
pub(crate) fn over_time<S: Scalar>(
    served: &Stream<S>,
    ice: &GlassIce,
    at: impl IntoIterator<Item = u32>,
) -> Result<Vec<Minute<S>>, Outside> {
    let pace = if ice.is_block { BLOCK } else { CUBES };
    let mut minutes = Vec::new();
    for minute in at {
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
            ice_grams: S::from(ice.grams),
            ice_celsius: S::from(ice.celsius),
            surface_water_grams: S::zero(),
            vessel_joules_per_kelvin: S::zero(),
            vessel_celsius: S::from(ROOM),
            gained_joules: (-served.celsius + ROOM) * (WARMTH.value * seconds),
        };
        let share = approach(S::from(seconds), pace.value);
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
