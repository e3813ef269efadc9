//! One TOML table read key by key; what was not asked for is a fault of its own.

use toml_edit::{Item, TableLike, Value};

use super::faults::Faults;
use crate::document::Setting;
use crate::finding::{Gravity, Topic};
use crate::limits::NAME_BYTES;
use crate::names;
use crate::quantity::cursor::shorten;
use crate::quantity::write::way;
use crate::quantity::{Amount, QuantityError, Reading, parse_amount};
use crate::span::{Span, Spanned};

pub(super) const STOP: (Topic, Gravity) = (Topic::Syntax, Gravity::Stop);
pub(super) const CAUTION: (Topic, Gravity) = (Topic::Syntax, Gravity::Caution);

/// A table, its place in words (`step 3`), and the keys that were asked for.
pub(super) struct Table<'t> {
    pub(super) table: &'t dyn TableLike,
    pub(super) at: String,
    pub(super) span: Span,
    known: Vec<&'static str>,
}

impl<'t> Table<'t> {
    pub(super) fn new(table: &'t dyn TableLike, at: String, span: Span) -> Self {
        Self {
            table,
            at,
            span,
            known: Vec::new(),
        }
    }

    /// `step 3, amount`.
    pub(super) fn key(&self, key: &str) -> String {
        if self.at.is_empty() {
            key.to_owned()
        } else {
            format!("{}, {key}", self.at)
        }
    }

    /// Whether the key is written at all.
    pub(super) fn has(&self, key: &str) -> bool {
        self.table.contains_key(key)
    }

    /// Whether the key is written and holds a table.
    pub(super) fn is_table(&self, key: &str) -> bool {
        self.table.get(key).is_some_and(Item::is_table_like)
    }

    /// Keys as they are written, with their places.
    pub(super) fn keys(&self) -> Vec<(String, Span)> {
        self.table
            .iter()
            .map(|(key, _)| (key.to_owned(), self.key_span(key)))
            .collect()
    }

    pub(super) fn key_span(&self, key: &str) -> Span {
        let key = self.table.get_key_value(key);
        key.and_then(|(key, item)| key.span().or(item.span()))
            .map_or(self.span, Span::from)
    }

    pub(super) fn item(&mut self, key: &'static str) -> Option<(&'t Item, Span)> {
        self.known.push(key);
        let item = self.table.get(key).filter(|item| !item.is_none())?;
        let span = item.span().map_or_else(|| self.key_span(key), Span::from);
        Some((item, span))
    }

    /// A string; numbers are taken as they are written.
    pub(super) fn raw(
        &mut self,
        key: &'static str,
        faults: &mut Faults<'_>,
    ) -> Option<Spanned<String>> {
        let (item, span) = self.item(key)?;
        match text_of(item, span, faults) {
            Some(text) => Some(Spanned::new(text, span)),
            None => {
                faults.add(
                    STOP,
                    span,
                    &self.key(key),
                    format!("`{key}` should be a text, not {}", kind_of(item)),
                    format!("write it in quotes: `{key} = \"…\"`"),
                );
                None
            }
        }
    }

    /// A text that says something.
    pub(super) fn text(
        &mut self,
        key: &'static str,
        faults: &mut Faults<'_>,
    ) -> Option<Spanned<String>> {
        let text = self.raw(key, faults)?;
        if text.trim().is_empty() {
            faults.add(
                CAUTION,
                text.span,
                &self.key(key),
                format!("`{key}` is empty"),
                "write it, or leave the key out",
            );
            return None;
        }
        Some(text)
    }

    /// A name: a text of one line and of sensible length.
    pub(super) fn name(
        &mut self,
        key: &'static str,
        faults: &mut Faults<'_>,
    ) -> Option<Spanned<String>> {
        let place = self.key(key);
        let (item, span) = self.item(key)?;
        let Some(text) = item.as_str() else {
            faults.add(
                STOP,
                span,
                &place,
                format!("`{key}` should be a name, not {}", kind_of(item)),
                format!("write it in quotes: `{key} = \"…\"`"),
            );
            return None;
        };
        check_name(Spanned::new(text.to_owned(), span), &place, faults)
    }

    /// A text that is read further.
    pub(super) fn read<T>(
        &mut self,
        key: &'static str,
        faults: &mut Faults<'_>,
        read: impl FnOnce(&str) -> Result<T, QuantityError>,
    ) -> Option<Spanned<T>> {
        let text = self.raw(key, faults)?;
        match read(&text.value) {
            Ok(value) => Some(Spanned::new(value, text.span)),
            Err(error) => {
                faults.quantity(error, text.span, &self.key(key));
                None
            }
        }
    }

    /// An amount; where it can be meant in more than one way, that is asked.
    pub(super) fn amount(
        &mut self,
        key: &'static str,
        faults: &mut Faults<'_>,
    ) -> Option<Spanned<Amount>> {
        let amount = self.read(key, faults, parse_amount)?;
        ask(&amount, &self.key(key), faults);
        Some(amount)
    }

