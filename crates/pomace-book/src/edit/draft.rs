//! A text that is being changed.

use toml_edit::{ArrayOfTables, DocumentMut, Item, Table, TableLike, Value};

use super::layout;
use super::{EditError, Path};
use crate::document::Source;
use crate::finding::Gravity;
use crate::limits::LIST_ITEMS;

/// The mark that Windows editors put before a text.
const MARK: char = '\u{feff}';

/// A text that is being changed.
#[derive(Clone, Debug)]
pub struct Draft {
    document: DocumentMut,
    /// Lines ended as Windows ends them.
    windows: bool,
    /// The text began with a byte order mark.
    mark: bool,
}

impl Draft {
    /// Opens a text. It need not be a whole document yet, but it must be TOML.
    ///
    /// # Errors
    /// Where the text is no TOML, or beyond the limits of a document.
    pub fn open(text: &str) -> Result<Self, EditError> {
        if let Ok(document) = crate::read::toml(text) {
            let lines = text.matches('\n').count();
            let windows = lines > 0 && text.matches("\r\n").count() == lines;
            return Ok(Self {
                document: document.into_mut(),
                windows,
                mark: text.starts_with(MARK),
            });
        }
        let findings = crate::read::parse(&Source::new("", text)).findings;
        let fault = findings
            .into_iter()
            .find(|finding| finding.gravity == Gravity::Stop);
        let (message, mend) = fault
            .map(|fault| (fault.message, fault.mend))
            .unwrap_or_default();
        Err(EditError::Unreadable { message, mend })
    }

    /// The text as it is now. Where its lines ended in two ways, they now end in one.
    #[must_use]
    pub fn to_text(&self) -> String {
        let mut text = self.document.to_string();
        if self.windows {
            text = text.replace("\r\n", "\n").replace('\n', "\r\n");
        }
        if self.mark && !text.starts_with(MARK) {
            text.insert(0, MARK);
        }
        text
    }

    /// The text of a value.
    #[must_use]
    pub fn get(&self, path: &Path) -> Option<String> {
        let item = self.table_at(path)?.get(&path.key)?;
        match item.as_str() {
            Some(text) => Some(text.to_owned()),
            None => item
                .as_value()
                .map(|value| value.to_string().trim().to_owned()),
        }
    }

    /// The texts of a value that is a list of them; of one that is a text alone, that one.
    #[must_use]
    pub fn texts(&self, path: &Path) -> Vec<String> {
        let item = self.table_at(path).and_then(|table| table.get(&path.key));
        match item.and_then(Item::as_array) {
            Some(list) => {
                let texts = list.iter().filter_map(Value::as_str);
                texts.map(str::to_owned).collect()
            }
            None => self.get(path).into_iter().collect(),
        }
    }

    /// Keys and texts of an item of a list, in the order in which they are written.
    #[must_use]
    pub fn entries(&self, list: &str, index: usize) -> Vec<(String, String)> {
        let key = |key: &str| Path::item(list, index, key);
        let Some(table) = self.table_at(&key("")) else {
            return Vec::new();
        };
        let keys = table.iter().map(|(key, _)| key.to_owned());
        keys.filter_map(|name| Some((name.clone(), self.get(&key(&name))?)))
            .collect()
    }

    /// The whole of it.
    pub(super) fn root(&self) -> &Table {
        self.document.as_table()
    }

    /// The table that holds a path's key.
    fn table_at(&self, path: &Path) -> Option<&dyn TableLike> {
        let mut table: &dyn TableLike = self.document.as_table();
        for (list, index) in path.list.iter().chain(&path.inner) {
            let item = table.get(list)?;
            table = match item.as_array_of_tables() {
                Some(tables) => tables.get(*index)?,
                None => item.as_array()?.get(*index)?.as_inline_table()?,
            };
        }
        if let Some(inner) = &path.table {
            table = table.get(inner)?.as_table_like()?;
        }
        Some(table)
    }

    /// Writes a text at a place; the key is added where it is missing. The comment beside the old
    /// value stays.
    ///
    /// # Errors
    /// Where the item or table does not exist, or the place holds a table.
    pub fn set(&mut self, path: &Path, text: &str) -> Result<(), EditError> {
        self.set_value(path, Value::from(text))
    }

