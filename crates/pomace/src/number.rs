//! Numbers as people type them, and as we write them.

use crate::page::shorten;

/// Why a text is no number that can be used.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub(crate) enum NumberFault {
    /// Text, NaN, infinity, or too many signs.
    #[error("`{0}` is no number")]
    NoNumber(String),
    /// A comma that may part thousands or decimals.
    #[error("`{given}` may mean {small} or {large}")]
    TwoMeanings {
        /// As typed.
        given: String,
        /// With the comma before decimals.
        small: String,
        /// With the comma between thousands.
        large: String,
    },
    /// More than can be counted with.
    #[error("`{0}` is too large")]
    TooLarge(String),
}

/// Length in bytes of the number at the beginning of a text; 0 if there is none. A comma or a
/// point belongs to it only where a digit follows.
pub(crate) fn length(text: &str) -> usize {
    let mut at = text
        .chars()
        .next()
        .filter(|sign| is_sign(*sign))
        .map_or(0, char::len_utf8);
    let digit_at = |at: usize| text.as_bytes().get(at).is_some_and(u8::is_ascii_digit);
    let begin = at;
    loop {
        if digit_at(at) {
            at += 1;
        } else if matches!(text.as_bytes().get(at), Some(b'.' | b',')) && digit_at(at + 1) {
            at += 2;
        } else {
            break;
        }
    }
    if at == begin {
        return 0;
    }
    if matches!(text.as_bytes().get(at), Some(b'e' | b'E')) {
        let signed = matches!(text.as_bytes().get(at + 1), Some(b'+' | b'-'));
        let mut power = at + 1 + usize::from(signed);
        if digit_at(power) {
            while digit_at(power) {
                power += 1;
            }
            at = power;
        }
    }
    at
}

const fn is_sign(sign: char) -> bool {
    matches!(sign, '+' | '-' | '−')
}

/// A number with decimal point, or with a decimal comma where it can mean nothing else.
pub(crate) fn read(text: &str) -> Result<f64, NumberFault> {
    let text = text.trim();
    let given = || shorten(text, 24);
    let no_number = || NumberFault::NoNumber(given());
    if text.is_empty() || length(text) != text.len() {
        return Err(no_number());
    }
    let plain = text.replace('−', "-");
    let digits = plain.trim_start_matches(['+', '-']);
    let mantissa = digits.split(['e', 'E']).next().unwrap_or(digits);
    let plain = match (mantissa.matches(',').count(), mantissa.matches('.').count()) {
        (0, 0 | 1) => plain,
        (1, 0) => {
            let (whole, after) = mantissa.split_once(',').unwrap_or((mantissa, ""));
            if after.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0') {
                return Err(NumberFault::TwoMeanings {
                    given: given(),
                    small: format!("{whole}.{after}"),
                    large: format!("{whole}{after}"),
                });
            }
            plain.replace(',', ".")
        }
        _ => return Err(no_number()),
    };
    match plain.parse::<f64>() {
        Ok(number) if number.is_finite() => Ok(number),
        Ok(_) => Err(NumberFault::TooLarge(given())),
        Err(_) => Err(no_number()),
    }
}

/// A temperature: `4`, `-2.5`, `4 °C`.
pub(crate) fn celsius(text: &str) -> Result<f64, String> {
    let bare = text.trim();
    // The unit, not the end of a word.
    let bare = match bare.strip_suffix(['C', 'c']) {
        Some(rest) if rest.ends_with(|c: char| c.is_ascii_digit() || c == ' ' || c == '°') => {
            rest.trim_end()
        }
        _ => bare,
    };
    let bare = bare.strip_suffix('°').unwrap_or(bare);
    match read(bare) {
        Ok(celsius) if celsius < -273.15 => Err(format!(
            "`{}` is colder than anything can be",
            shorten(text, 24)
        )),
        Ok(celsius) => Ok(celsius),
        Err(fault) => Err(fault.to_string()),
    }
}

/// A count above nothing, and below what anyone serves.
pub(crate) fn positive(text: &str) -> Result<f64, String> {
    match read(text.trim()) {
        Ok(count) if count > 0.0 && count <= 1e6 => Ok(count),
        Ok(_) => Err("give a number above 0, and up to 1000000".to_owned()),
        Err(fault) => Err(fault.to_string()),
    }
}

