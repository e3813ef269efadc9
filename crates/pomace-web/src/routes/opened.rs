//! The document that an address leads to.

use std::sync::Arc;

use axum::extract::{FromRequestParts, Path};
use axum::http::request::Parts;
use axum::response::{IntoResponse as _, Response};
use maud::{Markup, html};
use pomace_book::ReadOnce;
use pomace_store::Id;

use super::drinks::house;
use super::fault::Fault;
use super::others::{notices, unreadable};
use crate::app::App;
use crate::kitchen::Kept;
use crate::view::Part;
use crate::view::frame::{self, Frame};

/// A document whose page is asked for. One that cannot be read gets the page that says so.
pub(crate) struct Opened {
    pub id: Id,
    pub kept: Kept,
    /// What it says.
    pub read: ReadOnce,
    /// The house's name, for the masthead.
    pub house: String,
}

impl Opened {
    /// What stands around its page.
    pub(crate) fn frame<'a>(&'a self, app: &App, room: &'a str) -> Frame<'a> {
        Frame {
            house: &self.house,
            title: &self.kept.name,
            room,
            is_demo: app.is_demo,
            bar: None,
        }
    }

    /// Its page: the title, and the other parts as `body` places them, by their names.
    pub(crate) fn page(
        &self,
        app: &App,
        (room, class): (&str, &str),
        parts: &[Part],
        body: impl FnOnce(&dyn Fn(&str) -> Markup) -> Markup,
    ) -> Markup {
        let Self { id, kept, .. } = self;
        let part = |name: &str| {
            let found = parts.iter().find(|part| part.name == name);
            found.map(Part::placed).unwrap_or_default()
        };
        let inner = html! {
            (part("title"))
            (notices())
            main id="main" class=(class) data-live=(id) data-kind=(kept.kind) data-revision=(kept.revision) data-name=(kept.name) {
                (body(&part))
                pre id="text" hidden { (kept.text) }
            }
        };
        frame::page(&self.frame(app, room), &inner)
    }
}

/// The document of an id, as it is kept.
pub(crate) fn kept(app: &App, id: &str) -> Result<(Id, Kept), Fault> {
    let id = Id::parse(id).map_err(|_| Fault::nowhere())?;
    let kept = app.kitchen().get(&id).cloned().ok_or_else(Fault::nowhere)?;
    Ok((id, kept))
}

impl FromRequestParts<Arc<App>> for Opened {
    type Rejection = Response;

    async fn from_request_parts(parts: &mut Parts, app: &Arc<App>) -> Result<Self, Response> {
        let id = Path::<String>::from_request_parts(parts, app).await;
        let Path(id) = id.map_err(|_| Fault::nowhere().into_response())?;
        let (id, kept) = kept(app, &id).map_err(Fault::into_response)?;
        match kept.read.clone() {
            Ok(read) => Ok(Self {
                house: house(&app.kitchen()),
                id,
                kept,
                read,
            }),
            Err(_) => Err(unreadable(app, &id, &kept).into_response()),
        }
    }
}