    /// Writes true or false at a place.
    ///
    /// # Errors
    /// As [`Draft::set`].
    pub fn set_flag(&mut self, path: &Path, flag: bool) -> Result<(), EditError> {
        self.set_value(path, Value::from(flag))
    }

    /// Writes a list of texts at a place.
    ///
    /// # Errors
    /// As [`Draft::set`].
    pub fn set_texts(&mut self, path: &Path, texts: &[&str]) -> Result<(), EditError> {
        self.set_value(path, texts.iter().copied().collect::<Value>())
    }

    /// Writes a small table of texts at a place, in one line.
    ///
    /// # Errors
    /// As [`Draft::set`].
    pub fn set_entries(
        &mut self,
        path: &Path,
        entries: &[(String, String)],
    ) -> Result<(), EditError> {
        let entries = entries
            .iter()
            .map(|(key, text)| (key.as_str(), text.as_str()));
        self.set_value(path, Value::InlineTable(entries.collect()))
    }

    fn set_value(&mut self, path: &Path, mut value: Value) -> Result<(), EditError> {
        let place = path.to_string();
        let table = self.table(path).ok_or_else(|| EditError::Missing {
            place: place.clone(),
        })?;
        match table.get_mut(&path.key) {
            None | Some(Item::None) => {
                take_space(table, &mut value);
                table.insert(&path.key, Item::Value(value));
            }
            Some(Item::Value(old)) => {
                *value.decor_mut() = old.decor().clone();
                *old = value;
            }
            Some(Item::Table(_) | Item::ArrayOfTables(_)) => {
                return Err(EditError::NotAValue { place });
            }
        }
        Ok(())
    }

    /// Sees to it that a table of this name is there, at the end where it is new.
    ///
    /// # Errors
    /// Where the name stands for something else than a table.
    pub fn ensure_table(&mut self, name: &str) -> Result<(), EditError> {
        let end = layout::last_position(self.document.as_table()) + 1;
        let root = self.document.as_table_mut();
        match root.get(name) {
            Some(item) if item.is_table_like() => Ok(()),
            Some(_) => Err(EditError::NotAValue {
                place: name.to_owned(),
            }),
            None => {
                let mut table = Table::new();
                table.set_position(Some(end));
                table.decor_mut().set_prefix("\n");
                root.insert(name, Item::Table(table));
                Ok(())
            }
        }
    }

    /// Takes a key out; its own comment goes with it.
    ///
    /// # Errors
    /// Where there is nothing at the place.
    pub fn unset(&mut self, path: &Path) -> Result<(), EditError> {
        let removed = self.table(path).and_then(|table| table.remove(&path.key));
        removed.map(|_| ()).ok_or_else(|| EditError::Missing {
            place: path.to_string(),
        })
    }

    /// Adds an item to a list, at an index or at the end if that is smaller, with keys and texts
    /// in the order given. Tells the index it got.
    ///
    /// # Errors
    /// Where the list is something else than a list of tables, or full.
    pub fn insert(
        &mut self,
        list: &str,
        index: usize,
        keys: &[(&str, &str)],
    ) -> Result<usize, EditError> {
        layout::renumber(self.document.as_table_mut());
        let end = layout::last_position(self.document.as_table()) + 1;
        let root = self.document.as_table_mut();
        let item = root
            .entry(list)
            .or_insert_with(|| Item::ArrayOfTables(ArrayOfTables::new()));
        let place = || EditError::NotAValue {
            place: list.to_owned(),
        };
        let mut table = Table::new();
        for (key, text) in keys {
            table.insert(key, Item::Value(Value::from(*text)));
        }
        let Some(tables) = item.as_array_of_tables_mut() else {
            let array = item.as_array_mut().ok_or_else(place)?;
            if array.len() >= LIST_ITEMS {
                return Err(EditError::Full {
                    list: list.to_owned(),
                });
            }
            let index = index.min(array.len());
            array.insert(index, table.into_inline_table());
            return Ok(index);
        };
        if tables.len() >= LIST_ITEMS {
            return Err(EditError::Full {
                list: list.to_owned(),
            });
        }
        let index = index.min(tables.len());
        let before = index.checked_sub(1).and_then(|index| tables.get(index));
        let position = match (before, tables.get(0).and_then(Table::position)) {
            (Some(before), _) => layout::last_position(before) + 1,
            (None, Some(first)) => first - 1,
            (None, None) => end,
        };
        table.set_position(Some(position));
        tables.insert(index, table);
        layout::settle_in(&mut self.document, position);
        Ok(index)
    }

