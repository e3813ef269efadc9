//! Times: UTC, to the millisecond, as ISO texts that sort as they follow one another.

use std::fmt;

use crate::error::Error;

/// A time in UTC, to the millisecond, kept as `2026-11-25T20:44:10.125Z`.
///
/// All have the same length, so their texts sort as the times do.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct When {
    text: String,
    milliseconds: u64,
}

impl When {
    /// The time by the clock of this machine.
    #[must_use]
    pub fn now() -> Self {
        Self::of(jiff::Timestamp::now()).unwrap_or_else(Self::epoch)
    }

    /// Reads an ISO time with its offset from UTC: `2026-11-25T21:44:10+01:00`.
    ///
    /// # Errors
    /// [`Error::BadTime`] if it is no such time, or lies before 1970 or after the year 3000.
    pub fn parse(text: &str) -> Result<Self, Error> {
        let bad = || Error::BadTime {
            given: text.to_owned(),
        };
        let time = text.parse::<jiff::Timestamp>().map_err(|_| bad())?;
        Self::of(time).ok_or_else(bad)
    }

    /// The time as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// Milliseconds since 1970 began.
    #[must_use]
    pub fn milliseconds(&self) -> u64 {
        self.milliseconds
    }

    fn of(time: jiff::Timestamp) -> Option<Self> {
        // The year 3000 begins; past it texts would not sort, long before ids run out.
        const LAST_MILLISECONDS: u64 = 32_503_680_000_000;
        let milliseconds = u64::try_from(time.as_millisecond()).ok()?;
        (milliseconds < LAST_MILLISECONDS).then(|| Self {
            text: format!("{time:.3}"),
            milliseconds,
        })
    }

    fn epoch() -> Self {
        Self {
            text: "1970-01-01T00:00:00.000Z".to_owned(),
            milliseconds: 0,
        }
    }
}

impl fmt::Display for When {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}
