//! The lines, each with its stepper and what one step more of it does.

use maud::{Markup, html};
use pomace_book::edit::{Draft, Path};
use pomace_book::{Document, DocumentId, Step};

use super::pushes::Pushed;
use super::study::{Shown, Study};
use crate::view::lines::{self, LineView};
use crate::view::{self, Doc, said};
use crate::voice;
use crate::words::{Unit, letter};

pub(super) fn part(
    study: &Study<'_>,
    doc: &Doc<'_>,
    draft: Option<&Draft>,
    amounts: Vec<Shown>,
    pushes: &[Option<Pushed>],
    links: &[Option<String>],
) -> Markup {
    let findings = said::of(study.bench, study.id);
    let count = study.doc.lines.len();
    let lines = study.doc.lines.iter().zip(amounts).enumerate();
    let views = lines.map(|(index, (line, mut shown))| {
        let place = format!("line {}", index + 1);
        let push = pushes.get(index).and_then(Option::as_ref);
        let leads_nowhere = said::leads_nowhere(&findings, "line", index);
        // What cannot be read as an amount stays where it was typed.
        let path = Path::item("line", index, "amount");
        let written = draft.and_then(|draft| draft.get(&path)).unwrap_or_default();
        if line.amount.is_none() {
            shown.value.clone_from(&written);
        }
        // Asked in our own words: a page writes no TOML.
        let said = if written.trim().is_empty() {
            vec![(
                "How much of it?".to_owned(),
                "Until that is said, only its allergens count.".to_owned(),
            )]
        } else {
            said::at(&findings, &place).map(voice::finding).collect()
        };
        LineView {
            index,
            steps: study.doc.steps.iter().map(enters_by).collect(),
            measures: study.bench.house().measures().to_vec(),
            leads_nowhere,
            letter: letter(index),
            name: line.what.value.clone(),
            link: links.get(index).cloned().flatten(),
            shown,
            push: push.map(|push| push.words.clone()),
            said,
            enters: line.enters.as_ref().map(|step| step.value.clone()),
            count,
        }
    });
    html! {
        section class="section lines" {
            header { h2 { "Lines" }
                div class="acts" { (view::undo()) }
                div class="acts" {
                    @for unit in Unit::ALL.into_iter().filter(|unit| *unit != Unit::Jiggers || !study.bench.house().measures().is_empty()) {
                        a class="act" href={ "?in=" (unit.key()) } data-unit=(unit.key()) aria-current=[(unit == doc.unit).then_some("true")] { (unit.label()) }
                    }
                }
            }
            @for view in views { (lines::line(doc, &view)) }
            (lines::empty(doc, letter(count), count == 0))
        }
    }
}

/// The word by which a line says that it enters at a step.
fn enters_by(step: &Step) -> String {
    match &step.name_as {
        Some(name) => name.value.clone(),
        None => step.verb.value.word().to_owned(),
    }
}

/// Where a line leads: the document that it calls for.
pub(crate) fn leads_to(study: &Study<'_>, line: usize) -> Option<DocumentId> {
    let reference = study.bench.graph().line(study.id, line)?;
    let id = reference.document()?;
    matches!(
        study.bench.book().document(id),
        Some(Document::Prep(_) | Document::Ingredient(_))
    )
    .then_some(id)
}
