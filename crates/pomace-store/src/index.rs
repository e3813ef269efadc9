//! The index: what a document is found by. Told by the caller, kept with the text it follows from.

use pomace_book::names::fold;

use crate::database::At as _;
use crate::error::Error;
use crate::id::Id;
use crate::store::Writing;
use crate::text;

/// What a document is found by.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Index {
    /// drink, prep, ingredient: a word of small letters, digits and `-`.
    pub kind: String,
    /// Its name.
    pub name: String,
    /// Other names that lead to it.
    pub also_known_as: Vec<String>,
    /// What it is made with.
    pub uses: Vec<Edge>,
    /// Its figures, one of a name.
    pub figures: Vec<Figure>,
}

/// Something that a document uses.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edge {
    /// As it is called in the text.
    pub name: String,
    /// The document that this leads to, if it leads to one.
    pub document: Option<Id>,
}

/// A figure of a document.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// Its name, with the unit in it: `abv_percent`.
    pub name: String,
    /// Its value, in that unit.
    pub value: f64,
    /// Two standard deviations, in that unit; `None` where unknown.
    pub plus_minus: Option<f64>,
}

/// A figure and whose it is.
#[derive(Clone, Debug, PartialEq)]
pub struct FigureOf {
    /// The document.
    pub document: Id,
    /// The figure.
    pub figure: Figure,
}

/// One use of a document in another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Use {
    /// Who uses it.
    pub document: Id,
    /// The name of that document.
    pub name: String,
    /// As what it uses it.
    pub called: String,
}

impl Index {
    /// The index of a document that has a kind and a name.
    #[must_use]
    pub fn of(kind: &str, name: &str) -> Self {
        Self {
            kind: kind.to_owned(),
            name: name.to_owned(),
            ..Self::default()
        }
    }

    pub(crate) fn check(&self) -> Result<(), Error> {
        text::check_word("the kind of a document", &self.kind)?;
        text::check_name("the name of a document", &self.name)?;
        for name in &self.also_known_as {
            text::check_name("another name of a document", name)?;
        }
        for edge in &self.uses {
            text::check_name("the name of what a document uses", &edge.name)?;
        }
        for (index, figure) in self.figures.iter().enumerate() {
            let what = || format!("the figure `{}`", figure.name);
            text::check_name("the name of a figure", &figure.name)?;
            let finite = figure.value.is_finite() && figure.plus_minus.is_none_or(f64::is_finite);
            if !finite {
                return Err(text::bad(&what(), "it is no finite number".to_owned()));
            }
            let before = self.figures.iter().take(index);
            if before.into_iter().any(|other| other.name == figure.name) {
                return Err(text::bad(&what(), "it is there twice".to_owned()));
            }
        }
        Ok(())
    }
}

impl Writing<'_> {
    /// Puts the index of a document in the place of the one before, and its kind and name into the
    /// list of documents.
    pub(crate) async fn put_index(&mut self, document: &Id, index: &Index) -> Result<(), Error> {
        self.drop_index(document).await?;
        sqlx::query("UPDATE documents SET kind = $2, name = $3 WHERE document = $1")
            .bind(document.as_str())
            .bind(index.kind.as_str())
            .bind(index.name.as_str())
            .execute(&mut *self.connection)
            .await
            .at(self.place)?;
        let names = std::iter::once(&index.name).chain(&index.also_known_as);
        for (place, name) in (0_i64..).zip(names) {
            sqlx::query(
                "INSERT INTO names (document, place, name, folded) VALUES ($1, $2, $3, $4)",
            )
            .bind(document.as_str())
            .bind(place)
            .bind(name.as_str())
            .bind(fold(name))
            .execute(&mut *self.connection)
            .await
            .at(self.place)?;
        }
        for (place, edge) in (0_i64..).zip(&index.uses) {
            sqlx::query(
                "INSERT INTO edges (document, place, name, folded, used) VALUES ($1, $2, $3, $4, $5)",
            )
            .bind(document.as_str())
            .bind(place)
            .bind(edge.name.as_str())
            .bind(fold(&edge.name))
            .bind(edge.document.as_ref().map(|used| used.as_str().to_owned()))
            .execute(&mut *self.connection)
            .await
            .at(self.place)?;
        }
        for figure in &index.figures {
            sqlx::query(
                "INSERT INTO figures (document, name, value, plus_minus) VALUES ($1, $2, $3, $4)",
            )
            .bind(document.as_str())
            .bind(figure.name.as_str())
            .bind(figure.value)
            .bind(figure.plus_minus)
            .execute(&mut *self.connection)
            .await
            .at(self.place)?;
        }
        Ok(())
    }

    /// Takes a document out of the index.
    pub(crate) async fn drop_index(&mut self, document: &Id) -> Result<(), Error> {
        for sql in [
            "DELETE FROM names WHERE document = $1",
            "DELETE FROM edges WHERE document = $1",
            "DELETE FROM figures WHERE document = $1",
        ] {
            sqlx::query(sql)
                .bind(document.as_str())
                .execute(&mut *self.connection)
                .await
                .at(self.place)?;
        }
        Ok(())
    }
}
