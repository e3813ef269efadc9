//! The history of a document: every revision, what it changed, and a way back.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Form, Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use maud::{Markup, html};
use pomace_store::{Id, Revision, Token};
use serde::Deserialize;
use serde_json::json;

use super::drinks::{address, house};
use super::fault::Fault;
use super::others::clock;
use crate::app::{App, Saving};
use crate::devices::Who;
use crate::differ;
use crate::view::frame::{self, Frame};
use crate::view::spec;

/// How many revisions are shown.
const SHOWN: usize = 60;

pub(crate) async fn page(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
) -> Result<Markup, Fault> {
    let id = Id::parse(&id).map_err(|_| Fault::nowhere())?;
    let stamps = app.store.history(&id).await?;
    let last = stamps
        .iter()
        .map(|stamp| stamp.revision)
        .max()
        .ok_or_else(Fault::nowhere)?;
    let mut revisions: Vec<Revision> = Vec::new();
    for number in (1..=last).rev().take(SHOWN + 1) {
        revisions.extend(app.store.revision(&id, number).await?);
    }
    let summary = app.store.document(&id).await?;
    let (name, kind) = summary.map_or_else(Default::default, |s| (s.name, s.kind));
    let kept = app.kitchen().get(&id).cloned();
    let house = house(&app.kitchen());
    let frame = Frame {
        house: &house,
        title: &name,
        room: "",
        is_demo: app.is_demo,
        bar: None,
    };
    let pairs = revisions
        .iter()
        .zip(revisions.iter().skip(1).map(Some).chain([None]));
    let inner = html! {
        main id="main" {
            header class="title" { h1 { (name) } p { "every revision" } }
            @match &kept {
                Some(kept) => p { a class="act" href=(address(&kept.kind, &id)) { "back to the " (kept.kind) } },
                None => p class="said" { "This " (kind) " was taken out of the book. Any revision brings it back." },
            }
            ol class="revisions" {
                @for (revision, before) in pairs.take(SHOWN) {
                    li {
                        section class="section" {
                            header {
                                h2 { "Revision " (revision.stamp.revision) }
                                small { (clock(&revision.stamp.when.to_string())) ", " (revision.stamp.who) }
                            }
                            @if let Some(why) = &revision.stamp.why { p class="said" { (why) } }
                            @if revision.stamp.removes { p class="said" { "Taken out of the book." } }
                            @else { (changed(revision, before)) }
                            @if revision.stamp.revision != last || revision.stamp.removes {
                                form method="post" action={ "/d/" (id) "/bring-back" } {
                                    input type="hidden" name="revision" value=(revision.stamp.revision);
                                    input type="hidden" name="based_on" value=(last);
                                    button class="act" { "make this the next revision" }
                                }
                            }
                        }
                    }
                }
            }
            @if kept.is_some() {
                section class="section" {
                    details class="fold" { summary { "Take it out of the book" }
                        p class="said" { "Nobody finds it any more, and what is made with it says so. Its history stays, and can bring it back." }
                        form method="post" action={ "/d/" (id) "/take-out" } {
                            div class="buttons" { button class="button" { "Take it out" } }
                        }
                    }
                }
            }
        }
    };
    Ok(frame::page(&frame, &inner))
}

/// The first revision as a spec, each later one as what it changed; the file itself for who wants to take it along.
fn changed(revision: &Revision, before: Option<&Revision>) -> Markup {
    html! {
        @match before {
            None => (spec::of(&revision.text).unwrap_or_else(unread)),
            Some(before) => (otherwise(&before.text, &revision.text)),
        }
        details class="fold file" { summary { "As a file" } pre class="text" { (revision.text) } }
    }
}

fn unread() -> Markup {
    html! { p class="said" { "It cannot be read any more as it was written." } }
}

fn otherwise(before: &str, after: &str) -> Markup {
    match differ::between(before, after) {
        None => unread(),
        Some(changes) if changes.is_empty() => html! {
            p class="said" { "Made as before: only a remark in its file, or its layout, is another." }
        },
        Some(changes) => html! {
            ul class="points changes" { @for (what, how) in &changes { li { span { (what) } span class="dots" {} span { (how) } } } }
        },
    }
}

/// Two texts that two people made of one revision.
#[derive(Debug, Deserialize)]
pub(crate) struct Both {
    based_on: u64,
    yours: String,
    other: String,
}

/// What each of two texts has otherwise than the revision that both began with; than the other, where that
/// revision is not there.
pub(crate) async fn beside(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
    Json(both): Json<Both>,
) -> Response {
    let Ok(id) = Id::parse(&id) else {
        return Fault::nowhere().as_json();
    };
    let before = match app.store.revision(&id, both.based_on).await {
        Ok(before) => before.map(|revision| revision.text),
        Err(error) => return Fault::from(error).as_json(),
    };
    let told = |text: &str, other: &str| {
        differ::between(before.as_deref().unwrap_or(other), text).unwrap_or_default()
    };
    Json(json!({
        "yours": told(&both.yours, &both.other),
        "other": told(&both.other, &both.yours),
    }))
    .into_response()
}

#[derive(Debug, Deserialize)]
pub(crate) struct Back {
    revision: u64,
    based_on: u64,
}

pub(crate) async fn bring_back(
    State(app): State<Arc<App>>,
    who: Who,
    Path(id): Path<String>,
    Form(back): Form<Back>,
) -> Result<Redirect, Fault> {
    let id = Id::parse(&id).map_err(|_| Fault::nowhere())?;
    let revision = app
        .store
        .revision(&id, back.revision)
        .await?
        .ok_or_else(Fault::nowhere)?;
    let summary = app.store.document(&id).await?;
    let (name, kind) = summary.map_or_else(Default::default, |s| (s.name, s.kind));
    let why = format!("as in revision {}", back.revision);
    let saving = Saving {
        document: &id,
        based_on: Some(back.based_on),
        text: &revision.text,
        kind: &kind,
        name: &name,
        who: who.name(),
        why: Some(&why),
    };
    match app.save(&Token::new(), &saving).await? {
        Ok(_) => Ok(Redirect::to(&address(&kind, &id))),
        Err(_) => Err(Fault::new(
            StatusCode::CONFLICT,
            "Somebody changed it in the meantime",
            "Nothing was overwritten. Load its history again",
        )),
    }
}

pub(crate) async fn take_out(
    State(app): State<Arc<App>>,
    who: Who,
    Path(id): Path<String>,
) -> Result<Redirect, Fault> {
    let id = Id::parse(&id).map_err(|_| Fault::nowhere())?;
    if app.take_out(&id, who.name()).await? {
        Ok(Redirect::to(&format!("/d/{id}/history")))
    } else {
        Err(Fault::new(
            StatusCode::CONFLICT,
            "Somebody changed it in the meantime, or it is out already",
            "Load its page again",
        ))
    }
}
