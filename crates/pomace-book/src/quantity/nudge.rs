//! The amount a little above or below another: what plus and minus lead to.

use super::reading::Reading;

/// What a step down and a step up lead to, written as amounts; `None` where there is no such step.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Nudged {
    /// A step less.
    pub less: Option<String>,
    /// A step more.
    pub more: Option<String>,
}

/// Millilitres of a step where no measures say otherwise: most jiggers are 2.5 mL apart.
const USUAL_STEP: f64 = 2.5;
/// From here on a pour is long, and its step is ten millilitres.
const LONG_POUR: f64 = 60.0;

/// A step less and a step more of an amount. Volumes go in steps of the house's `measures`, in mL: the least
/// distance between two of them; weights, shares and pieces in steps of their size. A step leads to a round
/// number, and never to nothing.
///
/// ```
/// use pomace_book::{Reading, nudge};
/// let pour = Reading::Volume { millilitres: 40.0 };
/// let nudged = nudge(&pour, &[20.0, 22.5, 30.0]);
/// assert_eq!(nudged.more.as_deref(), Some("42.5 mL"));
/// ```
#[must_use]
pub fn nudge(reading: &Reading, measures: &[f64]) -> Nudged {
    let Some((value, step)) = value_and_step(reading, measures) else {
        return Nudged::default();
    };
    let steps = value / step;
    let to = |steps: f64| {
        // Away from the dust that divisions leave: no step has more than three decimals.
        let value = (steps * step * 1e3).round() / 1e3;
        (value > 0.0).then(|| with(reading, value).to_string())
    };
    let near = 1e-6;
    Nudged {
        less: to((steps - near).ceil() - 1.0),
        more: to((steps + near).floor() + 1.0),
    }
}

/// The number that moves, in its own unit, and its step.
fn value_and_step(reading: &Reading, measures: &[f64]) -> Option<(f64, f64)> {
    Some(match reading {
        Reading::Mass { grams } => (*grams, of_size(*grams)),
        Reading::Volume { millilitres } => (*millilitres, of_pour(*millilitres, measures)),
        Reading::Measure { count, .. } | Reading::Count { count, .. } => {
            (*count, if *count < 2.0 { 0.5 } else { 1.0 })
        }
        Reading::Ounces { count } => (*count, 0.25),
        Reading::Share { fraction, .. } => {
            let percent = 100.0 * fraction;
            (percent, of_size(percent))
        }
        Reading::ToTaste { from: Some(from) } => return value_and_step(from, measures),
        Reading::ToTaste { from: None } | Reading::Between { .. } | Reading::Question { .. } => {
            return None;
        }
    })
}

/// The same reading with another number.
fn with(reading: &Reading, value: f64) -> Reading {
    match reading {
        Reading::Mass { .. } => Reading::Mass { grams: value },
        Reading::Volume { .. } => Reading::Volume { millilitres: value },
        Reading::Measure { measure, .. } => measure.times(value),
        Reading::Ounces { .. } => Reading::Ounces { count: value },
        Reading::Count { noun, .. } => Reading::Count {
            count: value,
            noun: noun.clone(),
        },
        Reading::Share { of, .. } => Reading::Share {
            fraction: value / 100.0,
            of: of.clone(),
        },
        Reading::ToTaste { from: Some(from) } => Reading::ToTaste {
            from: Some(Box::new(with(from, value))),
        },
        other => other.clone(),
    }
}

/// A step of a twentieth to a tenth of a number, round.
fn of_size(value: f64) -> f64 {
    let steps = [
        (1.0, 0.05),
        (5.0, 0.2),
        (10.0, 0.5),
        (30.0, 1.0),
        (100.0, 5.0),
        (300.0, 10.0),
        (1000.0, 50.0),
    ];
    let found = steps.into_iter().find(|(below, _)| value < *below);
    found.map_or(100.0, |(_, step)| step)
}

fn of_pour(millilitres: f64, measures: &[f64]) -> f64 {
    let mut sorted = measures.to_vec();
    sorted.sort_by(f64::total_cmp);
    let apart = sorted.iter().zip(sorted.iter().skip(1));
    let least = apart
        .map(|(a, b)| b - a)
        .filter(|apart| *apart > 0.1)
        .fold(f64::INFINITY, f64::min);
    let step = if least.is_finite() { least } else { USUAL_STEP };
    if millilitres < step {
        0.5
    } else if millilitres < LONG_POUR {
        step
    } else {
        step.max(of_size(millilitres / 2.0)).max(10.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::parse_amount;

    const HOUSE: [f64; 5] = [5.0, 7.5, 20.0, 30.0, 60.0];

    fn both(text: &str) -> (String, String) {
        let nudged = nudge(&parse_amount(text).unwrap().reading, &HOUSE);
        let word = |text: Option<String>| text.unwrap_or_else(|| "–".to_owned());
        (word(nudged.less), word(nudged.more))
    }

    #[test]
    fn steps_are_round_and_in_the_unit() {
        for (text, less, more) in [
            ("40 mL", "37.5 mL", "42.5 mL"),
            ("41 mL", "40 mL", "42.5 mL"),
            ("60 mL", "50 mL", "70 mL"),
            ("2 mL", "1.5 mL", "2.5 mL"),
            ("0.5 mL", "–", "1 mL"),
            ("240 g", "230 g", "250 g"),
            ("3 g", "2.8 g", "3.2 g"),
            ("0.2 g", "0.15 g", "0.25 g"),
            ("2 dashes", "1 dash", "3 dashes"),
            ("1 dash", "0.5 dash", "1.5 dashes"),
            ("3 limes", "2 limes", "4 limes"),
            ("1.5 oz", "1.25 oz", "1.75 oz"),
            ("35 % of peel", "30 % of peel", "40 % of peel"),
            (
                "to taste, from 1 g",
                "to taste, from 0.8 g",
                "to taste, from 1.2 g",
            ),
            ("1 to 2 g", "–", "–"),
        ] {
            assert_eq!(both(text), (less.to_owned(), more.to_owned()), "{text}");
        }
    }

    #[test]
    fn what_a_step_leads_to_is_read_back() {
        for text in [
            "40 mL",
            "0.7 g",
            "3 limes",
            "1:3 of vinegar",
            "2 barspoons",
            "1/2 lime",
            "7",
        ] {
            let nudged = nudge(&parse_amount(text).unwrap().reading, &HOUSE);
            for to in [nudged.less, nudged.more].into_iter().flatten() {
                assert_eq!(parse_amount(&to).unwrap().reading.to_string(), to, "{text}");
            }
        }
    }
}
