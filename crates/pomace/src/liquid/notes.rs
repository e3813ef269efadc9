//! What must be said beside the figures, for files and for people.
//!
//! A file has each note as the library words it. For people, figures that are missing for one reason
//! stand in one sentence.

use pomace_matter::liquid::{Note, Properties, Property};

/// Notes for files: each begins with what it is about, none holds `;`.
pub(super) fn short(figures: &Properties) -> Vec<String> {
    figures.notes.iter().map(Note::to_string).collect()
}

/// Notes for people, missing figures of one reason in one sentence.
pub(crate) fn sentences(notes: &[Note]) -> Vec<String> {
    let mut missing: Vec<(String, Vec<&str>)> = Vec::new();
    let mut others = Vec::new();
    for note in notes {
        let Some((property, why)) = note.missing() else {
            others.push(format!("{note}."));
            continue;
        };
        match missing.iter_mut().find(|(other, _)| *other == why) {
            Some((_, names)) => names.push(noun(property)),
            None => missing.push((why, vec![noun(property)])),
        }
    }
    let sentences = missing
        .iter()
        .map(|(why, names)| format!("Not known: {}, since {why}.", listed(names)));
    sentences.chain(others).collect()
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

    #[test]
    fn one_reason_is_one_sentence() {
        let dry = Mixture::of(&[
            (Substance::Water, Grams(5.0)),
            (Substance::Sucrose, Grams(95.0)),
        ]);
        let figures = properties(&dry, Celsius(20.0));
        let said = sentences(&figures.notes);
        assert!(said.len() < short(&figures).len(), "{said:?}");
        assert!(
            said.iter()
                .any(|one| one.contains("since the volume is not known")),
            "{said:?}"
        );
    }
}
