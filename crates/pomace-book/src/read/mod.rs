//! From text to document: every fault of a text at once, each with its place.

mod drink;
pub(crate) mod faults;
mod guard;
mod house;
mod ingredient;
mod lists;
mod marks;
mod prep;
mod range;
mod step;
mod table;
mod trial;

use faults::Faults;
use table::{Table, in_file};
use toml::de::{DeTable, DeValue};

use crate::document::{Document, Parsed, Source};
use crate::finding::{Gravity, Topic};
use crate::names;
use crate::span::{Span, Spanned};
use crate::voice::Words;

const KINDS: [&str; 4] = ["prep", "drink", "ingredient", "house"];
const STOP: (Topic, Gravity) = (Topic::Syntax, Gravity::Stop);

/// Reads one document. Never fails: what cannot be read is a finding, and the rest is read on.
///
/// A text that is no TOML gives the first fault only, since what follows it cannot be known.
///
/// ```
/// use pomace_book::{Source, parse};
///
/// let parsed = parse(&Source::new("kvass.toml", "prep = \"Kvass\"\n[[step]]\ndo = \"wiegh\"\n"));
/// assert_eq!(parsed.findings[0].mend.to_string(), "write `weigh`, if that is meant");
/// ```
#[must_use]
pub fn parse(source: &Source) -> Parsed {
    let mut faults = Faults::of(source);
    let document = read(source, &mut faults);
    let name = document
        .as_ref()
        .map(|document| document.name().value.clone());
    Parsed {
        document,
        findings: faults.finish(name.as_deref()),
    }
}

fn read(source: &Source, faults: &mut Faults<'_>) -> Option<Document> {
    if let Err(refusal) = guard::check(&source.text) {
        faults.add(
            STOP,
            refusal.span,
            "",
            Words::of_file(refusal.message, "its file cannot be read"),
            in_file(refusal.mend),
        );
        return None;
    }
    let parsed = match places(&source.text) {
        Ok(parsed) => parsed,
        Err((message, span)) => {
            let (message, mend) = explain(&message, span, &source.text);
            let number = source
                .text
                .get(..span.start)
                .unwrap_or("")
                .matches('\n')
                .count()
                + 1;
            let on_page =
                format!("its file cannot be read: something is wrong at line {number} of it");
            let message = Words::of_file(message, on_page);
            faults.add(STOP, span, "", message, in_file(mend));
            return None;
        }
    };
    let whole = Span {
        start: 0,
        end: source.text.len(),
    };
    let mut table = Table::new(&parsed, String::new(), whole);
    let (kind, name) = kind_and_name(&mut table, faults)?;
    let document = match kind {
        "prep" => Document::Prep(prep::read(name, &mut table, faults)),
        "drink" => Document::Drink(drink::read(name, &mut table, faults)),
        "ingredient" => Document::Ingredient(ingredient::read(name, &mut table, faults)),
        _ => Document::House(house::read(name, &mut table, faults)),
    };
    table.finish(faults);
    Some(document)
}

/// The TOML of a text that is within the limits, to be read: each value with its place. Whatever it
/// refuses, `toml` refuses, and the other way round.
fn places(text: &str) -> Result<DeTable<'_>, (String, Span)> {
    let fault = |message: &str, span: Option<std::ops::Range<usize>>| {
        (
            message.to_owned(),
            span.map_or_else(Span::default, Span::from),
        )
    };
    let table = DeTable::parse(text)
        .map_err(|error| fault(error.message(), error.span()))?
        .into_inner();
    // It takes numbers of any size, which no document needs: then the other one has the word.
    if !table.values().all(|value| is_in_range(value.get_ref())) {
        toml_edit::Document::parse(text).map_err(|error| fault(error.message(), error.span()))?;
    }
    Ok(table)
}

