//! An answer comes after the disk: by the system calls, on a full disk, and on one that is read only.

use std::fs;
use std::os::unix::process::CommandExt as _;
use std::path::{Path, PathBuf};
use std::process::Command;

use pomace_store::{Change, Error, Place, Store, Token};

use crate::ground::{Ground, change, id, new, save, sound};
use crate::saver::{Said, saver};
use crate::server::{NOBODY, is_root};

/// Traces the saver and reads what it did in order: since the last write to the journal there was
/// a sync of it before each answer on standard output.
#[test]
fn the_journal_is_synced_before_the_answer_is_written() {
    let strace = Command::new("strace").arg("-V").output();
    assert!(strace.is_ok(), "strace is missing: apt-get install strace");
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("house.pomace");
    let trace = folder.path().join("trace");
    let saver = saver(&path, 200);
    let traced = Command::new("strace")
        .args([
            "-f",
            "-y",
            "-e",
            "trace=write,pwrite64,writev,fsync,fdatasync",
            "-o",
        ])
        .arg(&trace)
        .arg(saver.get_program())
        .args(saver.get_args())
        .output()
        .unwrap();
    assert!(
        traced.status.success(),
        "{}",
        String::from_utf8_lossy(&traced.stderr)
    );

    let mut said = Said::default();
    said.listen(&String::from_utf8(traced.stdout).unwrap());
    assert_eq!(said.saves, 200);
    let order = Order::read(&fs::read_to_string(&trace).unwrap());
    println!("{order:?}");
    assert_eq!(order.answers as usize, 200 + said.rows.len());
    assert!(order.journal_writes >= order.answers);
    assert_eq!(order.answers_before_sync, 0);
    assert_eq!(order.answers_without_writes, 0);

    // The reader of the trace is not blind: without the syncs it says so.
    let without: String = fs::read_to_string(&trace)
        .unwrap()
        .lines()
        .filter(|line| !line.contains("sync("))
        .fold(String::new(), |text, line| text + line + "\n");
    assert_eq!(Order::read(&without).answers_before_sync, order.answers);
}

#[derive(Debug, Default)]
struct Order {
    journal_writes: u64,
    journal_syncs: u64,
    answers: u64,
    /// Answers while the journal held something that was not on disk.
    answers_before_sync: u64,
    /// Answers after which nothing new had gone to the journal: then the trace shows nothing.
    answers_without_writes: u64,
}

impl Order {
    /// Lines such as `12 pwrite64(9</tmp/x/house.pomace-wal>, "…", 4096, 8192) = 4096`. A call of
    /// one thread that is interrupted by another's has two lines; it counts as a write where it
    /// begins, and as a sync where it ends.
    fn read(trace: &str) -> Self {
        let mut order = Self::default();
        let mut unsynced = false;
        let mut written_since = false;
        let mut syncing: Vec<&str> = Vec::new();
        for line in trace.lines() {
            let thread = line.split(' ').next().unwrap();
            let about_journal = line.contains("house.pomace-wal>");
            let is_sync = line.contains("fsync(") || line.contains("fdatasync(");
            let resumed = line.contains("sync resumed>") && syncing.contains(&thread);
            if is_sync && about_journal && line.contains("<unfinished") {
                syncing.push(thread);
            } else if is_sync && about_journal || resumed {
                assert!(line.contains("= 0"), "a sync failed: {line}");
                syncing.retain(|other| *other != thread);
                order.journal_syncs += 1;
                unsynced = false;
            } else if about_journal && line.contains("write") {
                order.journal_writes += 1;
                unsynced = true;
                written_since = true;
            } else if line.contains("write(1<")
                && (line.contains("\"saved ") || line.contains("\"added "))
            {
                order.answers += 1;
                order.answers_before_sync += u64::from(unsynced);
                order.answers_without_writes += u64::from(!written_since);
                written_since = false;
            }
        }
        order
    }
}

/// A folder on a disk of one megabyte, taken away at the end.
struct SmallDisk(PathBuf);

impl SmallDisk {
    fn new(folder: &Path) -> Self {
        let disk = Self(folder.to_owned());
        disk.mount(&["-t", "tmpfs", "-o", "size=1m,mode=0777", "tmpfs"]);
        disk
    }

