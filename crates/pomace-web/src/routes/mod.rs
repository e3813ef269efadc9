//! Addresses, and what answers there.

mod answer;
mod bar;
mod book;
mod changing;
pub(crate) mod devices;
mod drinks;
mod fault;
mod finding;
mod history;
pub(crate) mod house;
pub(crate) mod ingredients;
mod making;
mod naming;
mod opened;
mod others;
mod preps;
mod trials;
mod written;

pub(crate) use drinks::address;
pub(crate) use others::clock;

use std::sync::Arc;

use axum::extract::{ConnectInfo, DefaultBodyLimit, Request};
use axum::http::header;
use axum::middleware::{self, Next};
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use axum::{Extension, Router};
use tower_http::CompressionLevel;
use tower_http::compression::CompressionLayer;

use crate::app::App;
use crate::devices::pass::Peer;
use crate::devices::{Devices, pass};
use crate::guard;
use crate::listen::reach::Reach;

/// More than the longest document, and a form around it.
const BODY_BYTES: usize = 1 << 20;

pub(crate) fn router(app: Arc<App>, devices: Option<Arc<Devices>>, reach: Reach) -> Router {
    let pages = Router::new()
        .route("/", get(book::front))
        .route("/drinks", get(book::drinks))
        .route("/preps", get(book::preps))
        .route("/ingredients", get(book::ingredients))
        .route("/drinks/{id}", get(drinks::page))
        .route("/preps/{id}", get(preps::page))
        .route("/ingredients/{id}", get(ingredients::page))
        .route("/house", get(house::room))
        .route("/house/{id}", get(house::page))
        .route("/bar/{id}", get(bar::page))
        .route("/new", get(making::ask).post(making::make))
        .route("/demo", post(making::take_demo))
        .route("/find", get(finding::page))
        .route("/look", get(others::look))
        .route("/d/{id}/history", get(history::page))
        .route("/d/{id}/trials", get(trials::page).post(trials::add))
        .route("/d/{id}/promote", post(trials::promote))
        .route("/d/{id}/bring-back", post(history::bring_back))
        .route("/d/{id}/take-out", post(history::take_out))
        .layer(CompressionLayer::new());
    // What is worked out with every tap: over a network it is sent sooner if it is squeezed, within this
    // machine it is not.
    let tried = Router::new()
        .route("/d/{id}/try", post(changing::try_out))
        .layer(CompressionLayer::new().quality(CompressionLevel::Precise(3)))
        .layer(middleware::from_fn(near));
    // What is asked often is small; squeezing it takes longer than sending it.
    let quick = Router::new()
        .route("/find.json", get(finding::json))
        .route("/d/{id}/save", post(changing::save))
        .route("/d/{id}/beside", post(history::beside))
        .route("/d/{id}/change", post(changing::form));
    let assets = Router::new()
        .route("/assets/{stamp}/{*name}", get(others::asset))
        .route("/favicon.ico", get(others::mark))
        .layer(CompressionLayer::new());
    let pairing = devices.as_ref().map(|devices| devices::Pairing {
        app: Arc::clone(&app),
        devices: Arc::clone(devices),
        reach: reach.clone(),
    });
    // The first page shows the code too.
    let pages = match &pairing {
        Some(pairing) => pages.layer(Extension(pairing.clone())),
        None => pages,
    };
    Router::new()
        .merge(pages)
        .merge(tried)
        .merge(quick)
        .merge(assets)
        .merge(pairing.map(devices::router).unwrap_or_default())
        .fallback(others::nowhere)
        .layer(middleware::map_response(in_words))
        .layer(DefaultBodyLimit::max(BODY_BYTES))
        .layer(middleware::from_fn_with_state(devices, pass::let_in))
        .layer(middleware::from_fn_with_state(reach, guard::asked_for))
        .layer(middleware::from_fn(guard::headers))
        .with_state(app)
}

/// What the framework refuses, a page or a form that is not ours, it refuses in words of a program.
async fn in_words(response: Response) -> Response {
    let kind = response.headers().get(header::CONTENT_TYPE);
    let is_plain = kind.is_none_or(|kind| kind.as_bytes().starts_with(b"text/plain"));
    if response.status().is_client_error() && is_plain {
        fault::Fault::new(
            response.status(),
            "pomace does not understand what was asked for here",
            "Go back, load the page again, and try once more",
        )
        .into_response()
    } else {
        response
    }
}

/// What is asked from this machine is answered as it is.
async fn near(ConnectInfo(peer): ConnectInfo<Peer>, mut request: Request, next: Next) -> Response {
    if peer.is_this_machine() {
        request.headers_mut().remove(header::ACCEPT_ENCODING);
    }
    next.run(request).await
}
