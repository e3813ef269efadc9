//! One change to a document, as a form of a page asks for it: applied to the text, which keeps all else.

use pomace_book::edit::{Draft, EditError, Path};
use serde::Deserialize;

/// The lists of a document.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum List {
    Line,
    Step,
    Garnish,
    Brief,
}

impl List {
    pub(crate) const fn key(self) -> &'static str {
        match self {
            Self::Line => "line",
            Self::Step => "step",
            Self::Garnish => "garnish",
            Self::Brief => "brief",
        }
    }

    /// Keys that a page may write in an item.
    const fn keys(self) -> &'static [&'static str] {
        match self {
            Self::Line => &["what", "amount", "enters", "note"],
            Self::Step => &[
                "do",
                "what",
                "amount",
                "as",
                "through",
                "keep",
                "by_product",
                "time",
                "temperature",
                "loss",
                "to",
                "to_moisture",
                "with",
                "by",
                "fat",
                "kind",
                "sugar_used",
                "gas",
                "pressure",
                "in",
                "ice",
                "glass",
                "over",
                "note",
            ],
            Self::Garnish => &["do", "what", "amount", "eaten", "lead", "note"],
            Self::Brief => &["note", "sense"],
        }
    }
}

/// Keys at the top of a document that a page may write, beside the name.
const TOP: &[&str] = &[
    "note", "like", "strength", "sugar", "acid", "ph", "brix", "density", "origin", "form",
    "currency", "ice", "dash", "drop", "barspoon",
];

/// Keys of the range that a drink is held against.
const RANGE: &[&str] = &["of", "sourness", "sweetness"];

/// What is asked: the fields of a form, of which each change uses some.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Asked {
    /// Which change: `set`, `add`, `remove`, `move`.
    #[serde(rename = "do")]
    pub change: String,
    pub list: Option<List>,
    pub at: Option<usize>,
    pub to: Option<usize>,
    pub key: Option<String>,
    #[serde(default)]
    pub value: String,
    /// The unit that stood beside the field, for a bare number.
    #[serde(default)]
    pub unit: String,
    pub what: Option<String>,
    pub amount: Option<String>,
    pub enters: Option<String>,
    pub verb: Option<String>,
}

/// Why a change could not be made.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Refused {
    #[error("This page asked for a change that it may not make: load it again")]
    Unknown(String),
    #[error("It does not say what goes in: type that, and how much of it")]
    Nameless,
    #[error("{}", crate::voice::edit(.0))]
    Edit(#[from] EditError),
}

