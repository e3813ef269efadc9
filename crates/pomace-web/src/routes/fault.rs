//! What went wrong, as a page or as JSON: what, and how to mend it.

use axum::Json;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use maud::html;
use serde_json::json;

use crate::view::frame::{self, Frame};

/// Why a request has no page.
#[derive(Debug)]
pub(crate) struct Fault {
    pub status: StatusCode,
    pub sentence: String,
    pub mend: String,
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
            format!("The answer could not be written: {error}"),
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
        Self::new(
            StatusCode::SERVICE_UNAVAILABLE,
            error.to_string(),
            error.mend(),
        )
    }
}

impl IntoResponse for Fault {
    fn into_response(self) -> Response {
        let frame = Frame {
            house: "pomace",
            title: "Not here",
            room: "",
            is_demo: false,
            bar: None,
        };
        let inner = html! {
            main id="main" {
                header class="title" { h1 { (self.sentence) } }
                p class="said" { (self.mend) "." }
                div class="buttons" { a class="button" href="/" { "To the book" } }
            }
        };
        (self.status, frame::page(&frame, &inner)).into_response()
    }
}
