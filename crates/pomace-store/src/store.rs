//! The store itself: a handle on an open book, and how it writes.

use std::fmt;
use std::sync::Arc;
use std::time::{Duration, Instant};

use sqlx::pool::PoolConnection;
use sqlx::{Any, AnyPool};
use tokio::sync::{Mutex, MutexGuard};

use crate::database::At as _;
use crate::error::Error;
use crate::place::Place;

/// An open book. Clones share its connections.
#[derive(Clone)]
pub struct Store {
    inner: Arc<Inner>,
}

struct Inner {
    place: Place,
    pool: AnyPool,
    /// Writers of this process wait for one another here, first come first served, and not each on
    /// a connection that a reader could use.
    writing: Mutex<()>,
}

impl Store {
    pub(crate) fn of(place: Place, pool: AnyPool) -> Self {
        let inner = Inner {
            place,
            pool,
            writing: Mutex::new(()),
        };
        Self {
            inner: Arc::new(inner),
        }
    }

    /// Where it lies.
    #[must_use]
    pub fn place(&self) -> &Place {
        &self.inner.place
    }

    /// Waits for what is under way, then closes the connections of all clones.
    pub async fn close(&self) {
        self.inner.pool.close().await;
    }

    pub(crate) fn pool(&self) -> &AnyPool {
        &self.inner.pool
    }

    pub(crate) async fn connection(&self) -> Result<PoolConnection<Any>, Error> {
        self.pool().acquire().await.at(self.place())
    }

    /// Begins to write: from here on no one else writes until this transaction ends, in this
    /// process or another, and it sees all that was written before.
    ///
    /// Both databases get there in the same way. SQLite has one writer at a time, if it is told at
    /// the beginning; on PostgreSQL the one row of `book` is what writers wait for. It also gives
    /// the sequence its order: who has a higher number has committed later, so that nobody who
    /// asks for changes since a number can miss one.
    pub(crate) async fn begin(&self) -> Result<Writing<'_>, Error> {
        let turn = self.inner.writing.lock().await;
        let sql = if self.place().is_server() {
            "BEGIN ISOLATION LEVEL READ COMMITTED"
        } else {
            "BEGIN IMMEDIATE"
        };
        let mut writing = Writing {
            connection: self.connection().await?,
            sequence: 0,
            place: self.place(),
            is_over: false,
            _turn: turn,
        };
        writing.run(sql).await?;
        let sequence: i64 = sqlx::query_scalar(
            "UPDATE book SET sequence = sequence WHERE one = 1 RETURNING sequence",
        )
        .fetch_one(&mut *writing.connection)
        .await
        .at(self.place())?;
        writing.sequence = number(sequence);
        Ok(writing)
    }
}

impl fmt::Debug for Store {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Store({})", self.place())
    }
}

/// A transaction that writes. Dropped before it is over it leaves nothing behind, and its connection
/// is closed.
///
/// It is begun and ended by plain statements, not as a `sqlx::Transaction`. That one counts how deep
/// it is in transactions; when the disk is full, SQLite ends the transaction by itself, the count
/// stays, and the connection goes back to the pool as one on which nobody can begin any more.
pub(crate) struct Writing<'a> {
    pub(crate) connection: PoolConnection<Any>,
    pub(crate) place: &'a Place,
    sequence: u64,
    is_over: bool,
    _turn: MutexGuard<'a, ()>,
}

impl Writing<'_> {
    /// The next number of the sequence.
    pub(crate) fn next(&mut self) -> u64 {
        self.sequence += 1;
        self.sequence
    }

    /// Answers when all of it is on disk.
    pub(crate) async fn commit(mut self) -> Result<(), Error> {
        sqlx::query("UPDATE book SET sequence = $1 WHERE one = 1")
            .bind(whole(self.sequence))
            .execute(&mut *self.connection)
            .await
            .at(self.place)?;
        self.run("COMMIT").await?;
        self.is_over = true;
        Ok(())
    }

    /// Ends it with nothing written, and keeps the connection.
    pub(crate) async fn leave(mut self) -> Result<(), Error> {
        self.run("ROLLBACK").await?;
        self.is_over = true;
        Ok(())
    }

    async fn run(&mut self, sql: &'static str) -> Result<(), Error> {
        let done = sqlx::raw_sql(sql).execute(&mut *self.connection).await;
        done.map(|_| ()).at(self.place)
    }
}

impl Drop for Writing<'_> {
    fn drop(&mut self) {
        if !self.is_over {
            self.connection.close_on_drop();
        }
    }
}

/// Tries again where others were in the way: a deadlock or a collision ends one of two, and it may
/// go well the next time.
pub(crate) struct Tries {
    began: Instant,
    pause: Duration,
}

impl Tries {
    const LONGEST: Duration = Duration::from_secs(10);

    pub(crate) fn new() -> Self {
        Self {
            began: Instant::now(),
            pause: Duration::from_millis(5),
        }
    }

    /// Whether to try again after this error; waits a little if so.
    pub(crate) async fn again(&mut self, error: &Error) -> bool {
        let worthwhile =
            matches!(error, Error::Locked { .. }) && self.began.elapsed() < Self::LONGEST;
        if worthwhile {
            tokio::time::sleep(self.pause).await;
            self.pause = (self.pause * 2).min(Duration::from_secs(1));
        }
        worthwhile
    }
}

/// Numbers of revisions and of the sequence are never negative; databases know signed ones only.
pub(crate) fn number(stored: i64) -> u64 {
    u64::try_from(stored).unwrap_or_default()
}

/// See [`number`].
pub(crate) fn whole(number: u64) -> i64 {
    i64::try_from(number).unwrap_or(i64::MAX)
}
