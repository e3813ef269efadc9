//! Saving: one transaction for all changes of a save, or none of them.

use sqlx::Row as _;
use sqlx::any::AnyRow;

use crate::change::{Change, Outcome, Revision, Stamp, Write};
use crate::database::At as _;
use crate::error::Error;
use crate::id::{Id, Token};
use crate::index::Index;
use crate::read::{self, CURRENT};
use crate::store::{Store, Tries, Writing, whole};
use crate::text;

impl Store {
    /// Saves one change.
    ///
    /// The answer comes when the change is on disk. The same change sent again under the same token
    /// gets the same answer and is done once. A text that is what the document says already makes
    /// no revision, but its index is taken over.
    ///
    /// # Errors
    /// Bad input ([`Error::BadText`], [`Error::NoDocument`], [`Error::NoRevision`],
    /// [`Error::UsedBefore`]), and whatever keeps the database from writing. Nothing was changed
    /// then, but for a broken connection, after which the same save may be sent again.
    pub async fn save(&self, token: &Token, change: &Change) -> Result<Outcome, Error> {
        self.save_all(token, std::slice::from_ref(change)).await
    }

    /// Saves the changes of several documents together, or none of them.
    ///
    /// Otherwise as [`Store::save`]. If somebody saved one of the documents since, none is written,
    /// and the answer tells of each that was.
    ///
    /// # Errors
    /// As [`Store::save`], and [`Error::ChangedTwice`].
    pub async fn save_all(&self, token: &Token, changes: &[Change]) -> Result<Outcome, Error> {
        check(changes)?;
        let mut tries = Tries::new();
        loop {
            match self.try_save_all(token, changes).await {
                Err(error) if tries.again(&error).await => {}
                answer => return answer,
            }
        }
    }

    async fn try_save_all(&self, token: &Token, changes: &[Change]) -> Result<Outcome, Error> {
        let asked = asked(changes);
        let mut writing = self.begin().await?;
        if let Some(stamps) = writing.answered(token, &asked).await? {
            writing.leave().await?;
            return Ok(Outcome::Saved(stamps));
        }
        let mut stamps = Vec::new();
        let mut theirs = Vec::new();
        for change in changes {
            let current = writing.current(&change.document).await?;
            match decide(change, current)? {
                Decision::Keep(stamp) => {
                    if !stamp.removes {
                        writing.put_index(&change.document, &change.index).await?;
                    }
                    stamps.push(stamp);
                }
                Decision::Write { revision, text } => {
                    stamps.push(writing.write(change, revision, &text).await?);
                }
                Decision::Conflict(revision) => theirs.push(revision),
            }
        }
        if !theirs.is_empty() {
            writing.leave().await?;
            return Ok(Outcome::Conflict(theirs));
        }
        writing.answer(token, &asked, &stamps).await?;
        writing.commit().await?;
        Ok(Outcome::Saved(stamps))
    }

    /// Puts a new index in the place of a document's, with no change of its text: what follows from
    /// a text may change by other documents, or by a better model.
    ///
    /// Answers whether it was taken: it is not if that revision is no longer the current one, or
    /// the document is removed.
    ///
    /// # Errors
    /// [`Error::BadText`], and whatever keeps the database from writing.
    pub async fn reindex(
        &self,
        document: &Id,
        revision: u64,
        index: &Index,
    ) -> Result<bool, Error> {
        index.check()?;
        let mut tries = Tries::new();
        loop {
            match self.try_reindex(document, revision, index).await {
                Err(error) if tries.again(&error).await => {}
                answer => return answer,
            }
        }
    }

    async fn try_reindex(
        &self,
        document: &Id,
        revision: u64,
        index: &Index,
    ) -> Result<bool, Error> {
        let mut writing = self.begin().await?;
        let is_current = writing
            .current(document)
            .await?
            .is_some_and(|current| current.stamp.revision == revision && !current.stamp.removes);
        if is_current {
            writing.put_index(document, index).await?;
            writing.commit().await?;
        } else {
            writing.leave().await?;
        }
        Ok(is_current)
    }
}

/// What is to be done about one change.
enum Decision {
    /// It is so already.
    Keep(Stamp),
    /// A further revision.
    Write { revision: u64, text: String },
    /// Somebody saved since.
    Conflict(Revision),
}

fn decide(change: &Change, current: Option<Revision>) -> Result<Decision, Error> {
    let document = || change.document.to_string();
    let Some(current) = current else {
        return match (&change.write, change.based_on) {
            (Write::Text(text), None) => Ok(Decision::Write {
                revision: 1,
                text: text.clone(),
            }),
            _ => Err(Error::NoDocument {
                document: document(),
            }),
        };
    };
    let (text, removes) = match &change.write {
        Write::Text(text) => (text, false),
        Write::Remove => (&current.text, true),
    };
    if *text == current.text && removes == current.stamp.removes {
        return Ok(Decision::Keep(current.stamp));
    }
    match change.based_on {
        Some(based_on) if based_on == current.stamp.revision => Ok(Decision::Write {
            revision: based_on + 1,
            text: text.clone(),
        }),
        Some(revision) if revision == 0 || revision > current.stamp.revision => {
            Err(Error::NoRevision {
                document: document(),
                revision,
            })
        }
        _ => Ok(Decision::Conflict(current)),
    }
}

