//! The steps, each with what is in the vessel after it.

use maud::{Markup, html};
use pomace_book::edit::Draft;
use pomace_book::{DrinkDoc, Line, Step, Verb};

use super::study::{Outcome, Study};
use crate::view::steps::{self, StepView, step_words};
use crate::view::{Doc, said};
use crate::voice;
use crate::words::{letter, set};

/// The letters of the lines that enter at a step.
pub(crate) fn entering(drink: &DrinkDoc, index: usize, step: &Step) -> Vec<char> {
    let is_own = |name: &String| step.name_as.as_ref().is_some_and(|own| own.value == *name);
    let enters = |line: &Line| match &line.enters {
        None => index == 0,
        Some(name) => name.value == step.verb.value.word() || is_own(&name.value),
    };
    let lines = drink.lines.iter().enumerate();
    let there = lines.filter(|(_, line)| enters(line));
    there.map(|(at, _)| letter(at)).collect()
}

pub(super) fn part(study: &Study<'_>, doc: &Doc<'_>, draft: Option<&Draft>) -> Markup {
    let findings = said::of(study.bench, study.id);
    let count = study.doc.steps.len();
    let views: Vec<(StepView, Verb)> = study
        .doc
        .steps
        .iter()
        .enumerate()
        .map(|(index, step)| {
            let (words, note) = step_words(step, &entering(study.doc, index, step));
            let place = format!("step {}", index + 1);
            let view = StepView {
                index,
                count,
                verb: step.verb.value.word().to_owned(),
                words,
                note,
                after: study.outcome.as_ref().ok().and_then(|o| after(o, index)),
                said: said::at(&findings, &place).map(voice::finding).collect(),
            };
            (view, step.verb.value)
        })
        .collect();
    let outcome = study.outcome.as_ref().ok();
    html! {
        section class="section" {
            header { h2 { "Steps" } }
            (steps::list(doc, draft, &views))
            details class="fold" { summary { "Add a step" } (steps::add(doc, steps::OF_A_DRINK, false)) }
            @if let Some(outcome) = outcome {
                @let verbs = study.doc.steps.iter().map(|step| step.verb.value);
                (said::remarks(outcome.mixed.records.iter().zip(verbs)
                    .flat_map(|(record, verb)| record.remarks.iter().map(move |remark| (verb, remark)))))
            }
        }
    }
}

/// What is in the vessel after a step.
fn after(outcome: &Outcome, index: usize) -> Option<(String, String)> {
    let record = outcome.mixed.records.get(index)?;
    Some((
        format!("{} g", set(record.after, 0)),
        format!("{} °C", set(record.celsius, 1)),
    ))
}