/// Makes a change, the whole of it or nothing.
pub(crate) fn apply(draft: &mut Draft, kind: &str, asked: &Asked) -> Result<(), Refused> {
    match (asked.change.as_str(), asked.list) {
        ("set", None) => {
            let key = asked.key.as_deref().unwrap_or_default();
            let value = asked.value.trim();
            if key == "name" {
                if !value.is_empty() {
                    draft.set(&Path::top(kind), value)?;
                }
            } else if let Some(key) = key.strip_prefix("range.").filter(|key| RANGE.contains(key)) {
                draft.ensure_table("range")?;
                write(draft, &Path::within("range", key), value)?;
            } else if key == "measures" && kind == "house" {
                write_list(draft, &Path::top(key), value)?;
            } else if TOP.contains(&key) {
                write(draft, &Path::top(key), value)?;
            } else {
                return Err(Refused::Unknown(format!("key {key}")));
            }
        }
        ("set", Some(list)) => {
            let key = asked.key.as_deref().unwrap_or_default();
            if !list.keys().contains(&key) {
                return Err(Refused::Unknown(format!("key {key}")));
            }
            if list == List::Line && key == "what" && asked.value.trim().is_empty() {
                return Err(Refused::Nameless);
            }
            let path = Path::item(list.key(), at(asked)?, key);
            write(draft, &path, &with_unit(&asked.value, &asked.unit))?;
        }
        ("range", None) => {
            let _ = draft.unset(&Path::top("range"));
            if let Some(known) = crate::ranges::KNOWN
                .iter()
                .find(|known| known.of == asked.value)
            {
                draft.ensure_table("range")?;
                draft.set(&Path::within("range", "of"), known.of)?;
                draft.set(&Path::within("range", "sourness"), known.sourness)?;
                draft.set(&Path::within("range", "sweetness"), known.sweetness)?;
            }
        }
        ("add", Some(list)) => {
            let pairs = [
                ("do", &asked.verb),
                ("what", &asked.what),
                ("amount", &asked.amount),
                ("enters", &asked.enters),
                ("note", &asked.key),
            ];
            let keys: Vec<(&str, &str)> = pairs
                .iter()
                .filter(|(key, _)| list.keys().contains(key))
                .filter_map(|(key, value)| Some((*key, value.as_deref()?.trim())))
                .filter(|(_, value)| !value.is_empty())
                .collect();
            if keys.is_empty() {
                return Ok(());
            }
            if list == List::Line && !keys.iter().any(|(key, _)| *key == "what") {
                return Err(Refused::Nameless);
            }
            draft.insert(list.key(), asked.at.unwrap_or(usize::MAX), &keys)?;
        }
        ("remove", Some(list)) => draft.remove(list.key(), at(asked)?)?,
        ("move", Some(list)) => {
            let to = asked
                .to
                .ok_or_else(|| Refused::Unknown("no place".into()))?;
            draft.shift(list.key(), at(asked)?, to)?;
        }
        (other, _) => return Err(Refused::Unknown(other.to_owned())),
    }
    Ok(())
}

fn at(asked: &Asked) -> Result<usize, Refused> {
    asked.at.ok_or_else(|| Refused::Unknown("no place".into()))
}

/// Writes a value; nothing takes the key out.
fn write(draft: &mut Draft, path: &Path, value: &str) -> Result<(), EditError> {
    if !value.is_empty() {
        return draft.set(path, value);
    }
    match draft.unset(path) {
        Err(EditError::Missing { .. }) | Ok(()) => Ok(()),
        Err(error) => Err(error),
    }
}

/// Writes amounts that stand in a row, parted by commas; a bare number is one of millilitres. A comma within a
/// number parts nothing: `22,5` is one amount.
fn write_list(draft: &mut Draft, path: &Path, value: &str) -> Result<(), EditError> {
    let amounts: Vec<String> = value
        .split([';', '\n'])
        .flat_map(|row| row.split(", "))
        .map(|amount| with_unit(amount.trim().trim_end_matches(','), "mL"))
        .filter(|amount| !amount.is_empty())
        .collect();
    if amounts.is_empty() {
        return write(draft, path, "");
    }
    let amounts: Vec<&str> = amounts.iter().map(String::as_str).collect();
    draft.set_texts(path, &amounts)
}

