//! What a trial changes, line by line, with what is there now.

use pomace_book::edit::{Draft, Path};
use pomace_book::{Book, Document, DocumentId, Setting, Trial, TrialList};

/// One line, step or garnish that a trial touches.
pub(super) struct Change {
    pub list: TrialList,
    /// From 1; of what is added, that before which it goes.
    pub number: Option<usize>,
    /// What it is called.
    pub name: String,
    pub what: What,
}

/// What becomes of it.
pub(super) enum What {
    LeftOut,
    /// Key, what was there, what is new.
    Changed(Vec<(String, Option<String>, String)>),
    /// Key and value.
    Added(Vec<(String, String)>),
}

pub(super) fn of(book: &Book, id: DocumentId, document: &Document, trial: &Trial) -> Vec<Change> {
    let text = book.source(id).map_or("", |source| source.text.as_str());
    let Ok(draft) = Draft::open(text) else {
        return Vec::new();
    };
    let mut changes = Vec::new();
    for change in &trial.changes {
        let Some(index) = change.index else { continue };
        let was = |(key, setting): &(String, Setting)| {
            let old = draft.get(&Path::item(change.list.key(), index, key));
            (key.clone(), old, setting.to_string())
        };
        changes.push(Change {
            list: change.list,
            number: Some(index + 1),
            name: name_of(document, change.list, index),
            what: if change.left_out {
                What::LeftOut
            } else {
                What::Changed(change.settings.iter().map(was).collect())
            },
        });
    }
    for added in &trial.additions {
        let settings = added.settings.iter();
        let settings: Vec<(String, String)> = settings
            .map(|(key, setting)| (key.clone(), setting.to_string()))
            .collect();
        let name = |key: &str| settings.iter().find(|(other, _)| other == key);
        let name = name("what").or_else(|| name("do"));
        changes.push(Change {
            list: added.list,
            number: added.before.map(|before| before + 1),
            name: name.map_or_else(String::new, |(_, text)| text.clone()),
            what: What::Added(settings),
        });
    }
    changes
}

/// What a line, step or garnish is called.
fn name_of(document: &Document, list: TrialList, index: usize) -> String {
    let name = match (list, document) {
        (TrialList::Line, Document::Drink(drink)) => {
            drink.lines.get(index).map(|line| line.what.value.clone())
        }
        (TrialList::Garnish, Document::Drink(drink)) => drink.garnish.get(index).map(|garnish| {
            let what = garnish.what.as_ref();
            what.map_or_else(|| garnish.action.value.to_string(), |w| w.value.clone())
        }),
        (TrialList::Step, document) => document.steps().get(index).map(|step| match &step.what {
            Some(what) => format!("{} {}", step.verb.value, what.value),
            None => step.verb.value.to_string(),
        }),
        _ => None,
    };
    name.unwrap_or_default()
}

impl Change {
    /// As a sentence.
    pub(super) fn told(&self) -> String {
        let key = self.list.key();
        match &self.what {
            What::LeftOut => format!("{}: left out", self.place()),
            What::Changed(keys) => {
                let keys: Vec<String> = keys
                    .iter()
                    .map(|(key, was, now)| match was {
                        Some(was) => format!("{key} {was} → {now}"),
                        None => format!("{key} {now}"),
                    })
                    .collect();
                format!("{}: {}", self.place(), keys.join(", "))
            }
            What::Added(keys) => {
                let keys: Vec<String> = keys.iter().map(|(k, v)| format!("{k} {v}")).collect();
                let at = match self.number {
                    Some(number) => format!("before {key} {number}"),
                    None => "at the end".to_owned(),
                };
                format!("a {key} added {at}: {}", keys.join(", "))
            }
        }
    }

    fn place(&self) -> String {
        let number = self.number.map_or_else(String::new, |n| n.to_string());
        format!("{} {number}, {}", self.list.key(), self.name)
    }
}
