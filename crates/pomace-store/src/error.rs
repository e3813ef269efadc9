//! What can go wrong, in words for the person at the bar, and how to mend it.

/// Why the store did not do what it was asked. Nothing was changed, unless the connection broke or
/// the disk failed while the answer was under way: then the same save may be sent again under its
/// token, and is done once.
///
/// `Display` says what is wrong and where; [`Error::mend`] how to mend it. `detail` is what the
/// database itself said, without passwords.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// A text that is no place.
    #[error("this is no place for a book: {problem}")]
    BadPlace {
        /// What is wrong; the place itself may hold a password.
        problem: String,
    },
    /// No file is there.
    #[error("`{place}`: there is no book")]
    NotFound {
        /// Where.
        place: String,
    },
    /// The folder for a new file is not there.
    #[error("`{place}`: its folder is not there")]
    NoFolder {
        /// Where.
        place: String,
    },
    /// Something else lies there.
    #[error("`{place}` is no pomace book: {problem}")]
    NotABook {
        /// Where.
        place: String,
        /// What it is instead.
        problem: String,
    },
    /// Written by a newer pomace.
    #[error(
        "`{place}` was written by a newer pomace: its form is {found}, this one knows up to {known}"
    )]
    Newer {
        /// Where.
        place: String,
        /// Number of its last migration.
        found: u64,
        /// Number of the last migration that is known here.
        known: u64,
    },
    /// A setting without which an answered save could be lost.
    #[error("`{place}`: {setting} is `{found}`, and a save could be lost when the power fails")]
    NotDurable {
        /// Where.
        place: String,
        /// Name of the setting.
        setting: String,
        /// What it is.
        found: String,
    },
    /// No space left.
    #[error("`{place}`: the disk is full ({detail})")]
    DiskFull {
        /// Where.
        place: String,
        /// What the database said.
        detail: String,
    },
    /// It cannot be written to.
    #[error("`{place}` can be read but not written ({detail})")]
    ReadOnly {
        /// Where.
        place: String,
        /// What the database said.
        detail: String,
    },
    /// The operating system or the server refuses.
    #[error("`{place}`: no permission ({detail})")]
    NoPermission {
        /// Where.
        place: String,
        /// What the database said.
        detail: String,
    },
    /// Somebody else holds it.
    #[error("`{place}` is locked by another program ({detail})")]
    Locked {
        /// Where.
        place: String,
        /// What the database said.
        detail: String,
    },
    /// The server knows no such user with this password.
    #[error("`{place}`: wrong user or password ({detail})")]
    WrongPassword {
        /// Where.
        place: String,
        /// What the database said.
        detail: String,
    },
    /// The server has no such database.
    #[error("`{place}`: the server has no such database ({detail})")]
    NoDatabase {
        /// Where.
        place: String,
        /// What the database said.
        detail: String,
    },
    /// No answer from the server.
    #[error("`{place}`: the server cannot be reached ({detail})")]
    Unreachable {
        /// Where.
        place: String,
        /// What was tried and failed.
        detail: String,
    },
    /// The server has too much to do.
    #[error("`{place}`: too many connections ({detail})")]
    TooBusy {
        /// Where.
        place: String,
        /// What the database said.
        detail: String,
    },
    /// No safe connection to the server.
    #[error("`{place}`: no encrypted connection ({detail})")]
    NotEncrypted {
        /// Where.
        place: String,
        /// What the database said.
        detail: String,
    },
    /// The file or the database is damaged.
    #[error("`{place}` is damaged ({detail})")]
    Damaged {
        /// Where.
        place: String,
        /// What the database said.
        detail: String,
    },
    /// The disk failed to read or write.
    #[error("`{place}`: the disk failed ({detail})")]
    DiskFailed {
        /// Where.
        place: String,
        /// What the database said.
        detail: String,
    },
    /// Anything else that the database said.
    #[error("`{place}`: the database refused ({detail})")]
    Refused {
        /// Where.
        place: String,
        /// What the database said.
        detail: String,
    },
    /// What cannot be, was: a fault of pomace itself.
    #[error("`{place}`: pomace itself is at fault ({detail})")]
    OurFault {
        /// Where.
        place: String,
        /// What cannot be.
        detail: String,
    },
    /// A text that is no id.
    #[error("`{given}` is no id of a document or row")]
    BadId {
        /// The text.
        given: String,
    },
    /// A text that is no token.
    #[error("this is no token of a save")]
    BadToken,
    /// A text that is no time.
    #[error("`{given}` is no time between 1970 and 2999")]
    BadTime {
        /// The text.
        given: String,
    },
    /// A text that cannot be kept.
    #[error("{what}: {problem}")]
    BadText {
        /// Which text.
        what: String,
        /// What is wrong with it.
        problem: String,
    },
    /// A change to a document that was never saved.
    #[error("no document has the id `{document}`")]
    NoDocument {
        /// The id.
        document: String,
    },
    /// A revision that the document does not have.
    #[error("document `{document}` has no revision {revision}")]
    NoRevision {
        /// The id.
        document: String,
        /// The number.
        revision: u64,
    },
    /// One document twice among the changes of one save.
    #[error("document `{document}` is changed twice in one save")]
    ChangedTwice {
        /// The id.
        document: String,
    },
    /// A token or a row's id that was used before, for something else.
    #[error("`{given}` was used before for another save")]
    UsedBefore {
        /// The token or the id.
        given: String,
    },
    /// A row corrects something that it cannot correct.
    #[error("row `{row}` cannot correct `{corrects}`: {problem}")]
    BadCorrection {
        /// The new row.
        row: String,
        /// What it names.
        corrects: String,
        /// Why not.
        problem: String,
    },
    /// The target of a backup is there already.
    #[error("`{target}` is there already, and a backup overwrites nothing")]
    TargetExists {
        /// The file.
        target: String,
    },
    /// A backup of a server's database.
    #[error("`{place}` is on a PostgreSQL server, which has its own tools for backups")]
    ServerBackup {
        /// Where.
        place: String,
    },
    /// A copy that is not sound.
    #[error("the copy of `{place}` is not sound and was thrown away: {problem}")]
    BadCopy {
        /// Where.
        place: String,
        /// The first fault.
        problem: String,
    },
}

