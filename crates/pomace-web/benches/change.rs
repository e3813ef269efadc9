//! One change on the page of a drink, without a connection: what the server works for plus and minus on the
//! first line of each drink of the demo, asked as a page asks that has its parts.
//!
//! How much of it is what: `valgrind --tool=callgrind` on this with `--sample-count 1 --sample-size 100`, then
//! `callgrind_annotate --inclusive=yes`. Instructions do not mind what else the machine does.

#![expect(clippy::print_stderr, reason = "a measurement that fails says so")]

use std::error::Error;
use std::net::{Ipv4Addr, SocketAddr};

use axum::Router;
use axum::body::{Body, Bytes, to_bytes};
use axum::http::Request;
use axum::http::request::Builder;
use mimalloc::MiMalloc;
use pomace_book::demo;
use pomace_web::{Book, Options, Server};
use serde_json::{Value, json};
use tokio::runtime::Runtime;
use tower::ServiceExt as _;

const DRINKS: [&str; 5] = [
    "Ebb",
    "Frost Line",
    "Second Pressing",
    "Slack Water",
    "Weir",
];

type Fallible<T> = Result<T, Box<dyn Error>>;

/// As in the program itself.
#[global_allocator]
static MEMORY: MiMalloc = MiMalloc;

fn main() {
    divan::main();
}

#[divan::bench(args = DRINKS, sample_count = 300)]
fn change(bencher: divan::Bencher<'_, '_>, name: &str) {
    let page = match Page::open(name) {
        Ok(page) => page,
        Err(error) => return eprintln!("{name}: {error}"),
    };
    let mut number = 0;
    bencher.bench_local(|| {
        number += 1;
        page.change(31 + number % 30, &page.have)
            .map(|answer| answer.len())
            .ok()
    });
}

/// The page of a drink, as a browser holds it.
struct Page {
    runtime: Runtime,
    router: Router,
    host: String,
    id: String,
    text: &'static str,
    /// Stamps of the parts that it has.
    have: Value,
    /// Its book is there as long as it is.
    _server: Server,
}

impl Page {
    fn open(name: &str) -> Fallible<Self> {
        let runtime = tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .build()?;
        let options = Options {
            book: Book::Demo,
            port: 0,
            lan: None,
        };
        let server = runtime.block_on(Server::open(&options))?;
        let own = format!("drink = \"{name}\"");
        let text = demo::DOCUMENTS
            .iter()
            .find(|(_, text)| text.lines().any(|line| line == own));
        let mut page = Self {
            runtime,
            router: server.answering(SocketAddr::from((Ipv4Addr::LOCALHOST, 50_000))),
            host: server.address().to_string(),
            id: String::new(),
            text: text.ok_or("not in the demo")?.1,
            have: json!({}),
            _server: server,
        };
        let words = name.replace(' ', "+");
        let found = page.ask(
            Request::get(format!("/find.json?role=page&words={words}")),
            "",
        )?;
        let found: Vec<Value> = serde_json::from_slice(&found)?;
        let link = found.first().and_then(|one| one["link"].as_str());
        let id = link.and_then(|link| link.rsplit('/').next());
        page.id = id.ok_or("not in the book")?.to_owned();
        let first = page.change(30, &json!({}))?;
        // Behind a line of JSON lie the parts of the page.
        let line = first.split(|byte| *byte == b'\n').next();
        page.have = serde_json::from_slice::<Value>(line.unwrap_or_default())?["stamps"].take();
        Ok(page)
    }

    /// Another amount of the first line; the answer's body.
    fn change(&self, millilitres: u32, have: &Value) -> Fallible<Bytes> {
        let body = json!({
            "text": self.text, "width": "tablet", "in": "written", "have": have,
            "changes": [{
                "do": "set", "list": "line", "at": 0, "key": "amount", "value": format!("{millilitres} mL"),
            }],
        });
        let request = Request::post(format!("/d/{}/try", self.id))
            .header("content-type", "application/json")
            .header("origin", format!("http://{}", self.host));
        self.ask(request, &body.to_string())
    }

    fn ask(&self, request: Builder, body: &str) -> Fallible<Bytes> {
        let request = request
            .header("host", &self.host)
            .body(Body::from(body.to_owned()))?;
        self.runtime.block_on(async {
            let response = self.router.clone().oneshot(request).await?;
            if !response.status().is_success() {
                return Err(format!("answered {}", response.status()).into());
            }
            Ok(to_bytes(response.into_body(), usize::MAX).await?)
        })
    }
}
