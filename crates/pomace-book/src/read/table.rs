//! One TOML table read key by key; what was not asked for is a fault of its own.

use toml::Spanned as At;
use toml::de::{DeString, DeTable, DeValue};

use super::faults::Faults;
use crate::document::Setting;
use crate::finding::{Gravity, Topic};
use crate::limits::NAME_BYTES;
use crate::names;
use crate::quantity::cursor::shorten;
use crate::quantity::write::way;
use crate::quantity::{Amount, QuantityError, Reading, parse_amount};
use crate::span::{Span, Spanned};
use crate::voice::{IN_ITS_FILE, Words};

pub(super) const STOP: (Topic, Gravity) = (Topic::Syntax, Gravity::Stop);
pub(super) const CAUTION: (Topic, Gravity) = (Topic::Syntax, Gravity::Caution);

/// About as many keys as a step, which is asked for most, is asked for.
const KEYS: usize = 28;

/// A table, its place in words (`step 3`), and the keys that were asked for.
pub(super) struct Table<'t> {
    pub(super) table: &'t DeTable<'t>,
    pub(super) at: String,
    pub(super) span: Span,
    known: Vec<&'static str>,
}

impl<'t> Table<'t> {
    pub(super) fn new(table: &'t DeTable<'t>, at: String, span: Span) -> Self {
        Self {
            table,
            at,
            span,
            known: Vec::with_capacity(KEYS),
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
        self.table
            .get(key)
            .is_some_and(|item| item.get_ref().is_table())
    }

    /// Keys as they are written, with their places, in the order of the text.
    pub(super) fn keys(&self) -> Vec<(String, Span)> {
        let written = self.written().into_iter();
        written
            .map(|(key, _)| (key.get_ref().to_string(), key.span().into()))
            .collect()
    }

    /// What is written, in the order of the text.
    pub(super) fn written(&self) -> Vec<(&'t At<DeString<'t>>, &'t At<DeValue<'t>>)> {
        let mut written: Vec<_> = self.table.iter().collect();
        written.sort_by_key(|(key, _)| key.span().start);
        written
    }

    pub(super) fn key_span(&self, key: &str) -> Span {
        let key = self.table.get_key_value(key);
        key.map_or(self.span, |(key, _)| key.span().into())
    }

    pub(super) fn item(&mut self, key: &'static str) -> Option<(&'t DeValue<'t>, Span)> {
        self.known.push(key);
        let item = self.table.get(key)?;
        Some((item.get_ref(), item.span().into()))
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
                    wrong_kind(key, "a text", &kind_of(item, span, faults)),
                    in_file(format!("write it in quotes: ‹{key} = …›")),
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
                format!("‹{key}› is empty"),
                Words::of_file("write it, or leave the key out", "fill it in"),
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
        let (item, span) = self.item(key)?;
        let Some(text) = item.as_str() else {
            faults.add(
                STOP,
                span,
                &self.key(key),
                wrong_kind(key, "a name", &kind_of(item, span, faults)),
                in_file(format!("write it in quotes: ‹{key} = …›")),
            );
            return None;
        };
        let text = Spanned::new(text.to_owned(), span);
        check_name(text, || self.key(key), faults)
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
        ask(&amount, || self.key(key), faults);
        Some(amount)
    }

    /// One word of a closed list; `words` gives all of it.
    pub(super) fn word<T: Copy, W: IntoIterator<Item = &'static str>>(
        &mut self,
        key: &'static str,
        faults: &mut Faults<'_>,
        named: impl Fn(&str) -> Option<T>,
        words: impl Fn() -> W,
    ) -> Option<Spanned<T>> {
        let text = self.text(key, faults)?;
        if let Some(value) = named(&text.value) {
            return Some(Spanned::new(value, text.span));
        }
        let near = names::nearest(&text.value, words(), 2);
        let mend = if near.is_empty() {
            format!("write one of {}", names::either(words()))
        } else {
            format!("write {}, if that is meant", names::either(near))
        };
        faults.add(
            STOP,
            text.span,
            &self.key(key),
            Words::of_file(
                format!("`{}` is no ‹{key}› that is known", shorten(&text.value)),
                format!("`{}` is no word that is known here", shorten(&text.value)),
            ),
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
                wrong_kind(key, "true or false", &kind_of(item, span, faults)),
                in_file(format!("write `{key} = true` or `{key} = false`")),
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
    pub(super) fn setting(&self, key: &str, faults: &Faults<'_>) -> Option<Setting> {
        let item = self.table.get(key)?;
        let flag = item.get_ref().as_bool().map(Setting::Flag);
        flag.or_else(|| text_of(item.get_ref(), item.span().into(), faults).map(Setting::Text))
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
                None => "put what it says into ‹note›, or make it a comment with `#`".to_owned(),
            };
            let shown = shorten(&key);
            let place = self.key(&shown);
            faults.add(
                CAUTION,
                span,
                &place,
                Words::of_file(
                    format!("nothing reads the key `{shown}` here"),
                    format!("its file says something as ‹{shown}› that nothing here reads"),
                ),
                Words::of_file(mend, "it stays in the file as it is"),
            );
        }
    }
}

