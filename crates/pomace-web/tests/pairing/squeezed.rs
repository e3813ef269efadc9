//! What a device is sent with every tap goes squeezed over the network; within this machine it does not.

use axum::body::Body;
use axum::http::{Request, StatusCode, header};
use pomace_web::Server;

use super::{Answer, HERE, PHONE, between, get, open, pair, post, request, send};

/// The page of the demo's first drink.
async fn drink(server: &Server) -> (String, String) {
    let taken = post(server, HERE, "/demo", "", None).await;
    assert_eq!(taken.status, StatusCode::SEE_OTHER, "{}", taken.text);
    let list = get(server, HERE, "/drinks", None).await;
    let id = between(&list.text, "href=\"/drinks/", "\"").to_owned();
    let page = get(server, HERE, &format!("/drinks/{id}"), None).await;
    let text = between(&page.text, "<pre id=\"text\" hidden>", "</pre>");
    (id, text.replace("&quot;", "\"").replace("&amp;", "&"))
}

async fn tried(server: &Server, from: &str, id: &str, text: &str, cookie: Option<&str>) -> Answer {
    let body = serde_json::json!({ "text": text, "width": "phone" }).to_string();
    let mut asked: Request<Body> =
        request(server, "POST", &format!("/d/{id}/try"), cookie).map(|_| Body::from(body));
    let headers = asked.headers_mut();
    headers.insert(header::CONTENT_TYPE, "application/json".parse().unwrap());
    headers.insert(header::ACCEPT_ENCODING, "gzip, deflate".parse().unwrap());
    send(server, from, asked).await
}

#[tokio::test]
async fn what_a_tap_answers_is_squeezed_for_a_phone_and_not_for_this_machine() {
    let folder = tempfile::tempdir().unwrap();
    let server = open(folder.path(), None).await;
    let (id, text) = drink(&server).await;
    let phone = pair(&server, PHONE, "phone").await;

    let here = tried(&server, HERE, &id, &text, None).await;
    assert_eq!(here.status, StatusCode::OK, "{}", here.text);
    assert!(!here.headers.contains_key(header::CONTENT_ENCODING));
    assert!(here.text.contains("\"plate\""));

    let there = tried(&server, PHONE, &id, &text, Some(&phone)).await;
    assert_eq!(there.status, StatusCode::OK);
    assert_eq!(there.headers[header::CONTENT_ENCODING], "gzip");
    // So much a phone has in a sixteenth of a second at 2 Mbit/s.
    assert!(
        there.bytes < 16_000 && 4 * there.bytes < here.bytes,
        "{} bytes of {}",
        there.bytes,
        here.bytes
    );
}
