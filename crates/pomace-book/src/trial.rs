//! Trials carried out: the text of a variant, and the variant made the document.
//!
//! A variant is the text of its document with the trial's changes made by [`mod@crate::edit`]: so it is
//! read, resolved and computed as every other document is. Promotion makes the same changes in the text
//! that is kept, and leaves the trial in it with what was there before.

use crate::book::{Book, DocumentId};
use crate::document::{Document, Setting, Source, Trial, TrialAddition, TrialChange, TrialList};
use crate::edit::{Draft, EditError, Path};
use crate::finding::{Finding, Gravity, Topic};
use crate::read::parse;
use crate::span::Span;
use crate::voice::Words;

/// Why a trial cannot be promoted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PromoteError {
    /// The document has no such trial, or it was promoted before.
    #[error("there is no such trial, or it was promoted before")]
    Nothing,
    /// Something in it, or in its document, could not be read.
    #[error("the trial or its document could not be read whole")]
    NotWhole,
    /// Another trial changes what this one leaves out.
    #[error("the trial `{trial}` speaks of {list} {number}, which this one leaves out")]
    Spoken {
        /// The other trial.
        trial: String,
        /// The list.
        list: &'static str,
        /// The number in it, from 1.
        number: usize,
    },
    /// The text could not be changed.
    #[error(transparent)]
    Edit(#[from] EditError),
}

/// The text of a document with a trial's changes made, and without its trials.
///
/// # Errors
/// Where the text is no TOML, or has not the places that the trial names.
pub fn variant(text: &str, trial: &Trial) -> Result<String, EditError> {
    let mut draft = Draft::open(text)?;
    apply(&mut draft, trial)?;
    draft.unset(&Path::top("trial"))?;
    Ok(draft.to_text())
}

/// The text of a document with one of its trials made the document itself. The trial stays, marked as
/// promoted, each of its changes with what was there before; the others follow what moved.
///
/// # Errors
/// [`PromoteError`].
pub fn promote(text: &str, trials: &[Trial], which: usize) -> Result<String, PromoteError> {
    let trial = trials
        .get(which)
        .filter(|trial| !trial.promoted)
        .ok_or(PromoteError::Nothing)?;
    if !trial.is_whole {
        return Err(PromoteError::NotWhole);
    }
    let mut draft = Draft::open(text)?;
    let before = draft.clone();
    apply(&mut draft, trial)?;
    for (place, change) in trial.changes.iter().enumerate() {
        let was = was(&before, change);
        if !was.is_empty() {
            let path = Path::item("trial", which, "was").in_list("change", place);
            draft.set_entries(&path, &was)?;
        }
    }
    draft.set_flag(&Path::item("trial", which, "promoted"), true)?;
    follow(&mut draft, trials, which)?;
    Ok(draft.to_text())
}

/// Makes the changes of a trial.
fn apply(draft: &mut Draft, trial: &Trial) -> Result<(), EditError> {
    for change in &trial.changes {
        let Some(index) = change.index else { continue };
        for (key, setting) in &change.settings {
            set(draft, &Path::item(change.list.key(), index, key), setting)?;
        }
    }
    for list in TrialList::ALL {
        rebuild(draft, trial, list)?;
    }
    Ok(())
}

fn set(draft: &mut Draft, path: &Path, setting: &Setting) -> Result<(), EditError> {
    match setting {
        Setting::Text(text) => draft.set(path, text),
        Setting::Flag(flag) => draft.set_flag(path, *flag),
    }
}

/// Takes out and puts in, from the end of the list on, so that what is not done yet keeps its number.
fn rebuild(draft: &mut Draft, trial: &Trial, list: TrialList) -> Result<(), EditError> {
    let gone = |change: &TrialChange| {
        let is_gone = change.list == list && change.left_out;
        change.index.filter(|_| is_gone)
    };
    let mut work: Vec<(usize, Option<&TrialAddition>)> = Vec::new();
    for added in trial.additions.iter().filter(|added| added.list == list) {
        work.push((added.before.unwrap_or(usize::MAX), Some(added)));
    }
    work.extend(trial.changes.iter().filter_map(gone).map(|at| (at, None)));
    // At one place the item itself goes first, and what is added in reverse stands as it was told.
    work.sort_by_key(|(at, added)| (*at, added.is_none()));
    for (at, added) in work.into_iter().rev() {
        let Some(added) = added else {
            draft.remove(list.key(), at)?;
            continue;
        };
        let texts: Vec<(&str, &str)> = added
            .settings
            .iter()
            .filter_map(|(key, setting)| match setting {
                Setting::Text(text) => Some((key.as_str(), text.as_str())),
                Setting::Flag(_) => None,
            })
            .collect();
        let index = draft.insert(list.key(), at, &texts)?;
        for (key, setting) in &added.settings {
            if matches!(setting, Setting::Flag(_)) {
                set(draft, &Path::item(list.key(), index, key), setting)?;
            }
        }
    }
    Ok(())
}

/// What a change replaces, as it was written.
fn was(before: &Draft, change: &TrialChange) -> Vec<(String, String)> {
    let Some(index) = change.index else {
        return Vec::new();
    };
    let mut entries = before.entries(change.list.key(), index);
    if !change.left_out {
        entries.retain(|(key, _)| change.settings.iter().any(|(other, _)| other == key));
    }
    entries
}

