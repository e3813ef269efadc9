//! Reading the embedded tables.

use std::collections::{HashMap, HashSet};
use std::rc::Rc;
use std::str::FromStr;
use std::sync::{LazyLock, Mutex, PoisonError};

use crate::basis::{Basis, Cell};

/// A fault in an embedded table.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{table}, line {line}, column `{column}`: `{given}` is not {wanted}")]
pub struct MalformedTable {
    /// The file in `data/`.
    pub table: &'static str,
    /// Line of the file, the head being line 1; 0 where the file cannot be read at all.
    pub line: u64,
    /// Name of the column.
    pub column: String,
    /// What stands there.
    pub given: String,
    /// What should stand there.
    pub wanted: &'static str,
}

/// A word that is none of a fixed set.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{given}` is not {wanted}")]
pub struct UnknownWord {
    /// The word.
    pub given: String,
    /// The words that are known.
    pub wanted: &'static str,
}

impl UnknownWord {
    pub(crate) fn new(given: &str, wanted: &'static str) -> Self {
        Self {
            given: given.to_owned(),
            wanted,
        }
    }
}

/// One line of a table.
pub(crate) struct Row {
    table: &'static str,
    line: u64,
    columns: Rc<HashMap<String, usize>>,
    fields: csv::StringRecord,
}

/// All lines of a table.
pub(crate) fn rows(table: &'static str, text: &str) -> Result<Vec<Row>, MalformedTable> {
    let unreadable = |error: &csv::Error| MalformedTable {
        table,
        line: error.position().map_or(0, csv::Position::line),
        column: String::new(),
        given: error.to_string(),
        wanted: "a line of the table",
    };
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let columns: HashMap<String, usize> = reader
        .headers()
        .map_err(|e| unreadable(&e))?
        .iter()
        .enumerate()
        .map(|(position, name)| (name.to_owned(), position))
        .collect();
    let columns = Rc::new(columns);
    reader
        .records()
        .map(|record| {
            let fields = record.map_err(|e| unreadable(&e))?;
            let line = fields.position().map_or(0, csv::Position::line);
            Ok(Row {
                table,
                line,
                columns: Rc::clone(&columns),
                fields,
            })
        })
        .collect()
}

impl Row {
    /// The fault that a field holds.
    pub(crate) fn fault(&self, column: &str, given: &str, wanted: &'static str) -> MalformedTable {
        MalformedTable {
            table: self.table,
            line: self.line,
            column: column.to_owned(),
            given: given.to_owned(),
            wanted,
        }
    }

    fn field(&self, column: &str) -> Result<&str, MalformedTable> {
        self.columns
            .get(column)
            .and_then(|position| self.fields.get(*position))
            .map(str::trim)
            .ok_or_else(|| self.fault(column, "", "a column of this table"))
    }

    /// The text of a field; empty where there is none.
    pub(crate) fn text(&self, column: &str) -> Result<&'static str, MalformedTable> {
        self.field(column).map(keep)
    }

    /// The text of a field that must not be empty.
    pub(crate) fn some_text(&self, column: &str) -> Result<&'static str, MalformedTable> {
        match self.text(column)? {
            "" => Err(self.fault(column, "", "a text")),
            text => Ok(text),
        }
    }

    /// The texts of a field, split at `separator`.
    pub(crate) fn texts(
        &self,
        column: &str,
        separator: char,
    ) -> Result<Vec<&'static str>, MalformedTable> {
        let text = self.text(column)?;
        Ok(text
            .split(separator)
            .map(str::trim)
            .filter(|part| !part.is_empty())
            .collect())
    }

    /// The number of a field, if there is one.
    pub(crate) fn number(&self, column: &str) -> Result<Option<f64>, MalformedTable> {
        let text = self.field(column)?;
        if text.is_empty() {
            return Ok(None);
        }
        match text.parse::<f64>() {
            Ok(number) if number.is_finite() && number >= 0.0 => Ok(Some(number)),
            _ => Err(self.fault(column, text, "a number from zero up")),
        }
    }

    /// The number of a field that must not be empty.
    pub(crate) fn some_number(&self, column: &str) -> Result<f64, MalformedTable> {
        self.number(column)?
            .ok_or_else(|| self.fault(column, "", "a number"))
    }

    /// A word of a fixed set.
    pub(crate) fn word<T: FromStr<Err = UnknownWord>>(
        &self,
        column: &str,
    ) -> Result<T, MalformedTable> {
        let text = self.field(column)?;
        text.parse()
            .map_err(|e: UnknownWord| self.fault(column, text, e.wanted))
    }

    /// A number whose basis and source stand in columns of their own.
    pub(crate) fn cell(
        &self,
        value: &str,
        basis: &str,
        source: &str,
    ) -> Result<Option<Cell>, MalformedTable> {
        let Some(value) = self.number(value)? else {
            return Ok(None);
        };
        let basis: Basis = self.word(basis)?;
        Ok(Some(Cell {
            value,
            basis,
            source: self.some_text(source)?,
        }))
    }
}

/// The text for as long as the program runs; each different text is kept once.
fn keep(text: &str) -> &'static str {
    static KEPT: LazyLock<Mutex<HashSet<&'static str>>> = LazyLock::new(Mutex::default);
    if text.is_empty() {
        return "";
    }
    let mut kept = KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(same) = kept.get(text) {
        return same;
    }
    let text: &'static str = Box::leak(text.to_owned().into_boxed_str());
    kept.insert(text);
    text
}
