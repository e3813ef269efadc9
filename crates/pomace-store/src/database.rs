//! What the databases say when they refuse, in the words of [`Error`].

use std::fs::OpenOptions;
use std::io;
use std::path::Path;

use crate::error::Error;
use crate::place::{Kind, Place};

/// Results of the database, told with the place they are about.
pub(crate) trait At<T> {
    /// The same result, with our error.
    fn at(self, place: &Place) -> Result<T, Error>;
}

impl<T> At<T> for Result<T, sqlx::Error> {
    fn at(self, place: &Place) -> Result<T, Error> {
        self.map_err(|error| told(place, &error))
    }
}

/// What a database said about a place.
pub(crate) fn told(place: &Place, error: &sqlx::Error) -> Error {
    let mut detail = match error {
        sqlx::Error::Database(error) => error.message().to_owned(),
        // These two carry the cause of which they are made.
        sqlx::Error::Io(cause) => cause.to_string(),
        sqlx::Error::Tls(cause) => cause.to_string(),
        error => error.to_string(),
    };
    for secret in place.secrets() {
        detail = detail.replace(&secret, "…");
    }
    let place_shown = place.to_string();
    let variant = match error {
        sqlx::Error::Database(error) => {
            let code = error.code().unwrap_or_default();
            match &place.0 {
                Kind::Server(_) => by_sqlstate(&code),
                Kind::File(path) => by_result_code(&code, path),
            }
        }
        sqlx::Error::Io(cause) => by_io(cause),
        sqlx::Error::Tls(_) => Variant::NotEncrypted,
        sqlx::Error::PoolTimedOut if place.is_server() => Variant::Unreachable,
        sqlx::Error::PoolTimedOut => Variant::Locked,
        sqlx::Error::Protocol(_) if place.is_server() => Variant::Unreachable,
        _ => Variant::Refused,
    };
    variant.with(place_shown, detail)
}

/// What a file operation of ours said about a path.
pub(crate) fn told_of_file(path: &str, error: &io::Error) -> Error {
    let variant = match error.kind() {
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => Variant::DiskFull,
        io::ErrorKind::FileTooLarge => Variant::DiskFull,
        io::ErrorKind::PermissionDenied => Variant::NoPermission,
        io::ErrorKind::ReadOnlyFilesystem => Variant::ReadOnly,
        io::ErrorKind::AlreadyExists => {
            return Error::TargetExists {
                target: path.to_owned(),
            };
        }
        io::ErrorKind::NotFound => {
            return Error::NoFolder {
                place: path.to_owned(),
            };
        }
        _ => Variant::DiskFailed,
    };
    variant.with(path.to_owned(), error.to_string())
}

/// The variants that carry nothing but the place and what was said.
#[derive(Clone, Copy)]
enum Variant {
    DiskFull,
    ReadOnly,
    NoPermission,
    Locked,
    WrongPassword,
    NoDatabase,
    Unreachable,
    TooBusy,
    NotEncrypted,
    NotABook,
    Damaged,
    DiskFailed,
    Refused,
}

impl Variant {
    fn with(self, place: String, detail: String) -> Error {
        match self {
            Self::DiskFull => Error::DiskFull { place, detail },
            Self::ReadOnly => Error::ReadOnly { place, detail },
            Self::NoPermission => Error::NoPermission { place, detail },
            Self::Locked => Error::Locked { place, detail },
            Self::WrongPassword => Error::WrongPassword { place, detail },
            Self::NoDatabase => Error::NoDatabase { place, detail },
            Self::Unreachable => Error::Unreachable { place, detail },
            Self::TooBusy => Error::TooBusy { place, detail },
            Self::NotEncrypted => Error::NotEncrypted { place, detail },
            Self::NotABook => Error::NotABook {
                place,
                problem: "it is no SQLite file".to_owned(),
            },
            Self::Damaged => Error::Damaged { place, detail },
            Self::DiskFailed => Error::DiskFailed { place, detail },
            Self::Refused => Error::Refused { place, detail },
        }
    }
}

/// SQLite's result codes: the low byte is the kind, the rest says more
/// (<https://www.sqlite.org/rescode.html>).
fn by_result_code(code: &str, path: &Path) -> Variant {
    /// The `-shm` file could not grow: all of it is space.
    const IOERR_SHMSIZE: u32 = 10 | (19 << 8);
    let code = code.parse::<u32>().unwrap_or_default();
    match (code & 0xff, code) {
        (13, _) | (_, IOERR_SHMSIZE) => Variant::DiskFull,
        (8, _) => Variant::ReadOnly,
        (14, _) => why_it_does_not_open(path),
        (3 | 23, _) => Variant::NoPermission,
        (5 | 6 | 15, _) => Variant::Locked,
        (11, _) => Variant::Damaged,
        (26, _) => Variant::NotABook,
        (10, _) => Variant::DiskFailed,
        _ => Variant::Refused,
    }
}

/// SQLite cannot open the file, or one beside it, and does not tell why. That the file and its
/// folder are there was seen before.
fn why_it_does_not_open(path: &Path) -> Variant {
    match OpenOptions::new().write(true).open(path) {
        Err(error) if error.kind() == io::ErrorKind::ReadOnlyFilesystem => Variant::ReadOnly,
        _ => Variant::NoPermission,
    }
}

/// PostgreSQL's codes (<https://www.postgresql.org/docs/15/errcodes-appendix.html>).
fn by_sqlstate(code: &str) -> Variant {
    match code {
        "53100" => Variant::DiskFull,
        "25006" => Variant::ReadOnly,
        "42501" => Variant::NoPermission,
        // Lock not to be had, deadlock, two transactions that cannot both be.
        "55P03" | "40P01" | "40001" => Variant::Locked,
        "28P01" | "28000" => Variant::WrongPassword,
        "3D000" => Variant::NoDatabase,
        "53300" => Variant::TooBusy,
        "58030" => Variant::DiskFailed,
        "XX001" | "XX002" => Variant::Damaged,
        // The server is stopping or starting, or the connection broke.
        "57P01" | "57P02" | "57P03" | "25P03" => Variant::Unreachable,
        code if code.starts_with("08") => Variant::Unreachable,
        _ => Variant::Refused,
    }
}

fn by_io(cause: &io::Error) -> Variant {
    match cause.kind() {
        io::ErrorKind::StorageFull => Variant::DiskFull,
        io::ErrorKind::PermissionDenied => Variant::NoPermission,
        // A certificate that nobody vouches for, or no encryption at all where it was promised.
        io::ErrorKind::InvalidData => Variant::NotEncrypted,
        _ => Variant::Unreachable,
    }
}
