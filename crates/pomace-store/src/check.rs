//! Whether a book is sound: the database's own check, and what must be true of ours.

use sqlx::{AnyConnection, Connection as _};

use crate::database::At as _;
use crate::error::Error;
use crate::place::Place;
use crate::store::{Store, number, whole};
use crate::text;

/// Something that is not as it must be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// What it is about: a document, a row, the file.
    pub about: String,
    /// What is wrong.
    pub problem: String,
}

/// Texts looked at in one go; each has at most a megabyte.
const TEXTS_AT_ONCE: i64 = 32;

impl Store {
    /// Looks through all of the book and tells every fault; none if it is sound.
    ///
    /// Every document points to its last revision, the revisions are numbered without a gap, every
    /// text is the text that was saved (by its SHA-256), rows correct rows that are there, the
    /// triggers that keep others from changing what was written are there too, and the
    /// database itself finds nothing wrong (SQLite: `integrity_check` and `foreign_key_check`; a
    /// PostgreSQL server watches over its own pages).
    ///
    /// # Errors
    /// Whatever keeps the database from answering; damage that it meets is a fault, not an error.
    pub async fn check(&self) -> Result<Vec<Fault>, Error> {
        let mut connection = self.connection().await?;
        let faults = faults(&mut connection, self.place()).await;
        if faults.is_err() {
            // Nobody knows what state it is in.
            connection.close_on_drop();
        }
        faults
    }
}

/// All faults, as of one moment.
pub(crate) async fn faults(
    connection: &mut AnyConnection,
    place: &Place,
) -> Result<Vec<Fault>, Error> {
    let mut faults = Vec::new();
    let looked = look(connection, place, &mut faults).await;
    match looked {
        Err(Error::Damaged { detail, .. }) => faults.push(Fault {
            about: "the database".to_owned(),
            problem: detail,
        }),
        looked => looked?,
    }
    Ok(faults)
}

async fn look(
    connection: &mut AnyConnection,
    place: &Place,
    faults: &mut Vec<Fault>,
) -> Result<(), Error> {
    let sql = if place.is_server() {
        "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY"
    } else {
        "BEGIN"
    };
    let mut transaction = connection.begin_with(sql).await.at(place)?;
    if !place.is_server() {
        look_at_file(&mut transaction, place, faults).await?;
    }
    for (problem, sql) in RULES {
        let broken: Vec<(String,)> = sqlx::query_as(*sql)
            .fetch_all(&mut *transaction)
            .await
            .at(place)?;
        faults.extend(broken.into_iter().map(|(about,)| Fault {
            about,
            problem: (*problem).to_owned(),
        }));
    }
    for sql in HASHED {
        look_at_texts(&mut transaction, place, sql, faults).await?;
    }
    look_at_guards(&mut transaction, place, faults).await?;
    transaction.rollback().await.at(place)
}

/// What SQLite itself finds.
async fn look_at_file(
    connection: &mut AnyConnection,
    place: &Place,
    faults: &mut Vec<Fault>,
) -> Result<(), Error> {
    let said: Vec<(String,)> = sqlx::query_as("SELECT integrity_check FROM pragma_integrity_check")
        .fetch_all(&mut *connection)
        .await
        .at(place)?;
    let bad = said.into_iter().filter(|(said,)| said != "ok");
    faults.extend(bad.map(|(problem,)| Fault {
        about: "the database".to_owned(),
        problem,
    }));
    let loose: Vec<(String, i64)> =
        sqlx::query_as("SELECT \"table\", COUNT(*) FROM pragma_foreign_key_check GROUP BY 1")
            .fetch_all(&mut *connection)
            .await
            .at(place)?;
    faults.extend(loose.into_iter().map(|(table, count)| Fault {
        about: format!("table {table}"),
        problem: format!("{count} rows lead to nothing"),
    }));
    Ok(())
}

