//! Opening a book, or starting one.

use std::time::Duration;

use sqlx::Connection as _;
use sqlx::any::AnyPoolOptions;

use crate::connect::{self, Access};
use crate::database::At as _;
use crate::error::Error;
use crate::migrate::{self, Found};
use crate::place::Place;
use crate::store::{Store, Tries};

/// Connections of one store; readers beside the one writer.
const CONNECTIONS: u32 = 8;
/// How long a task waits for a connection.
const WAITING: Duration = Duration::from_secs(15);

impl Store {
    /// Opens a book. One of an older form is brought up to date.
    ///
    /// # Errors
    /// [`Error::NotFound`] if none is there; [`Error::NotABook`] and [`Error::Newer`], with the
    /// place left as it is; [`Error::NotDurable`] where a save could be lost; and whatever keeps
    /// the place from being reached.
    pub async fn open(place: &Place) -> Result<Self, Error> {
        Self::open_as(place, Access::Write).await
    }

    /// Opens a book, or starts one where there is nothing: no file, an empty file, a database
    /// without tables.
    ///
    /// # Errors
    /// As [`Store::open`], without [`Error::NotFound`].
    pub async fn open_or_create(place: &Place) -> Result<Self, Error> {
        Self::open_as(place, Access::Create).await
    }

    /// While others start the same file, its journal changes hands, and SQLite refuses at once, without the wait
    /// that other locks have.
    async fn open_as(place: &Place, access: Access) -> Result<Self, Error> {
        let mut tries = Tries::new();
        loop {
            match Self::try_to_open(place, access).await {
                Err(error) if tries.again(&error).await => {}
                outcome => return outcome,
            }
        }
    }

    async fn try_to_open(place: &Place, access: Access) -> Result<Self, Error> {
        let mut first = connect::connect(place, access).await?;
        // Before any setting is put into a file that may be somebody else's.
        let found = migrate::look(&mut first, place).await?;
        if found == Found::Nothing && access != Access::Create {
            return Err(Error::NotFound {
                place: place.to_string(),
            });
        }
        connect::make_durable(&mut first, place).await?;
        migrate::bring_up_to_date(&mut first, place, found).await?;
        let for_connections = place.clone();
        let pool = AnyPoolOptions::new()
            .max_connections(CONNECTIONS)
            .acquire_timeout(WAITING)
            .after_connect(move |connection, _| {
                let place = for_connections.clone();
                Box::pin(async move {
                    connect::make_durable(connection, &place)
                        .await
                        .map_err(|error| sqlx::Error::Configuration(Box::new(error)))
                })
            })
            .connect_lazy_with(connect::options(place, Access::Write)?);
        // Whoever leaves a file last takes its journal away, and the next would have to begin it anew.
        let second = pool.acquire().await.at(place)?;
        first.close().await.at(place)?;
        drop(second);
        Ok(Self::of(place.clone(), pool))
    }
}
