//! Lengths of time.

use super::cursor::{Cursor, shorten};
use super::error::{Fault, QuantityError};
use super::number::Number;

/// A length of time, in seconds.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Duration(pub f64);

impl Duration {
    /// In seconds.
    #[must_use]
    pub const fn seconds(self) -> f64 {
        self.0
    }

    /// In hours.
    #[must_use]
    pub const fn hours(self) -> f64 {
        self.0 / 3600.0
    }

    /// In days.
    #[must_use]
    pub const fn days(self) -> f64 {
        self.0 / 86_400.0
    }
}

/// Units of time: spellings, seconds. A month is a twelfth of 365.25 days.
const UNITS: &[(&[&str], f64)] = &[
    (&["s", "sec", "secs", "second", "seconds"], 1.0),
    (&["min", "mins", "minute", "minutes"], 60.0),
    (&["h", "hr", "hrs", "hour", "hours"], 3600.0),
    (&["d", "day", "days"], 86_400.0),
    (&["week", "weeks", "wk", "wks"], 604_800.0),
    (&["month", "months"], 2_629_800.0),
    (&["year", "years"], 31_557_600.0),
];

/// The longest time a prep is left, s: ten years.
const LONGEST: f64 = 10.0 * 31_557_600.0;

/// Reads a length of time.
///
/// ```
/// assert_eq!(pomace_book::parse_duration("1 h 30 min")?.seconds(), 5400.0);
/// # Ok::<(), pomace_book::QuantityError>(())
/// ```
///
/// # Errors
/// Where no one length of time is written.
pub fn parse_duration(text: &str) -> Result<Duration, QuantityError> {
    let mut cursor = Cursor::new(text)?;
    let shown = shorten(text.trim());
    let mut seconds = 0.0;
    let mut smallest = f64::INFINITY;
    loop {
        let start = cursor.offset();
        if let Some(error) = vague(&cursor) {
            return Err(error);
        }
        let minus = cursor.take_minus();
        let Some(number) = cursor.take_number() else {
            return Err(QuantityError::new(
                Fault::NoNumber,
                start,
                format!("there is no length of time in `{shown}`"),
                "write a number and a unit, such as `9 s`, `30 min`, `30 h` or `2 days`",
            ));
        };
        if minus {
            return Err(out_of_range(&shown, start, "less than nothing"));
        }
        if cursor.is_dash(0) || cursor.is_sign(0, &['…']) || cursor.is_word(0, &["to", "or"]) {
            return Err(range(&shown, start, number));
        }
        let unit = unit(&mut cursor, number, start)?;
        if cursor.is_dash(0) || cursor.is_word(0, &["to", "or"]) {
            return Err(range(&shown, start, number));
        }
        if let Some(other) = number.other {
            return Err(QuantityError::new(
                Fault::BadNumber,
                start,
                format!("the number of `{shown}` may be {} or {other}", number.value),
                "write thousands without marks, and a smaller or larger unit where it helps",
            ));
        }
        if unit >= smallest {
            return Err(QuantityError::new(
                Fault::Several,
                start,
                format!("`{shown}` gives more than one length of time"),
                "write one, the larger unit first, such as `1 h 30 min`",
            ));
        }
        smallest = unit;
        seconds += number.value * unit;
        let _ = cursor.take_word(&["and"]) || cursor.take_sign(&[',']);
        if cursor.is_done() {
            break;
        }
        if !cursor.is_number(0) {
            cursor.finish("write only the length of time here, and anything else as ‹note›")?;
        }
    }
    if seconds.is_nan() || seconds <= 0.0 {
        return Err(out_of_range(&shown, 0, "no time at all"));
    }
    if seconds > LONGEST {
        return Err(out_of_range(&shown, 0, "longer than ten years"));
    }
    Ok(Duration(seconds))
}

fn unit(cursor: &mut Cursor<'_>, number: Number, start: usize) -> Result<f64, QuantityError> {
    let written = cursor.word(0).unwrap_or("");
    let lower = written.to_lowercase();
    if let Some((_, seconds)) = UNITS
        .iter()
        .find(|(names, _)| names.contains(&lower.as_str()))
    {
        cursor.skip(1);
        return Ok(*seconds);
    }
    if written.is_empty() {
        return Err(QuantityError::new(
            Fault::NoUnit,
            start,
            format!("`{}` has no unit of time", shorten(cursor.text.trim())),
            format!(
                "write `{0} s`, `{0} min`, `{0} h` or `{0} days`",
                number.value
            ),
        ));
    }
    let near = match lower.as_str() {
        "m" | "mn" | "mi" => Some("min"),
        "w" => Some("weeks"),
        "y" | "a" => Some("years"),
        "mo" => Some("months"),
        "night" | "nights" => Some("h"),
        _ => {
            let names = UNITS.iter().flat_map(|(names, _)| names.iter().copied());
            names
                .filter(|name| name.len() > 2)
                .find(|name| strsim::osa_distance(&lower, name) <= 1)
        }
    };
    Err(QuantityError::new(
        Fault::UnknownUnit,
        cursor.offset(),
        format!("`{}` is no unit of time", shorten(written)),
        match near {
            Some("h") => "write hours, such as `10 h`".to_owned(),
            Some(near) => format!("write `{} {near}`, if that is meant", number.value),
            None => "write s, min, h, days, weeks or months".to_owned(),
        },
    ))
}

/// Words for a time that is different in every house.
fn vague(cursor: &Cursor<'_>) -> Option<QuantityError> {
    let word = cursor.word(0)?;
    let mend = match word.to_lowercase().as_str() {
        "overnight" | "night" => "write the hours it had, such as `10 h` or `12 h`",
        "briefly" | "moment" | "quickly" => "write the seconds, such as `5 s`",
        "until" | "till" => "write the time it took, such as `30 min`, and the sign as ‹note›",
        _ => return None,
    };
    Some(QuantityError::new(
        Fault::Vague,
        cursor.offset(),
        format!("`{word}` is a different time in every house"),
        mend,
    ))
}

fn range(shown: &str, start: usize, number: Number) -> QuantityError {
    QuantityError::new(
        Fault::Several,
        start,
        format!("`{shown}` is a range of times"),
        format!(
            "write the time you use, starting from `{}`, and the range as ‹note›",
            number.value
        ),
    )
}

fn out_of_range(shown: &str, start: usize, what: &str) -> QuantityError {
    QuantityError::new(
        Fault::OutOfRange,
        start,
        format!("`{shown}` is {what}"),
        "check the number and the unit, or leave it out",
    )
}

/// The largest units that make it exact, such as `1 h 30 min`.
impl std::fmt::Display for Duration {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        const SHOWN: [(&str, f64); 4] = [("d", 86_400.0), ("h", 3600.0), ("min", 60.0), ("s", 1.0)];
        if self.0.fract() != 0.0 || self.0 <= 0.0 {
            return write!(f, "{} s", super::write::plain(self.0));
        }
        let mut rest = self.0;
        let mut gap = "";
        for (name, seconds) in SHOWN {
            let count = (rest / seconds).floor();
            if count > 0.0 {
                write!(f, "{gap}{count} {name}")?;
                gap = " ";
                rest -= count * seconds;
            }
        }
        Ok(())
    }
}
