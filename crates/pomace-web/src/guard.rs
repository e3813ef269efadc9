//! What stands before every page: who may ask, what a browser may do with the answer.

use std::time::Instant;

use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use crate::listen::reach::Reach;

/// No script but our own files, nothing from elsewhere, no frame around us.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// Headers of every answer, and how long it took to work out, ms.
pub(crate) async fn headers(request: Request, next: Next) -> Response {
    let began = Instant::now();
    let mut response = next.run(request).await;
    let took = format!("app;dur={:.3}", began.elapsed().as_secs_f64() * 1e3);
    let headers = response.headers_mut();
    for (name, value) in [
        (header::CONTENT_SECURITY_POLICY, POLICY),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        // With `no-referrer` a form of our own page would come without its origin.
        (header::REFERRER_POLICY, "same-origin"),
        (header::X_FRAME_OPTIONS, "DENY"),
    ] {
        headers.insert(name, HeaderValue::from_static(value));
    }
    if let Ok(took) = HeaderValue::from_str(&took) {
        headers.insert("server-timing", took);
    }
    headers
        .entry(header::CACHE_CONTROL)
        .or_insert(HeaderValue::from_static("no-store"));
    response
}

/// Only for whom the server is meant. A page of another site may make a browser send us a form: its origin
/// gives it away. A name that leads to this machine by a trick (rebinding) is not one of ours.
pub(crate) async fn asked_for(
    State(reach): State<Reach>,
    headers: HeaderMap,
    request: Request,
    next: Next,
) -> Response {
    let host = headers
        .get(header::HOST)
        .and_then(|host| host.to_str().ok())
        .or_else(|| {
            request
                .uri()
                .authority()
                .map(axum::http::uri::Authority::as_str)
        })
        .unwrap_or_default()
        .to_owned();
    if !reach.answers_to(&host) {
        return refuse("This address is not one that this book answers to.");
    }
    let changes = !matches!(*request.method(), Method::GET | Method::HEAD);
    if changes && !is_own(&headers, &host) {
        return refuse("This came from another page than the book's own.");
    }
    next.run(request).await
}

/// Whether a request comes from a page of this server.
fn is_own(headers: &HeaderMap, host: &str) -> bool {
    let origin = headers
        .get(header::ORIGIN)
        .and_then(|origin| origin.to_str().ok());
    match origin {
        Some(origin) => origin
            .split_once("://")
            .is_some_and(|(_, authority)| authority == host),
        // Old browsers and programs send none; a browser that sends the other says where it comes from.
        None => headers
            .get("sec-fetch-site")
            .and_then(|site| site.to_str().ok())
            .is_none_or(|site| matches!(site, "same-origin" | "none")),
    }
}

fn refuse(sentence: &'static str) -> Response {
    (StatusCode::FORBIDDEN, sentence).into_response()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_sites_form_is_seen() {
        let with = |name: &'static str, value: &'static str| {
            let mut headers = HeaderMap::new();
            headers.insert(name, HeaderValue::from_static(value));
            headers
        };
        let host = "127.0.0.1:8080";
        assert!(is_own(&with("origin", "http://127.0.0.1:8080"), host));
        assert!(!is_own(&with("origin", "http://evil.example"), host));
        assert!(!is_own(&with("origin", "null"), host));
        assert!(!is_own(&with("sec-fetch-site", "cross-site"), host));
        assert!(is_own(&HeaderMap::new(), host));
    }
}
