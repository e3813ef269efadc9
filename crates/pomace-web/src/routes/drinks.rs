//! A drink's page.

use std::sync::Arc;

use axum::extract::{Query, State};
use maud::{Markup, html};
use pomace_bench::Bench;
use pomace_book::{Document, DocumentId};
use pomace_plate::Width;
use pomace_plate::field::Ranges;
use pomace_store::Id;
use serde::Deserialize;
use serde_json::json;

use super::answer::Place;
use super::fault::Fault;
use super::opened::Opened;
use super::written::Written;
use crate::app::App;
use crate::drink::study::{Stand, Study};
use crate::drink::{self, Page, Shown, lines};
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
    written: &Written,
    showing: &Showing,
) -> Result<Shown, Fault> {
    let kitchen = app.kitchen();
    let around = kitchen.around(Some(id), &written.read);
    drop(kitchen);
    let bench = Bench::with_memo(&around.book, &app.memo);
    let Some(Document::Drink(drink)) = around.book.document(around.document) else {
        return Err(Fault::nowhere());
    };
    let study = Study::of(&bench, around.document, drink);
    let links = (0..drink.lines.len())
        .map(|line| lines::leads_to(&study, line).and_then(|document| link(&around, document)))
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
            draft: written.draft.as_ref(),
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
    opened: Opened,
    Query(asked): Query<Asked>,
) -> Result<Markup, Fault> {
    let Opened { id, kept, read, .. } = &opened;
    let showing = Showing {
        unit: asked.unit,
        ..Showing::default()
    };
    // Asked before, so that what is shown is never less than what is said.
    let is_marked = app.is_marked();
    let shown = parts(&app, id, kept.revision, &Written::kept(read), &showing)?;
    let frame = Frame {
        bar: Some(format!("/bar/{id}")),
        ..opened.frame(&app, "drinks")
    };
    Ok(frame::page(&frame, &body(id, kept, &shown, is_marked)))
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

fn body(id: &Id, kept: &crate::kitchen::Kept, shown: &Shown, is_marked: bool) -> Markup {
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
                    @if !is_marked {
                        p class="said" { "The book was just opened, and the house's other drinks are not all on the field yet: load the page again to see them." }
                    }
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

#[cfg(test)]
mod tests {
    use pomace_store::{Place, Store, Token};

    use super::super::opened;
    use super::*;
    use crate::app::Saving;

    #[tokio::test]
    async fn a_page_says_so_where_the_other_drinks_are_still_being_placed() {
        let folder = tempfile::tempdir().unwrap();
        let place = Place::file(folder.path().join("house.pomace"));
        let store = Store::open_or_create(&place).await.unwrap();
        let app = Arc::new(App::open(store.clone(), false).await.unwrap());
        let id = Id::new(&pomace_store::When::now());
        let saving = Saving {
            document: &id,
            based_on: None,
            text: "drink = \"D\"\n[[line]]\nwhat = \"honey\"\namount = \"20 g\"\n",
            kind: "drink",
            name: "D",
            who: "Ines",
            why: None,
        };
        app.save(&Token::new(), &saving).await.unwrap().unwrap();

        let app = Arc::new(App::open(store, false).await.unwrap());
        let shown = async || {
            let asked = Query(Asked::default());
            let (id, kept) = opened::kept(&app, &id.to_string()).map_err(|_| ()).unwrap();
            let opened = Opened {
                id,
                read: kept.read.clone().unwrap(),
                kept,
                house: "h".to_owned(),
            };
            let page = page(State(Arc::clone(&app)), opened, asked).await;
            page.map_err(|_| ()).unwrap().into_string()
        };
        assert!(shown().await.contains("not all on the field yet"));
        app.mark_all();
        assert!(!shown().await.contains("not all on the field yet"));
    }
}
