//! What one step more of each line does to the drink.

use std::mem::discriminant;

use pomace_bench::report::Figures;
use pomace_book::{Reading, Spot, parse_amount};
use pomace_matter::liquid::Property;

use super::study::{Shown, Stand, Study};
use crate::words::set;

/// What one step more of a line does.
pub(super) struct Pushed {
    pub stand: Stand,
    pub words: String,
}

/// Of each line, where it can be told.
pub(super) fn of(study: &Study<'_>, amounts: &[Shown]) -> Vec<Option<Pushed>> {
    let Ok(outcome) = &study.outcome else {
        return amounts.iter().map(|_| None).collect();
    };
    let served = &outcome.report.after;
    let push = |(line, amount): (usize, &Shown)| {
        let more = amount.steps.more.as_deref()?;
        let then = study.with(Spot::Line(line), times(amount, more)?)?;
        Some(Pushed {
            stand: Stand::of(&then)?,
            words: in_words(served, &then, more),
        })
    };
    amounts.iter().enumerate().map(push).collect()
}

/// How many times as much as is shown a step more is, where both are of one kind.
fn times(amount: &Shown, more: &str) -> Option<f64> {
    let text = format!("{} {}", amount.value, amount.unit);
    let from = parse_amount(text.trim()).ok()?.reading;
    let to = parse_amount(more).ok()?.reading;
    let is_one_kind = discriminant(&from) == discriminant(&to);
    is_one_kind.then_some(size(&to)? / size(&from)?)
}

/// `42.5 mL: less sweet by 0.06, less sour by 0.05`.
fn in_words(served: &Figures, then: &Figures, more: &str) -> String {
    let mut told = Vec::new();
    let mut tell = |property, more: &str, less: &str, decimals: usize, least: f64| {
        if let (Some(now), Some(then)) = (served.get(property), then.get(property)) {
            let by = then - now;
            if by.abs() >= least {
                let word = if by > 0.0 { more } else { less };
                told.push(format!("{word} by {}", set(by.abs(), decimals)));
            }
        }
    };
    tell(Property::Sweetness, "sweeter", "less sweet", 2, 0.02);
    tell(Property::TitratableAcidity, "sourer", "less sour", 2, 0.02);
    tell(Property::Strength, "stronger", "weaker", 1, 0.05);
    if told.is_empty() {
        format!("{more}: hardly a change")
    } else {
        format!("{more}: {}", told.join(", "))
    }
}

/// The number of an amount, in its own unit.
fn size(reading: &Reading) -> Option<f64> {
    let size = match reading {
        Reading::Mass { grams } => *grams,
        Reading::Volume { millilitres } => *millilitres,
        Reading::Measure { count, .. }
        | Reading::Ounces { count }
        | Reading::Count { count, .. } => *count,
        Reading::Share { fraction, .. } => *fraction,
        Reading::ToTaste { from: Some(from) } => return size(from),
        Reading::ToTaste { from: None } | Reading::Between { .. } | Reading::Question { .. } => {
            return None;
        }
    };
    (size > 0.0).then_some(size)
}
