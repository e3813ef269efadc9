//! A copy made while the book is in use.

use std::fs;
use std::path::Path;

use pomace_store::{Error, Place, Store, Token};

use crate::ground::{Ground, change, id, lot, new, save, sound};

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_backup_is_a_book_of_its_own() {
    let ground = Ground::file();
    let store = ground.store().await;
    let made = save(&store, &new(&id(1), "Ebb", "1")).await;
    store.append(&[lot(11, "1")]).await.unwrap();
    let folder = ground.folder.as_ref().unwrap().path();
    let target = folder.join("copy of 50 % 'house'.pomace");
    let backup = store.backup(&target).await.unwrap();
    assert_eq!(backup.sequence, 2);
    assert_eq!(backup.bytes, fs::metadata(&target).unwrap().len());
    assert_eq!(
        files(folder),
        [
            "copy of 50 % 'house'.pomace",
            "house.pomace",
            "house.pomace-shm",
            "house.pomace-wal"
        ]
    );

    save(&store, &change(&made, "Ebb", "2")).await;
    let copy = Store::open(&Place::file(&target)).await.unwrap();
    assert_eq!(copy.texts().await.unwrap()[0].text, "1");
    assert_eq!(
        copy.rows(&pomace_store::RowsWanted::default())
            .await
            .unwrap()
            .len(),
        1
    );
    sound(&copy).await;
    // It goes on by itself, and its revisions stand too.
    save(&copy, &change(&made, "Ebb", "other")).await;
    assert_eq!(store.texts().await.unwrap()[0].text, "2");
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn backups_are_made_while_others_write() {
    let ground = Ground::file();
    let store = ground.store().await;
    let both = |text: u64, based_on| {
        [1, 2].map(|number| pomace_store::Change {
            based_on,
            ..new(&id(number), "Both", &text.to_string())
        })
    };
    store.save_all(&Token::new(), &both(0, None)).await.unwrap();
    let writer = tokio::spawn({
        let store = store.clone();
        async move {
            let mut number = 0;
            loop {
                number += 1;
                store
                    .save_all(&Token::new(), &both(number, Some(number)))
                    .await
                    .unwrap();
            }
        }
    });
    let mut sequences = Vec::new();
    for number in 0..6 {
        let target = ground
            .folder
            .as_ref()
            .unwrap()
            .path()
            .join(format!("{number}"));
        let backup = store.backup(&target).await.unwrap();
        let copy = Store::open(&Place::file(&target)).await.unwrap();
        let texts = copy.texts().await.unwrap();
        assert_eq!(texts[0].text, texts[1].text);
        let last = copy.document(&texts[1].document).await.unwrap().unwrap();
        assert_eq!(last.stamp.sequence, backup.sequence);
        sound(&copy).await;
        sequences.push(backup.sequence);
    }
    writer.abort();
    assert!(
        sequences.is_sorted() && sequences[0] < sequences[5],
        "{sequences:?}"
    );
}

#[tokio::test]
async fn a_backup_overwrites_nothing() {
    let ground = Ground::file();
    let store = ground.store().await;
    save(&store, &new(&id(1), "Ebb", "1")).await;
    let folder = ground.folder.as_ref().unwrap().path();
    let target = folder.join("kept");
    fs::write(&target, "").unwrap();
    for content in ["", "something"] {
        fs::write(&target, content).unwrap();
        let refused = store.backup(&target).await.unwrap_err();
        assert!(matches!(refused, Error::TargetExists { .. }), "{refused:?}");
        assert_eq!(fs::read_to_string(&target).unwrap(), content);
    }
    for there in [folder, &folder.join("house.pomace")] {
        let refused = store.backup(there).await.unwrap_err();
        assert!(matches!(refused, Error::TargetExists { .. }), "{refused:?}");
    }
    let refused = store
        .backup(&folder.join("no/such/folder"))
        .await
        .unwrap_err();
    assert!(matches!(refused, Error::NoFolder { .. }), "{refused:?}");
    sound(&store).await;
    assert_eq!(
        files(folder),
        [
            "house.pomace",
            "house.pomace-shm",
            "house.pomace-wal",
            "kept"
        ]
    );
}

#[tokio::test]
async fn a_copy_that_is_not_sound_is_thrown_away() {
    let ground = Ground::file();
    let store = ground.store().await;
    save(&store, &new(&id(1), "Ebb", "1")).await;
    let mut stranger = ground.stranger().await;
    crate::ground::run(
        &mut stranger,
        "DROP TRIGGER revisions_update; UPDATE revisions SET text = 'forged'",
    )
    .await
    .unwrap();
    let folder = ground.folder.as_ref().unwrap().path();
    let refused = store.backup(&folder.join("copy")).await.unwrap_err();
    let words = "document 0000000000000001: a text is not the text that was saved";
    assert!(
        matches!(&refused, Error::BadCopy { problem, .. } if problem == words),
        "{refused:?}"
    );
    assert_eq!(
        files(folder),
        ["house.pomace", "house.pomace-shm", "house.pomace-wal"]
    );
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_server_has_its_own_tools() {
    let ground = Ground::server().await;
    let store = ground.store().await;
    let refused = store.backup(Path::new("/tmp/never")).await.unwrap_err();
    assert!(matches!(refused, Error::ServerBackup { .. }), "{refused:?}");
    assert!(refused.mend().contains("pg_dump"));
    assert!(!Path::new("/tmp/never").exists());
}

fn files(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    let mut names: Vec<String> = entries
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}