    fn mount(&self, how: &[&str]) {
        let done = as_root("mount").args(how).arg(&self.0).output().unwrap();
        let words = String::from_utf8_lossy(&done.stderr);
        assert!(
            done.status.success(),
            "only root may mount a small disk: {words}"
        );
    }
}

impl Drop for SmallDisk {
    fn drop(&mut self) {
        // `-l`: also while a file on it is still open, as after a panic.
        let _ = as_root("umount").arg("-l").arg(&self.0).status();
    }
}

fn as_root(program: &str) -> Command {
    let mut command = Command::new(if is_root() { program } else { "sudo" });
    if !is_root() {
        command.args(["--non-interactive", program]);
    }
    command
}

#[tokio::test]
async fn a_full_disk_is_told_and_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let disk = SmallDisk::new(folder.path());
    let place = Place::file(folder.path().join("house.pomace"));
    let store = Store::open_or_create(&place).await.unwrap();
    let mut stamp = save(&store, &new(&id(1), "Ebb", "0")).await;
    let (refused, token, last) = loop {
        let next = change(
            &stamp,
            "Ebb",
            &format!("{} {}", stamp.revision, "text ".repeat(2_000)),
        );
        let token = Token::new();
        match store.save(&token, &next).await {
            Ok(outcome) => stamp = crate::ground::saved(outcome).remove(0),
            Err(error) => break (error, token, next),
        }
        assert!(stamp.revision < 1_000, "the disk does not fill");
    };
    assert!(matches!(refused, Error::DiskFull { .. }), "{refused:?}");
    assert!(refused.mend().contains("free some space"));
    println!("full after {} revisions: {refused}", stamp.revision);
    // All that was answered is there, and can be read while the disk is full.
    assert_eq!(store.document(&id(1)).await.unwrap().unwrap().stamp, stamp);
    sound(&store).await;
    let refused = store.backup(&folder.path().join("copy")).await.unwrap_err();
    assert!(matches!(refused, Error::DiskFull { .. }), "{refused:?}");
    store.close().await;
    let store = Store::open(&place).await.unwrap();
    sound(&store).await;

    // With more space the same save goes well.
    disk.mount(&["-o", "remount,size=8m"]);
    let saved = crate::ground::saved(store.save(&token, &last).await.unwrap());
    assert_eq!(saved[0].revision, stamp.revision + 1);
    sound(&store).await;
    store.close().await;

    // And a disk that came up read only, as a failing one does.
    disk.mount(&["-o", "remount,ro"]);
    let refused = Store::open(&place).await.unwrap_err();
    assert!(matches!(refused, Error::ReadOnly { .. }), "{refused:?}");
    disk.mount(&["-o", "remount,rw"]);
    let store = Store::open(&place).await.unwrap();
    assert_eq!(
        store.document(&id(1)).await.unwrap().unwrap().stamp,
        saved[0]
    );
    store.close().await;
}

/// The file may not grow past a limit of the process: what a quota does.
#[test]
fn a_quota_is_told_and_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("house.pomace");
    let saver = saver(&path, 0);
    // The signal of the limit is ignored, as a server does, so that the write itself fails.
    let limited = Command::new("sh")
        .args(["-c", "trap '' XFSZ; ulimit -f 2000; exec \"$@\"", "sh"])
        .arg(saver.get_program())
        .args(saver.get_args())
        .output()
        .unwrap();
    let words = String::from_utf8(limited.stderr).unwrap();
    assert_eq!(limited.status.code(), Some(1), "{words}");
    println!("{words}");
    assert!(words.contains("mend: "), "{words}");
    let mut said = Said::default();
    said.listen(&String::from_utf8(limited.stdout).unwrap());
    assert!(said.saves > 10);
    let runtime = tokio::runtime::Runtime::new().unwrap();
    runtime.block_on(async {
        let store = Store::open(&Place::file(&path)).await.unwrap();
        said.is_all_in(&store).await;
    });
}

