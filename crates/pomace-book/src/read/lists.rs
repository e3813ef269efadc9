//! Lists and tables within a table.

use toml::de::DeTable;

use super::faults::Faults;
use super::table::{STOP, Table, article, check_name, in_file, kind_of, text_of, wrong_kind};
use crate::limits::LIST_ITEMS;
use crate::quantity::cursor::shorten;
use crate::span::{Span, Spanned};
use crate::voice::Words;

impl<'t> Table<'t> {
    /// A list of texts; one text alone counts as a list of one.
    pub(super) fn texts(
        &mut self,
        key: &'static str,
        faults: &mut Faults<'_>,
    ) -> Vec<Spanned<String>> {
        let Some((item, span)) = self.item(key) else {
            return Vec::new();
        };
        if let Some(text) = item.as_str() {
            let text = Spanned::new(text.to_owned(), span);
            return check_name(text, || self.key(key), faults)
                .into_iter()
                .collect();
        }
        let Some(array) = item.as_array() else {
            faults.add(
                STOP,
                span,
                &self.key(key),
                wrong_kind(key, "a list of texts", &kind_of(item, span, faults)),
                in_file(format!("write `{key} = [\"…\", \"…\"]`")),
            );
            return Vec::new();
        };
        let mut texts = Vec::new();
        for (index, value) in array.iter().enumerate().take(LIST_ITEMS) {
            let span = Span::from(value.span());
            let place = || format!("{} {}", self.key(key), index + 1);
            match value.get_ref().as_str() {
                Some(text) => {
                    texts.extend(check_name(
                        Spanned::new(text.to_owned(), span),
                        place,
                        faults,
                    ));
                }
                None => faults.add(
                    STOP,
                    span,
                    &place(),
                    Words::of_file(
                        format!(
                            "`{key}` should hold texts, not {}",
                            article(value.get_ref().type_str())
                        ),
                        format!("what its file says as ‹{key}› cannot be read"),
                    ),
                    in_file("write each in quotes"),
                ),
            }
        }
        texts
    }

    /// A list of tables: `[[step]]`, or an array of inline tables.
    pub(super) fn tables(&mut self, key: &'static str, faults: &mut Faults<'_>) -> Vec<Table<'t>> {
        let Some((item, span)) = self.item(key) else {
            return Vec::new();
        };
        let mut tables: Vec<(&'t DeTable<'t>, Span)> = Vec::new();
        if let Some(array) = item.as_array() {
            for value in array.iter() {
                let span = Span::from(value.span());
                match value.get_ref().as_table() {
                    Some(table) => tables.push((table, span)),
                    None => faults.add(
                        STOP,
                        span,
                        &self.key(key),
                        Words::of_file(
                            format!(
                                "`{key}` should hold tables, not {}",
                                article(value.get_ref().type_str())
                            ),
                            format!("what its file says as `{key}` cannot be read"),
                        ),
                        in_file(format!("start each with a line `[[{key}]]`")),
                    ),
                }
            }
        } else {
            let what = if item.is_table() {
                "one table".to_owned()
            } else {
                kind_of(item, span, faults)
            };
            faults.add(
                STOP,
                span,
                &self.key(key),
                Words::of_file(
                    format!("`{key}` should be a list of tables, not {what}"),
                    format!("what its file says as `{key}` cannot be read"),
                ),
                in_file(format!(
                    "start each with a line `[[{key}]]`, in two brackets"
                )),
            );
        }
        if tables.len() > LIST_ITEMS {
            faults.add(
                STOP,
                tables.get(LIST_ITEMS).map_or(span, |(_, span)| *span),
                &self.key(key),
                format!(
                    "there are {} of `{key}`; the most is {LIST_ITEMS}",
                    tables.len()
                ),
                "split the document; the first ones were read",
            );
            tables.truncate(LIST_ITEMS);
        }
        let numbered = tables.into_iter().enumerate();
        numbered
            .map(|(index, (table, span))| {
                Table::new(table, self.key(&format!("{key} {}", index + 1)), span)
            })
            .collect()
    }

    /// One table: `[told]`, or an inline table.
    pub(super) fn table(
        &mut self,
        key: &'static str,
        faults: &mut Faults<'_>,
    ) -> Option<Table<'t>> {
        let (item, span) = self.item(key)?;
        match item.as_table() {
            Some(table) => Some(Table::new(table, self.key(key), span)),
            None => {
                faults.add(
                    STOP,
                    span,
                    &self.key(key),
                    Words::of_file(
                        format!(
                            "`{key}` should be a table, not {}",
                            kind_of(item, span, faults)
                        ),
                        format!("what its file says as `{key}` cannot be read"),
                    ),
                    in_file(format!("start it with a line `[{key}]`")),
                );
                None
            }
        }
    }

    /// Every key with its text, for tables whose keys are names.
    pub(super) fn entries(
        &mut self,
        faults: &mut Faults<'_>,
    ) -> Vec<(Spanned<String>, Spanned<String>)> {
        let mut entries = Vec::new();
        for (key, item) in self.written().into_iter().take(LIST_ITEMS) {
            let key_span = Span::from(key.span());
            let key = key.get_ref().as_ref();
            let span = Span::from(item.span());
            let item = item.get_ref();
            match text_of(item, span, faults) {
                Some(text) => entries.push((
                    Spanned::new(key.to_owned(), key_span),
                    Spanned::new(text, span),
                )),
                None => faults.add(
                    STOP,
                    span,
                    &self.key(key),
                    wrong_kind(&shorten(key), "a text", &kind_of(item, span, faults)),
                    in_file("write it in quotes"),
                ),
            }
        }
        entries
    }
}
