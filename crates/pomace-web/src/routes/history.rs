//! The history of a document: every revision, what it changed, and a way back.

use std::sync::Arc;

use axum::extract::{Form, Path, State};
use axum::http::StatusCode;
use axum::response::Redirect;
use maud::{Markup, html};
use pomace_store::{Id, Revision, Token};
use serde::Deserialize;

use super::drinks::{address, house};
use super::fault::Fault;
use super::others::clock;
use crate::app::{App, Saving};
use crate::devices::Who;
use crate::view::frame::{self, Frame};

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
                        p class="said" { "It is found no more, and what calls for it says so. Its history stays, and brings it back." }
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

/// The lines that came and went; all of the first revision.
fn changed(revision: &Revision, before: Option<&Revision>) -> Markup {
    let lines = |text: &str| -> Vec<String> {
        text.lines()
            .map(str::trim)
            .filter(|line| !line.is_empty())
            .map(str::to_owned)
            .collect()
    };
    let now = lines(&revision.text);
    let Some(before) = before else {
        return html! { pre class="text" { (revision.text) } };
    };
    let old = lines(&before.text);
    let gone: Vec<&String> = old.iter().filter(|line| !now.contains(line)).collect();
    let come: Vec<&String> = now.iter().filter(|line| !old.contains(line)).collect();
    html! {
        @if gone.is_empty() && come.is_empty() { p class="said" { "The order, or a comment." } }
        @for line in &gone { p class="code gone" { span class="unseen" { "gone: " } (line) } }
        @for line in &come { p class="code come" { span class="unseen" { "new: " } (line) } }
    }
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