/// Root may write to everything, so somebody else has to try.
#[test]
fn a_file_or_folder_that_may_not_be_written() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("house.pomace");
    // Where nobody may run it.
    let program = folder.path().join("saver");
    fs::copy(env!("CARGO_BIN_EXE_pomace-store-saver"), &program).unwrap();
    let own = |mode: u32, folder_mode: u32| {
        use std::os::unix::fs::PermissionsExt as _;
        fs::set_permissions(folder.path(), fs::Permissions::from_mode(folder_mode)).unwrap();
        for name in ["house.pomace", "house.pomace-wal", "house.pomace-shm"] {
            let path = folder.path().join(name);
            if path.exists() {
                fs::set_permissions(&path, fs::Permissions::from_mode(mode)).unwrap();
            }
        }
    };
    let run = |path: &Path| {
        let mut command = Command::new(&program);
        if is_root() {
            command.uid(NOBODY).gid(NOBODY);
        }
        let output = command
            .arg(path)
            .arg("3")
            .current_dir(folder.path())
            .output()
            .unwrap();
        (
            output.status.code(),
            String::from_utf8(output.stdout).unwrap(),
            String::from_utf8(output.stderr).unwrap(),
        )
    };
    // A folder in which no file can be made.
    own(0o644, 0o555);
    let (code, said, words) = run(&path);
    assert_eq!((code, said.as_str()), (Some(1), ""), "{words}");
    assert!(
        words.contains("no permission") && words.contains("mend: have whoever owns"),
        "{words}"
    );

    own(0o644, 0o755);
    let runtime = tokio::runtime::Runtime::new().unwrap();
    let made = runtime.block_on(async {
        let store = Store::open_or_create(&Place::file(&path)).await.unwrap();
        let made = save(&store, &new(&id(77), "Ebb", "1")).await;
        store.close().await;
        made
    });
    for (mode, folder_mode, words_wanted) in [
        // Read only, in a folder that may be written and in one that may not.
        (0o444, 0o777, "can be read but not written"),
        (0o444, 0o555, "can be read but not written"),
        // Not even read.
        (0o000, 0o777, "no permission"),
    ] {
        own(mode, folder_mode);
        let (code, said, words) = run(&path);
        assert_eq!(code, Some(1), "{said}{words}");
        assert!(!said.contains("saved"), "{said}");
        assert!(
            words.contains(words_wanted),
            "{mode:o} in {folder_mode:o}: {words}"
        );
        assert!(words.contains("mend: "), "{words}");
    }
    own(0o644, 0o755);
    runtime.block_on(async {
        let store = Store::open(&Place::file(&path)).await.unwrap();
        sound(&store).await;
        assert_eq!(store.document(&id(77)).await.unwrap().unwrap().stamp, made);
    });
}

/// A book whose file is changed to be less safe by another program is made safe again, or refused.
#[tokio::test]
async fn every_connection_is_durable() {
    let ground = Ground::file();
    let store = ground.store().await;
    save(&store, &new(&id(1), "Ebb", "1")).await;
    store.close().await;
    let mut stranger = ground.stranger().await;
    crate::ground::run(&mut stranger, "PRAGMA journal_mode = DELETE")
        .await
        .unwrap();
    let store = Store::open(&ground.place).await.unwrap();
    let mut stranger = ground.stranger().await;
    let mode: String = sqlx::query_scalar("PRAGMA journal_mode")
        .fetch_one(&mut stranger)
        .await
        .unwrap();
    assert_eq!(mode, "wal");
    save(
        &store,
        &Change {
            based_on: Some(1),
            ..new(&id(1), "Ebb", "2")
        },
    )
    .await;
    store.close().await;
    drop(stranger);

    // Held in the old way by somebody who reads, it cannot be made safe.
    let mut stranger = ground.stranger().await;
    crate::ground::run(&mut stranger, "PRAGMA journal_mode = DELETE")
        .await
        .unwrap();
    crate::ground::run(&mut stranger, "BEGIN").await.unwrap();
    crate::ground::run(&mut stranger, "SELECT * FROM book")
        .await
        .unwrap();
    let refused = Store::open(&ground.place).await.unwrap_err();
    assert!(
        matches!(refused, Error::Locked { .. } | Error::NotDurable { .. }),
        "{refused:?}"
    );
}
