//! What the drink asks: amounts with two meanings, what is missing, the one reading worth taking.

use maud::{Markup, html};
use pomace_bench::Question;
use pomace_bench::doubt::{FigureName, Stage};
use pomace_book::Spot;
use pomace_matter::liquid::Property;
use pomace_plate::Doubtful;
use pomace_plate::whiskers::Whiskers;

use super::study::Study;
use crate::view::plate::Widths;
use crate::view::{At, Doc, figures, said};
use crate::voice;
use crate::words::known;

pub(super) fn part(study: &Study<'_>, doc: &Doc<'_>, widths: Widths) -> Markup {
    let findings = said::of(study.bench, study.id);
    let questions = study.bench.questions(study.id);
    html! {
        @for question in questions.iter().filter(|q| q.document == study.id) {
            section class="question" {
                p { "“" (question.text) "”: which is meant? " (voice::spoken(&question.why)) }
                div class="buttons" {
                    @for (index, reading) in question.readings.iter().enumerate() {
                        @let (list, at) = match question.spot {
                            Spot::Line(at) => ("line", at),
                            Spot::Step(at) => ("step", at),
                            Spot::Garnish(at) => ("garnish", at),
                        };
                        @let at = At { change: "set", list: Some(list), index: Some(at), key: Some("amount") };
                        @let told = answered(study, question, index);
                        (doc.form(&at, "inline", &html! {
                            input type="hidden" name="value" value=(reading);
                            button class="button" { (reading) small { (told) } }
                        }))
                    }
                }
            }
        }
        @if let Err(error) = &study.outcome {
            section class="question" role="status" {
                @if study.doc.lines.is_empty() { p { "Put in what comes first, with how much of it, and the drink begins." } }
                @else { p { "No figures yet. " (voice::error(error)) } }
            }
        }
        @if !study.doc.lines.is_empty() { (said::elsewhere(&findings)) }
        @if let Some((sentence, drawn)) = worth_reading(study) {
            section class="question" {
                p { (sentence) }
                (figures::whiskers_of(&drawn, widths))
            }
        }
    }
}

/// What an answer makes of the drink.
fn answered(study: &Study<'_>, question: &Question, reading: usize) -> String {
    let bench = study.bench.answered(question, reading);
    match bench.report(study.id) {
        Ok((_, report)) => format!(
            "{} mL, {} % vol, sour {}, sweet {}",
            known(report.after.volume.value, 0),
            known(report.after.get(Property::Strength), 1),
            known(report.after.get(Property::TitratableAcidity), 1),
            known(report.after.get(Property::Sweetness), 1),
        ),
        Err(error) => voice::error(&error),
    }
}

/// The one reading worth taking: where most of the doubt in sourness or sweetness comes from one source.
fn worth_reading(study: &Study<'_>) -> Option<(String, Whiskers)> {
    let outcome = study.outcome.as_ref().ok()?;
    let told = [
        (Property::TitratableAcidity, "sourness", "g in 1 L"),
        (Property::Sweetness, "sweetness", "g in 100 mL"),
    ];
    told.into_iter().find_map(|(property, label, unit)| {
        let figure = outcome.report.after.figure(property)?;
        let (value, doubt) = (figure.value?, figure.plus_minus?);
        let name = FigureName {
            stage: Stage::AfterIce,
            name: property.name(),
        };
        let largest = outcome.doubt.largest(name, 1).into_iter().next()?;
        if largest.is_model || largest.share < 0.45 || doubt < 0.1 * value {
            return None;
        }
        let sentence = format!(
            "Most of the doubt in the {label} comes from {}. What would settle it: {}.",
            voice::source(&largest.name),
            largest.reading
        );
        Some((
            sentence,
            Whiskers {
                figure: label.to_owned(),
                unit: unit.to_owned(),
                now: Doubtful::new(value, doubt),
                once_read: doubt * (1.0 - largest.share).max(0.0).sqrt(),
            },
        ))
    })
}