    /// Takes an item out of a list; its own comments go with it, that of the item before stays.
    ///
    /// # Errors
    /// Where there is no such item.
    pub fn remove(&mut self, list: &str, index: usize) -> Result<(), EditError> {
        let missing = || EditError::Missing {
            place: format!("{list} {}", index + 1),
        };
        layout::renumber(self.document.as_table_mut());
        let item = self.document.get_mut(list).ok_or_else(missing)?;
        let emptied = if let Some(tables) = item.as_array_of_tables_mut() {
            if index >= tables.len() {
                return Err(missing());
            }
            let removed = tables.remove(index);
            let emptied = tables.is_empty();
            layout::keep_comment(&mut self.document, &removed);
            emptied
        } else {
            let array = item
                .as_array_mut()
                .filter(|array| index < array.len())
                .ok_or_else(missing)?;
            array.remove(index);
            array.is_empty()
        };
        if emptied {
            self.document.remove(list);
        }
        Ok(())
    }

    /// Moves an item of a list to another index, with its comments.
    ///
    /// # Errors
    /// Where there is no such item, or no such index.
    pub fn shift(&mut self, list: &str, from: usize, to: usize) -> Result<(), EditError> {
        let missing = |index: usize| EditError::Missing {
            place: format!("{list} {}", index + 1),
        };
        layout::renumber(self.document.as_table_mut());
        let item = self.document.get_mut(list).ok_or_else(|| missing(from))?;
        let count = match &*item {
            Item::ArrayOfTables(tables) => tables.len(),
            item => item.as_array().map_or(0, toml_edit::Array::len),
        };
        for index in [from, to] {
            if index >= count {
                return Err(missing(index));
            }
        }
        if let Some(array) = item.as_array_mut() {
            let value = array.remove(from);
            array.insert_formatted(to, value);
        } else if let Some(tables) = item.as_array_of_tables_mut() {
            let mut all: Vec<Table> = tables.iter().cloned().collect();
            let slots: Vec<Option<isize>> = all.iter().map(Table::position).collect();
            let moved = all.remove(from);
            all.insert(to, moved);
            tables.clear();
            for (mut table, slot) in all.into_iter().zip(slots) {
                layout::move_to(&mut table, slot.unwrap_or(0));
                tables.push(table);
            }
        }
        Ok(())
    }

    /// The table that holds a path's key.
    fn table(&mut self, path: &Path) -> Option<&mut dyn TableLike> {
        let mut table: &mut dyn TableLike = self.document.as_table_mut();
        for (list, index) in path.list.iter().chain(&path.inner) {
            let item = table.get_mut(list)?;
            table = match item {
                Item::ArrayOfTables(tables) => tables.get_mut(*index)?,
                item => item
                    .as_array_mut()?
                    .get_mut(*index)?
                    .as_inline_table_mut()?,
            };
        }
        if let Some(inner) = &path.table {
            table = table.get_mut(inner)?.as_table_like_mut()?;
        }
        Some(table)
    }
}

/// The space before the brace that closes a small table moves behind the value that is now its last.
fn take_space(table: &mut dyn TableLike, value: &mut Value) {
    let last = table.iter_mut().filter_map(|(_, item)| match item {
        Item::Value(value) => Some(value),
        _ => None,
    });
    let Some(last) = last.last() else { return };
    let suffix = last.decor().suffix().and_then(|suffix| suffix.as_str());
    let space = suffix.filter(|suffix| !suffix.is_empty() && suffix.trim().is_empty());
    if let Some(space) = space.map(str::to_owned) {
        last.decor_mut().set_suffix("");
        value.decor_mut().set_prefix(" ");
        value.decor_mut().set_suffix(space);
    }
}
