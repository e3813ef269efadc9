//! A server as a process of its own, on a book of its own: it can be killed, and started again in the same
//! place.

use std::io::{BufRead as _, BufReader};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};

use pomace_store::{Id, Place, Stamp, Store};
use tempfile::TempDir;

use super::page::Page;

pub(crate) struct Server {
    folder: TempDir,
    process: Option<Child>,
    port: u16,
    book: String,
}

impl Server {
    /// The embedded demo.
    pub(crate) fn demo() -> Self {
        Self::on("demo".to_owned(), tempfile::tempdir().unwrap())
    }

    /// A book with nothing in it.
    pub(crate) fn empty() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let book = folder.path().join("house.pomace");
        Self::on(book.to_str().unwrap().to_owned(), folder)
    }

    /// A book that outlives its server, with the demo's documents.
    pub(crate) fn with_demo(page: &Page) -> Self {
        let server = Self::empty();
        page.go(&server.at("/"));
        page.tap_words("button", "Put the demo into this book");
        page.wait(
            "the demo is there",
            "document.querySelector('main').innerText.includes('Second Pressing')",
        );
        server
    }

    /// As [`Server::with_demo`], with the page at its leading drink.
    pub(crate) fn with_demo_open(page: &Page) -> Self {
        let server = Self::with_demo(page);
        page.open(&server, "Second Pressing");
        server
    }

    fn on(book: String, folder: TempDir) -> Self {
        let mut server = Self {
            folder,
            process: None,
            port: 0,
            book,
        };
        server.start();
        server
    }

    /// Starts it, on the port that it had.
    pub(crate) fn start(&mut self) {
        assert!(self.process.is_none(), "it runs already");
        let mut process = Command::new(env!("CARGO_BIN_EXE_pomace-web-serve"))
            .args([&self.book, &self.port.to_string()])
            // The demo's file goes where it is cleared away, killed or not.
            .env("TMPDIR", self.folder.path())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut line = String::new();
        BufReader::new(process.stdout.take().unwrap())
            .read_line(&mut line)
            .unwrap();
        self.port = line.trim().parse().expect("the server tells its port");
        self.process = Some(process);
    }

    /// Ends it as a power cut would (SIGKILL), with nothing finished.
    pub(crate) fn kill(&mut self) {
        let mut process = self.process.take().expect("it runs");
        process.kill().unwrap();
        process.wait().unwrap();
    }

    /// It falls silent as a machine that sleeps does, and speaks again.
    pub(crate) fn sleeps(&self, is_so: bool) {
        let process = self.process.as_ref().expect("it runs");
        let signal = if is_so { "-STOP" } else { "-CONT" };
        let sent = Command::new("kill")
            .args([signal, &process.id().to_string()])
            .status();
        assert!(sent.unwrap().success());
    }

    /// The address of a page.
    pub(crate) fn at(&self, path: &str) -> String {
        format!("http://127.0.0.1:{}{path}", self.port)
    }

    /// What the store tells, read beside the server.
    pub(crate) fn kept(&self) -> Kept {
        assert!(self.book != "demo", "the demo's file has no fixed place");
        Kept(PathBuf::from(&self.book))
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        if self.process.is_some() {
            self.kill();
        }
    }
}

/// The book's file, opened beside the server.
pub(crate) struct Kept(PathBuf);

impl Kept {
    fn ask<T>(&self, question: impl AsyncFnOnce(&Store) -> T) -> T {
        let runtime = tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .build()
            .unwrap();
        runtime.block_on(async {
            let store = Store::open(&Place::file(&self.0)).await.unwrap();
            let answer = question(&store).await;
            store.close().await;
            answer
        })
    }

    /// The id of the document with this name.
    pub(crate) fn id(&self, name: &str) -> Id {
        self.ask(async |store| {
            let found = store.by_name(name).await.unwrap();
            let [one] = found.as_slice() else {
                panic!("{} documents are called {name}", found.len());
            };
            one.stamp.document.clone()
        })
    }

    /// The current text.
    pub(crate) fn text(&self, name: &str) -> String {
        let id = self.id(name);
        self.ask(async |store| store.current(&id).await.unwrap().unwrap().text)
    }

    /// Every revision, with its text.
    pub(crate) fn history(&self, name: &str) -> Vec<(Stamp, String)> {
        let id = self.id(name);
        self.ask(async |store| {
            let mut all = Vec::new();
            for stamp in store.history(&id).await.unwrap() {
                let revision = store.revision(&id, stamp.revision).await.unwrap().unwrap();
                all.push((stamp, revision.text));
            }
            all.sort_by_key(|(stamp, _)| stamp.revision);
            all
        })
    }
}
