//! Many writers at once: no change is lost, no number is skipped.

use std::collections::BTreeMap;

use pomace_store::{Change, Error, Id, Outcome, Store, Token, Write};

use crate::ground::{Ground, change, id, new, on_both, run, save, sound};

on_both!(
    eight_writers_on_one_document,
    eight_writers_on_their_own_documents,
    readers_see_whole_saves_only,
    one_token_sent_by_eight_at_once,
    a_save_that_is_given_up_is_whole_or_not_there,
);

const WRITERS: u64 = 8;
const SAVES: u64 = 50;

/// Each writer adds its own lines to what it finds, and again when somebody was quicker.
async fn eight_writers_on_one_document(ground: &Ground) {
    let store = ground.store().await;
    save(&store, &new(&id(1), "Crowd", "")).await;
    let mut writers = Vec::new();
    for writer in 0..WRITERS {
        // Half of them share connections, half have their own.
        let store = if writer % 2 == 0 {
            store.clone()
        } else {
            Store::open(&ground.place).await.unwrap()
        };
        writers.push(tokio::spawn(async move {
            let mut conflicts = 0;
            let mut base = store.current(&id(1)).await.unwrap().unwrap();
            for line in 0..SAVES {
                loop {
                    let text = format!("{}{writer}.{line}\n", base.text);
                    let mine = change(&base.stamp, "Crowd", &text);
                    match store.save(&Token::new(), &mine).await.unwrap() {
                        Outcome::Saved(mut stamps) => {
                            base.stamp = stamps.remove(0);
                            base.text = text;
                            break;
                        }
                        Outcome::Conflict(mut theirs) => {
                            conflicts += 1;
                            base = theirs.remove(0);
                        }
                    }
                }
            }
            conflicts
        }));
    }
    let mut conflicts = 0;
    for writer in writers {
        conflicts += writer.await.unwrap();
    }
    println!("{conflicts} conflicts on {} saves", WRITERS * SAVES);
    assert!(conflicts > 0, "they never met, and the test shows nothing");

    let end = store.current(&id(1)).await.unwrap().unwrap();
    assert_eq!(end.stamp.revision, WRITERS * SAVES + 1);
    let mut lines: BTreeMap<String, u64> = BTreeMap::new();
    for line in end.text.lines() {
        *lines.entry(line.to_owned()).or_default() += 1;
    }
    assert_eq!(lines.len() as u64, WRITERS * SAVES);
    assert!(lines.values().all(|times| *times == 1));
    sequence_has_no_gap(&store, 1).await;
    sound(&store).await;
}

async fn eight_writers_on_their_own_documents(ground: &Ground) {
    let store = ground.store().await;
    let mut writers = Vec::new();
    for writer in 1..=WRITERS {
        let store = if writer % 2 == 0 {
            store.clone()
        } else {
            Store::open(&ground.place).await.unwrap()
        };
        writers.push(tokio::spawn(async move {
            let mut stamp = save(&store, &new(&id(writer), "Own", "0")).await;
            for number in 1..SAVES {
                stamp = save(&store, &change(&stamp, "Own", &number.to_string())).await;
                assert_eq!(stamp.revision, number + 1);
            }
        }));
    }
    for writer in writers {
        writer.await.unwrap();
    }
    for text in store.texts().await.unwrap() {
        assert_eq!(text.text, (SAVES - 1).to_string());
        assert_eq!(text.revision, SAVES);
    }
    sequence_has_no_gap(&store, WRITERS).await;
    sound(&store).await;
}

async fn sequence_has_no_gap(store: &Store, documents: u64) {
    let mut sequences = Vec::new();
    for document in 1..=documents {
        let history = store.history(&id(document)).await.unwrap();
        sequences.extend(history.iter().map(|stamp| stamp.sequence));
    }
    sequences.sort_unstable();
    let wanted: Vec<u64> = (1..=store.sequence().await.unwrap()).collect();
    assert_eq!(sequences, wanted);
}

/// Two documents always say the same; whoever reads finds them the same. Whoever follows the
/// sequence is never shown a number that is smaller than one it was shown before.
async fn readers_see_whole_saves_only(ground: &Ground) {
    let store = ground.store().await;
    let both = |text: &str, based_on: Option<u64>| -> [Change; 2] {
        [1, 2].map(|number| Change {
            based_on,
            ..new(&id(number), "Both", text)
        })
    };
    store
        .save_all(&Token::new(), &both("0", None))
        .await
        .unwrap();
    let writer = tokio::spawn({
        let store = store.clone();
        async move {
            for number in 1..SAVES {
                let changes = both(&number.to_string(), Some(number));
                store.save_all(&Token::new(), &changes).await.unwrap();
            }
        }
    });
    let mut seen = 0;
    let mut differing = 0;
    while !writer.is_finished() {
        let texts = store.texts().await.unwrap();
        assert_eq!(texts[0].text, texts[1].text);
        let changed = store.changed_after(seen).await.unwrap();
        if let Some(last) = changed.last() {
            assert_eq!(changed.len(), 2, "{changed:?}");
            seen = last.stamp.sequence;
            differing += 1;
        }
    }
    writer.await.unwrap();
    assert!(differing > 1, "the reader never met the writer");
}