impl Error {
    /// How to mend it, as one sentence without an end stop.
    #[must_use]
    pub fn mend(&self) -> &'static str {
        match self {
            Self::BadPlace { .. } => {
                "give a path such as `house.pomace`, or `postgres://user@host/database`"
            }
            Self::NotFound { .. } => "check the path, or start a new book there",
            Self::NoFolder { .. } => "make the folder first, or check the path",
            Self::NotABook { .. } => {
                "give the file or database of a book, or an empty one to start a book in"
            }
            Self::Newer { .. } => "install the newer pomace; this one leaves the book as it is",
            Self::NotDurable { .. } => {
                "put the setting back to its default, then open the book again"
            }
            Self::DiskFull { .. } => {
                "free some space and save again; what was saved before is safe"
            }
            Self::ReadOnly { .. } => {
                "make the file, its folder and its disk writable, or the server's database; what was saved before is safe"
            }
            Self::NoPermission { .. } => {
                "have whoever owns the file, its folder or the database give you the right to read and write it"
            }
            Self::Locked { .. } => {
                "wait a moment and try again; if it lasts, end the other program"
            }
            Self::WrongPassword { .. } => {
                "check user and password in the address, in `PGPASSWORD` or in `~/.pgpass`"
            }
            Self::NoDatabase { .. } => "check its name, or have it made with `createdb`",
            Self::Unreachable { .. } => {
                "check host and port, and that the server runs; then send the same save again"
            }
            Self::TooBusy { .. } => {
                "wait a moment and try again, or let the server take more connections"
            }
            Self::NotEncrypted { .. } => {
                "check the server's certificate, or what `sslmode` in the address asks for"
            }
            Self::Damaged { .. } => "keep the file as it is, and go on from the last backup",
            Self::DiskFailed { .. } => {
                "check the disk: its space, your quota, its cable; then save again; what was saved before is safe"
            }
            Self::Refused { .. } => {
                "nothing was changed; try again, and if it lasts, report these words"
            }
            Self::OurFault { .. } => {
                "look at the history of the document for what was saved, and report these words"
            }
            Self::BadId { .. } => {
                "an id has 16 signs, small letters and digits; take it from a list of documents"
            }
            Self::BadToken => "a token is 1 to 64 letters, digits, `-` or `_`",
            Self::BadTime { .. } => "write it as `2026-11-25T20:44:10Z`",
            Self::BadText { .. } => "mend the text and save again",
            Self::NoDocument { .. } => {
                "take the id from a list of documents, or save it as a new one"
            }
            Self::NoRevision { .. } => "take the number from the history of the document",
            Self::ChangedTwice { .. } => "join the two changes into one",
            Self::UsedBefore { .. } => "draw a new one for each new save",
            Self::BadCorrection { .. } => {
                "name a row of the same kind and document that was saved before"
            }
            Self::TargetExists { .. } => "name a file that is not there yet",
            Self::ServerBackup { .. } => "use `pg_dump` or the server's own backups",
            Self::BadCopy { .. } => "check the book itself, then try another disk",
        }
    }
}
