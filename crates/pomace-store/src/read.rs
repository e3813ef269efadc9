//! Questions: what is in the book, what was in it, and what leads where.

use pomace_book::names::fold;
use sqlx::Row as _;
use sqlx::any::AnyRow;

use crate::change::{Current, Revision, Stamp, Summary};
use crate::database::At as _;
use crate::error::Error;
use crate::id::Id;
use crate::index::{Figure, FigureOf, Use};
use crate::place::Place;
use crate::store::{Store, number, whole};
use crate::when::When;

/// Columns of a [`Summary`].
macro_rules! summaries {
    ($rest:literal) => {
        concat!(
            "SELECT d.kind, d.name, r.document, r.revision, r.sequence, r.who, r.at, r.why, r.removes
             FROM documents d
             JOIN revisions r ON r.document = d.document AND r.revision = d.revision ",
            $rest
        )
    };
}

/// Columns of a [`Revision`].
macro_rules! revisions {
    ($rest:literal) => {
        concat!(
            "SELECT r.document, r.revision, r.sequence, r.who, r.at, r.why, r.removes, r.text
             FROM revisions r ",
            $rest
        )
    };
}

/// The current revision of a document.
pub(crate) const CURRENT: &str = revisions!(
    "JOIN documents d ON d.document = r.document AND d.revision = r.revision WHERE r.document = $1"
);

impl Store {
    /// All documents that are not removed, by name, as its letters sort without case and accents.
    ///
    /// # Errors
    /// Whatever keeps the database from answering; so for all questions.
    pub async fn documents(&self) -> Result<Vec<Summary>, Error> {
        let sql = summaries!("WHERE d.removed = 0 ORDER BY d.document");
        let rows = sqlx::query(sql).fetch_all(self.pool()).await;
        let mut summaries = self.summaries(&rows.at(self.place())?)?;
        // Not by the database: each sorts words in its own way.
        summaries.sort_by_cached_key(|summary| fold(&summary.name));
        Ok(summaries)
    }

    /// All documents that are removed, the last one first.
    ///
    /// # Errors
    /// See [`Store::documents`].
    pub async fn removed(&self) -> Result<Vec<Summary>, Error> {
        let sql = summaries!("WHERE d.removed = 1 ORDER BY d.sequence DESC");
        let rows = sqlx::query(sql).fetch_all(self.pool()).await;
        self.summaries(&rows.at(self.place())?)
    }

    /// One document, removed or not.
    ///
    /// # Errors
    /// See [`Store::documents`].
    pub async fn document(&self, document: &Id) -> Result<Option<Summary>, Error> {
        let row = sqlx::query(summaries!("WHERE d.document = $1"))
            .bind(document.as_str())
            .fetch_optional(self.pool())
            .await
            .at(self.place())?;
        row.map(|row| summary(&row, self.place())).transpose()
    }

    /// Documents of this name, whatever its case, accents and spaces; those that have it as their
    /// first name stand before those that are also known by it.
    ///
    /// # Errors
    /// See [`Store::documents`].
    pub async fn by_name(&self, name: &str) -> Result<Vec<Summary>, Error> {
        let rows = sqlx::query(summaries!(
            "JOIN (SELECT document, MIN(place) AS place FROM names WHERE folded = $1 GROUP BY document) n
                 ON n.document = d.document
             WHERE d.removed = 0
             ORDER BY CASE WHEN n.place = 0 THEN 0 ELSE 1 END, d.document"
        ))
        .bind(fold(name))
        .fetch_all(self.pool())
        .await;
        self.summaries(&rows.at(self.place())?)
    }

    /// Documents that changed after this place in the sequence, removed ones too, oldest change
    /// first. What was changed twice is there once, as it is now.
    ///
    /// # Errors
    /// See [`Store::documents`].
    pub async fn changed_after(&self, sequence: u64) -> Result<Vec<Summary>, Error> {
        let rows = sqlx::query(summaries!("WHERE d.sequence > $1 ORDER BY d.sequence"))
            .bind(whole(sequence))
            .fetch_all(self.pool())
            .await;
        self.summaries(&rows.at(self.place())?)
    }