/// Where an item stands after the trial; `None` where it was left out.
fn moved(trial: &Trial, list: TrialList, index: usize) -> Option<usize> {
    let gone = |change: &&TrialChange| change.list == list && change.left_out;
    let gone: Vec<usize> = trial
        .changes
        .iter()
        .filter(gone)
        .filter_map(|change| change.index)
        .collect();
    if gone.contains(&index) {
        return None;
    }
    let added = trial.additions.iter().filter(|added| added.list == list);
    let added = added.filter(|added| added.before.is_some_and(|before| before <= index));
    Some(index + added.count() - gone.iter().filter(|at| **at < index).count())
}

/// Lets the other trials speak of the same items as before, by number where the name no longer will do.
fn follow(draft: &mut Draft, trials: &[Trial], which: usize) -> Result<(), PromoteError> {
    let Some(trial) = trials.get(which) else {
        return Ok(());
    };
    let read = parse(&Source::new("", draft.to_text())).document;
    let now = read.as_ref().map_or(&[][..], Document::trials);
    for (place, other) in trials.iter().enumerate() {
        if place == which || other.promoted {
            continue;
        }
        let now = now.get(place);
        for (at, change) in other.changes.iter().enumerate() {
            let Some(index) = change.index else { continue };
            let meant = now.and_then(|now| now.changes.get(at)?.index);
            let path = Path::item("trial", place, change.list.key()).in_list("change", at);
            renumber(draft, (trial, other), (change.list, index), meant, &path)?;
        }
        for list in TrialList::ALL {
            let of = |added: &&TrialAddition| added.list == list;
            let added = other.additions.iter().filter(of).enumerate();
            for (at, addition) in added {
                let Some(index) = addition.before else {
                    continue;
                };
                let now = now.and_then(|now| now.additions.iter().filter(of).nth(at));
                let meant = now.and_then(|addition| addition.before);
                let path = Path::item("trial", place, "before").in_list(list.key(), at);
                renumber(draft, (trial, other), (list, index), meant, &path)?;
            }
        }
    }
    Ok(())
}

fn renumber(
    draft: &mut Draft,
    (trial, other): (&Trial, &Trial),
    (list, index): (TrialList, usize),
    meant: Option<usize>,
    path: &Path,
) -> Result<(), PromoteError> {
    let Some(moved) = moved(trial, list, index) else {
        return Err(PromoteError::Spoken {
            trial: other.name.value.clone(),
            list: list.key(),
            number: index + 1,
        });
    };
    if meant != Some(moved) {
        draft.set(path, &(moved + 1).to_string())?;
    }
    Ok(())
}

/// Findings as they are told to whoever wrote the documents: those of a variant at its trial, and only
/// what its document does not have anyway.
#[must_use]
pub fn told(book: &Book, findings: Vec<Finding>) -> Vec<Finding> {
    let variants: Vec<(&str, DocumentId)> = book
        .documents()
        .filter(|(id, _)| book.variant(*id).is_some())
        .filter_map(|(id, _)| Some((book.source(id)?.path.as_str(), id)))
        .collect();
    if variants.is_empty() {
        return findings;
    }
    let of: std::collections::HashMap<&str, DocumentId> = variants.into_iter().collect();
    let known: std::collections::HashSet<(String, Words, Words)> = findings
        .iter()
        .map(|f| (f.place.path.clone(), f.message.clone(), f.mend.clone()))
        .collect();
    findings
        .into_iter()
        .filter_map(|finding| match of.get(finding.place.path.as_str()) {
            None => Some(finding),
            Some(id) => at_its_trial(book, *id, finding, &known),
        })
        .collect()
}

fn at_its_trial(
    book: &Book,
    id: DocumentId,
    finding: Finding,
    known: &std::collections::HashSet<(String, Words, Words)>,
) -> Option<Finding> {
    let variant = book.variant(id)?;
    let (base, source) = (book.document(variant.base)?, book.source(variant.base)?);
    let trial = base.trials().get(variant.trial)?;
    let same = (
        source.path.clone(),
        finding.message.clone(),
        finding.mend.clone(),
    );
    if known.contains(&same) {
        return None;
    }
    let name = &trial.name.value;
    let before = match finding.place.key.as_str() {
        "" => format!("in the trial `{name}`: ").into(),
        place => {
            let key = place.rsplit(", ").next().unwrap_or(place);
            Words::of_file(
                format!("in the trial `{name}`, {place}: "),
                format!("in the trial `{name}`, ‹{key}›: "),
            )
        }
    };
    let key = format!("trial {}", variant.trial + 1);
    Some(Finding {
        message: finding.message.after(before),
        place: book.place(variant.base, trial.name.span, &key),
        ..finding
    })
}

/// A trial whose changes cannot be made.
pub(crate) fn cannot(book: &Book, id: DocumentId, trial: &Trial, error: &EditError) -> Finding {
    let span: Span = trial.name.span;
    Finding {
        document: book
            .document(id)
            .map_or_else(String::new, |document| document.name().value.clone()),
        place: book.place(id, span, "trial"),
        topic: Topic::Syntax,
        gravity: Gravity::Stop,
        message: Words::of_file(
            format!("the trial `{}` cannot be made: {error}", trial.name.value),
            format!("the trial `{}` cannot be made", trial.name.value),
        ),
        authority: None,
        mend: "look at what its changes name".into(),
    }
}
