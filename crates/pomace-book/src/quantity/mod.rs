//! Quantities as people write them: amounts, times, temperatures, shares, pressures.
//!
//! Nothing is guessed. A word that spans a range keeps it (`2 dashes`), a text that may mean two
//! things keeps both ([`Reading::Question`]), and what fixes no measure is an error that says how
//! to mend it ([`QuantityError`]).
//!
//! From text to meaning: `scan` cuts a text into numbers (`number`), words and signs, `cursor` walks over
//! them, `single` and `weighed` read one amount, `range` joins two, `meaning` keeps every way that it may be
//! meant, `limits` refuses what no house can hold, `write` puts a reading back into words, and `nudge` finds the amount a
//! little above or below.

mod amount;
pub(crate) mod cursor;
mod duration;
mod error;
mod limits;
mod meaning;
mod nudge;
pub(crate) mod number;
mod pressure;
mod range;
mod reading;
pub(crate) mod scan;
mod share;
mod single;
mod slip;
mod target;
mod temperature;
mod units;
mod vague;
mod weighed;
pub(crate) mod write;

pub use amount::parse_amount;
pub use duration::{Duration, parse_duration};
pub use error::{Fault, QuantityError};
pub use nudge::{Nudged, nudge};
pub use pressure::{Pressure, parse_pressure};
pub use reading::{Amount, Reading, SmallMeasure};
pub use share::parse_share;
pub use target::{SugarUsed, Target, parse_sugar_used, parse_target};
pub use temperature::parse_temperature;
