//! What several pages show, and pages that belong to no room.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::response::Response;
use maud::{Markup, html};
use pomace_store::Id;

use super::drinks;
use super::fault::Fault;
use crate::app::App;
use crate::assets;
use crate::kitchen::Kept;
use crate::view::frame::{self, Frame};

/// Places for what the script has to say; empty until then.
pub(crate) fn notices() -> Markup {
    html! { div id="notices" aria-live="polite" {} }
}

/// Which revision this is, and whether it is kept.
pub(crate) fn imprint(id: &Id, kept: &Kept) -> Markup {
    html! {
        div class="imprint" {
            span { span id="kept" { "revision " (kept.revision) ", kept " (clock(&kept.when))
                @if !matches!(kept.who.as_str(), "this device" | "this machine" | "pomace") { " by " (kept.who) } } " "
                a class="act" href={ "/d/" (id) "/history" } { "history" }
                @if matches!(kept.kind.as_str(), "drink" | "prep") { a class="act" href={ "/d/" (id) "/trials" } { "trials" } } }
            span { "within whiskers and ±: 19 of 20 cases" }
        }
    }
}

/// A moment, to the minute: by the clock of the world, until the script has set it by the reader's.
pub(crate) fn clock(when: &str) -> Markup {
    html! { time datetime=(when) { (crate::words::moment(when)) } }
}

/// A document whose text cannot be read as one.
pub(crate) fn unreadable(app: &App, id: &Id, kept: &Kept) -> Markup {
    let house = drinks::house(&app.kitchen());
    let frame = Frame {
        house: &house,
        title: &kept.name,
        room: "",
        is_demo: app.is_demo,
        bar: None,
    };
    let findings = kept.read.as_ref().err().map_or(&[][..], Vec::as_slice);
    let inner = html! {
        main id="main" {
            header class="title" { h1 { (kept.name) } p { "cannot be read any more" } }
            @for finding in findings { p class="said" { (crate::voice::both(finding)) } }
            p { a class="act" href={ "/d/" (id) "/history" } { "to its history" } }
            details class="fold file" { summary { "As a file" } pre class="text" { (kept.text) } }
        }
    };
    frame::page(&frame, &inner)
}

pub(crate) async fn asset(Path((stamp, name)): Path<(String, String)>) -> Response {
    assets::answer(&stamp, &name)
}

/// What browsers ask for without being told of it.
pub(crate) async fn mark() -> Response {
    assets::answer("", "mark.svg")
}

pub(crate) async fn nowhere() -> Fault {
    Fault::nowhere()
}

/// Every part of the look on one page.
pub(crate) async fn look(State(app): State<Arc<App>>) -> Markup {
    let house = drinks::house(&app.kitchen());
    let frame = Frame {
        house: &house,
        title: "The look",
        room: "",
        is_demo: app.is_demo,
        bar: None,
    };
    frame::page(&frame, &crate::view::look::page())
}
