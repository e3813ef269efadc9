//! A prep's page, as far as a drink needs it: steps edited in place, what each leaves in the vessel,
//! figures.

use std::sync::Arc;

use axum::extract::{Query, State};
use maud::{Markup, html};
use pomace_bench::report::Figures;
use pomace_bench::{Bench, Made, RunError};
use pomace_book::edit::Draft;
use pomace_book::{Document, DocumentId, PrepDoc};
use pomace_matter::liquid::Property;
use pomace_store::Id;

use super::drinks::{self, Asked, Showing};
use super::fault::Fault;
use super::opened::Opened;
use super::others::imprint;
use super::written::Written;
use crate::app::App;
use crate::prep::{plate, told};
use crate::view::figures::{self, Row, Why};
use crate::view::plate::Widths;
use crate::view::steps::{self, StepView, step_words};
use crate::view::{self, Doc, Part, said, title};
use crate::voice;
use crate::words::{label_of, set, unit_of};

/// A prep on the bench.
struct Study<'a> {
    bench: &'a Bench<'a>,
    id: DocumentId,
    doc: &'a PrepDoc,
    made: Result<(Arc<Made>, Figures, pomace_bench::doubt::Doubt), RunError>,
}

pub(crate) fn parts(
    app: &App,
    id: &Id,
    revision: u64,
    written: &Written,
    showing: &Showing,
) -> Result<Vec<Part>, Fault> {
    let around = app.kitchen().around(Some(id), &written.read);
    let bench = Bench::with_memo(&around.book, &app.memo);
    let Some(Document::Prep(prep)) = around.book.document(around.document) else {
        return Err(Fault::nowhere());
    };
    let made = bench.prep(around.document).and_then(|made| {
        let mut figures = Figures::of(&made.kept);
        let doubt = bench.doubt_of_prep(around.document)?;
        doubt.write(&mut figures);
        Ok((made, figures, doubt))
    });
    let study = Study {
        bench: &bench,
        id: around.document,
        doc: prep,
        made,
    };
    let doc = Doc {
        id: id.as_str(),
        revision,
        unit: showing.unit,
    };
    let draft = written.draft.as_ref();
    let used: Vec<(String, String)> = {
        let kitchen = app.kitchen();
        let mut used: Vec<(String, String)> = kitchen
            .mentioning(&prep.name)
            .into_iter()
            .filter(|other| other != id)
            .filter_map(|other| {
                let kept = kitchen.get(&other)?;
                Some((drinks::address(&kept.kind, &other), kept.name.clone()))
            })
            .collect();
        used.sort_by(|a, b| a.1.cmp(&b.1));
        used
    };
    Ok(vec![
        Part::new(
            "title",
            title(
                &doc,
                &prep.name,
                prep.note.as_ref().map_or("", |note| &note.value),
            ),
        ),
        Part::new(
            "flow",
            plate::part(
                &bench,
                (id, around.document),
                prep,
                app,
                Widths(showing.widths),
            ),
        ),
        Part::new("steps", steps_part(&study, &doc, draft, &used)),
        Part::new("asked", asked(&study)),
        Part::new("figures", figures_part(&study, Widths(showing.widths))),
        Part::new("leaves", leaves(&study)),
        Part::new("used", used_part(&used)),
    ])
}

fn steps_part(
    study: &Study<'_>,
    doc: &Doc<'_>,
    draft: Option<&Draft>,
    used: &[(String, String)],
) -> Markup {
    let findings = said::of(study.bench, study.id);
    let made = study.made.as_ref().ok();
    let count = study.doc.steps.len();
    let views: Vec<(StepView, pomace_book::Verb)> = study
        .doc
        .steps
        .iter()
        .enumerate()
        .map(|(index, step)| {
            let (words, note) = step_words(step, &[]);
            let record = made.and_then(|(made, _, _)| made.records.get(index));
            let place = format!("step {}", index + 1);
            let view = StepView {
                index,
                count,
                verb: step.verb.value.word().to_owned(),
                words,
                note,
                after: record.map(|r| {
                    (
                        format!("{} g", set(r.after, if r.after < 100.0 { 1 } else { 0 })),
                        format!("{} °C", set(r.celsius, 0)),
                    )
                }),
                said: said::at(&findings, &place).map(voice::finding).collect(),
            };
            (view, step.verb.value)
        })
        .collect();
    html! {
        section class="section" {
            header { h2 { "Steps" } div class="acts" {
                @for (link, name) in used.iter().take(1) { a class="act" href=(link) { "to " (name) } }
                (view::undo())
            } }
            @if let Some(outside) = told::outside(study.doc) { (told::part(outside, made.map(|(made, ..)| &**made))) }
            (steps::list(doc, draft, &views))
            (steps::add(doc, steps::OF_A_PREP, true))
            @if let Some((made, _, _)) = made {
                @let verbs = told::verbs(study.doc);
                (said::remarks(made.records.iter().zip(verbs)
                    .flat_map(|(record, verb)| record.remarks.iter().map(move |remark| (verb, remark)))))
            }
        }
    }
}

