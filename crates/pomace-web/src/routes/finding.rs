//! Search: as a page, and as JSON for fields that answer while one types.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Query, State};
use maud::{Markup, html};
use serde::Deserialize;
use serde_json::{Value, json};

use super::drinks::{address, house};
use crate::app::App;
use crate::kitchen::{Found, LARDER};
use crate::view::frame::{self, Frame};

/// What is looked for.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Asked {
    #[serde(default)]
    words: String,
    /// `what` where only something that goes into a drink is wanted.
    #[serde(default)]
    role: String,
}

const PAGE: &[&str] = &["drink", "prep", "ingredient", "house"];
const WHAT: &[&str] = &["prep", "ingredient", LARDER];

fn find(app: &App, asked: &Asked, count: usize) -> Vec<Found> {
    let words: String = asked.words.chars().take(80).collect();
    // The larder has no pages.
    let kinds = if asked.role == "what" { WHAT } else { PAGE };
    app.kitchen().find(&words, kinds, count)
}

pub(crate) async fn json(State(app): State<Arc<App>>, Query(asked): Query<Asked>) -> Json<Value> {
    let found: Vec<Value> = find(&app, &asked, 8)
        .into_iter()
        .map(|one| {
            let link = one.id.as_ref().map(|id| address(&one.kind, id));
            json!({ "name": one.name, "kind": one.kind, "link": link })
        })
        .collect();
    Json(found.into())
}

pub(crate) async fn page(State(app): State<Arc<App>>, Query(asked): Query<Asked>) -> Markup {
    let found = find(&app, &asked, 60);
    let house = house(&app.kitchen());
    let frame = Frame {
        house: &house,
        title: "Find",
        room: "",
        is_demo: app.is_demo,
        bar: None,
    };
    let inner = html! {
        main id="main" {
            header class="title" { h1 { "Find" } p { (found.len()) " found" } }
            (super::book::search(&asked.words))
            section class="section" {
                ul class="found" {
                    @for one in &found {
                        @if let Some(id) = &one.id {
                            li { a href=(address(&one.kind, id)) { span { (one.name) } span class="kind" { (one.kind) } } }
                        }
                    }
                }
                @if found.is_empty() && !asked.words.is_empty() {
                    p class="said" { "Nothing in the book is called so. Make it:" }
                    div class="buttons" {
                        @for kind in ["drink", "prep", "ingredient"] {
                            form method="get" action="/new" {
                                input type="hidden" name="kind" value=(kind);
                                input type="hidden" name="name" value=(asked.words);
                                button class="button" { (if kind == "ingredient" { "an" } else { "a" }) " " (kind) }
                            }
                        }
                    }
                }
            }
        }
    };
    frame::page(&frame, &inner)
}
