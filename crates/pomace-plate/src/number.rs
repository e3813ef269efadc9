//! Numbers as words: a true minus, parted thousands, no more places than wanted.

use crate::digits;

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

/// More are asked for nowhere; with so many, a figure is still a whole number of units of the last.
const MOST_PLACES: usize = 6;

/// No figure of a drink or a prep is larger; what is, is not written out.
const LARGEST: f64 = 9_999_999.0;

/// A number with this many decimals; `−` for less than nothing, and thousands parted by commas.
pub fn number(value: f64, places: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    if value.abs() > LARGEST {
        let past = if value > 0.0 { "over " } else { "under −" };
        return format!("{past}{}", number(LARGEST, 0));
    }
    let (whole, decimals) = rounded(value.abs(), places);
    let mut written = String::with_capacity(12);
    if value < 0.0 && (whole, decimals) != (0, 0) {
        written.push('−');
    }
    digits::parted(&mut written, whole);
    if places > 0 {
        written.push('.');
        digits::padded(&mut written, decimals, places);
    }
    written
}

/// The whole part and the decimals of a number that is not negative, rounded to so many places.
fn rounded(value: f64, places: usize) -> (u64, u64) {
    let unit = 10_u64.pow(places.min(MOST_PLACES) as u32);
    let scaled = value * unit as f64;
    // Half-way to the next the product may lie on the other side of what the number itself is.
    if places <= MOST_PLACES && (scaled.fract() - 0.5).abs() > 1e-3 {
        let all = scaled.round() as u64;
        return (all / unit, all % unit);
    }
    let exact = format!("{value:.places$}");
    let (whole, decimals) = exact.split_once('.').unwrap_or((&exact, "0"));
    let read = |digits: &str| digits.parse().unwrap_or(0);
    (read(whole), read(decimals))
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
    use proptest::prelude::*;

    use super::*;

    proptest! {
        // Half-way between two numbers of so many places too, where a product would round otherwise.
        #[test]
        fn a_number_is_rounded_as_the_general_writer_rounds_it(
            value in prop_oneof![-9.9e6_f64..9.9e6, -2.0_f64..2.0, (-20_000_i32..20_000).prop_map(|n| f64::from(n) / 200.0)],
            places in 0_usize..9,
        ) {
            let general = format!("{value:.places$}");
            let general = if general.bytes().all(|sign| matches!(sign, b'-' | b'0' | b'.')) {
                general.replace('-', "")
            } else {
                general
            };
            prop_assert_eq!(number(value, places).replace('−', "-").replace(',', ""), general);
        }
    }

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
