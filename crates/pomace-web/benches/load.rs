//! A book of 10,000 drinks: how soon its first page is there, how long a search takes, and what 200 editors
//! who change their drinks all at once have to wait. Prints the rows of `docs/benchmarks.md`.
//!
//! Server and editors share the machine. The loop is open: a request leaves when its time has come, whether
//! or not the ones before are answered, and its wait counts from then.

#![expect(clippy::print_stdout, reason = "a measurement is printed")]

use std::error::Error;
use std::io::{BufRead as _, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use pomace_store::{Change, Id, Index, Outcome, Place, Store, Token, When, Write};
use serde_json::{Value, json};
use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};
use tokio::net::TcpStream;
use tokio::time::Instant;

#[path = "../../pomace-bench/benches/generated/mod.rs"]
mod generated;
mod named;

type Fallible<T> = Result<T, Box<dyn Error + Send + Sync>>;

const DRINKS: usize = 10_000;
const EDITORS: u64 = 200;
/// Between two changes of one editor: 1,000 changes a second of all.
const PAUSE: Duration = Duration::from_millis(200);
const SECONDS: u64 = 20;
const STARTS: usize = 7;

#[tokio::main(flavor = "multi_thread", worker_threads = 2)]
async fn main() -> Fallible<()> {
    // Only `cargo bench` asks for a measurement; `cargo test` looks whether this compiles.
    if !std::env::args().any(|argument| argument == "--bench") {
        return Ok(());
    }
    let folder = tempfile::tempdir()?;
    let file = folder.path().join("house.pomace");
    let drinks = fill(&file).await?;

    let drink = drinks.edited.last().ok_or("no drink")?;
    for (page, path) in [
        ("the list", "/".to_owned()),
        ("a drink", format!("/drinks/{}", drink.id)),
    ] {
        let mut starts = Vec::new();
        for _ in 0..STARTS {
            let began = Instant::now();
            let server = Server::start(&file)?;
            let answer = Wire::open(server.port).await?.get(&path).await?;
            starts.push(milliseconds(began.elapsed()));
            assert_eq!(answer.status, 200, "the first page");
        }
        row(
            &format!("from start to {page} as the first page"),
            &mut starts,
        );
    }

    let server = Server::start(&file)?;
    tokio::time::sleep(Duration::from_secs(3)).await;
    search(&server, &drinks.names).await?;
    load(&server, &drinks.edited).await
}

/// The book that is measured.
struct Drinks {
    /// Those that somebody edits.
    edited: Vec<Drink>,
    /// All names.
    names: Vec<String>,
}

/// A drink that somebody edits.
struct Drink {
    id: Id,
    text: String,
}

/// Puts the generated book into a file, under names such as a house gives.
async fn fill(file: &Path) -> Fallible<Drinks> {
    let store = Store::open_or_create(&Place::file(file)).await?;
    let book = generated::generated(DRINKS);
    let mut drinks = Vec::new();
    let names = named::names(DRINKS + DRINKS / 5);
    let called = |name: &str| -> Option<&String> {
        let (kind, number) = name.split_once(' ')?;
        let number: usize = number.parse().ok()?;
        match kind {
            "Drink" => names.get(number),
            "Prep" => names.get(DRINKS + number),
            _ => None,
        }
    };
    let mut changes = Vec::new();
    for (id, document) in book.documents() {
        let text = book.source(id).map(|source| source.text.clone());
        // Every other piece stands between quotes.
        let text = text.unwrap_or_default();
        let pieces = text.split('"');
        let text = pieces
            .map(|piece| called(piece).map_or(piece, String::as_str))
            .collect::<Vec<_>>()
            .join("\"");
        let name = called(&document.name().value).ok_or("a document without a name")?;
        let id = Id::new(&When::now());
        if document.kind() == "drink" && drinks.len() < usize::try_from(EDITORS)? {
            let text = text.clone();
            drinks.push(Drink {
                id: id.clone(),
                text,
            });
        }
        changes.push(Change {
            document: id,
            based_on: None,
            write: Write::Text(text),
            who: "the measurement".to_owned(),
            when: When::now(),
            why: None,
            index: Index::of(document.kind(), name),
        });
    }
    for some in changes.chunks(1_000) {
        match store.save_all(&Token::new(), some).await? {
            Outcome::Saved(_) => {}
            Outcome::Conflict(_) => return Err("a new book with a conflict".into()),
        }
    }
    store.close().await;
    Ok(Drinks {
        edited: drinks,
        names,
    })
}

