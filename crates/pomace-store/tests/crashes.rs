//! Servers of their own: one that crashes under its writers, and one that may lose what it answers.
//! What was answered is there, and what was sent again is there once.

use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use pomace_store::{Change, Error, Outcome, Place, Stamp, Store, Token};

use crate::ground::{change, connect, id, new, run, sound};
use crate::server::{PASSWORD, Server};

static STOP: AtomicBool = AtomicBool::new(false);

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_server_that_crashes_loses_no_save_and_doubles_none() {
    let server = tokio::task::spawn_blocking(Server::start).await.unwrap();
    let place = Place::parse(&server.address("pomace", PASSWORD, "postgres")).unwrap();
    let store = Store::open_or_create(&place).await.unwrap();
    let mut writers = Vec::new();
    for number in 1..=4 {
        // Each as a process of its own would: without the queue that one store has.
        let own = Store::open(&place).await.unwrap();
        writers.push(tokio::spawn(write(own, number)));
    }
    let server = tokio::task::spawn_blocking(move || {
        for _ in 0..4 {
            std::thread::sleep(Duration::from_millis(400));
            server.crash();
            std::thread::sleep(Duration::from_millis(100));
            server.restart();
        }
        server
    });
    let _server = server.await.unwrap();
    tokio::time::sleep(Duration::from_millis(300)).await;
    STOP.store(true, Ordering::Relaxed);

    let mut all = 0;
    let mut broken = 0;
    for (number, writer) in (1..).zip(writers) {
        let (answered, again) = writer.await.unwrap();
        // One revision for each answer, though many were asked for twice.
        assert_eq!(
            store.history(&id(number)).await.unwrap().len() as u64,
            answered
        );
        let text = store.current(&id(number)).await.unwrap().unwrap().text;
        assert_eq!(text, answered.to_string());
        all += answered;
        broken += again;
    }
    println!("{all} saves were answered; {broken} tries broke off");
    assert!(broken > 0, "no writer met a crash: {broken}");
    assert_eq!(store.sequence().await.unwrap(), all);
    sound(&store).await;
}

/// Settings of a whole server, which nobody can put right for one connection.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_server_that_does_not_sync_is_refused() {
    let server = tokio::task::spawn_blocking(Server::start).await.unwrap();
    let address = server.address("pomace", PASSWORD, "postgres");
    let place = Place::parse(&address).unwrap();
    Store::open_or_create(&place).await.unwrap().close().await;
    let mut admin = connect(&address).await;
    for setting in ["full_page_writes", "fsync"] {
        run(&mut admin, &format!("ALTER SYSTEM SET {setting} = off"))
            .await
            .unwrap();
        run(&mut admin, "SELECT pg_reload_conf()").await.unwrap();
        // The server takes it over a moment later.
        let refused = loop {
            match Store::open(&place).await {
                Ok(store) => store.close().await,
                Err(Error::NotDurable { setting, found, .. }) => break (setting, found),
                Err(error) => panic!("{error:?}"),
            }
        };
        assert_eq!(refused, (setting.to_owned(), "off".to_owned()));
        run(&mut admin, &format!("ALTER SYSTEM RESET {setting}"))
            .await
            .unwrap();
        run(&mut admin, "SELECT pg_reload_conf()").await.unwrap();
        while Store::open(&place).await.is_err() {}
    }
}

/// Saves until it is told to stop; answers how many saves were answered, and how many tries broke.
async fn write(store: Store, document: u64) -> (u64, u64) {
    let mut stamp: Option<Stamp> = None;
    let mut broken = 0;
    while !STOP.load(Ordering::Relaxed) {
        let next = match &stamp {
            None => new(&id(document), "Crash", "1"),
            Some(stamp) => change(stamp, "Crash", &(stamp.revision + 1).to_string()),
        };
        let (answer, tries) = until_answered(&store, &next).await;
        stamp = Some(answer);
        broken += tries;
    }
    (stamp.unwrap().revision, broken)
}

async fn until_answered(store: &Store, change: &Change) -> (Stamp, u64) {
    let token = Token::new();
    let mut broken = 0;
    loop {
        match store.save(&token, change).await {
            Ok(Outcome::Saved(mut stamps)) => return (stamps.remove(0), broken),
            Ok(Outcome::Conflict(theirs)) => panic!("nobody else writes: {theirs:?}"),
            Err(Error::Unreachable { .. }) => {
                broken += 1;
                tokio::time::sleep(Duration::from_millis(20)).await;
            }
            Err(error) => panic!("{error:?}"),
        }
    }
}
