//! Numbers as words: a true minus, parted thousands, no more places than wanted.

/// A value and what it may be off by, two standard deviations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doubtful {
    /// In the unit of the field that holds it.
    pub value: f64,
    /// In the same unit; `None` where nobody knows.
    pub plus_minus: Option<f64>,
}

impl Doubtful {
    /// A value with its doubt.
    #[must_use]
    pub const fn new(value: f64, plus_minus: f64) -> Self {
        Self {
            value,
            plus_minus: Some(plus_minus),
        }
    }

    /// A value whose doubt is unknown.
    #[must_use]
    pub const fn bare(value: f64) -> Self {
        Self {
            value,
            plus_minus: None,
        }
    }

    /// The doubt, if it is one that can be drawn.
    pub(crate) fn doubt(self) -> Option<f64> {
        self.plus_minus
            .filter(|doubt| doubt.is_finite() && *doubt > 0.0)
    }

    /// Value and doubt in words: `4.1 ± 0.5`.
    pub(crate) fn words(self, places: usize) -> String {
        let value = number(self.value, places);
        match self.doubt() {
            Some(doubt) => format!("{value} ± {}", number(doubt, places)),
            None => value,
        }
    }
}

/// No figure of a drink or a prep is larger; what is, is not written out.
const LARGEST: f64 = 9_999_999.0;

/// A number with this many decimals; `−` for less than nothing, and thousands parted by commas.
pub(crate) fn number(value: f64, places: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    if value.abs() > LARGEST {
        let past = if value > 0.0 { "over " } else { "under −" };
        return format!("{past}{}", number(LARGEST, 0));
    }
    let digits = format!("{:.places$}", value.abs());
    let (whole, rest) = digits.split_at(digits.find('.').unwrap_or(digits.len()));
    let nothing = digits.bytes().all(|sign| matches!(sign, b'0' | b'.'));
    let mut written = String::new();
    if value < 0.0 && !nothing {
        written.push('−');
    }
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index).is_multiple_of(3) {
            written.push(',');
        }
        written.push(digit);
    }
    written + rest
}

/// A number with up to this many decimals: `7.5`, but `8`.
pub(crate) fn short(value: f64, places: usize) -> String {
    let written = number(value, places);
    if written.contains('.') {
        written
            .trim_end_matches('0')
            .trim_end_matches('.')
            .to_owned()
    } else {
        written
    }
}

/// Grams: whole ones, below ten with a decimal.
pub(crate) fn grams(value: f64) -> String {
    let places = usize::from(value.abs() < 9.95);
    format!("{} g", short(value, places))
}

/// Words one after the other: `a, b and c`.
pub(crate) fn listed<T: AsRef<str>>(words: &[T]) -> String {
    match words {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [most @ .., last] => {
            let most: Vec<&str> = most.iter().map(AsRef::as_ref).collect();
            format!("{} and {}", most.join(", "), last.as_ref())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_written_as_people_set_them() {
        assert_eq!(number(-1.24, 1), "−1.2");
        assert_eq!(number(-0.04, 1), "0.0");
        assert_eq!(number(1033.2, 0), "1,033");
        assert_eq!(number(f64::NAN, 1), "–");
        assert_eq!(short(7.50, 2), "7.5");
        assert_eq!(short(20.0, 1), "20");
        assert_eq!(short(20.0, 0), "20");
        assert_eq!(grams(6.04), "6 g");
        assert_eq!(Doubtful::new(4.11, 0.48).words(1), "4.1 ± 0.5");
        assert_eq!(Doubtful::new(4.11, f64::NAN).words(1), "4.1");
        assert_eq!(listed(&["a", "b", "c"]), "a, b and c");
    }
}
