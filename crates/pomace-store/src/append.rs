//! Adding rows, and reading them.

use sqlx::Row as _;
use sqlx::any::AnyRow;

use crate::database::At as _;
use crate::error::Error;
use crate::id::Id;
use crate::place::Place;
use crate::row::{Corrected, MadeWith, NewRow, Row, RowsWanted};
use crate::store::{Store, Tries, Writing, number, whole};
use crate::text;
use crate::when::When;

impl Store {
    /// Adds rows, all of them or none, and answers when they are on disk.
    ///
    /// A row may correct one that stands before it in the same call. A row that was added before
    /// under its id, and says the same, is not added again: the answer tells where it stands.
    ///
    /// # Errors
    /// Bad input ([`Error::BadText`], [`Error::NoRevision`], [`Error::BadCorrection`],
    /// [`Error::UsedBefore`]), and whatever keeps the database from writing. Nothing was changed
    /// then, but for a broken connection, after which the same rows may be sent again.
    pub async fn append(&self, rows: &[NewRow]) -> Result<Vec<Row>, Error> {
        for row in rows {
            check(row)?;
        }
        let mut tries = Tries::new();
        loop {
            match self.try_append(rows).await {
                Err(error) if tries.again(&error).await => {}
                answer => return answer,
            }
        }
    }

    async fn try_append(&self, rows: &[NewRow]) -> Result<Vec<Row>, Error> {
        let mut writing = self.begin().await?;
        let mut added = Vec::new();
        for row in rows {
            let before = writing.row(&row.id).await?;
            added.push(match before {
                Some(before) if before.row == *row => before,
                Some(_) => {
                    return Err(Error::UsedBefore {
                        given: row.id.to_string(),
                    });
                }
                None => writing.add(row).await?,
            });
        }
        writing.commit().await?;
        Ok(added)
    }

    /// The rows that are wanted, in the order in which they were added.
    ///
    /// # Errors
    /// Whatever keeps the database from answering.
    pub async fn rows(&self, wanted: &RowsWanted) -> Result<Vec<Row>, Error> {
        let document = wanted.document.as_ref().map_or("", Id::as_str);
        let rows = sqlx::query(
            "SELECT id, kind, document, revision, model, who, at, json, corrects, sequence
             FROM book_rows
             WHERE sequence > $1 AND ($2 = '' OR kind = $2) AND ($3 = '' OR document = $3)
                 AND ($4 = 1 OR NOT EXISTS (SELECT 1 FROM book_rows c WHERE c.corrects = book_rows.id))
             ORDER BY sequence",
        )
        .bind(whole(wanted.after))
        .bind(wanted.kind.clone().unwrap_or_default())
        .bind(document)
        .bind(i64::from(wanted.corrected == Corrected::Told))
        .fetch_all(self.pool())
        .await
        .at(self.place())?;
        rows.iter().map(|row| read(row, self.place())).collect()
    }
}

fn check(row: &NewRow) -> Result<(), Error> {
    text::check_word("the kind of a row", &row.kind)?;
    text::check_name("the model version of a row", &row.model)?;
    text::check_name("the name of who adds a row", &row.who)?;
    text::check_body("the JSON of a row", &row.json)?;
    if let Err(error) = serde_json::from_str::<serde::de::IgnoredAny>(&row.json) {
        return Err(text::bad("the JSON of a row", error.to_string()));
    }
    Ok(())
}

fn read(row: &AnyRow, place: &Place) -> Result<Row, Error> {
    let text = |at: usize| row.try_get::<String, _>(at).at(place);
    let maybe = |at: usize| row.try_get::<Option<String>, _>(at).at(place);
    let made_with = match maybe(2)? {
        Some(document) => Some(MadeWith {
            document: Id::parse(&document)?,
            revision: number(row.try_get(3).at(place)?),
        }),
        None => None,
    };
    let new = NewRow {
        id: Id::parse(&text(0)?)?,
        kind: text(1)?,
        made_with,
        model: text(4)?,
        who: text(5)?,
        when: When::parse(&text(6)?)?,
        json: text(7)?,
        corrects: maybe(8)?.as_deref().map(Id::parse).transpose()?,
    };
    Ok(Row {
        row: new,
        sequence: number(row.try_get(9).at(place)?),
    })
}

impl Writing<'_> {
    async fn row(&mut self, id: &Id) -> Result<Option<Row>, Error> {
        let row = sqlx::query(
            "SELECT id, kind, document, revision, model, who, at, json, corrects, sequence
             FROM book_rows WHERE id = $1",
        )
        .bind(id.as_str())
        .fetch_optional(&mut *self.connection)
        .await
        .at(self.place)?;
        row.map(|row| read(&row, self.place)).transpose()
    }

    async fn add(&mut self, row: &NewRow) -> Result<Row, Error> {
        if let Some(made_with) = &row.made_with {
            self.need_revision(made_with).await?;
        }
        if let Some(corrects) = &row.corrects {
            self.need_correctable(row, corrects).await?;
        }
        let sequence = self.next();
        let made_with = row.made_with.as_ref();
        sqlx::query(
            "INSERT INTO book_rows
             (id, sequence, kind, document, revision, model, who, at, json, sha256, corrects)
             VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)",
        )
        .bind(row.id.as_str())
        .bind(whole(sequence))
        .bind(row.kind.as_str())
        .bind(made_with.map(|made| made.document.as_str().to_owned()))
        .bind(made_with.map(|made| whole(made.revision)))
        .bind(row.model.as_str())
        .bind(row.who.as_str())
        .bind(row.when.as_str())
        .bind(row.json.as_str())
        .bind(text::sha256(&[&row.json]))
        .bind(row.corrects.as_ref().map(|id| id.as_str().to_owned()))
        .execute(&mut *self.connection)
        .await
        .at(self.place)?;
        Ok(Row {
            row: row.clone(),
            sequence,
        })
    }

    async fn need_revision(&mut self, made_with: &MadeWith) -> Result<(), Error> {
        let there: i64 = sqlx::query_scalar(
            "SELECT COUNT(*) FROM revisions WHERE document = $1 AND revision = $2",
        )
        .bind(made_with.document.as_str())
        .bind(whole(made_with.revision))
        .fetch_one(&mut *self.connection)
        .await
        .at(self.place)?;
        if there == 0 {
            return Err(Error::NoRevision {
                document: made_with.document.to_string(),
                revision: made_with.revision,
            });
        }
        Ok(())
    }

    /// A row corrects what is of its own kind and about the same document.
    async fn need_correctable(&mut self, row: &NewRow, corrects: &Id) -> Result<(), Error> {
        let document = |row: &NewRow| row.made_with.as_ref().map(|made| made.document.clone());
        let problem = match self.row(corrects).await? {
            None => "there is no such row",
            Some(before) if before.row.kind != row.kind => "it is of another kind",
            Some(before) if document(&before.row) != document(row) => {
                "it is about another document"
            }
            Some(_) => return Ok(()),
        };
        Err(Error::BadCorrection {
            row: row.id.to_string(),
            corrects: corrects.to_string(),
            problem: problem.to_owned(),
        })
    }
}
