//! Numbers and names in words, for pages.

use pomace_bench::report::Figure;
use pomace_matter::liquid::Property;
use serde::Deserialize;

/// The unit that amounts are shown in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
pub(crate) enum Unit {
    /// As each is written.
    #[default]
    #[serde(rename = "written")]
    Written,
    /// On a scale.
    #[serde(rename = "g")]
    Grams,
    /// In a measuring glass.
    #[serde(rename = "ml")]
    Millilitres,
    /// In the jiggers of the house.
    #[serde(rename = "jiggers")]
    Jiggers,
}

impl Unit {
    pub(crate) const ALL: [Self; 4] =
        [Self::Written, Self::Millilitres, Self::Grams, Self::Jiggers];

    /// In an address.
    pub(crate) const fn key(self) -> &'static str {
        match self {
            Self::Written => "written",
            Self::Grams => "g",
            Self::Millilitres => "ml",
            Self::Jiggers => "jiggers",
        }
    }

    /// On a button.
    pub(crate) const fn label(self) -> &'static str {
        match self {
            Self::Written => "as written",
            Self::Grams => "g",
            Self::Millilitres => "mL",
            Self::Jiggers => "jiggers",
        }
    }
}

/// A number with so many decimals, a true minus, never −0.
pub(crate) fn set(value: f64, decimals: usize) -> String {
    pomace_plate::number(value, decimals)
}

/// A value, or a dash where it is not known.
pub(crate) fn known(value: Option<f64>, decimals: usize) -> String {
    value.map_or_else(|| "–".to_owned(), |value| set(value, decimals))
}

/// `± 0.5`, with one digit more where the decimals of the value say nothing.
pub(crate) fn doubt(figure: &Figure, decimals: usize) -> Option<String> {
    let doubt = figure.plus_minus.filter(|doubt| *doubt > 0.0)?;
    let rounded = set(doubt, decimals);
    let says_something = |text: &String| !text.trim_matches(['0', '.']).is_empty();
    let told = Some(rounded).filter(says_something);
    let told = told.or_else(|| Some(set(doubt, decimals + 1)).filter(says_something))?;
    Some(format!("± {told}"))
}

/// A moment written as `2026-11-26T02:29:44Z`, to the minute: `26 November 2026, 02:29 UTC`.
pub(crate) fn moment(when: &str) -> String {
    const MONTHS: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    let number = |from: usize, to: usize| when.get(from..to)?.parse::<usize>().ok();
    let told = || {
        let month = MONTHS.get(number(5, 7)?.checked_sub(1)?)?;
        let (day, year, time) = (number(8, 10)?, when.get(..4)?, when.get(11..16)?);
        Some(format!("{day} {month} {year}, {time} UTC"))
    };
    told().unwrap_or_else(|| when.to_owned())
}

/// The letter of a line: a to z, then none.
pub(crate) fn letter(index: usize) -> char {
    u8::try_from(index)
        .ok()
        .filter(|index| *index < 26)
        .map_or('·', |index| char::from(b'a' + index))
}

/// `a`, `a and b`, `a, b and c`.
pub(crate) fn and(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// A text as a whole sentence: its first letter large, and an end.
pub(crate) fn full(text: &str) -> String {
    let text = sentence(text.trim());
    if text.ends_with(['.', '?', '!']) {
        text
    } else {
        format!("{text}.")
    }
}

/// The first letter large.
pub(crate) fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}

/// What the pages call a property: on all of them the same.
pub(crate) fn label_of(property: Property) -> &'static str {
    match property {
        Property::TitratableAcidity => "sourness",
        Property::Sweetness => "sweetness",
        other => other.label(),
    }
}

/// The unit of a property, as the pages write it.
pub(crate) fn unit_of(property: Property) -> &'static str {
    match property.unit() {
        "%vol" => "% vol",
        "g/100 mL" => "g in 100 mL",
        "g/L" => "g in 1 L",
        "kcal/100 mL" => "kcal in 100 mL",
        unit => unit,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_joined() {
        let all = ["milk", "eggs", "nuts"].map(str::to_owned);
        assert_eq!(and(&all), "milk, eggs and nuts");
        assert_eq!(and(&all[..2]), "milk and eggs");
        assert_eq!(sentence("étage"), "Étage");
        assert_eq!(
            moment("2026-11-06T02:29:44.120Z"),
            "6 November 2026, 02:29 UTC"
        );
        assert_eq!(moment("long ago"), "long ago");
        assert_eq!((letter(0), letter(25), letter(26)), ('a', 'z', '·'));
    }
}
