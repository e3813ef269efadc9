//! All that a text says, key by key, for whoever holds two texts side by side.

use toml_edit::{Item, TableLike, Value};

use super::EditError;
use super::draft::Draft;

/// A key with its text; what lies in a table within bears the table's name before its own.
pub type Told = (String, String);

/// All that a text says. What it is and is called stands first, as the text has it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Contents {
    /// What holds for the whole.
    pub top: Vec<Told>,
    /// Each list with its items, in the order in which they are written.
    pub lists: Vec<(String, Vec<Vec<Told>>)>,
}

impl Contents {
    /// Reads a text.
    ///
    /// # Errors
    /// Where the text is no TOML.
    pub fn of(text: &str) -> Result<Self, EditError> {
        let draft = Draft::open(text)?;
        let mut contents = Self::default();
        for (key, item) in draft.root().iter() {
            match items(item) {
                Some(items) => {
                    let told = items.into_iter().map(|item| {
                        let mut told = Vec::new();
                        table(item, "", &mut told);
                        told
                    });
                    contents.lists.push((key.to_owned(), told.collect()));
                }
                None => put(key.to_owned(), item, &mut contents.top),
            }
        }
        Ok(contents)
    }

    /// The items of a list.
    #[must_use]
    pub fn list(&self, name: &str) -> &[Vec<Told>] {
        let found = self.lists.iter().find(|(list, _)| list == name);
        found.map_or(&[], |(_, items)| items)
    }
}

/// The items of a list of tables, however it is written.
fn items(item: &Item) -> Option<Vec<&dyn TableLike>> {
    if let Some(tables) = item.as_array_of_tables() {
        return Some(tables.iter().map(|table| table as &dyn TableLike).collect());
    }
    let array = item.as_array().filter(|array| !array.is_empty())?;
    let tables = array.iter().map(|value| match value {
        Value::InlineTable(table) => Some(table as &dyn TableLike),
        _ => None,
    });
    tables.collect()
}

fn table(table: &dyn TableLike, before: &str, told: &mut Vec<Told>) {
    for (key, item) in table.iter() {
        put(format!("{before}{key}"), item, told);
    }
}

fn put(key: String, item: &Item, told: &mut Vec<Told>) {
    if let Some(items) = items(item) {
        for (index, item) in items.into_iter().enumerate() {
            table(item, &format!("{key} {}, ", index + 1), told);
        }
    } else if let Some(inner) = item.as_table_like() {
        table(inner, &format!("{key}, "), told);
    } else if let Some(value) = item.as_value() {
        told.push((key, text(value)));
    }
}

/// A value as it is read out.
fn text(value: &Value) -> String {
    match value {
        Value::String(text) => text.value().clone(),
        Value::Boolean(flag) => if *flag.value() { "yes" } else { "no" }.to_owned(),
        Value::Array(array) => array.iter().map(text).collect::<Vec<_>>().join(", "),
        other => other.clone().decorated("", "").to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_value_is_told_once_and_in_order() {
        let text = "drink = \"D\" # ours\nclaims = [\"vegan\", 'dairy-free']\nline = [{ what = \"gin\", amount = \"40 mL\" }]\n\
                    [range]\nof = \"sours\"\n[[garnish]]\ndo = \"set\"\noptional = true\n[[trial]]\nname = \"t\"\n[[trial.change]]\nline = 1\namount = \"35 mL\"\n";
        let contents = Contents::of(text).unwrap();
        let told = |pairs: &[(&str, &str)]| -> Vec<Told> {
            let owned = pairs
                .iter()
                .map(|(key, text)| ((*key).to_owned(), (*text).to_owned()));
            owned.collect()
        };
        assert_eq!(
            contents.top,
            told(&[
                ("drink", "D"),
                ("claims", "vegan, dairy-free"),
                ("range, of", "sours")
            ])
        );
        assert_eq!(
            contents.list("line"),
            [told(&[("what", "gin"), ("amount", "40 mL")])]
        );
        assert_eq!(
            contents.list("garnish"),
            [told(&[("do", "set"), ("optional", "yes")])]
        );
        assert_eq!(
            contents.list("trial"),
            [told(&[
                ("name", "t"),
                ("change 1, line", "1"),
                ("change 1, amount", "35 mL")
            ])]
        );
        assert!(contents.list("step").is_empty());
        assert!(Contents::of("[[line]").is_err());
    }
}
