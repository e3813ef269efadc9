//! A copy of the book, made while it is in use.

use std::fs::{self, File, OpenOptions};
use std::path::{Path, PathBuf};

use sqlx::Connection as _;

use crate::check;
use crate::database::{At as _, told_of_file};
use crate::error::Error;
use crate::id::Token;
use crate::migrate;
use crate::place::Place;
use crate::store::{Store, number};

/// A copy that was made and found sound.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Backup {
    /// The last place in the sequence that is in it.
    pub sequence: u64,
    /// Size of the file, bytes.
    pub bytes: u64,
}

impl Store {
    /// Copies the book into a new file, while others read and write, and looks through the copy
    /// before it answers. The copy is a book of its own: [`Store::open`] opens it.
    ///
    /// The name of the target is taken first, by an empty file; the copy grows beside it, and takes
    /// its place when it is whole, sound and on disk. What ends in between leaves the empty file,
    /// never half a book under the name of a whole one.
    ///
    /// # Errors
    /// [`Error::TargetExists`], whatever it is; [`Error::ServerBackup`] for a place on a server;
    /// [`Error::BadCopy`]; and what keeps the target from being written. The copy is taken away then.
    pub async fn backup(&self, target: &Path) -> Result<Backup, Error> {
        if self.place().is_server() {
            return Err(Error::ServerBackup {
                place: self.place().to_string(),
            });
        }
        let target = target.to_owned();
        let name = target.clone();
        on_disk(&target, move || {
            OpenOptions::new().write(true).create_new(true).open(name)
        })
        .await?;
        let growing = beside(&target);
        let made = self.copy_into(&growing, &target).await;
        if made.is_err() {
            // Best effort: what kept the copy from being made may keep it from being taken away.
            let _ = fs::remove_file(&growing);
            let _ = fs::remove_file(&target);
        }
        made
    }

    async fn copy_into(&self, growing: &Path, target: &Path) -> Result<Backup, Error> {
        let copy = Place::file(growing);
        let path = growing.to_str().ok_or_else(|| Error::BadPlace {
            problem: "its path is no UTF-8 text".to_owned(),
        })?;
        let mut connection = self.connection().await?;
        sqlx::query("VACUUM INTO $1")
            .bind(path)
            .execute(&mut *connection)
            .await
            // What goes wrong here is about the target; the book is only read.
            .at(&Place::file(target))?;
        drop(connection);

        let sequence = self.look_through(&copy).await?;
        let (from, to) = (growing.to_owned(), target.to_owned());
        let bytes = on_disk(target, move || {
            let file = File::open(&from)?;
            file.sync_all()?;
            let bytes = file.metadata()?.len();
            drop(file);
            fs::rename(&from, &to)?;
            keep_name(&to)?;
            Ok(bytes)
        })
        .await?;
        Ok(Backup { sequence, bytes })
    }

    async fn look_through(&self, copy: &Place) -> Result<u64, Error> {
        let bad = |problem: String| Error::BadCopy {
            place: self.place().to_string(),
            problem,
        };
        let (mut connection, _) = migrate::look_at_copy(copy).await?;
        let faults = check::faults(&mut connection, copy).await?;
        let sequence: i64 = sqlx::query_scalar("SELECT sequence FROM book WHERE one = 1")
            .fetch_one(&mut connection)
            .await
            .at(copy)?;
        connection.close().await.at(copy)?;
        match faults.first() {
            None => Ok(number(sequence)),
            Some(fault) => Err(bad(format!("{}: {}", fault.about, fault.problem))),
        }
    }
}

/// A name beside the target that nobody else has.
fn beside(target: &Path) -> PathBuf {
    let mut name = target.file_name().unwrap_or_default().to_owned();
    name.push(format!(".{}.partial", Token::new().as_str()));
    target.with_file_name(name)
}

/// A file's name is in its folder, which goes to disk by itself.
fn keep_name(path: &Path) -> std::io::Result<()> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    if cfg!(unix) {
        File::open(folder)?.sync_all()?;
    }
    Ok(())
}

/// Work on files, away from the tasks that must not wait.
async fn on_disk<T: Send + 'static>(
    target: &Path,
    work: impl FnOnce() -> std::io::Result<T> + Send + 'static,
) -> Result<T, Error> {
    let path = target.display().to_string();
    match tokio::task::spawn_blocking(work).await {
        Ok(result) => result.map_err(|error| told_of_file(&path, &error)),
        Err(stopped) => Err(Error::Refused {
            place: path,
            detail: stopped.to_string(),
        }),
    }
}
