//! Connections, and the settings without which an answered save could be lost.

use std::path::Path;
use std::str::FromStr as _;
use std::time::Duration;

use sqlx::AnyConnection;
use sqlx::any::AnyConnectOptions;

use crate::database::At as _;
use crate::error::Error;
use crate::place::{Kind, Place};

/// How long a connection may take; a server that drops packets never refuses.
pub(crate) const CONNECTING: Duration = Duration::from_secs(10);

/// What a connection to a file may do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Access {
    Read,
    Write,
    Create,
}

/// How to connect to a place. Of a file it is seen first whether it and its folder are there.
pub(crate) fn options(place: &Place, access: Access) -> Result<AnyConnectOptions, Error> {
    sqlx::any::install_default_drivers();
    let address = match &place.0 {
        Kind::Server(url) => url.as_str().to_owned(),
        Kind::File(path) => file_address(place, path, access)?,
    };
    AnyConnectOptions::from_str(&address).at(place)
}

fn file_address(place: &Place, path: &Path, access: Access) -> Result<String, Error> {
    let bad = |problem: &str| Error::BadPlace {
        problem: problem.to_owned(),
    };
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let name = path.file_name().ok_or_else(|| bad("it names no file"))?;
    // Without its dots, since an address would take them for steps up.
    let folder = folder.canonicalize().map_err(|_| Error::NoFolder {
        place: place.to_string(),
    })?;
    let whole = folder.join(name);
    if whole.is_dir() {
        return Err(Error::NotABook {
            place: place.to_string(),
            problem: "it is a folder".to_owned(),
        });
    }
    if access != Access::Create && !whole.exists() {
        return Err(Error::NotFound {
            place: place.to_string(),
        });
    }
    let text = whole
        .to_str()
        .ok_or_else(|| bad("its path is no UTF-8 text"))?;
    let mut address = "sqlite://".to_owned();
    for byte in text.bytes() {
        if byte.is_ascii_alphanumeric() || b"/._-".contains(&byte) {
            address.push(char::from(byte));
        } else {
            address.push_str(&format!("%{byte:02X}"));
        }
    }
    address.push_str(match access {
        Access::Read => "?mode=ro",
        Access::Write => "?mode=rw",
        Access::Create => "?mode=rwc",
    });
    Ok(address)
}

/// One connection, with the first refusal as the answer: a pool would try until its time is over,
/// and then know no cause.
pub(crate) async fn connect(place: &Place, access: Access) -> Result<AnyConnection, Error> {
    let options = options(place, access)?;
    match tokio::time::timeout(CONNECTING, sqlx::ConnectOptions::connect(&options)).await {
        Ok(connection) => connection.at(place),
        Err(_) => Err(Error::Unreachable {
            place: place.to_string(),
            detail: format!("no answer in {} s", CONNECTING.as_secs()),
        }),
    }
}

/// Sets a connection up for writing, and refuses it where an answered save could be lost.
pub(crate) async fn make_durable(
    connection: &mut AnyConnection,
    place: &Place,
) -> Result<(), Error> {
    let settings: &[(&str, &str, &str)] = if place.is_server() {
        for sql in SERVER_SETTINGS {
            sqlx::raw_sql(sql)
                .execute(&mut *connection)
                .await
                .at(place)?;
        }
        &SERVER_DEMANDS
    } else {
        for sql in FILE_SETTINGS {
            sqlx::raw_sql(sql)
                .execute(&mut *connection)
                .await
                .at(place)?;
        }
        &FILE_DEMANDS
    };
    for (setting, sql, wanted) in settings {
        let found: String = sqlx::query_scalar(sqlx::AssertSqlSafe(*sql))
            .fetch_one(&mut *connection)
            .await
            .at(place)?;
        if found != *wanted {
            return Err(Error::NotDurable {
                place: place.to_string(),
                setting: (*setting).to_owned(),
                found,
            });
        }
    }
    Ok(())
}

/// The journal survives in the file; the others are of the connection. `fullfsync` matters on
/// macOS only, where a plain `fsync` does not empty the disk's own memory.
const FILE_SETTINGS: [&str; 5] = [
    "PRAGMA journal_mode = WAL",
    "PRAGMA synchronous = FULL",
    "PRAGMA fullfsync = ON",
    "PRAGMA checkpoint_fullfsync = ON",
    "PRAGMA foreign_keys = ON",
];

/// Name, question and the one good answer.
const FILE_DEMANDS: [(&str, &str, &str); 3] = [
    (
        "journal_mode",
        "SELECT journal_mode FROM pragma_journal_mode",
        "wal",
    ),
    (
        "synchronous",
        "SELECT CAST(synchronous AS TEXT) FROM pragma_synchronous",
        // FULL.
        "2",
    ),
    (
        "foreign_keys",
        "SELECT CAST(foreign_keys AS TEXT) FROM pragma_foreign_keys",
        "1",
    ),
];

/// A lock that is not to be had ends as an error, and a client that was cut off while it wrote
/// does not keep the others waiting for hours.
const SERVER_SETTINGS: [&str; 3] = [
    "SELECT set_config('synchronous_commit', 'on', false)
     WHERE current_setting('synchronous_commit') = 'off'",
    "SET lock_timeout = '10s'",
    "SET idle_in_transaction_session_timeout = '30s'",
];

const SERVER_DEMANDS: [(&str, &str, &str); 3] = [
    (
        "synchronous_commit",
        "SELECT CASE current_setting('synchronous_commit') WHEN 'off' THEN 'off' ELSE 'on' END",
        "on",
    ),
    ("fsync", "SELECT current_setting('fsync')", "on"),
    (
        "full_page_writes",
        "SELECT current_setting('full_page_writes')",
        "on",
    ),
];
