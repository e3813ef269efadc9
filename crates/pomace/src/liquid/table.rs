//! `pomace liquid --csv`: a table of liquids in, the same table with their figures out.
//!
//! Rows go through one by one, so that a table may be of any length and a program at the other end
//! of a pipe gets each answer at once.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use csv::{ErrorKind, Reader, ReaderBuilder, StringRecord, Writer};
use pomace_book::names::{either, fold};
use pomace_matter::liquid::Property;
use pomace_matter::range::MASS;
use pomace_matter::{Mixture, Substance};

use super::{Liquid, names, notes};
use crate::fault::{Answer, Fault, Stop};
use crate::number::{self, NumberFault, round};
use crate::page::{complain, shorten};

mod guard;

use guard::Guard;

/// Reads a table, and writes it with a column for each figure and one for notes.
pub(super) fn run(path: &Path, celsius: f64) -> Result<Answer, Stop> {
    if path.as_os_str() == "-" {
        return through(io::stdin().lock(), "standard input", celsius, true);
    }
    let name = shorten(&path.display().to_string(), 200);
    let file = File::open(path).map_err(|error| {
        Fault::new(
            format!("`{name}` cannot be opened: {error}"),
            "check the path, and that you may read it",
        )
    })?;
    through(file, &name, celsius, false)
}

fn through(input: impl Read, name: &str, celsius: f64, at_once: bool) -> Result<Answer, Stop> {
    let mut reader = ReaderBuilder::new()
        .flexible(true)
        .from_reader(Guard::new(input));
    let head = reader.headers().cloned();
    let line = done(&mut reader);
    let head = head.map_err(|error| refused(error, line, name))?;
    let table = Table {
        columns: columns(&head, name)?,
        celsius,
    };
    // A page goes through `anstream`; a table is for programs and must pass byte by byte.
    let mut writer = Writer::from_writer(io::stdout().lock());
    let figures = Property::ALL.map(Property::name);
    writer
        .write_record(head.iter().chain(figures).chain(["notes"]))
        .map_err(unwritten)?;

    let mut faulty = Faulty::default();
    let mut record = StringRecord::new();
    let mut row = 0;
    while let Some(line) = read(&mut reader, &mut record, name)? {
        row += 1;
        if record.len() != head.len() {
            writer.flush()?;
            return Err(unequal(&record, line, head.len(), name));
        }
        let (cells, sound) = table.answer(&record, row);
        faulty.count(row, sound);
        writer
            .write_record(record.iter().chain(cells.iter().map(String::as_str)))
            .map_err(unwritten)?;
        if at_once {
            writer.flush()?;
        }
    }
    writer.flush()?;
    Ok(faulty.tell(row, name))
}

/// Reads a row; answers with the line in which it begins, or `None` at the end.
fn read<R: Read>(
    reader: &mut Reader<Guard<R>>,
    record: &mut StringRecord,
    name: &str,
) -> Result<Option<u64>, Stop> {
    let more = reader.read_record(record);
    let last = done(reader);
    if !more.map_err(|error| refused(error, last, name))? {
        return Ok(None);
    }
    let inside = record
        .iter()
        .flat_map(str::bytes)
        .filter(|byte| *byte == b'\n')
        .count();
    Ok(Some(last.saturating_sub(inside as u64)))
}

/// Tells the guard that a row was read; answers with its last line.
fn done<R: Read>(reader: &mut Reader<Guard<R>>) -> u64 {
    let end = reader.position().byte();
    reader.get_mut().done(end)
}

/// What a column is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Column {
    Grams(Substance),
    Celsius,
    Other,
}

/// What each column is for; warns of those that may be meant otherwise.
fn columns(head: &StringRecord, name: &str) -> Result<Vec<Column>, Stop> {
    let place = format!("{name}, line 1");
    let mut columns = Vec::new();
    let mut faults = Vec::new();
    for (index, title) in head.iter().enumerate() {
        let column = match names::substance(title) {
            Some(substance) => Column::Grams(substance),
            None if fold(title) == "celsius" => Column::Celsius,
            None => Column::Other,
        };
        if column != Column::Other && columns.contains(&column) {
            faults.push(
                Fault::new(
                    format!(
                        "column {} is `{}`, which is there already",
                        index + 1,
                        shorten(title, 40)
                    ),
                    "keep one of the two, or give the other a name of its own",
                )
                .at(&place),
            );
        }
        columns.push(column);
    }
    if !columns
        .iter()
        .any(|column| matches!(column, Column::Grams(_)))
    {
        faults.push(no_substance(head).at(&place));
    }
    if !faults.is_empty() {
        return Err(Stop::Faults(faults));
    }
    let others = head
        .iter()
        .zip(&columns)
        .filter(|(_, column)| **column == Column::Other);
    for (title, _) in others {
        if let Some(warning) = warning(title) {
            complain(&format!("note: {name}: {warning}"));
        }
    }
    Ok(columns)
}

fn no_substance(head: &StringRecord) -> Fault {
    let titles: Vec<String> = head
        .iter()
        .take(6)
        .map(|title| format!("`{}`", shorten(title, 40)))
        .collect();
    if head.iter().all(str::is_empty) {
        return Fault::new(
            "the table is empty",
            "begin it with a row of names: `water,ethanol,sucrose`",
        );
    }
    let first = head.get(0).unwrap_or("");
    let parted = first
        .split([';', '\t'])
        .any(|part| names::substance(part).is_some());
    Fault::new(
        format!(
            "no column is named like a substance; there is {}",
            titles.join(", ")
        ),
        if head.len() == 1 && parted {
            "part the columns with commas, and write decimals with a point"
        } else {
            "name the columns in the first row: `water`, `ethanol`, `sucrose`; `pomace liquid --help` lists all"
        },
    )
}

