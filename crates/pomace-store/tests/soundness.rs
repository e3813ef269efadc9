//! The check finds what is wrong, each kind of it.

use std::fs;

use crate::ground::{Ground, change, id, lot, new, on_both, run, save, sound};
use pomace_store::{Fault, NewRow, Store};

type Case = (
    &'static str,
    &'static str,
    &'static [(&'static str, &'static str)],
);

on_both!(every_kind_of_fault_is_found, every_guard_is_missed);

async fn every_kind_of_fault_is_found(ground: &Ground) {
    let store = ground.store().await;
    let made = save(&store, &new(&id(1), "Ebb", "1")).await;
    save(&store, &change(&made, "Ebb", "2")).await;
    save(&store, &new(&id(2), "Flow", "1")).await;
    let right = NewRow {
        corrects: Some(id(11)),
        ..lot(12, "2")
    };
    store.append(&[lot(11, "1"), right]).await.unwrap();
    sound(&store).await;

    let mut stranger = ground.stranger().await;
    // As somebody could who has all rights and means harm, or a disk that does.
    let unguarded = if ground.place.is_server() {
        "SET session_replication_role = replica"
    } else {
        "PRAGMA foreign_keys = OFF; DROP TRIGGER revisions_update; DROP TRIGGER revisions_delete;
         DROP TRIGGER book_rows_update; DROP TRIGGER book_rows_delete"
    };
    run(&mut stranger, unguarded).await.unwrap();
    const EBB: &str = "document 0000000000000001";
    const FLOW: &str = "document 0000000000000002";
    // The harm, how it is undone, and what the check says in between.
    let cases: [Case; 8] = [
        (
            "UPDATE revisions SET text = 'forged' WHERE sequence = 1",
            "UPDATE revisions SET text = '1' WHERE sequence = 1",
            &[(EBB, "a text is not the text that was saved")],
        ),
        (
            "UPDATE documents SET revision = 1 WHERE sequence = 2",
            "UPDATE documents SET revision = 2 WHERE sequence = 2",
            &[(EBB, "it does not point to its last revision")],
        ),
        (
            "UPDATE revisions SET revision = 3 WHERE sequence = 2; UPDATE documents SET revision = 3 WHERE sequence = 2; UPDATE answers SET revision = 3 WHERE revision = 2",
            "UPDATE revisions SET revision = 2 WHERE sequence = 2; UPDATE documents SET revision = 2 WHERE sequence = 2; UPDATE answers SET revision = 2 WHERE revision = 3",
            &[(EBB, "its revisions are not numbered from 1 without a gap")],
        ),
        (
            "UPDATE names SET document = '0000000000000002', place = 1 WHERE document = '0000000000000001'",
            "UPDATE names SET document = '0000000000000001', place = 0 WHERE place = 1",
            &[(
                EBB,
                "it has no name in the index, or is removed and has one",
            )],
        ),
        (
            "UPDATE book_rows SET json = '3' WHERE sequence = 5",
            "UPDATE book_rows SET json = '2' WHERE sequence = 5",
            &[(
                "row 0000000000000012",
                "a text is not the text that was saved",
            )],
        ),
        (
            "UPDATE book_rows SET kind = 'ballot' WHERE sequence = 4",
            "UPDATE book_rows SET kind = 'lot' WHERE sequence = 4",
            &[("row 0000000000000012", "it corrects a row of another kind")],
        ),
        (
            "UPDATE book SET sequence = 4",
            "UPDATE book SET sequence = 5",
            &[(
                "row 0000000000000012",
                "its place in the sequence is taken twice, or not given out yet",
            )],
        ),
        (
            "DELETE FROM names WHERE document = '0000000000000002'; DELETE FROM documents WHERE document = '0000000000000002'",
            "",
            &[(FLOW, "it has revisions and is in no list")],
        ),
    ];
    for (harm, mended, faults) in cases {
        run(&mut stranger, harm).await.unwrap();
        let found = harm_done(&store).await;
        let found: Vec<_> = found
            .iter()
            .map(|fault| (fault.about.as_str(), fault.problem.as_str()))
            .collect();
        assert_eq!(found, faults, "{harm}");
        run(&mut stranger, mended).await.unwrap();
    }
}

