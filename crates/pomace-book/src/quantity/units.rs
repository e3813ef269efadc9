//! The units of amounts, with every spelling that is read.

use super::reading::{Reading, SmallMeasure};

/// What one of a unit is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Unit {
    /// Grams.
    Mass(f64),
    /// Millilitres at 20 °C.
    Volume(f64),
    /// Dash, drop, barspoon.
    Small(SmallMeasure),
    /// Ounces, by weight or volume as the thing measured asks.
    Ounces,
    /// Grams at least and at most.
    Pinch(f64, f64),
    /// One of several, each with the word that would say which.
    Ask(&'static [(&'static str, Unit)]),
    /// Only means something beside other amounts.
    Relative,
}

/// Avoirdupois ounce, g. Source: international yard and pound agreement, 1959.
pub(super) const OUNCE_GRAMS: f64 = 28.349523125;
/// US fluid ounce, mL: 1/128 of 231 cubic inches.
const US_FLUID_OUNCE: f64 = 29.5735295625;
/// Imperial fluid ounce, mL: 1/160 of 4.54609 L.
const IMPERIAL_FLUID_OUNCE: f64 = 28.4130625;
/// US cup, mL: 8 US fluid ounces.
const US_CUP: f64 = 236.5882365;

use Unit::{Ask, Mass, Ounces, Pinch, Relative, Small, Volume};

/// A unit with its spellings, the one to show first; all in lower case without points.
pub(super) struct Row {
    pub names: &'static [&'static str],
    unit: Unit,
}

const fn row(names: &'static [&'static str], unit: Unit) -> Row {
    Row { names, unit }
}