fn is_in_range(value: &DeValue<'_>) -> bool {
    match value {
        DeValue::Integer(whole) => i64::from_str_radix(whole.as_str(), whole.radix()).is_ok(),
        DeValue::Float(float) => float.as_str().parse().is_ok_and(f64::is_finite),
        DeValue::Array(list) => list.iter().all(|value| is_in_range(value.get_ref())),
        DeValue::Table(table) => table.values().all(|value| is_in_range(value.get_ref())),
        _ => true,
    }
}

/// The TOML of a text that is within the limits, to be changed: with its comments.
pub(crate) fn toml(text: &str) -> Result<toml_edit::Document<&str>, ()> {
    guard::check(text).map_err(|_| ())?;
    toml_edit::Document::parse(text).map_err(|_| ())
}

/// The key that says what the document is, and the name it gives.
fn kind_and_name(
    table: &mut Table<'_>,
    faults: &mut Faults<'_>,
) -> Option<(&'static str, Spanned<String>)> {
    let there: Vec<&'static str> = KINDS.into_iter().filter(|kind| table.has(kind)).collect();
    match there.as_slice() {
        [kind] => {
            if let Some(name) = table
                .name(kind, faults)
                .filter(|name| !names::fold(name).is_empty())
            {
                return Some((kind, name));
            }
            if faults.has_stop() {
                return None;
            }
            faults.add(
                STOP,
                table.key_span(kind),
                kind,
                format!("the {kind} has no name, so nothing else of it is read"),
                in_file(format!("write ‹{kind} = its name›")),
            );
            None
        }
        [] => {
            let keys = table.keys();
            let slip = keys.iter().find_map(|(key, span)| {
                names::nearest(key, KINDS, 1)
                    .first()
                    .map(|near| (key, *span, *near))
            });
            match slip {
                Some((key, span, near)) => faults.add(
                    STOP,
                    span,
                    key,
                    Words::of_file(
                        format!("`{key}` does not say what the document is"),
                        "its file does not say what it is: a drink, a prep or an ingredient",
                    ),
                    in_file(format!("write `{near}`, if that is meant: ‹{near} = its name›")),
                ),
                None => faults.add(
                    STOP,
                    Span::default(),
                    "",
                    if keys.is_empty() {
                        "the document is empty"
                    } else {
                        "the document does not say what it is"
                    },
                    in_file(
                        "begin with ‹prep = its name›, ‹drink = …›, ‹ingredient = …› or ‹house = …›",
                    ),
                ),
            }
            None
        }
        [first, others @ ..] => {
            let second = others.first().copied().unwrap_or(first);
            faults.add(
                STOP,
                table.key_span(second),
                second,
                format!("the document says that it is {}", both(&there)),
                in_file("keep one of them, and give the other its own document"),
            );
            None
        }
    }
}

fn both(kinds: &[&str]) -> String {
    kinds
        .iter()
        .map(|kind| format!("a `{kind}`"))
        .collect::<Vec<_>>()
        .join(" and ")
}

/// A fault of the TOML text in our words where it is a common one.
fn explain(message: &str, span: Span, text: &str) -> (String, String) {
    let first = message.lines().next().unwrap_or("").trim();
    let start = text
        .get(..span.start)
        .map_or(0, |before| before.rfind('\n').map_or(0, |at| at + 1));
    let line = text
        .get(start..)
        .unwrap_or("")
        .lines()
        .next()
        .unwrap_or("")
        .trim();
    let shown = crate::quantity::cursor::shorten(line);
    let mend = if first.contains("duplicate") {
        "keep one of the two, or start a new `[[line]]`, `[[step]]` or `[[garnish]]` before the second"
    } else if first.contains("string") {
        "put the text between two quotes on one line: `what = \"honey\"`"
    } else if line.contains('=') && !line.starts_with('[') {
        "write `key = \"value\"`, with the value in quotes"
    } else if line.starts_with('[') {
        "write `[[step]]` on a line of its own, as many brackets after as before"
    } else {
        "write `key = \"value\"`, or begin the line with `#` if it is a comment"
    };
    (
        format!("the line `{shown}` is no TOML: {first}"),
        mend.to_owned(),
    )
}