fn asked(study: &Study<'_>) -> Markup {
    let findings = said::of(study.bench, study.id);
    html! {
        @if let Err(error) = &study.made {
            section class="question" role="status" {
                @if study.doc.steps.is_empty() { p { "Weigh what it begins with, and it comes to life." } }
                @else { p { "No figures yet. " (voice::error(error)) } }
            }
        }
        (said::elsewhere(&findings))
    }
}

/// Label, unit, decimals, and what it means.
const TOLD: &[(Property, &str)] = &[
    (
        Property::RefractometerBrix,
        "What the instrument shows; alcohol and acid show in it too.",
    ),
    (Property::Strength, "Alcohol by volume at 20 °C."),
    (Property::Sugar, "All sugars."),
    (
        Property::TitratableAcidity,
        "Acid that a titration finds, counted as citric.",
    ),
    (Property::Ph, "How sharp the acid is at 25 °C."),
    (
        Property::WaterActivity,
        "How freely its water moves: what keeps and what spoils hangs on it.",
    ),
    (Property::Density, "At its temperature."),
    (Property::Energy, "By the usual factors."),
];

fn figures_part(study: &Study<'_>, widths: Widths) -> Markup {
    let Ok((_, figures, doubt)) = &study.made else {
        return html! {};
    };
    let why = |name: &'static str, sentence: &str| {
        let name = pomace_bench::doubt::FigureName {
            stage: pomace_bench::doubt::Stage::Kept,
            name,
        };
        let largest = doubt.largest(name, 3);
        Why {
            sentence: sentence.to_owned(),
            doubts: largest
                .iter()
                .map(|s| (s.name.to_owned(), 100.0 * s.share))
                .collect(),
            reading: largest
                .iter()
                .find(|s| !s.is_model)
                .map(|s| s.reading.to_owned()),
            ..Why::default()
        }
    };
    let row = |key: &'static str, label: &str, unit: &str, decimals, served, sentence: &str| Row {
        key,
        label: label.to_owned(),
        unit: unit.to_owned(),
        decimals,
        before: None,
        served,
        later: None,
        why: why(key, sentence),
    };
    let mut rows = vec![
        row(
            "mass_g",
            "kept",
            "g",
            0,
            figures.mass,
            "What is kept, all of it.",
        ),
        row(
            "volume_ml",
            "volume",
            "mL",
            0,
            figures.volume,
            "What is kept, at its temperature.",
        ),
    ];
    for (property, sentence) in TOLD {
        if let Some(figure) = figures.figure(*property).filter(|f| f.value.is_some()) {
            rows.push(row(
                property.name(),
                label_of(*property),
                unit_of(*property),
                property.decimals(),
                figure,
                sentence,
            ));
        }
    }
    html! {
        section class="section" { header { h2 { "What it is" } } (figures::table(&rows, widths)) }
    }
}

fn leaves(study: &Study<'_>) -> Markup {
    let Ok((made, _, _)) = &study.made else {
        return html! {};
    };
    let carried = &made.kept.carried;
    let sure: Vec<&str> = carried.allergens.iter().map(|a| a.as_str()).collect();
    let possible: Vec<&str> = carried.maybe().map(|a| a.as_str()).collect();
    let cautions = study.bench.cautions(&made.kept);
    let left: Vec<(String, f64)> = study
        .doc
        .steps
        .iter()
        .enumerate()
        .map(|(index, step)| (step, made.left.grams(index)))
        .filter(|(_, left)| *left > 0.05)
        .map(|(step, left)| {
            let name = step.by_product.as_ref();
            let name = name.map_or_else(|| "left behind".to_owned(), |n| n.value.clone());
            (name, left)
        })
        .collect();
    let findings = said::of(study.bench, study.id);
    let steps = study.doc.steps.iter().enumerate();
    let unknown: Vec<String> = steps
        .filter(|(index, _)| said::leads_nowhere(&findings, "step", *index))
        .filter_map(|(_, step)| Some(step.what.as_ref()?.value.clone()))
        .collect();
    html! {
        @if !left.is_empty() {
            section class="section" { header { h2 { "What it leaves" } }
                ul class="points" { @for (name, grams) in &left {
                    li { span { (name) } span class="dots" {} span { (set(*grams, 0)) " g" } }
                } }
            }
        }
        section class="section" { header { h2 { "Allergens" } }
            (said::allergens(&sure, &possible, &cautions, &unknown))
        }
    }
}

fn used_part(used: &[(String, String)]) -> Markup {
    html! {
        @if !used.is_empty() {
            section class="section" { header { h2 { "Used in" } }
                ul class="found" { @for (link, name) in used { li { a href=(link) { span { (name) } } } } }
            }
        }
    }
}

pub(crate) async fn page(
    State(app): State<Arc<App>>,
    opened: Opened,
    Query(asked): Query<Asked>,
) -> Result<Markup, Fault> {
    let Opened { id, kept, read, .. } = &opened;
    let showing = Showing {
        unit: asked.unit,
        ..Showing::default()
    };
    let parts = parts(&app, id, kept.revision, &Written::kept(read), &showing)?;
    Ok(opened.page(&app, ("preps", "spread"), &parts, |part| {
        html! {
            div class="work" {
                div class="first" { (part("flow")) (imprint(id, kept)) }
                div class="beside" { (part("steps")) (part("asked")) }
            }
            div class="below" { (part("figures")) }
            div class="last" { (part("leaves")) (part("used")) }
        }
    }))
}
