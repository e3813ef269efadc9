//! An ingredient's page: what its label says, field by field.

use std::sync::Arc;

use axum::extract::{Query, State};
use maud::{Markup, html};
use pomace_bench::Bench;
use pomace_bench::report::Figures;
use pomace_book::Document;
use pomace_book::edit::Path as Key;
use pomace_matter::liquid::Property;
use pomace_store::Id;

use super::drinks::{Asked, Showing};
use super::fault::Fault;
use super::opened::Opened;
use super::others::imprint;
use super::written::Written;
use crate::app::App;
use crate::ingredient::{contents, parts};
use crate::view::plate::Widths;
use crate::view::{At, Doc, Part, said};
use crate::voice;
use crate::words::{known, label_of, unit_of};

/// Key, what it asks, an example.
const INGREDIENT: &[(&str, &str, &str)] = &[
    ("like", "Similar to what", "dry vermouth"),
    ("strength", "Strength", "28 %"),
    ("sugar", "Sugar", "120 g/L, or 0 to 120 g/L"),
    ("acid", "Acid", "6 g/L"),
    ("ph", "pH", "3.2"),
    ("brix", "A refractometer shows", "24"),
    ("density", "Density", "1.08"),
    ("origin", "Where it comes from", "the orchard by the weir"),
];

/// What stands beside the field of a key.
pub(crate) fn label(key: &str) -> Option<&'static str> {
    let found = INGREDIENT.iter().find(|(of, _, _)| *of == key);
    found.map(|(_, asks, _)| *asks)
}

pub(crate) fn parts(
    app: &App,
    id: &Id,
    revision: u64,
    written: &Written,
    showing: &Showing,
) -> Result<Vec<Part>, Fault> {
    let around = app.kitchen().around(Some(id), &written.read);
    let bench = Bench::new(&around.book);
    let Some(Document::Ingredient(told)) = around.book.document(around.document) else {
        return Err(Fault::nowhere());
    };
    let doc = Doc {
        id: id.as_str(),
        revision,
        unit: showing.unit,
    };
    let draft = written.draft.as_ref();
    let findings = said::of(&bench, around.document);
    let at = |key| At {
        change: "set",
        list: None,
        index: None,
        key: Some(key),
    };
    let name = &told.name.value;
    let value = |key: &str| {
        draft
            .and_then(|draft| draft.get(&Key::top(key)))
            .unwrap_or_default()
    };
    let title = crate::view::title(&doc, name, &value("note"));
    let label = html! {
        section class="section" {
            header { h2 { "What its label says" }
                div class="acts" { (crate::view::undo()) } }
            @for (key, asks, example) in INGREDIENT {
                (doc.form(&at(key), "field-row", &html! {
                    label class="field" { span { (asks) }
                        input name="value" value=(value(key)) placeholder=(example) data-find=[(*key == "like").then_some("what")]; }
                    button class="act" { "keep" }
                }))
            }
            @for finding in &findings { @let (message, mend) = voice::finding(finding); p class="amiss" { (message) " " span { (mend) } } }
        }
    };
    let item = bench.ingredient(around.document);
    let figures = item.map(|item| Figures::of(&item.gram));
    let shown = html! {
        @if let (Some(figures), Some(item)) = (figures, item) {
            @if figures.get(Property::Density).is_some() { section class="section" { header { h2 { "What it is taken for" } }
                ul class="points" {
                    @for property in [Property::Strength, Property::Sugar, Property::TitratableAcidity, Property::Ph, Property::Density, Property::Energy] {
                        @if let Some(value) = figures.get(property) {
                            li { span { (label_of(property)) } span class="dots" {} span { (known(Some(value), property.decimals())) " " small { (unit_of(property)) } } }
                        }
                    }
                }
            } }
            @else { (contents::part(told, item)) }
            section class="section" { header { h2 { "Allergens" } }
                @let carried = &item.gram.carried;
                @let sure: Vec<&str> = carried.allergens.iter().map(|a| a.as_str()).collect();
                @let possible: Vec<&str> = carried.maybe().map(|a| a.as_str()).collect();
                (said::allergens(&sure, &possible, &item.cautions, &[]))
            }
        }
    };
    let at = (id, around.document);
    let apart = parts::part(&bench, at, told, &app.kitchen(), Widths(showing.widths));
    Ok(vec![
        Part::new("title", title),
        Part::new("parts", apart),
        Part::new("label", label),
        Part::new("shown", shown),
    ])
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
    let place = ("ingredients", "spread");
    Ok(opened.page(&app, place, &parts, |part| {
        html! {
            div class="work" {
                div class="first" { (part("parts")) }
                div class="beside" { (part("label")) (imprint(id, kept)) }
            }
            div class="below" { (part("shown")) }
        }
    }))
}