    /// One word of a closed list.
    pub(super) fn word<T: Copy>(
        &mut self,
        key: &'static str,
        faults: &mut Faults<'_>,
        named: impl Fn(&str) -> Option<T>,
        words: &[&'static str],
    ) -> Option<Spanned<T>> {
        let text = self.text(key, faults)?;
        if let Some(value) = named(&text.value) {
            return Some(Spanned::new(value, text.span));
        }
        let near = names::nearest(&text.value, words.iter().copied(), 2);
        let mend = if near.is_empty() {
            format!("write one of {}", names::either(words.iter().copied()))
        } else {
            format!("write {}, if that is meant", names::either(near))
        };
        faults.add(
            STOP,
            text.span,
            &self.key(key),
            format!("`{}` is no `{key}` that is known", shorten(&text.value)),
            mend,
        );
        None
    }

    /// Yes or no.
    pub(super) fn flag(
        &mut self,
        key: &'static str,
        faults: &mut Faults<'_>,
    ) -> Option<Spanned<bool>> {
        let (item, span) = self.item(key)?;
        let flag = item.as_bool();
        if flag.is_none() {
            faults.add(
                STOP,
                span,
                &self.key(key),
                format!("`{key}` should be true or false, not {}", kind_of(item)),
                format!("write `{key} = true` or `{key} = false`"),
            );
        }
        flag.map(|flag| Spanned::new(flag, span))
    }

    /// The keys that nothing asked for.
    pub(super) fn unasked(&self) -> Vec<(String, Span)> {
        let mut keys = self.keys();
        keys.retain(|(key, _)| !self.known.contains(&key.as_str()));
        keys
    }

    /// What a key holds, where that is a text, a number, true or false.
    pub(super) fn setting(&self, key: &str, span: Span, faults: &Faults<'_>) -> Option<Setting> {
        let item = self.table.get(key)?;
        let span = item.span().map_or(span, Span::from);
        let flag = item.as_bool().map(Setting::Flag);
        flag.or_else(|| text_of(item, span, faults).map(Setting::Text))
    }

    /// Names every key that nothing asked for.
    pub(super) fn finish(&self, faults: &mut Faults<'_>) {
        for (key, span) in self.unasked() {
            if faults.is_full() {
                faults.add(CAUTION, span, "", "", "");
                continue;
            }
            let near = names::nearest(&key, self.known.iter().copied(), 1);
            let mend = match near.first() {
                Some(near) => {
                    format!("write `{near}`, if that is meant; or make it a comment with `#`")
                }
                None => "put what it says into `note`, or make it a comment with `#`".to_owned(),
            };
            let shown = shorten(&key);
            let place = self.key(&shown);
            faults.add(
                CAUTION,
                span,
                &place,
                format!("nothing reads the key `{shown}` here"),
                mend,
            );
        }
    }
}

/// Asks which of several readings is meant.
pub(super) fn ask(amount: &Spanned<Amount>, place: &str, faults: &mut Faults<'_>) {
    let Reading::Question { why, readings } = &amount.reading else {
        return;
    };
    let ways: Vec<String> = readings.iter().map(way).collect();
    faults.add(
        (Topic::Amount, Gravity::Caution),
        amount.span,
        place,
        format!(
            "`{}` can be read in more than one way: {why}",
            amount.text.trim()
        ),
        format!(
            "write the one that is meant: {}",
            names::either(ways.iter().map(String::as_str))
        ),
    );
}

pub(super) fn check_name(
    text: Spanned<String>,
    place: &str,
    faults: &mut Faults<'_>,
) -> Option<Spanned<String>> {
    if text.trim().is_empty() {
        faults.add(
            CAUTION,
            text.span,
            place,
            "there is no name between the quotes",
            "write it, or leave it out",
        );
        return None;
    }
    if text.len() > NAME_BYTES || text.chars().any(char::is_control) {
        faults.add(
            STOP,
            text.span,
            place,
            format!("`{}` is too long for a name, or holds signs that do not print", shorten(&text)),
            format!("write it in one line of at most {NAME_BYTES} bytes; what explains it goes into `note`"),
        );
        return None;
    }
    Some(text)
}

/// The text of a string or a number; `None` for anything else.
pub(super) fn text_of(item: &Item, span: Span, faults: &Faults<'_>) -> Option<String> {
    match item.as_value()? {
        Value::String(text) => Some(text.value().clone()),
        Value::Integer(_) | Value::Float(_) => Some(span.of(faults.text()).trim().to_owned()),
        _ => None,
    }
}

pub(super) fn kind_of(item: &Item) -> String {
    article(item.type_name())
}

/// A TOML type in words.
pub(super) fn article(type_name: &str) -> String {
    match type_name {
        "array of tables" => "a list of tables".to_owned(),
        "array" => "a list".to_owned(),
        "inline table" | "table" => "a table".to_owned(),
        "boolean" => "true or false".to_owned(),
        "integer" | "float" => "a number".to_owned(),
        "datetime" => "a date".to_owned(),
        "string" => "a text".to_owned(),
        other => format!("a {other}"),
    }
}
