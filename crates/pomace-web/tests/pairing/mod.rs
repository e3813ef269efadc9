//! Other devices: who is let in, by what, and until when.
//!
//! A device elsewhere is an address from which a request says it comes; what goes over a connection is
//! tested with connections.

mod codes;
mod encrypted;
mod paired;
mod reach;
mod squeezed;
mod strangers;

use std::net::SocketAddr;
use std::path::Path;
use std::time::Duration;

use axum::Router;
use axum::body::{Body, to_bytes};
use axum::http::{HeaderMap, Request, StatusCode, header};
use pomace_store::Place;
use pomace_web::{Book, CertificateFiles, Lan, Options, Server};
use tower::ServiceExt as _;

pub(crate) const TABLET: &str = "192.168.1.31:50123";
pub(crate) const PHONE: &str = "192.168.1.32:50124";
pub(crate) const HERE: &str = "127.0.0.1:50125";

/// A book of its own in a folder, served to other devices too.
pub(crate) async fn open(folder: &Path, certificate: Option<CertificateFiles>) -> Server {
    let lan = Lan {
        devices: folder.join("house.pomace.devices"),
        certificate,
        name: Some("bar.example.org".to_owned()),
    };
    Server::open(&options(folder, Some(lan))).await.unwrap()
}

pub(crate) fn options(folder: &Path, lan: Option<Lan>) -> Options {
    Options {
        book: Book::At(Place::file(folder.join("house.pomace"))),
        port: 0,
        lan,
    }
}

/// An answer, read to its end.
pub(crate) struct Answer {
    pub(crate) status: StatusCode,
    /// Of the body, as sent.
    pub(crate) bytes: usize,
    pub(crate) headers: HeaderMap,
    pub(crate) text: String,
}

impl Answer {
    pub(crate) fn cookie(&self) -> Option<&str> {
        let cookie = self.headers.get(header::SET_COOKIE)?;
        Some(cookie.to_str().unwrap())
    }

    /// Whether it is the page on which a device is paired, and has nothing of the book.
    pub(crate) fn is_for_strangers(&self) -> bool {
        let text = &self.text;
        text.contains("<h1>Pair this device</h1>")
            && !text.contains("Rooms")
            && !text.contains("Low Water")
            && !text.contains("class=\"masthead\"")
    }
}

pub(crate) async fn send(server: &Server, from: &str, request: Request<Body>) -> Answer {
    let from: SocketAddr = from.parse().unwrap();
    answer(server.answering(from), request).await
}

/// What a device is answered that sends a form.
pub(crate) async fn asked(device: Router, host: SocketAddr, path: &str, form: &str) -> Answer {
    let request = asking(host, "POST", path, None).map(|_| Body::from(form.to_owned()));
    answer(device, request).await
}

async fn answer(router: Router, request: Request<Body>) -> Answer {
    let answer = router.oneshot(request).await.unwrap();
    let (parts, body) = answer.into_parts();
    let bytes = to_bytes(body, usize::MAX).await.unwrap();
    Answer {
        status: parts.status,
        bytes: bytes.len(),
        headers: parts.headers,
        text: String::from_utf8_lossy(&bytes).into_owned(),
    }
}

pub(crate) fn request(
    server: &Server,
    method: &str,
    path: &str,
    cookie: Option<&str>,
) -> Request<Body> {
    asking(server.address(), method, path, cookie)
}

fn asking(host: SocketAddr, method: &str, path: &str, cookie: Option<&str>) -> Request<Body> {
    let host = host.to_string();
    let mut request = Request::builder()
        .method(method)
        .uri(path)
        .header(header::HOST, &host);
    if method == "POST" {
        request = request
            .header(header::ORIGIN, format!("http://{host}"))
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded");
    }
    if let Some(cookie) = cookie {
        let pair = cookie.split(';').next().unwrap();
        request = request.header(header::COOKIE, pair);
    }
    request.body(Body::empty()).unwrap()
}

pub(crate) async fn get(server: &Server, from: &str, path: &str, cookie: Option<&str>) -> Answer {
    send(server, from, request(server, "GET", path, cookie)).await
}

pub(crate) async fn post(
    server: &Server,
    from: &str,
    path: &str,
    form: &str,
    cookie: Option<&str>,
) -> Answer {
    let request = request(server, "POST", path, cookie).map(|_| Body::from(form.to_owned()));
    send(server, from, request).await
}

/// What stands between two texts.
pub(crate) fn between<'a>(text: &'a str, before: &str, after: &str) -> &'a str {
    let rest = text.split_once(before).expect(before).1;
    rest.split_once(after).expect(after).0
}

/// The code that this machine shows.
pub(crate) async fn code(server: &Server) -> String {
    let page = get(server, HERE, "/devices", None).await;
    assert_eq!(page.status, StatusCode::OK);
    between(&page.text, "<p class=\"code\">", "</p>").to_owned()
}

/// Pairs a device and gives its cookie.
pub(crate) async fn pair(server: &Server, from: &str, name: &str) -> String {
    let form = format!("name={name}&code={}", code(server).await);
    let answer = post(server, from, "/pair", &form, None).await;
    assert_eq!(answer.status, StatusCode::SEE_OTHER, "{}", answer.text);
    assert_eq!(answer.headers[header::LOCATION], "/");
    answer.cookie().unwrap().to_owned()
}

/// Lets so many seconds go by.
pub(crate) async fn later(seconds: u64) {
    tokio::time::pause();
    tokio::time::advance(Duration::from_secs(seconds)).await;
    tokio::time::resume();
}