/// Asks which of several readings is meant.
pub(super) fn ask(
    amount: &Spanned<Amount>,
    place: impl FnOnce() -> String,
    faults: &mut Faults<'_>,
) {
    let Reading::Question { why, readings } = &amount.reading else {
        return;
    };
    let ways: Vec<String> = readings.iter().map(way).collect();
    faults.add(
        (Topic::Amount, Gravity::Caution),
        amount.span,
        &place(),
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
    place: impl FnOnce() -> String,
    faults: &mut Faults<'_>,
) -> Option<Spanned<String>> {
    if text.trim().is_empty() {
        faults.add(
            CAUTION,
            text.span,
            &place(),
            Words::of_file(
                "there is no name between the quotes",
                "there is no name here",
            ),
            "write it, or leave it out",
        );
        return None;
    }
    if text.len() > NAME_BYTES || text.chars().any(char::is_control) {
        faults.add(
            STOP,
            text.span,
            &place(),
            format!("`{}` is too long for a name, or holds signs that do not print", shorten(&text)),
            Words::of_file(
                format!("write it in one line of at most {NAME_BYTES} bytes; what explains it goes into ‹note›"),
                "write a shorter one, in one line",
            ),
        );
        return None;
    }
    Some(text)
}

/// The text of a string or a number; `None` for anything else.
pub(super) fn text_of(item: &DeValue<'_>, span: Span, faults: &Faults<'_>) -> Option<String> {
    match item {
        DeValue::String(text) => Some(text.to_string()),
        DeValue::Integer(_) | DeValue::Float(_) => Some(span.of(faults.text()).trim().to_owned()),
        _ => None,
    }
}

/// A key that holds something else than it should.
pub(super) fn wrong_kind(key: &str, wanted: &str, found: &str) -> Words {
    Words::of_file(
        format!("‹{key}› should be {wanted}, not {found}"),
        format!("what its file says as ‹{key}› cannot be read: it should be {wanted}"),
    )
}

/// A mend that only the file can have.
pub(super) fn in_file(mend: impl Into<String>) -> Words {
    Words::of_file(mend, IN_ITS_FILE)
}

/// What stands there, in words.
pub(super) fn kind_of(item: &DeValue<'_>, span: Span, faults: &Faults<'_>) -> String {
    // The reader holds both kinds of lists alike; in the text only one begins with two brackets and
    // then holds tables.
    let is_of_tables = item
        .as_array()
        .and_then(|list| list.first())
        .is_some_and(|first| first.get_ref().is_table())
        && span.of(faults.text()).starts_with("[[");
    if is_of_tables {
        "a list of tables".to_owned()
    } else {
        article(item.type_str())
    }
}

/// A TOML type in words.
pub(super) fn article(type_name: &str) -> String {
    match type_name {
        "array" => "a list".to_owned(),
        "table" => "a table".to_owned(),
        "boolean" => "true or false".to_owned(),
        "integer" | "float" => "a number".to_owned(),
        "datetime" => "a date".to_owned(),
        "string" => "a text".to_owned(),
        other => format!("a {other}"),
    }
}