async fn search(server: &Server, names: &[String]) -> Fallible<()> {
    let mut wire = Wire::open(server.port).await?;
    for role in ["page", "what"] {
        for (kind, queries) in named::queries(names) {
            let mut times = Vec::new();
            for words in queries {
                let words = encoded(&words);
                let path = format!("/find.json?role={role}&words={words}");
                times.push(wire.get(&path).await?.worked);
            }
            row(&format!("search, {role}, {kind}"), &mut times);
        }
    }
    Ok(())
}

/// A text as a part of an address.
fn encoded(text: &str) -> String {
    let bytes = text.bytes();
    bytes.map(|byte| format!("%{byte:02X}")).collect()
}

async fn load(server: &Server, drinks: &[Drink]) -> Fallible<()> {
    let begin = Instant::now() + Duration::from_secs(1);
    let port = server.port;
    let mut editors = Vec::new();
    for (number, drink) in (0..EDITORS).zip(drinks) {
        let path = format!("/d/{}/try", drink.id);
        let text = drink.text.clone();
        let begin = begin + PAUSE * u32::try_from(number)? / u32::try_from(EDITORS)?;
        editors.push(tokio::spawn(edit(port, path, text, begin)));
    }
    let busy = server.busy()?;
    let (mut worked, mut waited, mut bytes) = (Vec::new(), Vec::new(), 0);
    for editor in editors {
        for (answer, wait) in editor.await?? {
            worked.push(answer.worked);
            waited.push(wait);
            bytes += answer.bytes;
        }
    }
    let seconds = begin.elapsed().as_secs_f64();
    println!(
        "{} changes, due in {SECONDS} s, answered after {seconds:.1} s: {:.0} in a second; {} bytes an answer",
        worked.len(),
        worked.len() as f64 / seconds,
        bytes / worked.len().max(1)
    );
    println!(
        "{:.3} ms of a processor for a change, HTTP and all",
        (server.busy()? - busy) * 1e3 / worked.len().max(1) as f64
    );
    row("work of the server for a change", &mut worked);
    row("wait of an editor for a change", &mut waited);
    Ok(())
}

/// One editor: a change every [`PAUSE`], each with the parts that the page has.
async fn edit(
    port: u16,
    path: String,
    text: String,
    begin: Instant,
) -> Fallible<Vec<(Answer, f64)>> {
    let mut wire = Wire::open(port).await?;
    let ask = |amount: u64, have: &Value| {
        json!({
            "text": text, "width": "tablet", "in": "written", "have": have,
            "changes": [{ "do": "set", "list": "line", "at": 0, "key": "amount", "value": format!("{amount} mL") }],
        })
        .to_string()
    };
    let first = wire.post(&path, &ask(30, &json!({}))).await?;
    // Behind a line of JSON lie the parts of the page.
    let line = first.body.split(|byte| *byte == b'\n').next();
    let have = serde_json::from_slice::<Value>(line.unwrap_or_default())?["stamps"].take();
    let count = SECONDS * 1_000 / u64::try_from(PAUSE.as_millis())?;
    let mut answers = Vec::new();
    for number in 0..count {
        let due = begin + PAUSE * u32::try_from(number)?;
        tokio::time::sleep_until(due).await;
        let mut answer = wire.post(&path, &ask(31 + number % 30, &have)).await?;
        if answer.status != 200 {
            return Err(format!("answered {}", answer.status).into());
        }
        answer.body.clear();
        answers.push((answer, milliseconds(due.elapsed())));
    }
    Ok(answers)
}

/// The server, killed when it is no longer looked at.
struct Server {
    process: Child,
    port: u16,
}

impl Server {
    fn start(file: &Path) -> Fallible<Self> {
        let mut process = Command::new(env!("CARGO_BIN_EXE_pomace-web-serve"))
            .arg(file)
            .arg("0")
            .stdout(Stdio::piped())
            .spawn()?;
        let mut line = String::new();
        if let Some(out) = process.stdout.take() {
            BufReader::new(out).read_line(&mut line)?;
        }
        let port = line.trim().parse()?;
        Ok(Self { process, port })
    }

