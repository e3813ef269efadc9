//! Trials: which line, step or garnish each change means, and what becomes of it.

use super::faults::Faults;
use super::table::{STOP, Table, in_file};
use crate::document::{Garnish, Line, Setting, Step, Trial, TrialAddition, TrialChange, TrialList};
use crate::finding::{Gravity, Topic};
use crate::limits::TRIALS;
use crate::names;
use crate::quantity::cursor::shorten;
use crate::span::{Span, Spanned};
use crate::voice::Words;

/// What a trial can change.
pub(super) struct Lists<'d> {
    pub kind: &'static str,
    pub lines: &'d [Line],
    pub steps: &'d [Step],
    pub garnish: &'d [Garnish],
    /// Whether everything of the lists could be read: else numbers do not fit the text.
    pub is_whole: bool,
}

impl Lists<'_> {
    fn count(&self, list: TrialList) -> usize {
        match list {
            TrialList::Line => self.lines.len(),
            TrialList::Step => self.steps.len(),
            TrialList::Garnish => self.garnish.len(),
        }
    }

    /// What an item can be called by, the plainest first.
    fn names(&self, list: TrialList, index: usize) -> Vec<&str> {
        match list {
            TrialList::Line => {
                let lines = self.lines.get(index).into_iter();
                lines.map(|line| line.what.as_str()).collect()
            }
            TrialList::Step => {
                let Some(step) = self.steps.get(index) else {
                    return Vec::new();
                };
                let what = step.what.iter().chain(&step.name_as);
                what.map(|name| name.as_str())
                    .chain([step.verb.value.word()])
                    .collect()
            }
            TrialList::Garnish => {
                let Some(garnish) = self.garnish.get(index) else {
                    return Vec::new();
                };
                let what = garnish.what.iter().map(|what| what.as_str());
                what.chain([garnish.action.value.word()]).collect()
            }
        }
    }

    /// Which item a number or a name means.
    fn find(&self, list: TrialList, meant: &Spanned<String>) -> Result<usize, (Words, Words)> {
        let key = list.key();
        let count = self.count(list);
        let shown = shorten(meant.trim());
        if count == 0 {
            return Err((
                format!("the {} has no {key} that could be changed", self.kind).into(),
                match self.other(list) {
                    Some(other) => {
                        in_file(format!("name a {other}, or add one: `[[trial.{key}]]`"))
                    }
                    None => format!("write the steps of the {} first", self.kind).into(),
                },
            ));
        }
        if let Ok(number) = meant.trim().parse::<usize>() {
            return number
                .checked_sub(1)
                .filter(|index| *index < count)
                .ok_or_else(|| {
                    (
                        format!("there is no {key} {number}").into(),
                        format!("they are numbered from 1 to {count}, as the document has them")
                            .into(),
                    )
                });
        }
        let is_called = |index: &usize| {
            let names = self.names(list, *index);
            names.iter().any(|name| names::same(name, meant))
        };
        let found: Vec<usize> = (0..count).filter(is_called).collect();
        match found.as_slice() {
            [only] => Ok(*only),
            [] => {
                let all = (0..count).flat_map(|index| self.names(list, index));
                let mut known: Vec<&str> = Vec::new();
                for name in all {
                    if !known.contains(&name) {
                        known.push(name);
                    }
                }
                let near = names::nearest(meant, known.iter().copied(), 2);
                let mend = if near.is_empty() {
                    known.truncate(8);
                    format!("write {}, or its number", names::either(known))
                } else {
                    format!("write {}, if that is meant", names::either(near))
                };
                Err((format!("no {key} is called `{shown}`").into(), mend.into()))
            }
            several => {
                let numbers: Vec<String> = several
                    .iter()
                    .map(|index| format!("{key} = {}", index + 1))
                    .collect();
                Err((
                    format!("`{shown}` is there {} times", several.len()).into(),
                    Words::of_file(
                        format!(
                            "write {}",
                            names::either(numbers.iter().map(String::as_str))
                        ),
                        "a trial here cannot tell them apart: change one of their names first",
                    ),
                ))
            }
        }
    }

    /// Another list that has something in it.
    fn other(&self, list: TrialList) -> Option<&'static str> {
        let mut others = TrialList::ALL.into_iter();
        let found = others.find(|other| *other != list && self.count(*other) > 0);
        found.map(TrialList::key)
    }
}

/// The trials of a drink or a prep.
pub(super) fn trials(
    table: &mut Table<'_>,
    lists: &Lists<'_>,
    faults: &mut Faults<'_>,
) -> Vec<Trial> {
    let mut trials: Vec<Trial> = Vec::new();
    let mut tables = table.tables("trial", faults);
    if let Some(first) = tables.get(TRIALS) {
        let message = format!("there are {} trials; the most is {TRIALS}", tables.len());
        let mend = "keep those that are still open; the first ones were read";
        faults.add(STOP, first.span, &first.at, message, mend);
        tables.truncate(TRIALS);
    }
    for table in tables {
        let (span, at) = (table.span, table.at.clone());
        let Some(trial) = one(table, lists, faults) else {
            continue;
        };
        if let Some(place) = trials
            .iter()
            .position(|t| names::same(&t.name, &trial.name))
        {
            faults.add(
                STOP,
                trial.name.span,
                &format!("{at}, name"),
                format!("trial {} has the same name", place + 1),
                "give each trial its own name",
            );
        }
        if trial.is_whole && trial.changes.is_empty() && trial.additions.is_empty() {
            faults.add(
                (Topic::Syntax, Gravity::Caution),
                span,
                &at,
                format!("the trial `{}` changes nothing", trial.name.value),
                in_file(
                    "add `[[trial.change]]` with ‹line = …› or ‹step = …› and what is new of it",
                ),
            );
        }
        trials.push(trial);
    }
    trials
}

