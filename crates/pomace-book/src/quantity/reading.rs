//! What an amount means once it is read.

use crate::words::words;

/// An amount: the text as written, and what it says.
#[derive(Clone, Debug, PartialEq)]
pub struct Amount {
    /// As written.
    pub text: String,
    /// What it says.
    pub reading: Reading,
    /// Whether the writer said "about".
    pub about: bool,
}

/// What an amount says.
#[derive(Clone, Debug, PartialEq)]
pub enum Reading {
    /// A weight.
    Mass {
        /// Grams.
        grams: f64,
    },
    /// A volume at 20 °C.
    Volume {
        /// Millilitres.
        millilitres: f64,
    },
    /// A bar's small measure: a volume with the range that the word spans.
    Measure {
        /// Which one.
        measure: SmallMeasure,
        /// How many.
        count: f64,
        /// Millilitres in the middle.
        millilitres: f64,
        /// Millilitres at least.
        low: f64,
        /// Millilitres at most.
        high: f64,
    },
    /// Ounces without a word whether by weight or volume: US fluid ounces of a liquid,
    /// avoirdupois ounces of a solid.
    Ounces {
        /// How many.
        count: f64,
    },
    /// Pieces.
    Count {
        /// How many.
        count: f64,
        /// Of what, if said: `limes`.
        noun: Option<String>,
    },
    /// A share, by mass, of something else.
    Share {
        /// 1 is as much as the other.
        fraction: f64,
        /// Of what, if said: a stream, line or ingredient.
        of: Option<String>,
    },
    /// A range.
    Between {
        /// At least.
        low: Box<Reading>,
        /// At most.
        high: Box<Reading>,
    },
    /// As much as tastes right.
    ToTaste {
        /// Where to start.
        from: Option<Box<Reading>>,
    },
    /// It can be read in more than one way; the likelier first.
    Question {
        /// Why, as a sentence without its full stop.
        why: String,
        /// The ways.
        readings: Vec<Reading>,
    },
}

impl Reading {
    /// The name of what it is a share of, if it is one and says so.
    #[must_use]
    pub fn share_of(&self) -> Option<&str> {
        match self {
            Self::Share { of, .. } => of.as_deref(),
            Self::Between { low, high } => low.share_of().or_else(|| high.share_of()),
            Self::ToTaste { from } => from.as_deref().and_then(Self::share_of),
            Self::Question { readings, .. } => readings.iter().find_map(Self::share_of),
            Self::Mass { .. }
            | Self::Volume { .. }
            | Self::Measure { .. }
            | Self::Ounces { .. }
            | Self::Count { .. } => None,
        }
    }
}

words! {
    /// Measures that are too small for a jigger.
    SmallMeasure {
        /// A shake of a dasher bottle.
        Dash = "dash" | "dashes",
        /// A drop of a pipette.
        Drop = "drop" | "drops",
        /// A long spoon.
        Barspoon = "barspoon" | "barspoons",
    }
}

impl SmallMeasure {
    /// Millilitres of one: at least, in the middle, at most.
    ///
    /// Source: dash ⅛ US tsp = 0.62 to 0.92 mL, drop 0.03 to 0.06 mL (water; less for spirit),
    /// barspoon ½ to 1 tsp, as bars and their suppliers print them; the word spans that much.
    /// The middle of the dash and the drop is common practice, that of the barspoon the mean.
    #[must_use]
    pub const fn millilitres(self) -> (f64, f64, f64) {
        match self {
            Self::Dash => (0.6, 0.8, 0.92),
            Self::Drop => (0.03, 0.05, 0.06),
            Self::Barspoon => (2.5, 3.75, 5.0),
        }
    }

    /// A number of them as a reading.
    #[must_use]
    pub fn times(self, count: f64) -> Reading {
        let (low, middle, high) = self.millilitres();
        Reading::Measure {
            measure: self,
            count,
            millilitres: count * middle,
            low: count * low,
            high: count * high,
        }
    }
}
