//! The first page and the plain lists: everything of the book, by name.

use std::sync::Arc;

use axum::Extension;
use axum::extract::State;
use maud::{Markup, html};
use pomace_matter::liquid::Property;
use pomace_store::Id;

use super::devices::Pairing;
use super::drinks::{address, house};
use super::fault::Fault;
use super::others::{clock, notices};
use crate::app::App;
use crate::devices::Who;
use crate::kitchen::{Kept, Kitchen};
use crate::view::frame::{self, Frame};
use crate::words::set;

/// How many of the documents changed last are named.
const LATELY: usize = 8;
/// How many names a list on the first page holds, and one of its own room.
const FRONT: usize = 40;
const ROOM: usize = 400;

pub(crate) async fn front(
    State(app): State<Arc<App>>,
    who: Who,
    pairing: Option<Extension<Pairing>>,
) -> Result<Markup, Fault> {
    let invitation = match pairing {
        Some(Extension(pairing)) => pairing.invitation(&who)?,
        None => None,
    };
    let kitchen = app.kitchen();
    let house = house(&kitchen);
    let frame = Frame {
        house: &house,
        title: "The book",
        room: "",
        is_demo: app.is_demo,
        bar: None,
    };
    if kitchen.is_empty() {
        return Ok(frame::page(&frame, &empty(invitation)));
    }
    let mut lately: Vec<(&Id, &Kept)> = kitchen.documents().collect();
    let later = |a: &(&Id, &Kept), b: &(&Id, &Kept)| {
        b.1.when
            .cmp(&a.1.when)
            .then_with(|| a.1.name.cmp(&b.1.name))
    };
    if lately.len() > LATELY {
        lately.select_nth_unstable_by(LATELY, later);
        lately.truncate(LATELY);
    }
    lately.sort_by(later);
    let drinks = of_kind(kitchen.documents(), "drink");
    let preps = of_kind(kitchen.documents(), "prep");
    let inner = html! {
        (notices())
        main id="main" {
            header class="title" { h1 { (house) } p { "the book" } }
            (search(""))
            div class="halves" {
                section class="section" {
                    header { h2 { "Drinks" } div class="acts" { a class="act" href="/new?kind=drink" { "a new drink" } } }
                    (drink_list(&kitchen, &drinks, FRONT))
                }
                section class="section" {
                    header { h2 { "Preps" } div class="acts" { a class="act" href="/new?kind=prep" { "a new prep" } } }
                    (list(&preps, FRONT))
                }
            }
            @if let Some(invitation) = invitation { (invitation) }
            section class="section" {
                header { h2 { "Changed lately" } }
                ul class="found" {
                    @for (id, kept) in lately {
                        li { a href=(address(&kept.kind, id)) { span { (kept.name) } span class="kind" { (clock(&kept.when)) } } }
                    }
                }
            }
        }
    };
    Ok(frame::page(&frame, &inner))
}

/// The first page of a book with nothing in it.
fn empty(invitation: Option<Markup>) -> Markup {
    html! {
        main id="main" {
            header class="title" { h1 { "An empty book" } p { "it begins with one drink" } }
            div class="halves" {
                section class="section" {
                    header { h2 { "Your first drink" } }
                    (super::making::drink_form(""))
                }
                section class="section" {
                    header { h2 { "Or look at another house first" } }
                    p class="said" { "Sill & Ebb, by a tidal lock, builds an autumn around quince and whey. It is invented, and whole: five drinks, ten preps." }
                    form method="post" action="/demo" { div class="buttons" { button class="button" { "Put the demo into this book" } } }
                    p { small { "It can be taken out again, document by document." } }
                }
            }
            @if let Some(invitation) = invitation { (invitation) }
        }
    }
}

/// The search field; with the script it answers while one types.
pub(crate) fn search(value: &str) -> Markup {
    html! {
        form method="get" action="/find" role="search" autocomplete="off" {
            label class="field search" {
                span { "Find anything" }
                input name="words" type="search" value=(value) placeholder="a drink, a prep, an ingredient" data-find="page";
            }
            button class="unseen" { "find" }
        }
    }
}

fn of_kind<'k>(
    documents: impl Iterator<Item = (&'k Id, &'k Kept)>,
    kind: &str,
) -> Vec<(&'k Id, &'k Kept)> {
    let mut found: Vec<(&Id, &Kept)> = documents.filter(|(_, kept)| kept.kind == kind).collect();
    found.sort_by_cached_key(|(_, kept)| pomace_book::names::fold(&kept.name));
    found
}

fn list(documents: &[(&Id, &Kept)], most: usize) -> Markup {
    html! {
        @if documents.is_empty() { p class="said" { "None yet." } }
        ul class="found" {
            @for (id, kept) in documents.iter().take(most) {
                li { a href=(address(&kept.kind, id)) {
                    span { (kept.name) }
                    @if kept.read.is_err() { span class="kind" { "cannot be read" } }
                } }
            }
        }
        (more(documents.len(), most))
    }
}

/// Drinks with how strong, how sweet and how sour each is served.
fn drink_list(kitchen: &Kitchen, documents: &[(&Id, &Kept)], most: usize) -> Markup {
    let column = |value: f64, property: Property| set(value, property.decimals());
    html! {
        @if documents.is_empty() { p class="said" { "None yet." } }
        @else {
            p class="found-heads" aria-hidden="true" { span { "% vol" } span { "sweet" } span { "sour" } }
        }
        ul class="found figured" {
            @for (id, kept) in documents.iter().take(most) {
                li { a href=(address(&kept.kind, id)) {
                    span { (kept.name) }
                    @if kept.read.is_err() { span class="kind" { "cannot be read" } }
                    @else if let Some(mark) = kitchen.mark(id) {
                        span class="unseen" { ": " }
                        b { (column(mark.strength_percent, Property::Strength)) span class="unseen" { " % vol, sweet " } }
                        b { (column(mark.sweetness_g_per_100ml, Property::Sweetness)) span class="unseen" { ", sour " } }
                        b { (column(mark.sourness_g_per_l, Property::TitratableAcidity)) }
                    }
                } }
            }
        }
        (more(documents.len(), most))
    }
}

fn more(count: usize, most: usize) -> Markup {
    html! {
        @if count > most {
            p class="said" { "And " (count - most) " more: find them by name." }
        }
    }
}

async fn room(app: &App, kind: &str, room: &str, title: &str, one: &str) -> Markup {
    let kitchen = app.kitchen();
    let house = house(&kitchen);
    let frame = Frame {
        house: &house,
        title,
        room,
        is_demo: app.is_demo,
        bar: None,
    };
    let documents = of_kind(kitchen.documents(), kind);
    let inner = html! {
        (notices())
        main id="main" {
            header class="title" { h1 { (title) } p { a class="act" href={ "/new?kind=" (kind) } { (one) } } }
            (search(""))
            section class="section" {
                @if kind == "drink" { (drink_list(&kitchen, &documents, ROOM)) } @else { (list(&documents, ROOM)) }
            }
        }
    };
    frame::page(&frame, &inner)
}

pub(crate) async fn drinks(State(app): State<Arc<App>>) -> Markup {
    room(&app, "drink", "drinks", "Drinks", "a new drink").await
}

pub(crate) async fn preps(State(app): State<Arc<App>>) -> Markup {
    room(&app, "prep", "preps", "Preps", "a new prep").await
}

pub(crate) async fn ingredients(State(app): State<Arc<App>>) -> Markup {
    room(
        &app,
        "ingredient",
        "ingredients",
        "Ingredients",
        "a new ingredient",
    )
    .await
}
