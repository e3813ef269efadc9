//! A drink's page.

use std::sync::Arc;

use axum::extract::{Path, Query, State};
use maud::{Markup, html};
use pomace_bench::Bench;
use pomace_book::{Document, DocumentId, ReadOnce};
use pomace_plate::Width;
use pomace_plate::field::Ranges;
use pomace_store::Id;
use serde::Deserialize;
use serde_json::json;

use super::changing::Place;
use super::fault::Fault;
use crate::app::App;
use crate::drink::study::{Stand, Study};
use crate::drink::{self, Page, Shown, plate};
use crate::kitchen::{Around, Kitchen};
use crate::view::frame::{self, Frame};
use crate::view::plate::Widths;
use crate::view::{Doc, Part};
use crate::words::Unit;

/// What an address may say of a page.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Asked {
    /// The unit of amounts.
    #[serde(default, rename = "in")]
    pub unit: Unit,
}

/// How a document is to be shown.
#[derive(Default)]
pub(crate) struct Showing {
    pub unit: Unit,
    pub widths: Option<Width>,
    pub was: Option<Stand>,
    pub kept: Option<Ranges>,
}

/// How many of the house's drinks stand on a field.
const NEIGHBOURS: usize = 14;

/// The address of a document's page.
pub(crate) fn address(kind: &str, id: &Id) -> String {
    let room = match kind {
        "drink" => "drinks",
        "prep" => "preps",
        "house" => "house",
        _ => "ingredients",
    };
    format!("/{room}/{id}")
}

/// The parts of a drink whose text may be one that nobody has kept yet.
pub(crate) fn parts(
    app: &App,
    id: &Id,
    revision: u64,
    read: &ReadOnce,
    showing: &Showing,
) -> Result<Shown, Fault> {
    let kitchen = app.kitchen();
    let around = kitchen.around(Some(id), read);
    drop(kitchen);
    let bench = Bench::new(&around.book);
    let Some(Document::Drink(drink)) = around.book.document(around.document) else {
        return Err(Fault::nowhere());
    };
    let study = Study::of(&bench, around.document, drink);
    let links = (0..drink.lines.len())
        .map(|line| plate::leads_to(&study, line).and_then(|document| link(&around, document)))
        .collect();
    let stand = study
        .outcome
        .as_ref()
        .ok()
        .and_then(|outcome| Stand::of(&outcome.report.after))
        .map_or((5.0, 6.0), |stand| {
            (stand.sourness_g_per_l, stand.sweetness_g_per_100ml)
        });
    let house = app.kitchen().neighbours(Some(id), stand, NEIGHBOURS);
    Ok(drink::show(
        &study,
        Page {
            doc: Doc {
                id: id.as_str(),
                revision,
                unit: showing.unit,
            },
            text: &read.source().text,
            widths: Widths(showing.widths),
            was: showing.was,
            kept: showing.kept,
            house,
            links,
        },
    ))
}

/// The address of a document of a book that was taken out of the kitchen's.
pub(crate) fn link(around: &Around, document: DocumentId) -> Option<String> {
    let id = around.id_of(document)?;
    let kind = around.book.document(document)?.kind();
    Some(address(kind, id))
}

/// The house's name, for the masthead.
pub(crate) fn house(kitchen: &Kitchen) -> String {
    kitchen
        .house()
        .map_or_else(|| "pomace".to_owned(), |kept| kept.name.clone())
}

pub(crate) async fn page(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
    Query(asked): Query<Asked>,
) -> Result<Markup, Fault> {
    let id = Id::parse(&id).map_err(|_| Fault::nowhere())?;
    let kept = app.kitchen().get(&id).cloned().ok_or_else(Fault::nowhere)?;
    let house = house(&app.kitchen());
    let Ok(read) = &kept.read else {
        return Ok(super::others::unreadable(&app, &id, &kept));
    };
    let showing = Showing {
        unit: asked.unit,
        ..Showing::default()
    };
    let shown = parts(&app, &id, kept.revision, read, &showing)?;
    let frame = Frame {
        house: &house,
        title: &kept.name,
        room: "drinks",
        is_demo: app.is_demo,
        bar: Some(format!("/bar/{id}")),
    };
    Ok(frame::page(&frame, &body(&id, &kept, &shown)))
}

/// Where the drink stands and the scales of its field, for the page's script: it hands them back with the
/// next change.
fn placed(shown: &Shown) -> String {
    json!({
        "stand": shown.stand.map(Place::from),
        "scales": Place::from(shown.ranges),
    })
    .to_string()
}

fn body(id: &Id, kept: &crate::kitchen::Kept, shown: &Shown) -> Markup {
    let part = |name: &str| {
        shown
            .parts
            .iter()
            .find(|part| part.name == name)
            .map(Part::placed)
    };
    html! {
        (part("title").unwrap_or_default())
        (super::others::notices())
        main id="main" class="spread" data-live=(id) data-kind="drink" data-revision=(kept.revision) data-name=(kept.name)
            data-shown=(placed(shown)) {
            div class="work" {
                div class="first" {
                    (part("plate").unwrap_or_default())
                    (super::others::imprint(id, kept))
                    (part("range").unwrap_or_default())
                }
                div class="beside" {
                    (part("lines").unwrap_or_default())
                    (part("asked").unwrap_or_default())
                }
            }
            div class="below" {
                (part("ice").unwrap_or_default())
                (part("figures").unwrap_or_default())
            }
            div class="last" {
                (part("steps").unwrap_or_default())
                (part("garnish").unwrap_or_default())
                (part("brief").unwrap_or_default())
                (part("allergens").unwrap_or_default())
            }
            pre id="text" hidden { (kept.text) }
        }
    }
}
