//! What went wrong, as a page or as JSON: what, and how to mend it.

use axum::Json;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use maud::html;
use serde_json::json;

use crate::view::frame::{self, Frame};
use crate::voice;

/// Why a request has no page.
#[derive(Debug)]
pub(crate) struct Fault {
    pub status: StatusCode,
    pub sentence: String,
    pub mend: String,
    /// For whoever looks after the machine.
    pub detail: Option<String>,
}

impl Fault {
    pub(crate) fn new(
        status: StatusCode,
        sentence: impl Into<String>,
        mend: impl Into<String>,
    ) -> Self {
        Self {
            status,
            sentence: unended(sentence.into()),
            mend: unended(mend.into()),
            detail: None,
        }
    }

    pub(crate) fn nowhere() -> Self {
        Self::new(
            StatusCode::NOT_FOUND,
            "Nothing of the book is here",
            "Find it by its name on the first page; what was taken out is still in the history",
        )
    }

    /// An answer that could not be put into words.
    pub(crate) fn unwritten(error: &serde_json::Error) -> Self {
        Self::new(
            StatusCode::INTERNAL_SERVER_ERROR,
            format!("pomace could not put its answer into words: {error}"),
            "Load the page again",
        )
    }

    /// For a page's own script.
    pub(crate) fn as_json(&self) -> Response {
        let body = json!({ "fault": self.sentence, "mend": self.mend });
        (self.status, Json(body)).into_response()
    }
}

/// Without the stop at its end, which whoever shows it sets.
fn unended(sentence: String) -> String {
    match sentence.strip_suffix('.') {
        Some(sentence) => sentence.to_owned(),
        None => sentence,
    }
}

impl From<pomace_store::Error> for Fault {
    fn from(error: pomace_store::Error) -> Self {
        use pomace_store::Error as E;
        let (sentence, mend) = match &error {
            E::DiskFull { .. } => (
                "The machine that keeps the book has no room left on its disk",
                "Free some there, and save again; what was kept before is safe",
            ),
            E::ReadOnly { .. } | E::NoPermission { .. } => (
                "The book can be read now, but nothing can be written into it",
                "Whoever looks after the machine that keeps it can change that; what was kept before is safe",
            ),
            E::Locked { .. } | E::TooBusy { .. } => {
                ("The book is busy", "Wait a moment, and try again")
            }
            E::Unreachable { .. } => (
                "The machine that keeps the book does not answer",
                "See that it runs and is on the network, and try again",
            ),
            E::Damaged { .. } | E::DiskFailed { .. } => (
                "The disk of the machine that keeps the book has failed",
                "Leave the book as it is, and have whoever looks after the machine see to it",
            ),
            _ => (
                "The book could not do this",
                "Load the page again; if it comes again, tell whoever looks after the machine that keeps the book",
            ),
        };
        Self {
            detail: Some(voice::spoken(&format!("{error}; {}", error.mend()))),
            ..Self::new(StatusCode::SERVICE_UNAVAILABLE, sentence, mend)
        }
    }
}

impl IntoResponse for Fault {
    fn into_response(self) -> Response {
        let frame = Frame {
            house: "pomace",
            title: if self.status == StatusCode::NOT_FOUND {
                "Not here"
            } else {
                "Not done"
            },
            room: "",
            is_demo: false,
            bar: None,
        };
        let inner = html! {
            main id="main" {
                header class="title" { h1 { (self.sentence) } }
                p class="said" { (self.mend) "." }
                @if let Some(detail) = &self.detail { p { small { "For whoever looks after the machine: " (detail) } } }
                div class="buttons" { a class="button" href="/" { "To the book" } }
            }
        };
        (self.status, frame::page(&frame, &inner)).into_response()
    }
}
