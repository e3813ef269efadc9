//! What no program may do, and what the store says when it cannot write.

use pomace_store::{Error, Outcome, Place, Store, Token};

use crate::ground::{Ground, change, connect, id, lot, new, on_both, run, save, sound};
use crate::server::Server;

on_both!(nothing_written_is_changed_or_taken_away, bad_input_is_told);

/// The triggers hold for any program, with any way of putting it.
async fn nothing_written_is_changed_or_taken_away(ground: &Ground) {
    let store = ground.store().await;
    let made = save(&store, &new(&id(1), "Ebb", "1")).await;
    save(&store, &change(&made, "Ebb", "2")).await;
    store.append(&[lot(11, "1")]).await.unwrap();
    let mut stranger = ground.stranger().await;
    let revision = "('0000000000000001', 2, 2, 'forged', 'x', 0, 'x', 'x', NULL)";
    let row = "('0000000000000011', 3, 'lot', NULL, NULL, 'x', 'x', 'x', '2', 'x', NULL)";
    let mut attempts = vec![
        "UPDATE revisions SET text = 'forged'".to_owned(),
        "UPDATE revisions SET who = who".to_owned(),
        "DELETE FROM revisions".to_owned(),
        "DELETE FROM revisions WHERE revision = 2".to_owned(),
        "UPDATE book_rows SET json = '2'".to_owned(),
        "DELETE FROM book_rows".to_owned(),
        format!("INSERT INTO revisions VALUES {revision}"),
        format!(
            "INSERT INTO revisions VALUES {revision} ON CONFLICT (document, revision) DO UPDATE SET text = 'forged'"
        ),
        format!("INSERT INTO book_rows VALUES {row} ON CONFLICT (id) DO UPDATE SET json = '2'"),
        // A gap, and a place in the sequence that has gone by.
        "INSERT INTO revisions VALUES ('0000000000000001', 4, 9, '', 'x', 0, 'x', 'x', NULL)"
            .to_owned(),
        "INSERT INTO revisions VALUES ('0000000000000001', 3, 2, '', 'x', 0, 'x', 'x', NULL)"
            .to_owned(),
    ];
    if ground.place.is_server() {
        attempts.push("TRUNCATE revisions CASCADE".to_owned());
        attempts.push("TRUNCATE book_rows".to_owned());
    } else {
        attempts.push(format!(
            "INSERT OR REPLACE INTO revisions VALUES {revision}"
        ));
        attempts.push(format!("REPLACE INTO book_rows VALUES {row}"));
        attempts.push("UPDATE OR REPLACE revisions SET revision = 2".to_owned());
    }
    for attempt in attempts {
        let done = run(&mut stranger, &attempt).await;
        assert!(done.is_err(), "{attempt} went through");
    }
    let texts: Vec<(String,)> = sqlx::query_as("SELECT text FROM revisions ORDER BY revision")
        .fetch_all(&mut stranger)
        .await
        .unwrap();
    assert_eq!(texts, [("1".to_owned(),), ("2".to_owned(),)]);
    sound(&store).await;
}

