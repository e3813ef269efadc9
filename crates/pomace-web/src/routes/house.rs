//! The house's page: its jiggers, its small measures, its ice; and the page that founds it.

use std::sync::Arc;

use axum::extract::State;
use axum::response::{IntoResponse as _, Redirect, Response};
use maud::{Markup, html};
use pomace_book::edit::Path as Key;
use pomace_book::{Finding, SmallMeasure};
use pomace_store::Id;

use super::drinks::{address, house};
use super::opened::Opened;
use super::others::imprint;
use super::written::Written;
use crate::app::App;
use crate::view::frame::{self, Frame};
use crate::view::{At, Doc, Part, said};
use crate::voice;
use crate::words::set;

/// Jiggers as they are sold together, for whoever has none written down: common practice, no source.
const SETS: &[(&str, &str)] = &[
    ("metric", "15 mL, 20 mL, 25 mL, 30 mL, 40 mL, 50 mL, 60 mL"),
    (
        "ounces",
        "1/2 fl oz, 3/4 fl oz, 1 fl oz, 1 1/2 fl oz, 2 fl oz",
    ),
];

/// Key, what it asks, an example.
const FIELDS: [(&str, &str, &str); 6] = [
    (
        "measures",
        "Every mark that you can pour to",
        "20 mL, 25 mL, 40 mL, 50 mL",
    ),
    ("dash", "One dash", "0.8 mL"),
    ("drop", "One drop", "0.05 mL"),
    ("barspoon", "One barspoon", "4 mL"),
    (
        "ice",
        "The ice in use, where a step names none",
        "dry 32 mm cubes",
    ),
    ("currency", "Currency, in three letters", "EUR"),
];

/// What stands beside the field of a key.
pub(crate) fn label(key: &str) -> Option<&'static str> {
    let found = FIELDS.iter().find(|(of, _, _)| *of == key);
    found.map(|(_, asks, _)| *asks)
}

const fn at(key: &str) -> At<'_> {
    At {
        change: "set",
        list: None,
        index: None,
        key: Some(key),
    }
}

/// A setting that is one text, and what is wrong with it.
struct Field<'a> {
    key: &'a str,
    asks: &'a str,
    value: &'a str,
    example: &'a str,
    /// What holds while it is empty, or a word on how to say it.
    hint: &'a str,
}

impl Field<'_> {
    fn shown(&self, doc: &Doc<'_>, findings: &[Finding]) -> Markup {
        let amiss = findings
            .iter()
            .filter(|finding| finding.place.key == self.key);
        html! {
            (doc.form(&at(self.key), "field-row", &html! {
                label class="field" { span { (self.asks) }
                    @if self.key == "measures" { textarea name="value" rows="2" placeholder=(self.example) { (self.value) } }
                    @else { input name="value" value=(self.value) placeholder=(self.example); } }
                button class="act" { "keep" }
            }))
            @for finding in amiss { @let (message, mend) = voice::finding(finding); p class="amiss" { (message) " " span { (mend) } } }
            @if !self.hint.is_empty() { p { small { (self.hint) } } }
        }
    }
}

/// What is taken where the house has not measured.
fn usual(measure: SmallMeasure) -> String {
    let (low, middle, high) = measure.millilitres();
    format!(
        "Left empty: {} mL, between {} and {}.",
        set(middle, 2),
        set(low, 2),
        set(high, 2)
    )
}

pub(crate) fn parts(id: &Id, revision: u64, written: &Written) -> Vec<Part> {
    let document = written.read.document();
    let doc = Doc {
        id: id.as_str(),
        revision,
        unit: crate::words::Unit::default(),
    };
    let draft = written.draft.as_ref();
    let value = |key: &str| {
        draft
            .and_then(|draft| draft.get(&Key::top(key)))
            .unwrap_or_default()
    };
    let measures = draft
        .map(|draft| draft.texts(&Key::top("measures")))
        .unwrap_or_default()
        .join(", ");
    let findings = written.read.findings();
    let field = |key: &str, hint: &str| {
        let found = FIELDS.iter().find(|(of, _, _)| *of == key);
        let (key, asks, example) = found.copied().unwrap_or_default();
        let value = if key == "measures" {
            measures.clone()
        } else {
            value(key)
        };
        let field = Field {
            key,
            asks,
            value: &value,
            example,
            hint,
        };
        field.shown(&doc, findings)
    };
    // What stands at no field here.
    let elsewhere: Vec<&Finding> = findings
        .iter()
        .filter(|finding| label(&finding.place.key).is_none())
        .collect();
    let jiggers = html! {
        section class="section" {
            header { h2 { "Jiggers" } div class="acts" { (crate::view::undo()) } }
            p class="said" { "A step of plus or minus is the least distance between two of them, and a drink can be read in them." }
            (field("measures", ""))
            @if measures.is_empty() {
                p { small { "Or begin with a usual set, and mend it:" } }
                div class="buttons" {
                    @for (name, set) in SETS {
                        (doc.form(&at("measures"), "inline", &html! {
                            input type="hidden" name="value" value=(set);
                            button class="button" { (name) }
                        }))
                    }
                }
            }
            (said::elsewhere(&elsewhere))
        }
    };
    let rest = html! {
        section class="section" {
            header { h2 { "Small measures" } }
            p class="said" { "Weigh ten of water: 1 g is 1 mL. No book knows your bottles." }
            (field("dash", &usual(SmallMeasure::Dash)))
            (field("drop", &usual(SmallMeasure::Drop)))
            (field("barspoon", &usual(SmallMeasure::Barspoon)))
        }
        section class="section" {
            header { h2 { "Ice" } }
            (field("ice", "Dry or wet, its size and shape, and how cold it is if you know."))
        }
        section class="section" {
            header { h2 { "Money" } }
            (field("currency", ""))
        }
    };
    vec![
        Part::new(
            "title",
            crate::view::title(&doc, &document.name().value, &value("note")),
        ),
        Part::new("label", jiggers),
        Part::new("shown", rest),
    ]
}

pub(crate) async fn page(State(app): State<Arc<App>>, opened: Opened) -> Markup {
    let Opened { id, kept, read, .. } = &opened;
    let parts = parts(id, kept.revision, &Written::kept(read));
    opened.page(&app, ("house", "halves"), &parts, |part| {
        html! {
            div { (part("label")) (imprint(id, kept)) }
            div { (part("shown")) }
        }
    })
}

/// The house's page; where nobody has named the house yet, the page that asks for its name.
pub(crate) async fn room(State(app): State<Arc<App>>) -> Response {
    let kitchen = app.kitchen();
    if let Some(id) = kitchen.house_id() {
        return Redirect::to(&address("house", id)).into_response();
    }
    let house = house(&kitchen);
    let frame = Frame {
        house: &house,
        title: "The house",
        room: "house",
        is_demo: app.is_demo,
        bar: None,
    };
    let inner = html! {
        main id="main" {
            header class="title" { h1 { "The house" } p { "its jiggers, its measures, its ice" } }
            section class="section" {
                form class="new" method="post" action="/new" autocomplete="off" {
                    input type="hidden" name="kind" value="house";
                    label class="field" { span { "What is it called?" } input name="name" required autofocus placeholder="Sill & Ebb"; }
                    div class="buttons" { button class="button chief" { "Begin" } }
                }
            }
        }
    };
    frame::page(&frame, &inner).into_response()
}