    /// The last place in the sequence: it grows with every revision and every row.
    ///
    /// # Errors
    /// See [`Store::documents`].
    pub async fn sequence(&self) -> Result<u64, Error> {
        let sequence: i64 = sqlx::query_scalar("SELECT sequence FROM book WHERE one = 1")
            .fetch_one(self.pool())
            .await
            .at(self.place())?;
        Ok(number(sequence))
    }

    /// Hands over all documents that are not removed with their texts, oldest document first, as they
    /// stand at one moment. Each as it comes: of a large book the first are worked on while the last
    /// are still being read.
    ///
    /// # Errors
    /// See [`Store::documents`].
    pub async fn each(&self, mut take: impl FnMut(Current) + Send) -> Result<(), Error> {
        let place = self.place();
        let mut taken = Ok(());
        let rows = sqlx::query(
            "SELECT d.document, d.kind, d.name, d.revision, r.who, r.at, r.text
             FROM documents d
             JOIN revisions r ON r.document = d.document AND r.revision = d.revision
             WHERE d.removed = 0 ORDER BY d.document",
        )
        .map(|row: AnyRow| {
            if taken.is_ok() {
                taken = current(&row, place).map(&mut take);
            }
        })
        .fetch_all(self.pool())
        .await;
        rows.at(place)?;
        taken
    }

    /// The current texts of all documents that are not removed, oldest document first.
    ///
    /// # Errors
    /// See [`Store::documents`].
    pub async fn texts(&self) -> Result<Vec<Current>, Error> {
        let mut texts = Vec::new();
        self.each(|document| texts.push(document)).await?;
        Ok(texts)
    }

    /// All revisions of a document without their texts, first to last; none if it was never saved.
    ///
    /// # Errors
    /// See [`Store::documents`].
    pub async fn history(&self, document: &Id) -> Result<Vec<Stamp>, Error> {
        let rows = sqlx::query(
            "SELECT document, revision, sequence, who, at, why, removes
             FROM revisions WHERE document = $1 ORDER BY revision",
        )
        .bind(document.as_str())
        .fetch_all(self.pool())
        .await
        .at(self.place())?;
        rows.iter().map(|row| stamp(row, 0, self.place())).collect()
    }

    /// The current revision of a document, with its text.
    ///
    /// # Errors
    /// See [`Store::documents`].
    pub async fn current(&self, document: &Id) -> Result<Option<Revision>, Error> {
        let row = sqlx::query(CURRENT)
            .bind(document.as_str())
            .fetch_optional(self.pool())
            .await
            .at(self.place())?;
        row.map(|row| revision(&row, self.place())).transpose()
    }

    /// One revision of a document, with its text.
    ///
    /// # Errors
    /// See [`Store::documents`].
    pub async fn revision(&self, document: &Id, number: u64) -> Result<Option<Revision>, Error> {
        let row = sqlx::query(revisions!("WHERE r.document = $1 AND r.revision = $2"))
            .bind(document.as_str())
            .bind(whole(number))
            .fetch_optional(self.pool())
            .await
            .at(self.place())?;
        row.map(|row| revision(&row, self.place())).transpose()
    }

    /// Which documents use this one: those whose text leads to its id, and those that call one of
    /// its names where the caller of the save knew no id.
    ///
    /// # Errors
    /// See [`Store::documents`].
    pub async fn used_by(&self, document: &Id) -> Result<Vec<Use>, Error> {
        let rows = sqlx::query(
            "SELECT d.document, d.name, e.name
             FROM edges e JOIN documents d ON d.document = e.document
             WHERE e.used = $1 OR (e.used IS NULL
                 AND e.folded IN (SELECT folded FROM names WHERE document = $1))
             ORDER BY d.document, e.place",
        )
        .bind(document.as_str())
        .fetch_all(self.pool())
        .await
        .at(self.place())?;
        let text = |row: &AnyRow, at: usize| row.try_get::<String, _>(at).at(self.place());
        let mut uses = Vec::new();
        for row in &rows {
            uses.push(Use {
                document: Id::parse(&text(row, 0)?)?,
                name: text(row, 1)?,
                called: text(row, 2)?,
            });
        }
        uses.sort_by_cached_key(|by| fold(&by.name));
        Ok(uses)
    }