/// All faults but the triggers that the test took away to do harm.
async fn harm_done(store: &Store) -> Vec<Fault> {
    let mut faults = store.check().await.unwrap();
    faults.retain(|fault| !fault.about.starts_with("trigger "));
    faults
}

async fn every_guard_is_missed(ground: &Ground) {
    let store = ground.store().await;
    let mut stranger = ground.stranger().await;
    let guards: &[(&str, &str)] = if ground.place.is_server() {
        &[
            ("revisions", "revisions_stand"),
            ("revisions", "revisions_stay"),
            ("revisions", "revisions_follow"),
            ("book_rows", "book_rows_stand"),
            ("book_rows", "book_rows_stay"),
        ]
    } else {
        &[
            ("revisions", "revisions_update"),
            ("revisions", "revisions_delete"),
            ("revisions", "revisions_insert"),
            ("book_rows", "book_rows_update"),
            ("book_rows", "book_rows_delete"),
            ("book_rows", "book_rows_insert"),
        ]
    };
    for (count, (table, guard)) in (1..).zip(guards) {
        let sql = if !ground.place.is_server() {
            format!("DROP TRIGGER {guard}")
        } else if count % 2 == 0 {
            format!("DROP TRIGGER {guard} ON {table}")
        } else {
            format!("ALTER TABLE {table} DISABLE TRIGGER {guard}")
        };
        run(&mut stranger, &sql).await.unwrap();
        let found = store.check().await.unwrap();
        assert_eq!(found.len(), count, "{found:?}");
        assert!(
            found
                .iter()
                .any(|fault| fault.about == format!("trigger {guard}"))
        );
    }
}

#[tokio::test]
async fn rows_that_lead_to_nothing_are_found() {
    let ground = Ground::file();
    let store = ground.store().await;
    let right = NewRow {
        corrects: Some(id(11)),
        ..lot(12, "2")
    };
    store.append(&[lot(11, "1"), right]).await.unwrap();
    let mut stranger = ground.stranger().await;
    run(&mut stranger, "PRAGMA foreign_keys = OFF; DROP TRIGGER book_rows_delete; DELETE FROM book_rows WHERE sequence = 1")
        .await
        .unwrap();
    let found = harm_done(&store).await;
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(
        (found[0].about.as_str(), found[0].problem.as_str()),
        ("table book_rows", "1 rows lead to nothing")
    );
}

/// Bytes that went bad on the disk.
#[tokio::test]
async fn a_damaged_file_is_told_as_damaged() {
    let ground = Ground::file();
    let store = ground.store().await;
    for number in 1..=40 {
        save(&store, &new(&id(number), "Ebb", &"text ".repeat(200))).await;
    }
    store.close().await;
    let path = ground.folder.as_ref().unwrap().path().join("house.pomace");
    let sound_bytes = fs::read(&path).unwrap();
    let mut found = 0;
    for page in 1..sound_bytes.len() / 4096 {
        let mut bytes = sound_bytes.clone();
        bytes[page * 4096..page * 4096 + 64].fill(0xAB);
        fs::write(&path, bytes).unwrap();
        let told = match Store::open(&ground.place).await {
            Err(error) => error.to_string(),
            Ok(store) => {
                let faults = store.check().await.unwrap();
                store.close().await;
                faults
                    .first()
                    .map(|fault| fault.problem.clone())
                    .unwrap_or_default()
            }
        };
        if told.is_empty() {
            println!("page {page} holds nothing that is missed");
        } else {
            found += 1;
        }
    }
    let pages = sound_bytes.len() / 4096 - 1;
    println!("{found} of {pages} pages");
    // A page that is free, or the inside of a long text, has no such head.
    assert!(found * 10 >= pages * 9, "{found} of {pages} pages");
}
