//! The form of the tables, in numbered steps that are never edited, only added to.
//!
//! Each step is one SQL file for both databases, and beside it one for what they say differently.
//! Why not the runner of `sqlx`: it lets two processes start one SQLite book at the same time, has
//! one list of files for each database, and words its refusals for programmers.

use sqlx::AnyConnection;

use crate::connect;
use crate::database::At as _;
use crate::error::Error;
use crate::place::Place;
use crate::store::{number, whole};
use crate::when::When;

/// One step. Its number is its place in the list, from 1.
struct Migration {
    name: &'static str,
    both: &'static str,
    sqlite: &'static str,
    postgres: &'static str,
}

macro_rules! migration {
    ($name:literal) => {
        Migration {
            name: $name,
            both: include_str!(concat!("../migrations/", $name, ".sql")),
            sqlite: include_str!(concat!("../migrations/", $name, ".sqlite.sql")),
            postgres: include_str!(concat!("../migrations/", $name, ".postgres.sql")),
        }
    };
}

const MIGRATIONS: [Migration; 2] = [migration!("0001-documents"), migration!("0002-rows")];

/// SQLite's mark of our files: "poma".
const APPLICATION_ID: i64 = 0x706f_6d61;

/// What lies at a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Found {
    Nothing,
    /// A book with this many migrations behind it.
    Book(u64),
}

/// Looks without touching.
pub(crate) async fn look(connection: &mut AnyConnection, place: &Place) -> Result<Found, Error> {
    let (tables, ours): (i64, i64) = if place.is_server() {
        sqlx::query_as(
            "SELECT COUNT(*), COUNT(*) FILTER (WHERE relname = 'pomace_schema')
             FROM pg_catalog.pg_class
             WHERE relnamespace = current_schema()::regnamespace AND relkind IN ('r', 'p', 'v', 'm', 'f')",
        )
        .fetch_one(&mut *connection)
        .await
        .at(place)?
    } else {
        // In one statement, so that nobody starts a book between two of them.
        let (mark, tables, ours): (i64, i64, i64) = sqlx::query_as(
            "SELECT (SELECT application_id FROM pragma_application_id),
                 COUNT(*), COUNT(*) FILTER (WHERE name = 'pomace_schema') FROM sqlite_master",
        )
        .fetch_one(&mut *connection)
        .await
        .at(place)?;
        match mark {
            APPLICATION_ID => (tables, ours),
            // A mark without tables is somebody's all the same.
            0 => (tables, 0),
            _ => (tables + 1, 0),
        }
    };
    if ours == 0 {
        return if tables == 0 {
            Ok(Found::Nothing)
        } else {
            Err(not_a_book(place, "it holds the tables of another program"))
        };
    }
    let known = MIGRATIONS.len() as u64;
    let last: i64 = sqlx::query_scalar("SELECT COALESCE(MAX(number), 0) FROM pomace_schema")
        .fetch_one(&mut *connection)
        .await
        .at(place)?;
    match number(last) {
        0 => Err(not_a_book(place, "its list of migrations is empty")),
        found if found > known => Err(Error::Newer {
            place: place.to_string(),
            found,
            known,
        }),
        found => Ok(Found::Book(found)),
    }
}

/// Applies what is missing, all in one transaction.
pub(crate) async fn bring_up_to_date(
    connection: &mut AnyConnection,
    place: &Place,
    found: Found,
) -> Result<(), Error> {
    if found == Found::Book(MIGRATIONS.len() as u64) {
        return Ok(());
    }
    // One who starts or updates the same book at the same time waits here, and then finds it done.
    let sql = if place.is_server() {
        "BEGIN"
    } else {
        "BEGIN IMMEDIATE"
    };
    let mut transaction = sqlx::Connection::begin_with(connection, sql)
        .await
        .at(place)?;
    let transaction_connection = &mut *transaction;
    if place.is_server() {
        sqlx::query("SELECT pg_advisory_xact_lock($1)")
            .bind(APPLICATION_ID)
            .execute(&mut *transaction_connection)
            .await
            .at(place)?;
    }
    let done = match look(&mut *transaction_connection, place).await? {
        Found::Nothing => {
            start(&mut *transaction_connection, place).await?;
            0
        }
        Found::Book(done) => done,
    };
    for (number, migration) in (1_u64..).zip(&MIGRATIONS) {
        if number > done {
            migration
                .apply(number, &mut *transaction_connection, place)
                .await?;
        }
    }
    transaction.commit().await.at(place)
}

async fn start(connection: &mut AnyConnection, place: &Place) -> Result<(), Error> {
    if place.is_server() {
        let encoding: String = sqlx::query_scalar("SELECT current_setting('server_encoding')")
            .fetch_one(&mut *connection)
            .await
            .at(place)?;
        if encoding != "UTF8" {
            let problem = format!("its encoding is {encoding}, and a book needs UTF8");
            return Err(not_a_book(place, &problem));
        }
    } else {
        let mark = format!("PRAGMA application_id = {APPLICATION_ID}");
        sqlx::raw_sql(sqlx::AssertSqlSafe(mark))
            .execute(&mut *connection)
            .await
            .at(place)?;
    }
    sqlx::raw_sql(
        "CREATE TABLE pomace_schema (
            number BIGINT NOT NULL PRIMARY KEY,
            name TEXT NOT NULL,
            applied TEXT NOT NULL
        )",
    )
    .execute(connection)
    .await
    .at(place)?;
    Ok(())
}

impl Migration {
    async fn apply(
        &self,
        number: u64,
        connection: &mut AnyConnection,
        place: &Place,
    ) -> Result<(), Error> {
        let own = if place.is_server() {
            self.postgres
        } else {
            self.sqlite
        };
        for sql in [self.both, own] {
            sqlx::raw_sql(sql)
                .execute(&mut *connection)
                .await
                .at(place)?;
        }
        sqlx::query("INSERT INTO pomace_schema (number, name, applied) VALUES ($1, $2, $3)")
            .bind(whole(number))
            .bind(self.name)
            .bind(When::now().as_str())
            .execute(connection)
            .await
            .at(place)?;
        Ok(())
    }
}

fn not_a_book(place: &Place, problem: &str) -> Error {
    Error::NotABook {
        place: place.to_string(),
        problem: problem.to_owned(),
    }
}

/// Looks at a copy that is read only, where no setting may be put.
pub(crate) async fn look_at_copy(place: &Place) -> Result<(AnyConnection, Found), Error> {
    let mut connection = connect::connect(place, connect::Access::Read).await?;
    let found = look(&mut connection, place).await?;
    Ok((connection, found))
}