    /// The figures of a document, by name.
    ///
    /// # Errors
    /// See [`Store::documents`].
    pub async fn figures(&self, document: &Id) -> Result<Vec<Figure>, Error> {
        let rows = sqlx::query(
            "SELECT document, name, value, plus_minus FROM figures WHERE document = $1",
        )
        .bind(document.as_str())
        .fetch_all(self.pool())
        .await;
        let figures = self.figures_of(&rows.at(self.place())?)?;
        let mut figures: Vec<Figure> = figures.into_iter().map(|of| of.figure).collect();
        figures.sort_by(|a, b| a.name.cmp(&b.name));
        Ok(figures)
    }

    /// One figure of all documents that have it.
    ///
    /// # Errors
    /// See [`Store::documents`].
    pub async fn figure(&self, name: &str) -> Result<Vec<FigureOf>, Error> {
        let rows = sqlx::query(
            "SELECT document, name, value, plus_minus FROM figures WHERE name = $1 ORDER BY document",
        )
        .bind(name)
        .fetch_all(self.pool())
        .await;
        self.figures_of(&rows.at(self.place())?)
    }

    fn figures_of(&self, rows: &[AnyRow]) -> Result<Vec<FigureOf>, Error> {
        rows.iter()
            .map(|row| {
                let document: String = row.try_get(0).at(self.place())?;
                Ok(FigureOf {
                    document: Id::parse(&document)?,
                    figure: Figure {
                        name: row.try_get(1).at(self.place())?,
                        value: row.try_get(2).at(self.place())?,
                        plus_minus: row.try_get(3).at(self.place())?,
                    },
                })
            })
            .collect()
    }

    fn summaries(&self, rows: &[AnyRow]) -> Result<Vec<Summary>, Error> {
        rows.iter().map(|row| summary(row, self.place())).collect()
    }
}

fn current(row: &AnyRow, place: &Place) -> Result<Current, Error> {
    let document: String = row.try_get(0).at(place)?;
    let when: String = row.try_get(5).at(place)?;
    Ok(Current {
        document: Id::parse(&document)?,
        kind: row.try_get(1).at(place)?,
        name: row.try_get(2).at(place)?,
        revision: number(row.try_get(3).at(place)?),
        who: row.try_get(4).at(place)?,
        when: When::parse(&when)?,
        text: row.try_get(6).at(place)?,
    })
}

fn summary(row: &AnyRow, place: &Place) -> Result<Summary, Error> {
    Ok(Summary {
        kind: row.try_get(0).at(place)?,
        name: row.try_get(1).at(place)?,
        stamp: stamp(row, 2, place)?,
    })
}

/// Reads the columns document, revision, sequence, who, at, why, removes from this column on.
pub(crate) fn stamp(row: &AnyRow, from: usize, place: &Place) -> Result<Stamp, Error> {
    let document: String = row.try_get(from).at(place)?;
    let when: String = row.try_get(from + 4).at(place)?;
    let removes: i64 = row.try_get(from + 6).at(place)?;
    Ok(Stamp {
        document: Id::parse(&document)?,
        revision: number(row.try_get(from + 1).at(place)?),
        sequence: number(row.try_get(from + 2).at(place)?),
        who: row.try_get(from + 3).at(place)?,
        when: When::parse(&when)?,
        why: row.try_get(from + 5).at(place)?,
        removes: removes != 0,
    })
}

/// Reads the columns of a [`stamp`] from the first on, and then the text.
pub(crate) fn revision(row: &AnyRow, place: &Place) -> Result<Revision, Error> {
    Ok(Revision {
        stamp: stamp(row, 0, place)?,
        text: row.try_get(7).at(place)?,
    })
}