/// What must be true, and a question that finds where it is not.
const RULES: &[(&str, &str)] = &[
    (
        "it does not point to its last revision",
        "SELECT 'document ' || d.document FROM documents d WHERE NOT EXISTS (
            SELECT 1 FROM revisions r WHERE r.document = d.document AND r.revision = d.revision
                AND r.sequence = d.sequence AND r.removes = d.removed
                AND r.revision = (SELECT MAX(revision) FROM revisions WHERE document = d.document))
         ORDER BY 1",
    ),
    (
        "it has revisions and is in no list",
        "SELECT DISTINCT 'document ' || document FROM revisions
         WHERE document NOT IN (SELECT document FROM documents) ORDER BY 1",
    ),
    (
        "its revisions are not numbered from 1 without a gap",
        "SELECT 'document ' || document FROM revisions GROUP BY document
         HAVING MIN(revision) <> 1 OR MAX(revision) <> COUNT(*) ORDER BY 1",
    ),
    (
        "it has no name in the index, or is removed and has one",
        "SELECT 'document ' || document FROM documents WHERE removed = CASE WHEN EXISTS (
            SELECT 1 FROM names WHERE names.document = documents.document) THEN 1 ELSE 0 END
         ORDER BY 1",
    ),
    (
        "it corrects a row of another kind",
        "SELECT 'row ' || c.id FROM book_rows c JOIN book_rows r ON r.id = c.corrects
         WHERE r.kind <> c.kind OR r.sequence >= c.sequence ORDER BY 1",
    ),
    (
        "its place in the sequence is taken twice, or not given out yet",
        "SELECT 'row ' || id FROM book_rows
         WHERE sequence IN (SELECT sequence FROM revisions) OR sequence > (SELECT sequence FROM book)
         UNION ALL
         SELECT 'document ' || document FROM revisions
         WHERE sequence > (SELECT sequence FROM book) ORDER BY 1",
    ),
];

/// Texts with their SHA-256, after a place in the sequence.
const HASHED: [&str; 2] = [
    "SELECT sequence, 'document ' || document, text, sha256 FROM revisions
     WHERE sequence > $1 ORDER BY sequence LIMIT $2",
    "SELECT sequence, 'row ' || id, json, sha256 FROM book_rows
     WHERE sequence > $1 ORDER BY sequence LIMIT $2",
];

async fn look_at_texts(
    connection: &mut AnyConnection,
    place: &Place,
    sql: &'static str,
    faults: &mut Vec<Fault>,
) -> Result<(), Error> {
    let mut after = 0;
    loop {
        let page: Vec<(i64, String, String, String)> = sqlx::query_as(sql)
            .bind(whole(after))
            .bind(TEXTS_AT_ONCE)
            .fetch_all(&mut *connection)
            .await
            .at(place)?;
        let Some((last, ..)) = page.last() else {
            return Ok(());
        };
        after = number(*last);
        for (_, about, text, sha256) in page {
            if text::sha256(&[&text]) != sha256 {
                faults.push(Fault {
                    about,
                    problem: "a text is not the text that was saved".to_owned(),
                });
            }
        }
    }
}

/// The triggers without which others could change what was written.
async fn look_at_guards(
    connection: &mut AnyConnection,
    place: &Place,
    faults: &mut Vec<Fault>,
) -> Result<(), Error> {
    let (wanted, sql): (&[&str], _) = if place.is_server() {
        (
            &[
                "revisions_stand",
                "revisions_stay",
                "revisions_follow",
                "book_rows_stand",
                "book_rows_stay",
            ],
            // Those that were switched off count as missing.
            "SELECT tgname::text FROM pg_trigger JOIN pg_class ON pg_class.oid = tgrelid
             WHERE relnamespace = current_schema()::regnamespace AND tgenabled <> 'D'",
        )
    } else {
        (
            &[
                "revisions_update",
                "revisions_delete",
                "revisions_insert",
                "book_rows_update",
                "book_rows_delete",
                "book_rows_insert",
            ],
            "SELECT name FROM sqlite_master WHERE type = 'trigger'",
        )
    };
    let there: Vec<(String,)> = sqlx::query_as(sql).fetch_all(connection).await.at(place)?;
    let missing = wanted
        .iter()
        .filter(|name| !there.iter().any(|(there,)| there == *name));
    faults.extend(missing.map(|name| {
        Fault {
            about: format!("trigger {name}"),
            problem:
                "it is missing, and nothing keeps other programs from changing what was written"
                    .to_owned(),
        }
    }));
    Ok(())
}
