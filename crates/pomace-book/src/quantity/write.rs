//! Readings written so that they are read back as the same.

use super::number::LARGEST_DENOMINATOR;
use super::reading::{Amount, Reading, SmallMeasure};

/// A number that is read back as itself: no mark that could part thousands.
pub(crate) fn plain(value: f64) -> String {
    let text = value.to_string();
    match text.split_once('.') {
        Some((whole, decimals))
            if decimals.len() == 3 && whole.len() <= 3 && !whole.starts_with('0') =>
        {
            format!("{text}0")
        }
        _ => text,
    }
}

/// A number of pieces: as a whole or a fraction, since `1.5` alone would be asked about.
fn pieces(value: f64) -> String {
    if value.fract() == 0.0 {
        return value.to_string();
    }
    let whole = value.floor();
    let mut bottom = 2.0;
    while bottom <= LARGEST_DENOMINATOR {
        let top = ((value - whole) * bottom).round();
        let exact = |made: f64| made.to_bits() == value.to_bits();
        if top > 0.0 && exact(whole + top / bottom) {
            return if whole > 0.0 {
                format!("{whole} {top}/{bottom}")
            } else {
                format!("{top}/{bottom}")
            };
        }
        let all = (value * bottom).round();
        if exact(all / bottom) {
            return format!("{all}/{bottom}");
        }
        bottom += 1.0;
    }
    plain(value)
}

/// A share as percent where that is exact, else as a ratio to one.
fn share(fraction: f64) -> String {
    let percent = fraction * 100.0;
    let rounded: f64 = format!("{percent:.10}").parse().unwrap_or(percent);
    for candidate in [rounded, percent] {
        if (candidate / 100.0).to_bits() == fraction.to_bits() {
            return format!("{} %", plain(candidate));
        }
    }
    format!("{}:1", plain(fraction))
}

fn plural(measure: SmallMeasure, count: f64) -> &'static str {
    match (measure, count <= 1.0) {
        (SmallMeasure::Dash, true) => "dash",
        (SmallMeasure::Dash, false) => "dashes",
        (SmallMeasure::Drop, true) => "drop",
        (SmallMeasure::Drop, false) => "drops",
        (SmallMeasure::Barspoon, true) => "barspoon",
        (SmallMeasure::Barspoon, false) => "barspoons",
    }
}

impl std::fmt::Display for Reading {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Mass { grams } => write!(f, "{} g", plain(*grams)),
            Self::Volume { millilitres } => write!(f, "{} mL", plain(*millilitres)),
            Self::Measure { measure, count, .. } => {
                write!(f, "{} {}", plain(*count), plural(*measure, *count))
            }
            Self::Ounces { count } => write!(f, "{} oz", plain(*count)),
            Self::Count {
                count,
                noun: Some(noun),
            } => write!(f, "{} {noun}", plain(*count)),
            Self::Count { count, noun: None } => f.write_str(&pieces(*count)),
            Self::Share { fraction, of: None } => f.write_str(&share(*fraction)),
            Self::Share {
                fraction,
                of: Some(of),
            } => write!(f, "{} of {of}", share(*fraction)),
            Self::Between { low, high } => match (low.as_ref(), high.as_ref()) {
                (Self::Share { fraction, .. }, Self::Share { .. }) => {
                    write!(f, "{} to {high}", share(*fraction))
                }
                // A bare `1 to 4` could be a ratio; a dash cannot.
                (Self::Count { noun: None, .. }, Self::Count { noun: None, .. }) => {
                    write!(f, "{low} – {high}")
                }
                _ => write!(f, "{low} to {high}"),
            },
            Self::ToTaste { from: None } => f.write_str("to taste"),
            Self::ToTaste { from: Some(from) } => write!(f, "to taste, from {from}"),
            Self::Question { readings, .. } => {
                for (index, reading) in readings.iter().enumerate() {
                    f.write_str(if index == 0 { "" } else { " or " })?;
                    f.write_str(&way(reading))?;
                }
                Ok(())
            }
        }
    }
}

/// One of several ways to mean an amount, in words.
pub(crate) fn way(reading: &Reading) -> String {
    match reading {
        Reading::Count { count, noun: None } => format!("{} pieces", plain(*count)),
        reading => reading.to_string(),
    }
}

/// As written.
impl std::fmt::Display for Amount {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.text.trim())
    }
}