/// Digits that are written to files: density then comes to 0.0001 kg/m³.
const SIGNIFICANT: usize = 8;

/// A number rounded to the digits that are written to files, never −0.
pub(crate) fn round(value: f64) -> f64 {
    let text = format!("{value:.*e}", SIGNIFICANT - 1);
    // What was just written as a number reads as a number.
    text.parse::<f64>().unwrap_or(value) + 0.0
}

/// For people: so many decimals, a real minus sign, never −0.
pub(crate) fn set(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(digits) if digits.trim_matches(['0', '.']).is_empty() => digits.to_owned(),
        Some(digits) => format!("−{digits}"),
        None => text,
    }
}

/// A doubt, for people: with the decimals of its value, or one digit more where these say nothing.
pub(crate) fn set_doubt(value: f64, decimals: usize) -> String {
    let rounded = set(value, decimals);
    if rounded.trim_matches(['0', '.']).is_empty() {
        set_short(value, 1)
    } else {
        rounded
    }
}

/// For people: with no more digits than it needs, at most `significant`.
pub(crate) fn set_short(value: f64, significant: usize) -> String {
    let text = format!("{value:.*e}", significant.saturating_sub(1));
    let rounded = text.parse::<f64>().unwrap_or(value) + 0.0;
    rounded.to_string().replace('-', "−")
}

/// Pads numbers so that their decimal points stand under one another.
pub(crate) fn align(numbers: &[String]) -> Vec<String> {
    let before = |text: &str| text.split('.').next().unwrap_or(text).chars().count();
    let after = |text: &str| text.chars().count() - before(text);
    let left = numbers.iter().map(|text| before(text)).max().unwrap_or(0);
    let right = numbers.iter().map(|text| after(text)).max().unwrap_or(0);
    let pad = |text: &String| {
        let lead = " ".repeat(left - before(text));
        let trail = " ".repeat(right - after(text));
        format!("{lead}{text}{trail}")
    };
    numbers.iter().map(pad).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_with_one_meaning_are_read() {
        for (text, number) in [
            ("60", 60.0),
            ("60.5", 60.5),
            ("60,5", 60.5),
            ("0,500", 0.5),
            ("1,5000", 1.5),
            (".5", 0.5),
            ("1e3", 1000.0),
            ("2.5E-3", 0.0025),
            (" +7 ", 7.0),
            ("−4", -4.0),
            ("1.500", 1.5),
        ] {
            assert!((read(text).unwrap() - number).abs() < 1e-12, "{text}");
        }
    }

    #[test]
    fn two_meanings_are_asked_about() {
        let fault = read("1,500").unwrap_err();
        assert_eq!(fault.to_string(), "`1,500` may mean 1.500 or 1500");
    }

    #[test]
    fn what_is_no_number_is_refused() {
        for text in [
            "", " ", "abc", "nan", "NaN", "inf", "-inf", "1.2.3", "1.234,5", "1,2,3", "5-", "--5",
            "0x10", "1_000", "1e", "5 g", "٣", "1e400", ".",
        ] {
            assert!(read(text).is_err(), "{text}");
        }
    }

    #[test]
    fn temperatures_may_carry_their_unit() {
        for (text, number) in [
            ("4", 4.0),
            ("-2.5", -2.5),
            ("4 °C", 4.0),
            ("4c", 4.0),
            ("−18", -18.0),
        ] {
            assert!((celsius(text).unwrap() - number).abs() < 1e-12, "{text}");
        }
        assert!(celsius("-300").is_err() && celsius("warm").is_err() && celsius("nan").is_err());
    }

    #[test]
    fn numbers_are_set_for_people() {
        assert_eq!(set(-0.04, 1), "0.0");
        assert_eq!(set(-18.25, 1), "−18.2");
        assert_eq!(set_short(23.529411764705884, 4), "23.53");
        assert_eq!(set_short(60.0, 7), "60");
        assert_eq!(
            align(&["1".into(), "10.25".into(), "0.5".into()]),
            [" 1   ", "10.25", " 0.5 "]
        );
    }

    #[test]
    fn numbers_for_files_keep_eight_digits() {
        assert_eq!(round(1234.56789).to_string(), "1234.5679");
        assert_eq!(round(-0.0).to_string(), "0");
        assert_eq!(round(2.0 / 3.0).to_string(), "0.66666667");
    }
}