async fn bad_input_is_told(ground: &Ground) {
    let store = ground.store().await;
    let with = |change: &dyn Fn(&mut pomace_store::Change)| {
        let mut bad = new(&id(1), "Ebb", "text");
        change(&mut bad);
        bad
    };
    let figure = |value| crate::ground::figure("ph", value, None);
    let cases = [
        (
            with(&|bad| bad.who = String::new()),
            "the name of who saves: it is empty",
        ),
        (
            with(&|bad| bad.index.kind = "Long Drink".to_owned()),
            "the kind of a document: it is no word of 1 to 32 small letters, digits and `-`",
        ),
        (
            with(&|bad| bad.index.name = "x".repeat(201)),
            "the name of a document: it has 201 bytes, and the most is 200",
        ),
        (
            with(&|bad| bad.write = pomace_store::Write::Text("x".repeat(1_000_001))),
            "the text of a document: it has 1000001 bytes, and the most is 1000000",
        ),
        (
            with(&|bad| bad.why = Some("x".repeat(2_001))),
            "the reason: it has 2001 bytes, and the most is 2000",
        ),
        (
            with(&|bad| bad.index.figures = vec![figure(f64::NAN)]),
            "the figure `ph`: it is no finite number",
        ),
        (
            with(&|bad| bad.index.figures = vec![figure(3.0), figure(3.1)]),
            "the figure `ph`: it is there twice",
        ),
        (
            with(&|bad| bad.index.uses = vec![crate::ground::edge("", None)]),
            "the name of what a document uses: it is empty",
        ),
    ];
    for (bad, words) in cases {
        let refused = store.save(&Token::new(), &bad).await.unwrap_err();
        assert_eq!(refused.to_string(), words);
        assert!(!refused.mend().is_empty());
    }
    for token in ["", "a b", &"x".repeat(65), "ü"] {
        assert_eq!(Token::parse(token).unwrap_err(), Error::BadToken);
    }
    assert_eq!(
        Token::parse("6f9619ff-8b86-d011").unwrap().as_str(),
        "6f9619ff-8b86-d011"
    );
    assert_eq!(store.sequence().await.unwrap(), 0);
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_server_that_lets_us_read_only() {
    let ground = Ground::server().await;
    let store = ground.store().await;
    let made = save(&store, &new(&id(1), "Ebb", "1")).await;
    let mut admin = ground.stranger().await;
    run(&mut admin, "CREATE ROLE guest LOGIN PASSWORD 'guest'; GRANT SELECT ON ALL TABLES IN SCHEMA public TO guest").await.unwrap();
    let guest = Place::parse(&Server::get().address("guest", "guest", &ground.database)).unwrap();
    let guest = Store::open(&guest).await.unwrap();
    assert_eq!(guest.texts().await.unwrap()[0].text, "1");
    let second = change(&made, "Ebb", "2");
    let refused = guest.save(&Token::new(), &second).await.unwrap_err();
    assert!(matches!(refused, Error::NoPermission { .. }), "{refused:?}");

    let sql = format!(
        "ALTER DATABASE {} SET default_transaction_read_only = on",
        ground.database
    );
    run(&mut admin, &sql).await.unwrap();
    let still = Store::open(&ground.place).await.unwrap();
    let token = Token::new();
    let refused = still.save(&token, &second).await.unwrap_err();
    assert!(matches!(refused, Error::ReadOnly { .. }), "{refused:?}");
    // The same save goes well where it may.
    assert!(matches!(
        store.save(&token, &second).await.unwrap(),
        Outcome::Saved(_)
    ));
    sound(&store).await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_server_that_answers_before_its_disk_is_put_right() {
    let ground = Ground::server().await;
    ground.store().await.close().await;
    let mut admin = ground.stranger().await;
    let sql = format!(
        "ALTER DATABASE {} SET synchronous_commit = off",
        ground.database
    );
    run(&mut admin, &sql).await.unwrap();
    // The server's own would be refused; a connection can have its own, and ours do.
    let store = Store::open(&ground.place).await.unwrap();
    save(&store, &new(&id(1), "Ebb", "1")).await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_connection_that_breaks_is_made_anew() {
    let ground = Ground::server().await;
    let store = ground.store().await;
    let made = save(&store, &new(&id(1), "Ebb", "1")).await;
    let mut admin =
        connect(&Server::get().address("pomace", crate::server::PASSWORD, "postgres")).await;
    let sql = format!(
        "SELECT COUNT(pg_terminate_backend(pid)) FROM pg_stat_activity WHERE datname = '{}'",
        ground.database
    );
    run(&mut admin, &sql).await.unwrap();
    let token = Token::new();
    let second = change(&made, "Ebb", "2");
    let mut answer = store.save(&token, &second).await;
    if let Err(error) = &answer {
        assert!(matches!(error, Error::Unreachable { .. }), "{error:?}");
        answer = store.save(&token, &second).await;
    }
    assert!(matches!(answer.unwrap(), Outcome::Saved(_)));
    assert_eq!(store.history(&id(1)).await.unwrap().len(), 2);
}