/// Every unit. Spoons: US and UK by common practice 5 and 15 mL; the Australian tablespoon is 20 mL.
/// A pinch of salt or sugar weighs 0.2 to 0.5 g: common practice, no source.
pub(super) static UNITS: &[Row] = &[
    row(
        &[
            "g", "gram", "grams", "gramme", "grammes", "gm", "gms", "grm",
        ],
        Mass(1.0),
    ),
    row(
        &[
            "kg",
            "kilo",
            "kilos",
            "kilogram",
            "kilograms",
            "kilogramme",
            "kilogrammes",
            "kgs",
        ],
        Mass(1000.0),
    ),
    row(
        &[
            "mg",
            "milligram",
            "milligrams",
            "milligramme",
            "milligrammes",
        ],
        Mass(0.001),
    ),
    row(
        &["µg", "μg", "ug", "mcg", "microgram", "micrograms"],
        Mass(0.000_001),
    ),
    row(&["lb", "lbs", "pound", "pounds"], Mass(16.0 * OUNCE_GRAMS)),
    row(&["oz", "ounce", "ounces", "ozs"], Ounces),
    row(
        &[
            "oz by weight",
            "ounces by weight",
            "ounce by weight",
            "oz weight",
            "oz wt",
            "oz av",
        ],
        Mass(OUNCE_GRAMS),
    ),
    row(
        &[
            "us fl oz",
            "fl oz",
            "floz",
            "fluid ounce",
            "fluid ounces",
            "fluid oz",
            "us fluid ounce",
            "us fluid ounces",
            "oz by volume",
        ],
        Volume(US_FLUID_OUNCE),
    ),
    row(
        &[
            "imp fl oz",
            "imperial fl oz",
            "uk fl oz",
            "imperial fluid ounce",
            "imperial fluid ounces",
            "uk fluid ounce",
            "uk fluid ounces",
        ],
        Volume(IMPERIAL_FLUID_OUNCE),
    ),
    row(
        &[
            "ml",
            "mls",
            "millilitre",
            "millilitres",
            "milliliter",
            "milliliters",
            "cc",
            "ccm",
        ],
        Volume(1.0),
    ),
    row(
        &[
            "cl",
            "cls",
            "centilitre",
            "centilitres",
            "centiliter",
            "centiliters",
        ],
        Volume(10.0),
    ),
    row(
        &["dl", "decilitre", "decilitres", "deciliter", "deciliters"],
        Volume(100.0),
    ),
    row(
        &["l", "ltr", "ltrs", "litre", "litres", "liter", "liters"],
        Volume(1000.0),
    ),
    row(
        &[
            "tsp",
            "tsps",
            "teaspoon",
            "teaspoons",
            "metric tsp",
            "us tsp",
            "uk tsp",
        ],
        Volume(5.0),
    ),
    row(
        &[
            "tbsp",
            "tbsps",
            "tablespoon",
            "tablespoons",
            "tbs",
            "tblsp",
            "metric tbsp",
            "us tbsp",
            "uk tbsp",
        ],
        Volume(15.0),
    ),
    row(
        &[
            "au tbsp",
            "australian tablespoon",
            "australian tablespoons",
            "australian tbsp",
            "au tablespoon",
            "au tablespoons",
        ],
        Volume(20.0),
    ),
    row(&["us cup", "us cups"], Volume(US_CUP)),
    row(
        &["metric cup", "metric cups", "au cup", "au cups"],
        Volume(250.0),
    ),
    row(
        &["cup", "cups"],
        Ask(&[("US cup", Volume(US_CUP)), ("metric cup", Volume(250.0))]),
    ),
    row(
        &["us pint", "us pints", "us pt"],
        Volume(16.0 * US_FLUID_OUNCE),
    ),
    row(
        &[
            "imp pint",
            "imp pints",
            "imperial pint",
            "imperial pints",
            "uk pint",
            "uk pints",
        ],
        Volume(20.0 * IMPERIAL_FLUID_OUNCE),
    ),
    row(
        &["pint", "pints", "pt", "pts"],
        Ask(&[
            ("US pint", Volume(16.0 * US_FLUID_OUNCE)),
            ("imp pint", Volume(20.0 * IMPERIAL_FLUID_OUNCE)),
        ]),
    ),
    row(
        &["us quart", "us quarts", "us qt"],
        Volume(32.0 * US_FLUID_OUNCE),
    ),
    row(
        &[
            "imp quart",
            "imp quarts",
            "imperial quart",
            "imperial quarts",
            "uk quart",
            "uk quarts",
        ],
        Volume(40.0 * IMPERIAL_FLUID_OUNCE),
    ),
    row(
        &["quart", "quarts", "qt", "qts"],
        Ask(&[
            ("US quart", Volume(32.0 * US_FLUID_OUNCE)),
            ("imp quart", Volume(40.0 * IMPERIAL_FLUID_OUNCE)),
        ]),
    ),
    row(
        &["us gallon", "us gallons", "us gal"],
        Volume(128.0 * US_FLUID_OUNCE),
    ),
    row(
        &[
            "imp gallon",
            "imp gallons",
            "imperial gallon",
            "imperial gallons",
            "uk gallon",
            "uk gallons",
        ],
        Volume(160.0 * IMPERIAL_FLUID_OUNCE),
    ),
    row(
        &["gallon", "gallons", "gal", "gals"],
        Ask(&[
            ("US gallon", Volume(128.0 * US_FLUID_OUNCE)),
            ("imp gallon", Volume(160.0 * IMPERIAL_FLUID_OUNCE)),
        ]),
    ),
    row(&["us gill", "us gills"], Volume(4.0 * US_FLUID_OUNCE)),
    row(
        &[
            "imp gill",
            "imp gills",
            "uk gill",
            "uk gills",
            "imperial gill",
            "imperial gills",
        ],
        Volume(5.0 * IMPERIAL_FLUID_OUNCE),
    ),
    row(
        &["gill", "gills"],
        Ask(&[
            ("imp gill", Volume(5.0 * IMPERIAL_FLUID_OUNCE)),
            ("US gill", Volume(4.0 * US_FLUID_OUNCE)),
        ]),
    ),
    row(
        &["us jigger", "us jiggers", "jigger", "jiggers"],
        Volume(1.5 * US_FLUID_OUNCE),
    ),
    row(
        &["us pony", "us ponies", "pony", "ponies"],
        Volume(US_FLUID_OUNCE),
    ),
    row(
        &["shot", "shots"],
        Ask(&[
            ("US jigger", Volume(1.5 * US_FLUID_OUNCE)),
            ("30 mL", Volume(30.0)),
            ("25 mL", Volume(25.0)),
        ]),
    ),
    row(
        &[
            "imp oz",
            "imperial oz",
            "imperial ounce",
            "imperial ounces",
            "uk oz",
        ],
        Ask(&[
            ("imp fl oz", Volume(IMPERIAL_FLUID_OUNCE)),
            ("oz by weight", Mass(OUNCE_GRAMS)),
        ]),
    ),
    // `gr` is grams to most of Europe and grains (64.8 mg) to an old formulary.
    row(
        &["gr", "grs"],
        Ask(&[("g", Mass(1.0)), ("65 mg", Mass(0.06479891))]),
    ),
    row(&["dash", "dashes"], Small(SmallMeasure::Dash)),
    row(&["drop", "drops"], Small(SmallMeasure::Drop)),
    row(
        &[
            "barspoon",
            "barspoons",
            "bar spoon",
            "bar spoons",
            "bar-spoon",
            "bar-spoons",
            "bsp",
        ],
        Small(SmallMeasure::Barspoon),
    ),
    row(&["pinch", "pinches"], Pinch(0.2, 0.5)),
    row(&["part", "parts"], Relative),
];

/// The unit of this spelling.
pub(super) fn unit(spelling: &str) -> Option<Unit> {
    let spelling = spelling.to_lowercase();
    UNITS
        .iter()
        .find(|row| row.names.contains(&spelling.as_str()))
        .map(|row| row.unit)
}

impl Unit {
    /// So many of it, in each way that it may be meant.
    pub(super) fn readings(self, count: f64) -> Vec<Reading> {
        match self {
            Mass(grams) => vec![Reading::Mass {
                grams: count * grams,
            }],
            Volume(millilitres) => vec![Reading::Volume {
                millilitres: count * millilitres,
            }],
            Small(measure) => vec![measure.times(count)],
            Ounces => vec![Reading::Ounces { count }],
            Pinch(low, high) => vec![Reading::Between {
                low: Box::new(Reading::Mass { grams: count * low }),
                high: Box::new(Reading::Mass {
                    grams: count * high,
                }),
            }],
            Ask(ways) => ways
                .iter()
                .flat_map(|(_, unit)| unit.readings(count))
                .collect(),
            Relative => Vec::new(),
        }
    }

    /// Whether it is written with a decimal point where it is at home, so that `1.125 oz` is no
    /// thousand ounces.
    pub(super) fn is_customary(self) -> bool {
        match self {
            Ounces | Ask(_) => true,
            Mass(grams) => (grams / OUNCE_GRAMS).fract().abs() < 1e-9,
            Volume(millilitres) => millilitres.fract() != 0.0,
            Small(_) | Pinch(..) | Relative => false,
        }
    }
}