async fn one_token_sent_by_eight_at_once(ground: &Ground) {
    let store = ground.store().await;
    let token = Token::new();
    let mut senders = Vec::new();
    for sender in 0..WRITERS {
        let store = if sender % 2 == 0 {
            store.clone()
        } else {
            Store::open(&ground.place).await.unwrap()
        };
        let token = token.clone();
        senders.push(tokio::spawn(async move {
            store
                .save(&token, &new(&id(1), "Once", "once"))
                .await
                .unwrap()
        }));
    }
    let mut answers = Vec::new();
    for sender in senders {
        answers.push(sender.await.unwrap());
    }
    answers.dedup();
    assert_eq!(answers.len(), 1);
    assert_eq!(store.sequence().await.unwrap(), 1);
}

/// A page that was closed gives its save up at any moment.
async fn a_save_that_is_given_up_is_whole_or_not_there(ground: &Ground) {
    let store = ground.store().await;
    let mut done = 0;
    for number in 1..=60_u64 {
        let both = [2 * number, 2 * number + 1].map(|number| new(&id(number), "Given up", "text"));
        let token = Token::new();
        let patience = std::time::Duration::from_micros(number * 100);
        let answer = tokio::time::timeout(patience, store.save_all(&token, &both)).await;
        let there: Vec<Id> = store
            .texts()
            .await
            .unwrap()
            .into_iter()
            .map(|text| text.document)
            .collect();
        let first = there.contains(&both[0].document);
        assert_eq!(first, there.contains(&both[1].document));
        if answer.is_ok() {
            done += 1;
            assert!(first, "it was answered and is not there");
        }
        // Sent again it is there, once.
        store.save_all(&token, &both).await.unwrap();
        assert_eq!(store.sequence().await.unwrap(), 2 * number);
    }
    println!("{done} of 60 were answered in time");
    sound(&store).await;
}

/// PostgreSQL ends one of two that wait for each other; the save is tried again.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_deadlock_is_tried_again() {
    let ground = Ground::server().await;
    let mut stranger = ground.stranger().await;
    // Whoever has waited that long looks for a deadlock and is ended: it has to be the save.
    let sql = format!(
        "ALTER DATABASE {} SET deadlock_timeout = '3s'",
        ground.database
    );
    run(&mut stranger, &sql).await.unwrap();
    run(&mut stranger, "SET deadlock_timeout = '60s'")
        .await
        .unwrap();
    let store = ground.store().await;
    run(
        &mut stranger,
        "BEGIN; LOCK TABLE names IN ACCESS EXCLUSIVE MODE",
    )
    .await
    .unwrap();
    let saving = tokio::spawn({
        let store = store.clone();
        async move {
            store
                .save(&Token::new(), &new(&id(1), "Locked", "text"))
                .await
        }
    });
    // The save has to hold `book` and wait for `names` before the stranger asks for `book`.
    let mut watching = ground.stranger().await;
    let waiting = "SELECT COUNT(*) FROM pg_locks WHERE NOT granted
         AND relation = 'names'::regclass AND database = (SELECT oid FROM pg_database WHERE datname = current_database())";
    loop {
        let count: i64 = sqlx::query_scalar(waiting)
            .fetch_one(&mut watching)
            .await
            .unwrap();
        if count > 0 {
            break;
        }
        tokio::time::sleep(std::time::Duration::from_millis(5)).await;
    }
    let asked = run(&mut stranger, "UPDATE book SET sequence = sequence").await;
    run(
        &mut stranger,
        if asked.is_ok() { "COMMIT" } else { "ROLLBACK" },
    )
    .await
    .unwrap();
    assert!(
        asked.is_ok(),
        "the stranger was ended, and the test shows nothing: {asked:?}"
    );
    let outcome = saving.await.unwrap().unwrap();
    assert!(matches!(outcome, Outcome::Saved(_)));
    sound(&store).await;
}

/// Two transactions that cannot both be, where the house's server is set to the strictest kind.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_server_that_serializes_by_itself_serves_too() {
    let ground = Ground::server().await;
    let mut stranger = ground.stranger().await;
    let sql = format!(
        "ALTER DATABASE {} SET default_transaction_isolation = 'serializable'",
        ground.database
    );
    run(&mut stranger, &sql).await.unwrap();
    eight_writers_on_one_document(&ground).await;
}

#[tokio::test]
async fn a_file_that_another_program_keeps_locked() {
    let ground = Ground::file();
    let store = ground.store().await;
    let made = save(&store, &new(&id(1), "Locked", "text")).await;
    let mut stranger = ground.stranger().await;
    run(&mut stranger, "BEGIN IMMEDIATE").await.unwrap();
    let token = Token::new();
    let second = Change {
        write: Write::Text("second".to_owned()),
        ..change(&made, "Locked", "")
    };
    let refused = store.save(&token, &second).await.unwrap_err();
    assert!(matches!(refused, Error::Locked { .. }), "{refused:?}");
    assert!(refused.mend().contains("other program"));
    // Readers go on.
    assert_eq!(store.texts().await.unwrap()[0].text, "text");
    run(&mut stranger, "ROLLBACK").await.unwrap();
    assert!(matches!(
        store.save(&token, &second).await.unwrap(),
        Outcome::Saved(_)
    ));
}