fn check(changes: &[Change]) -> Result<(), Error> {
    for (at, change) in changes.iter().enumerate() {
        let mut before = changes.iter().take(at);
        if before.any(|other| other.document == change.document) {
            return Err(Error::ChangedTwice {
                document: change.document.to_string(),
            });
        }
        if let Write::Text(text) = &change.write {
            text::check_body("the text of a document", text)?;
            change.index.check()?;
        }
        text::check_name("the name of who saves", &change.who)?;
        if let Some(why) = &change.why {
            text::check_why(why)?;
        }
    }
    Ok(())
}

/// What a save asks for, in short: the same for the same save sent again, also if it is sent later
/// or with an index that was computed anew.
fn asked(changes: &[Change]) -> String {
    let mut parts = Vec::new();
    for change in changes {
        let based_on = change.based_on.unwrap_or_default().to_string();
        let (verb, text) = match &change.write {
            Write::Text(text) => ("text", text.as_str()),
            Write::Remove => ("remove", ""),
        };
        let all = [change.document.as_str(), based_on.as_str(), verb, text];
        parts.push(text::sha256(&all));
    }
    let parts: Vec<&str> = parts.iter().map(String::as_str).collect();
    // The last part keeps a list of one from being taken for a bare text.
    text::sha256(&[parts.as_slice(), &["save"]].concat())
}

impl Writing<'_> {
    /// The answer that this token had, if it had one.
    async fn answered(&mut self, token: &Token, asked: &str) -> Result<Option<Vec<Stamp>>, Error> {
        let rows: Vec<AnyRow> = sqlx::query(
            "SELECT answers.asked, r.document, r.revision, r.sequence, r.who, r.at, r.why, r.removes
             FROM answers
             JOIN revisions r ON r.document = answers.document AND r.revision = answers.revision
             WHERE token = $1 ORDER BY place",
        )
        .bind(token.as_str())
        .fetch_all(&mut *self.connection)
        .await
        .at(self.place)?;
        let mut stamps = Vec::new();
        for row in &rows {
            if row.try_get::<String, _>(0).at(self.place)? != asked {
                return Err(Error::UsedBefore {
                    given: token.as_str().to_owned(),
                });
            }
            stamps.push(read::stamp(row, 1, self.place)?);
        }
        Ok(if stamps.is_empty() {
            None
        } else {
            Some(stamps)
        })
    }

    async fn answer(&mut self, token: &Token, asked: &str, stamps: &[Stamp]) -> Result<(), Error> {
        for (place, stamp) in (0_i64..).zip(stamps) {
            sqlx::query(
                "INSERT INTO answers (token, place, asked, document, revision)
                 VALUES ($1, $2, $3, $4, $5)",
            )
            .bind(token.as_str())
            .bind(place)
            .bind(asked)
            .bind(stamp.document.as_str())
            .bind(whole(stamp.revision))
            .execute(&mut *self.connection)
            .await
            .at(self.place)?;
        }
        Ok(())
    }

    /// The current revision of a document.
    async fn current(&mut self, document: &Id) -> Result<Option<Revision>, Error> {
        let row = sqlx::query(CURRENT)
            .bind(document.as_str())
            .fetch_optional(&mut *self.connection)
            .await
            .at(self.place)?;
        row.map(|row| read::revision(&row, self.place)).transpose()
    }

    async fn write(&mut self, change: &Change, revision: u64, text: &str) -> Result<Stamp, Error> {
        let stamp = Stamp {
            document: change.document.clone(),
            revision,
            sequence: self.next(),
            who: change.who.clone(),
            when: change.when.clone(),
            why: change.why.clone(),
            removes: change.write == Write::Remove,
        };
        sqlx::query(
            "INSERT INTO revisions (document, revision, sequence, text, sha256, removes, who, at, why)
             VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)",
        )
        .bind(stamp.document.as_str())
        .bind(whole(stamp.revision))
        .bind(whole(stamp.sequence))
        .bind(text)
        .bind(text::sha256(&[text]))
        .bind(i64::from(stamp.removes))
        .bind(stamp.who.as_str())
        .bind(stamp.when.as_str())
        .bind(stamp.why.clone())
        .execute(&mut *self.connection)
        .await
        .at(self.place)?;
        self.point_to(&stamp).await?;
        if stamp.removes {
            self.drop_index(&stamp.document).await?;
        } else {
            self.put_index(&stamp.document, &change.index).await?;
        }
        Ok(stamp)
    }

    /// Makes a revision the current one. The kind and name of a new document come with its index.
    async fn point_to(&mut self, stamp: &Stamp) -> Result<(), Error> {
        sqlx::query(
            "INSERT INTO documents (document, revision, sequence, removed, kind, name)
             VALUES ($1, $2, $3, $4, '', '')
             ON CONFLICT (document) DO UPDATE
             SET revision = excluded.revision, sequence = excluded.sequence, removed = excluded.removed",
        )
        .bind(stamp.document.as_str())
        .bind(whole(stamp.revision))
        .bind(whole(stamp.sequence))
        .bind(i64::from(stamp.removes))
        .execute(&mut *self.connection)
        .await
        .at(self.place)?;
        Ok(())
    }
}
