//! The garnish, in the order in which it is done.

use maud::{Markup, html};
use pomace_book::edit::Draft;

use super::study::Study;
use crate::view::steps::{self, StepView};
use crate::view::{Doc, said};
use crate::voice;
use crate::words::set;

pub(super) fn part(study: &Study<'_>, doc: &Doc<'_>, draft: Option<&Draft>) -> Markup {
    let findings = said::of(study.bench, study.id);
    let count = study.doc.garnish.len();
    let outcome = study.outcome.as_ref().ok();
    let views: Vec<StepView> = study
        .doc
        .garnish
        .iter()
        .enumerate()
        .map(|(index, garnish)| {
            let what = garnish.what.as_ref().map_or("", |what| what.value.as_str());
            let mut notes = Vec::new();
            if let Some(eaten) = &garnish.eaten {
                notes.push(format!("{} % of it is eaten", set(100.0 * eaten.value, 0)));
            }
            if let Some(lead) = &garnish.lead {
                notes.push(format!("begin {} before", lead.value));
            }
            if garnish.optional {
                notes.push("can be left off".to_owned());
            }
            if let Some(note) = &garnish.note {
                notes.push(note.value.clone());
            }
            let grams =
                outcome.and_then(|o| o.mixed.garnish.iter().find(|(place, _, _)| *place == index));
            let place = format!("garnish {}", index + 1);
            StepView {
                index,
                count,
                verb: garnish.action.value.word().to_owned(),
                words: format!("{} {what}", garnish.action.value.word()),
                note: notes.join(", "),
                after: grams.map(|(_, grams, _)| (format!("{} g", set(*grams, 1)), String::new())),
                said: said::at(&findings, &place).map(voice::finding).collect(),
            }
        })
        .collect();
    html! {
        section class="section" {
            header { h2 { "Garnish" } }
            (steps::garnish(doc, draft, &views))
            details class="fold" { summary { "Add to the garnish" } (steps::add_garnish(doc)) }
        }
    }
}
