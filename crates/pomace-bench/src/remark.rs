//! What a step has to say: what was taken for granted, and what one should know.

use std::fmt;

use pomace_larder::yields::Yield;

/// A default that stood in for something nobody said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Assumption {
    /// What was assumed, as a noun.
    pub what: &'static str,
    /// The value used.
    pub value: f64,
    /// Lowest usual value.
    pub low: f64,
    /// Highest usual value.
    pub high: f64,
    /// Unit of all three.
    pub unit: &'static str,
    /// Where it comes from.
    pub source: &'static str,
}

impl Assumption {
    pub(crate) const fn new(
        what: &'static str,
        (value, low, high): (f64, f64, f64),
        unit: &'static str,
        source: &'static str,
    ) -> Self {
        Self {
            what,
            value,
            low,
            high,
            unit,
            source,
        }
    }

    /// The reading that would settle it.
    #[must_use]
    pub fn reading(&self) -> &'static str {
        if self.what.starts_with("pace") {
            return "what comes of it weighed or read halfway";
        }
        match self.unit {
            "°C" => "a thermometer in it",
            "s" | "min" => "a clock",
            "bar" => "the gauge",
            "W/K" | "J/K" => "one drink weighed and its temperature taken, before and after",
            _ => "a scale: weigh it before and after",
        }
    }

    /// No value can lie below this.
    pub(crate) fn floor(&self) -> f64 {
        if self.low >= 0.0 {
            0.0
        } else {
            f64::NEG_INFINITY
        }
    }

    /// Nor above this.
    pub(crate) fn ceiling(&self) -> f64 {
        if self.high <= 0.0 { 0.0 } else { f64::INFINITY }
    }

    /// Whether it is how long something takes.
    pub(crate) fn is_time(&self) -> bool {
        matches!(self.unit, "s" | "min" | "h" | "d")
    }

    pub(crate) fn of_yield(what: &'static str, entry: &Yield) -> Self {
        Self {
            what,
            value: entry.value,
            low: entry.low,
            high: entry.high,
            unit: entry.unit,
            source: entry.source,
        }
    }
}

/// The usual caution about gas under pressure.
pub const PRESSURE_CAUTION: &str = "Only in vessels rated for it: no wine or spirit bottle, jar or decanter; never heat it closed, no dry ice in a closed vessel";

/// A remark on a step.
#[derive(Clone, Debug, PartialEq)]
pub enum Remark {
    /// A default was used.
    Assumed(Assumption),
    /// A ratio of masses does not scale this step: so many grams are lost at any size.
    FixedLoss {
        /// Grams.
        grams: f64,
        /// On what.
        on: &'static str,
    },
    /// Solids are left that the liquid could not take up.
    Undissolved {
        /// Grams.
        grams: f64,
    },
    /// Water that sugar or salt has drawn, against what published losses of fruit come to.
    Drawn {
        /// Grams per 100 g of the solid as it was weighed.
        percent: f64,
        /// Where balance would end, in the same measure.
        ceiling: f64,
        /// Lowest and highest published end, in the same measure.
        published: (f64, f64),
    },
    /// Ice that was there was not enough to last.
    IceGone,
    /// An amount can be read in two ways; the first was used.
    AmountInQuestion,
    /// An amount to taste: the start was used.
    ToTaste,
    /// An amount given as a range: its middle was used.
    MiddleOfRange {
        /// Lowest, g.
        low: f64,
        /// Highest, g.
        high: f64,
    },
    /// How strong it could become if all its sugar went, %vol by theory.
    MayFerment {
        /// %vol.
        percent: f64,
    },
    /// Too little water for anything to ferment.
    TooDryToFerment,
    /// Gas under pressure, and how much of it is dissolved at rest.
    UnderPressure {
        /// Bar above the air's.
        gauge_bar: f64,
        /// Gas in the liquid before it is opened, g/L.
        grams_per_litre: f64,
    },
    /// Told to be hotter than an open vessel gets.
    AboveBoiling {
        /// As told, °C.
        told: f64,
        /// Where it boils at sea level, °C.
        boils: f64,
    },
    /// Alcohol stays after boiling.
    AlcoholStays {
        /// Share of the ethanol that is left, %.
        percent: f64,
    },
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Assumed(a) => {
                write!(f, "{} assumed: {} {}", a.what, Short(a.value), a.unit)?;
                if a.high > a.low {
                    write!(f, " ({} to {})", Short(a.low), Short(a.high))?;
                }
                write!(f, "; {}", a.source)
            }
            Self::FixedLoss { grams, on } => {
                write!(
                    f,
                    "{} g stay on the {on} whatever the size of the batch",
                    Short(*grams)
                )
            }
            Self::Undissolved { grams } => {
                write!(
                    f,
                    "{grams:.0} g do not dissolve: more than the water can hold"
                )
            }
            Self::Drawn {
                percent,
                ceiling,
                published,
            } => write!(
                f,
                "{percent:.0} % of the solid's weight drawn as water; balance would end at {ceiling:.0} %, published losses of fruit at {:.0} to {:.0} %: weigh your own",
                published.0, published.1
            ),
            Self::IceGone => {
                f.write_str("the ice melts away before the drink is as cold as it could be")
            }
            Self::AmountInQuestion => {
                f.write_str("the amount can be read in two ways; the likelier was used")
            }
            Self::ToTaste => f.write_str("to taste: computed with the amount to start from"),
            Self::MiddleOfRange { low, high } => {
                write!(
                    f,
                    "between {} and {} g: computed with the middle",
                    Short(*low),
                    Short(*high)
                )
            }
            Self::MayFerment { percent } => {
                write!(f, "could reach {percent:.1} %vol if all its sugar went")?;
                if *percent > 1.2 {
                    f.write_str("; above 1.2 %vol the strength must be declared in the EU")?;
                } else if *percent > 0.5 {
                    f.write_str("; above 0.5 %vol it is no longer alcohol-free in most countries")?;
                }
                f.write_str(". In a closed bottle it builds pressure: cold, and only in vessels made for it")
            }
            Self::TooDryToFerment => {
                f.write_str("too little water for anything to ferment: taken as it was")
            }
            Self::UnderPressure {
                gauge_bar,
                grams_per_litre,
            } => write!(
                f,
                "{gauge_bar:.1} bar on the gauge, {grams_per_litre:.1} g/L of gas dissolved at rest. {PRESSURE_CAUTION}"
            ),
            Self::AboveBoiling { told, boils } => write!(
                f,
                "an open vessel does not get to {} °C: this boils at about {boils:.0} °C at sea level, gets hotter only as it thickens, and loses water and alcohol meanwhile, which `simmer` counts",
                Short(*told)
            ),
            Self::AlcoholStays { percent } => {
                write!(
                    f,
                    "{percent:.0} % of the alcohol is still there: cooking does not take all of it"
                )
            }
        }
    }
}

/// A number with no more digits than it needs.
struct Short(f64);

impl fmt::Display for Short {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let decimals = match self.0.abs() {
            x if x >= 100.0 => 0,
            x if x >= 10.0 => 1,
            _ => 2,
        };
        let text = format!("{:.decimals$}", self.0);
        let text = if text.contains('.') {
            text.trim_end_matches('0').trim_end_matches('.')
        } else {
            &text
        };
        // A real minus sign.
        f.write_str(&text.replace('-', "−"))
    }
}
