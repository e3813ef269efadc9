//! Reading MANIFEST.csv and the tables.

use std::collections::BTreeMap;
use std::path::PathBuf;

pub(super) fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/reference")
}

/// One row of a table, by column.
#[derive(Debug, Clone)]
pub(super) struct Row(BTreeMap<String, String>);

impl Row {
    pub(super) fn text(&self, column: &str) -> &str {
        self.0.get(column).map_or("", String::as_str)
    }

    /// The number in a cell; nothing for a blank one or one that is no number.
    pub(super) fn number(&self, column: &str) -> Option<f64> {
        self.text(column).parse().ok()
    }
}

pub(super) fn rows(file: &str) -> Vec<Row> {
    let mut reader = csv::Reader::from_path(folder().join(file)).unwrap();
    reader.deserialize().map(|row| Row(row.unwrap())).collect()
}

/// A line of the manifest.
pub(super) struct Group {
    pub file: String,
    pub selector: String,
    pub gravity: String,
    /// Name of each quantity and, where gated, its tolerance and unit.
    pub quantities: Vec<(String, Option<(f64, String)>)>,
    pub rows: usize,
}

impl Group {
    pub(super) fn selects(&self, row: &Row) -> bool {
        self.selector == "*"
            || self
                .selector
                .split(';')
                .all(|condition| holds(condition, row))
    }
}

fn holds(condition: &str, row: &Row) -> bool {
    for sign in ["!=", "<=", ">=", "<", ">", "="] {
        let Some((column, wanted)) = condition.split_once(sign) else {
            continue;
        };
        let cell = row.text(column);
        let same = |value: &str| match (cell.parse::<f64>(), value.parse::<f64>()) {
            (Ok(a), Ok(b)) => (a - b).abs() < 1e-12,
            _ => cell == value,
        };
        let number = || Some((cell.parse::<f64>().ok()?, wanted.parse::<f64>().unwrap()));
        return match sign {
            "=" => wanted.split('|').any(same),
            "!=" => !wanted.split('|').any(same),
            "<=" => number().is_some_and(|(a, b)| a <= b),
            ">=" => number().is_some_and(|(a, b)| a >= b),
            "<" => number().is_some_and(|(a, b)| a < b),
            _ => number().is_some_and(|(a, b)| a > b),
        };
    }
    panic!("MANIFEST.csv: `{condition}` is no condition");
}

/// The lines of the manifest that came with the tables.
pub(super) fn groups() -> Vec<Group> {
    lines_of("MANIFEST.csv")
}

/// Lines of our own, for rows that the first one leaves out or only prints: gates for what the models
/// have learnt since.
pub(super) fn own_groups() -> Vec<Group> {
    lines_of("MANIFEST-own.csv")
}

fn lines_of(manifest: &str) -> Vec<Group> {
    rows(manifest)
        .into_iter()
        .map(|line| {
            let gravity = line.text("use").to_owned();
            let names: Vec<String> = line
                .text("quantity")
                .split('|')
                .filter(|q| !q.is_empty())
                .map(str::to_owned)
                .collect();
            let tolerances: Vec<Option<(f64, String)>> = line
                .text("tolerance")
                .split('|')
                .filter(|t| !t.is_empty())
                .map(|t| {
                    let (value, unit) = t.split_once(' ')?;
                    Some((value.parse().ok()?, unit.to_owned()))
                })
                .collect();
            assert_eq!(
                names.len(),
                tolerances.len(),
                "MANIFEST.csv: {}",
                line.text("selector")
            );
            Group {
                file: line.text("file").to_owned(),
                selector: line.text("selector").to_owned(),
                quantities: names.into_iter().zip(tolerances).collect(),
                rows: line.text("n_rows").parse().unwrap(),
                gravity,
            }
        })
        .collect()
}