    /// Processor time that it has taken so far, s: whatever else the machine does, this is its own.
    fn busy(&self) -> Fallible<f64> {
        let all = std::fs::read_to_string(format!("/proc/{}/stat", self.process.id()))?;
        // Behind the name; times in hundredths of a second (proc(5), fields 14 and 15).
        let (_, fields) = all.rsplit_once(')').ok_or("no name of the process")?;
        let times = fields.split_whitespace().skip(11).take(2);
        let hundredths: Result<Vec<f64>, _> = times.map(str::parse).collect();
        Ok(hundredths?.iter().sum::<f64>() / 100.0)
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// A connection that is kept open.
struct Wire {
    stream: TcpStream,
    host: String,
    /// What was read.
    held: Vec<u8>,
}

struct Answer {
    status: u16,
    /// What the server says it took, ms.
    worked: f64,
    bytes: usize,
    body: Vec<u8>,
}

impl Wire {
    async fn open(port: u16) -> Fallible<Self> {
        let host = format!("127.0.0.1:{port}");
        let stream = TcpStream::connect(&host).await?;
        stream.set_nodelay(true)?;
        Ok(Self {
            stream,
            host,
            held: Vec::new(),
        })
    }

    async fn get(&mut self, path: &str) -> Fallible<Answer> {
        let head = format!("GET {path} HTTP/1.1\r\nhost: {}\r\n\r\n", self.host);
        self.ask(head.into_bytes()).await
    }

    async fn post(&mut self, path: &str, body: &str) -> Fallible<Answer> {
        let host = &self.host;
        let length = body.len();
        let ask = format!(
            "POST {path} HTTP/1.1\r\nhost: {host}\r\norigin: http://{host}\r\ncontent-type: application/json\r\ncontent-length: {length}\r\n\r\n{body}"
        );
        self.ask(ask.into_bytes()).await
    }

    async fn ask(&mut self, ask: Vec<u8>) -> Fallible<Answer> {
        self.stream.write_all(&ask).await?;
        self.held.clear();
        let end = loop {
            if let Some(end) = find(&self.held, b"\r\n\r\n") {
                break end + 4;
            }
            self.more().await?;
        };
        let head = String::from_utf8_lossy(self.held.get(..end).unwrap_or_default()).to_lowercase();
        let field = |name: &str| {
            head.lines()
                .find_map(|line| line.strip_prefix(name))
                .map(str::trim)
        };
        let length: Option<usize> = field("content-length:").and_then(|length| length.parse().ok());
        match length {
            Some(length) => {
                while self.held.len() < end + length {
                    self.more().await?;
                }
            }
            // Sent in pieces; the last is empty.
            None => {
                while !self.held.ends_with(b"0\r\n\r\n") {
                    self.more().await?;
                }
            }
        }
        let worked = field("server-timing: app;dur=").and_then(|took| took.parse().ok());
        Ok(Answer {
            status: head.split(' ').nth(1).unwrap_or_default().parse()?,
            worked: worked.ok_or("no time of the server")?,
            bytes: self.held.len(),
            body: self.held.get(end..).unwrap_or_default().to_vec(),
        })
    }

    async fn more(&mut self) -> Fallible<()> {
        let read = self.stream.read_buf(&mut self.held).await?;
        if read == 0 {
            return Err("the server hung up".into());
        }
        Ok(())
    }
}

fn find(all: &[u8], wanted: &[u8]) -> Option<usize> {
    all.windows(wanted.len()).position(|some| some == wanted)
}

fn milliseconds(duration: Duration) -> f64 {
    duration.as_secs_f64() * 1e3
}

/// Prints median, 99th of a hundred and the longest, ms.
fn row(what: &str, times: &mut [f64]) {
    times.sort_by(f64::total_cmp);
    let at = |share: f64| {
        let place = ((times.len() as f64) * share) as usize;
        times
            .get(place.min(times.len().saturating_sub(1)))
            .copied()
            .unwrap_or(f64::NAN)
    };
    println!(
        "| {what} | {:.2} ms | {:.2} ms | {:.2} ms |",
        at(0.5),
        at(0.99),
        at(1.0)
    );
}
