//! What must be said beside the figures: why one is missing, what may crystallise.
//!
//! The same reasons are told twice: short, with the names of the columns, for files; as sentences
//! for people. Every figure that is missing is named in either.

use pomace_matter::liquid::{Note, Properties, Property};
use pomace_matter::range::Outside;

use super::names::label;
use crate::number::set;

/// Why a figure is missing.
#[derive(Clone, Debug, PartialEq)]
enum Reason {
    /// The liquid lies outside the range of the model.
    Outside(Outside),
    /// It is told per volume, and the volume is missing.
    NeedsVolume,
    /// Nothing freezes.
    StaysLiquid,
    /// No model says.
    Unknown,
}

fn missing(figures: &Properties) -> Vec<(Property, Reason)> {
    let without = figures.iter().filter(|(_, value)| value.is_none());
    without
        .map(|(property, _)| (property, reason(figures, property)))
        .collect()
}

fn reason(figures: &Properties, property: Property) -> Reason {
    let told = figures.notes.iter().find_map(|note| match note {
        Note::LeftOut {
            property: left,
            outside,
        } if *left == property => Some(Reason::Outside(*outside)),
        Note::StaysLiquid if property == Property::FreezingPoint => Some(Reason::StaysLiquid),
        _ => None,
    });
    told.unwrap_or_else(|| {
        let no_volume = figures.get(Property::Volume).is_none();
        if no_volume && per_volume(property) {
            Reason::NeedsVolume
        } else {
            Reason::Unknown
        }
    })
}

/// Whether a figure is told for a volume of the liquid.
const fn per_volume(property: Property) -> bool {
    use Property as P;
    matches!(
        property,
        P::Strength | P::Sugar | P::Acid | P::TitratableAcidity | P::Ph | P::Sweetness | P::Energy
    )
}

/// Notes for files: each begins with the name of a figure or a substance, none holds `;`.
pub(super) fn short(figures: &Properties) -> Vec<String> {
    let mut notes: Vec<String> = missing(figures)
        .into_iter()
        .map(|(property, reason)| {
            let why = match reason {
                Reason::Outside(left) => left.to_string(),
                Reason::NeedsVolume => "needs the volume, which is not known".to_owned(),
                Reason::StaysLiquid => "stays liquid down to −58 °C".to_owned(),
                Reason::Unknown => "no model says".to_owned(),
            };
            format!("{property}: {why}")
        })
        .collect();
    notes.extend(figures.notes.iter().filter_map(|note| match note {
        Note::OverSaturated {
            substance,
            percent,
            saturated_percent,
        } => Some(format!(
            "{substance}: {} % of {substance} and water, water holds {} %, may crystallise",
            set(*percent, 1),
            set(*saturated_percent, 1),
        )),
        Note::IndicativePh => Some("ph: a hint only above 30 %vol".to_owned()),
        Note::LeftOut { .. } | Note::StaysLiquid => None,
        other => Some(other.to_string()),
    }));
    notes
}

/// Notes for people, those of one reason in one sentence.
pub(super) fn sentences(figures: &Properties) -> Vec<String> {
    let mut groups: Vec<(Reason, Vec<&str>)> = Vec::new();
    for (property, reason) in missing(figures) {
        match groups.iter_mut().find(|(other, _)| *other == reason) {
            Some((_, names)) => names.push(noun(property)),
            None => groups.push((reason, vec![noun(property)])),
        }
    }
    let mut sentences: Vec<String> = groups
        .iter()
        .map(|(reason, names)| sentence(reason, names))
        .collect();
    sentences.extend(figures.notes.iter().filter_map(|note| match note {
        Note::OverSaturated { substance, percent, saturated_percent } => {
            let name = label(*substance);
            Some(format!(
                "It may crystallise: {name} is {} % of {name} and water together, and water holds {} %.",
                set(*percent, 1),
                set(*saturated_percent, 1),
            ))
        }
        Note::IndicativePh => Some("Above 30 %vol the pH is a hint only.".to_owned()),
        Note::LeftOut { .. } | Note::StaysLiquid => None,
        other => Some(format!("{other}.")),
    }));
    sentences
}

fn sentence(reason: &Reason, names: &[&str]) -> String {
    let what = listed(names);
    match reason {
        Reason::Outside(left) => format!("Not known: {what}, since {left}."),
        Reason::NeedsVolume => format!("Not known, since the volume is not: {what}."),
        Reason::StaysLiquid => "It stays liquid down to −58 °C.".to_owned(),
        Reason::Unknown => format!("Not known, since no model says: {what}."),
    }
}

/// `a, b and c`.
fn listed(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// Its name within a sentence.
fn noun(property: Property) -> &'static str {
    match property {
        Property::RefractometerBrix => "the refractometer reading",
        Property::FreezingPoint => "the freezing point",
        // `titratable acidity, as citric` would break a list.
        other => other.label().split(',').next().unwrap_or(other.label()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pomace_matter::units::{Celsius, Grams};
    use pomace_matter::{Mixture, Substance, liquid::properties};

    /// Liquids of every sort, many of them outside one model or another.
    fn liquids() -> Vec<(Mixture, f64)> {
        let mut liquids = Vec::new();
        for one in Substance::ALL {
            for (grams, water) in [
                (1.0, 0.0),
                (40.0, 60.0),
                (95.0, 5.0),
                (1e-12, 0.0),
                (1e15, 1.0),
            ] {
                for celsius in [-200.0, -40.0, 4.0, 20.0, 70.0, 500.0] {
                    let parts = [(one, Grams(grams)), (Substance::Water, Grams(water))];
                    liquids.push((Mixture::of(&parts), celsius));
                }
            }
        }
        liquids
    }

    #[test]
    fn every_missing_figure_is_named() {
        for (liquid, celsius) in liquids() {
            let figures = properties(&liquid, Celsius(celsius));
            let notes = short(&figures);
            for (property, value) in figures.iter() {
                let named = notes
                    .iter()
                    .any(|note| note.starts_with(&format!("{property}: ")));
                assert!(
                    value.is_some() || named,
                    "{property} of {liquid:?} at {celsius}: {notes:?}"
                );
            }
            assert!(
                notes.iter().all(|note| !note.contains([';', '\n'])),
                "{notes:?}"
            );
            assert_eq!(sentences(&figures).is_empty(), notes.is_empty());
        }
    }
}