fn warning(title: &str) -> Option<String> {
    let shown = shorten(title, 40);
    if title == "notes"
        || Property::ALL
            .iter()
            .any(|property| property.name() == title)
    {
        return Some(format!(
            "the table has a column `{shown}` already; the one from here comes after it"
        ));
    }
    let near = names::near(title);
    (!near.is_empty()).then(|| {
        format!(
            "the column `{shown}` is passed through; if it holds grams, name it {}",
            either(near)
        )
    })
}

/// A table whose columns are known.
struct Table {
    columns: Vec<Column>,
    celsius: f64,
}

impl Table {
    /// The cells that a row gains, and whether all its own could be read.
    fn answer(&self, record: &StringRecord, row: u64) -> (Vec<String>, bool) {
        match self.liquid(record) {
            Ok(liquid) => {
                let value = |(_, value): (Property, Option<f64>)| {
                    value.map_or_else(String::new, |value| round(value).to_string())
                };
                let mut cells: Vec<String> = liquid.figures.iter().map(value).collect();
                cells.push(notes::short(&liquid.figures).join("; "));
                (cells, true)
            }
            Err(faults) => {
                let mut cells = vec![String::new(); Property::COUNT];
                let faults = faults.iter().map(|fault| format!("row {row}, {fault}"));
                cells.push(faults.collect::<Vec<_>>().join("; "));
                (cells, false)
            }
        }
    }

    fn liquid(&self, record: &StringRecord) -> Result<Liquid, Vec<String>> {
        let mut contents = Mixture::default();
        let mut celsius = self.celsius;
        let mut faults = Vec::new();
        for (column, cell) in self.columns.iter().zip(record) {
            if cell.trim().is_empty() {
                continue;
            }
            match column {
                Column::Other => {}
                Column::Celsius => match number::celsius(cell) {
                    Ok(read) => celsius = read,
                    Err(fault) => faults.push(format!("celsius: {}", plain(&fault))),
                },
                Column::Grams(substance) => match grams(cell) {
                    Ok(grams) => contents.put(*substance, grams),
                    Err(fault) => faults.push(format!("{substance}: {}", plain(&fault))),
                },
            }
        }
        if faults.is_empty() && contents.total().0 <= 0.0 {
            faults.push("all substances: there is nothing in the liquid".to_owned());
        }
        if faults.is_empty() {
            Ok(Liquid::new(contents, celsius))
        } else {
            Err(faults)
        }
    }
}

/// A note must not hold what parts notes.
fn plain(fault: &str) -> String {
    fault.replace([';', '\n', '\r'], " ")
}

fn grams(cell: &str) -> Result<f64, String> {
    match number::read(cell) {
        Ok(grams) if grams < 0.0 => Err(format!("`{}` is less than nothing", shorten(cell, 24))),
        Ok(grams) if grams > MASS.high => Err(format!("`{}` is too large", shorten(cell, 24))),
        Ok(grams) => Ok(grams),
        Err(fault @ NumberFault::TwoMeanings { .. }) => Err(format!("{fault}, write one of them")),
        Err(fault) => Err(fault.to_string()),
    }
}

/// Rows that could not be read.
#[derive(Default)]
struct Faulty {
    count: u64,
    first: Vec<String>,
}

impl Faulty {
    fn count(&mut self, row: u64, sound: bool) {
        if sound {
            return;
        }
        self.count += 1;
        if self.first.len() < 5 {
            self.first.push(row.to_string());
        }
    }

    /// Tells of them on standard error.
    fn tell(&self, rows: u64, name: &str) -> Answer {
        if self.count == 0 {
            return Answer::Done;
        }
        let more = self.count - self.first.len() as u64;
        let more = if more > 0 {
            format!(" and {more} more")
        } else {
            String::new()
        };
        complain(&format!(
            "wrong: {} of {rows} {} in {name} could not be read: row {}{more}\n  mend: their cells in `notes` say which value, and why",
            self.count,
            if rows == 1 { "row" } else { "rows" },
            self.first.join(", "),
        ));
        Answer::InPart
    }
}

fn unequal(record: &StringRecord, line: u64, expected: usize, name: &str) -> Stop {
    let cells = record.len();
    Fault::new(
        format!(
            "the row has {cells} {}, but the first row names {expected}; rows from here on are left out",
            if cells == 1 { "column" } else { "columns" },
        ),
        "give every row as many cells; a value that holds a comma stands between quotes",
    )
    .at(format!("{name}, line {line}"))
    .into()
}

fn unwritten(error: csv::Error) -> Stop {
    match error.into_kind() {
        ErrorKind::Io(error) => Stop::Output(error),
        other => Stop::Output(io::Error::other(format!("{other:?}"))),
    }
}

fn refused(error: csv::Error, line: u64, name: &str) -> Stop {
    let fault = match error.into_kind() {
        ErrorKind::Io(error) => match error
            .get_ref()
            .and_then(|inner| inner.downcast_ref::<guard::Unfit>())
        {
            Some(unfit) => Fault::new(unfit.to_string(), unfit.mend())
                .at(format!("{name}, line {}", unfit.line())),
            None => Fault::new(
                format!("`{name}` cannot be read: {error}"),
                "check that it is a file, and that you may read it",
            ),
        },
        ErrorKind::Utf8 { err, .. } => Fault::new(
            format!("column {} is no UTF-8 text", err.field() + 1),
            "save the table as UTF-8",
        )
        .at(format!("{name}, line {line}")),
        other => Fault::new(
            format!("`{name}` is no table: {other:?}"),
            "give a table whose columns are parted by commas",
        ),
    };
    fault.into()
}