fn one(mut table: Table<'_>, lists: &Lists<'_>, faults: &mut Faults<'_>) -> Option<Trial> {
    let name = table.name("name", faults);
    if name.is_none() && !table.has("name") {
        faults.add(
            STOP,
            table.span,
            &table.at,
            "the trial has no name",
            in_file("‹add name = …›, a word or two on what is different"),
        );
    }
    let note = table.text("note", faults);
    let promoted = table
        .flag("promoted", faults)
        .is_some_and(|promoted| promoted.value);
    let mut is_whole = lists.is_whole;
    let mut changes: Vec<TrialChange> = Vec::new();
    for mut change_table in table.tables("change", faults) {
        let mut reading = Reading {
            lists,
            promoted,
            is_whole: true,
        };
        let change = reading.change(&mut change_table, faults);
        is_whole &= reading.is_whole;
        let Some(change) = change else { continue };
        let twice = changes.iter().any(|other| {
            other.index.is_some() && (other.list, other.index) == (change.list, change.index)
        });
        if twice && !promoted {
            is_whole = false;
            faults.add(
                STOP,
                change.span,
                &change_table.at,
                format!(
                    "this {} is changed before in the same trial",
                    change.list.key()
                ),
                in_file("put all that is new of it into one `[[trial.change]]`"),
            );
        }
        changes.push(change);
    }
    let mut additions = Vec::new();
    for list in TrialList::ALL {
        for mut added in table.tables(list.key(), faults) {
            let before = added.raw("before", faults);
            let before = before.map(|before| found(lists, list, &before, promoted, &added, faults));
            is_whole &= !matches!(before, Some(None));
            additions.push(TrialAddition {
                list,
                before: before.flatten(),
                settings: added.rest(faults, &mut is_whole),
                span: added.span,
            });
        }
    }
    table.finish(faults);
    Some(Trial {
        name: name?,
        note,
        promoted,
        changes,
        additions,
        is_whole,
        span: table.span,
    })
}

struct Reading<'l, 'd> {
    lists: &'l Lists<'d>,
    promoted: bool,
    is_whole: bool,
}

impl Reading<'_, '_> {
    fn change(&mut self, table: &mut Table<'_>, faults: &mut Faults<'_>) -> Option<TrialChange> {
        let meant: Vec<(TrialList, Spanned<String>)> = TrialList::ALL
            .into_iter()
            .filter_map(|list| Some((list, table.raw(list.key(), faults)?)))
            .collect();
        let left_out = table
            .flag("left_out", faults)
            .is_some_and(|left_out| left_out.value);
        // What was there before, written when the trial was promoted.
        let _ = table.item("was");
        let settings = table.rest(faults, &mut self.is_whole);
        let [(list, meant)] = meant.as_slice() else {
            self.is_whole = false;
            faults.add(
                STOP,
                table.span,
                &table.at,
                if meant.is_empty() {
                    "the change does not say what it changes"
                } else {
                    "the change names more than one thing"
                },
                in_file(
                    "write one of ‹line = …›, ‹step = …› and ‹garnish = …›: its name or its number",
                ),
            );
            return None;
        };
        let index = found(self.lists, *list, meant, self.promoted, table, faults);
        let says = match (left_out, settings.is_empty()) {
            // What could not be read has been told.
            _ if !self.is_whole => None,
            (false, true) => Some((
                "the change does not say what is new",
                in_file("add the key that is new, such as ‹amount = …›, or `left_out = true`"),
            )),
            (true, false) => Some((
                "what is left out cannot be changed as well",
                in_file("keep `left_out`, or the other keys"),
            )),
            _ => None,
        };
        if let Some((message, mend)) = says {
            self.is_whole = false;
            faults.add(STOP, table.span, &table.at, message, mend);
        }
        self.is_whole &= index.is_some();
        Some(TrialChange {
            list: *list,
            index,
            left_out,
            settings,
            span: table.span,
        })
    }
}

/// The item that is meant; a promoted trial speaks of the document as it was, and is not asked.
fn found(
    lists: &Lists<'_>,
    list: TrialList,
    meant: &Spanned<String>,
    promoted: bool,
    table: &Table<'_>,
    faults: &mut Faults<'_>,
) -> Option<usize> {
    if promoted || !lists.is_whole {
        return None;
    }
    let span: Span = meant.span;
    lists
        .find(list, meant)
        .map_err(|(message, mend)| {
            faults.add((Topic::Name, Gravity::Stop), span, &table.at, message, mend);
        })
        .ok()
}

impl Table<'_> {
    /// Every key that nothing asked for, as it is to be written elsewhere.
    fn rest(&mut self, faults: &mut Faults<'_>, is_whole: &mut bool) -> Vec<(String, Setting)> {
        let mut settings = Vec::new();
        for (key, span) in self.unasked() {
            match self.setting(&key, faults) {
                Some(setting) => settings.push((key, setting)),
                None => {
                    *is_whole = false;
                    let shown = shorten(&key);
                    faults.add(
                        STOP,
                        span,
                        &self.key(&shown),
                        Words::of_file(
                            format!("`{shown}` should be a text, true or false"),
                            format!("what its file says as `{shown}` cannot be read"),
                        ),
                        in_file("write it as the line, step or garnish itself would have it"),
                    );
                }
            }
        }
        settings
    }
}