/// A bare number gets the unit that stood beside it.
fn with_unit(value: &str, unit: &str) -> String {
    let value = value.trim();
    let is_bare = !value.is_empty()
        && value.chars().all(|sign| {
            sign.is_ascii_digit()
                || matches!(sign, '.' | ',' | '/' | ' ' | '½' | '¼' | '¾' | '⅓' | '⅔')
        });
    if is_bare && !unit.trim().is_empty() {
        format!("{value} {}", unit.trim())
    } else {
        value.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn applied(text: &str, kind: &str, asked: &Asked) -> Result<String, Refused> {
        let mut draft = Draft::open(text)?;
        apply(&mut draft, kind, asked)?;
        Ok(draft.to_text())
    }

    const TEXT: &str = "drink = \"D\" # ours\n\n[[line]]\nwhat = \"gin, 40 %\"\namount = \"40 mL\" # tasted\n\n[[line]]\nwhat = \"lemon juice\"\namount = \"20 mL\"\n";

    fn asked(change: &str, list: Option<List>) -> Asked {
        Asked {
            change: change.into(),
            list,
            ..Asked::default()
        }
    }

    #[test]
    fn an_amount_changes_and_nothing_else() {
        let ask = Asked {
            at: Some(0),
            key: Some("amount".into()),
            value: "42.5".into(),
            unit: "mL".into(),
            ..asked("set", Some(List::Line))
        };
        assert_eq!(
            applied(TEXT, "drink", &ask).unwrap(),
            TEXT.replace("40 mL", "42.5 mL")
        );
    }

    #[test]
    fn lines_come_go_and_move() {
        let add = Asked {
            what: Some("honey".into()),
            amount: Some(" 10 g ".into()),
            ..asked("add", Some(List::Line))
        };
        let added = applied(TEXT, "drink", &add).unwrap();
        assert!(added.ends_with("[[line]]\nwhat = \"honey\"\namount = \"10 g\"\n"));
        let up = Asked {
            at: Some(2),
            to: Some(0),
            ..asked("move", Some(List::Line))
        };
        let moved = applied(&added, "drink", &up).unwrap();
        assert!(moved.find("honey") < moved.find("gin"));
        let remove = Asked {
            at: Some(0),
            ..asked("remove", Some(List::Line))
        };
        assert_eq!(applied(&moved, "drink", &remove).unwrap(), TEXT);
    }

    #[test]
    fn jiggers_are_written_in_a_row() {
        let ask = |value: &str| Asked {
            key: Some("measures".into()),
            value: value.into(),
            ..asked("set", None)
        };
        let house = "house = \"H\"\nmeasures = [\"20 mL\"] # new\n";
        assert_eq!(
            applied(house, "house", &ask("15, 22.5 ; 1 fl oz,")).unwrap(),
            "house = \"H\"\nmeasures = [\"15 mL\", \"22.5 mL\", \"1 fl oz\"] # new\n"
        );
        // What stands there as a list is read back as it is, with decimal commas too.
        assert_eq!(
            applied(house, "house", &ask("22,5 mL, 25,\n7,5")).unwrap(),
            "house = \"H\"\nmeasures = [\"22,5 mL\", \"25 mL\", \"7,5 mL\"] # new\n"
        );
        assert_eq!(
            applied(house, "house", &ask(" ")).unwrap(),
            "house = \"H\"\n"
        );
        assert!(applied("drink = \"D\"\n", "drink", &ask("15")).is_err());
    }

    #[test]
    fn what_a_page_may_not_write_is_refused() {
        for ask in [
            Asked {
                key: Some("span".into()),
                at: Some(0),
                ..asked("set", Some(List::Line))
            },
            Asked {
                key: Some("drink".into()),
                ..asked("set", None)
            },
            asked("destroy", Some(List::Line)),
            asked("remove", Some(List::Line)),
        ] {
            let mut draft = Draft::open(TEXT).unwrap();
            assert!(apply(&mut draft, "drink", &ask).is_err(), "{ask:?}");
            assert_eq!(draft.to_text(), TEXT, "{ask:?}");
        }
        // A line without a name cannot be read, and would shift all behind it.
        let only_amount = Asked {
            amount: Some("10 g".into()),
            ..asked("add", Some(List::Line))
        };
        let emptied = Asked {
            key: Some("what".into()),
            at: Some(0),
            ..asked("set", Some(List::Line))
        };
        for ask in [only_amount, emptied] {
            let refused = applied(TEXT, "drink", &ask);
            assert!(matches!(refused, Err(Refused::Nameless)), "{ask:?}");
        }
        let name = Asked {
            key: Some("name".into()),
            value: "E".into(),
            ..asked("set", None)
        };
        assert!(
            applied(TEXT, "drink", &name)
                .unwrap()
                .starts_with("drink = \"E\" # ours\n")
        );
    }
}
