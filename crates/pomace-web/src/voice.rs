//! The voice of the pages: what the book and the bench have to say, with each field called by the label
//! that stands beside it, and nothing of the file that a document is written as.

use pomace_bench::{Place, RunError};
use pomace_book::edit::EditError;
use pomace_book::limits::LIST_ITEMS;
use pomace_book::trial::PromoteError;
use pomace_book::{Finding, Words};

use crate::routes::{house, ingredients};
use crate::view::steps;
use crate::words::{full, letter};

/// What a page calls the fields of a line.
pub(crate) const OF_A_LINE: [(&str, &str); 3] = [
    ("what", "What goes in"),
    ("amount", "How much"),
    ("enters", "Enters at"),
];

/// What is wrong and how to mend it, each a whole sentence.
pub(crate) fn finding(finding: &Finding) -> (String, String) {
    let list = list_of(&finding.place.key);
    (
        in_list(&finding.message, list),
        in_list(&finding.mend, list),
    )
}

/// The same in one.
pub(crate) fn both(of: &Finding) -> String {
    let (message, mend) = finding(of);
    format!("{message} {mend}")
}

/// Words that belong to no one place, as a whole sentence.
pub(crate) fn words(words: &Words) -> String {
    in_list(words, "")
}

/// A text that was said in the voice of the file, without keys in it.
pub(crate) fn spoken(text: &str) -> String {
    words(&Words::from(text))
}

/// A source of doubt within a sentence. Names may have commas and numbers of their own, so they are set apart.
pub(crate) fn source(name: &str) -> String {
    const ONLY_SIMILAR: &str = " (only similar)";
    if name == "the model itself" {
        return "the formula itself".to_owned();
    }
    let of = |before: &str| Some((before.to_owned(), name.strip_prefix(before)?));
    match of("what is in ").or_else(|| of("how much ")) {
        Some((before, name)) => match name.strip_suffix(ONLY_SIMILAR) {
            Some(name) => format!("{before}“{name}”{ONLY_SIMILAR}"),
            None => format!("{before}“{name}”"),
        },
        None => name.to_owned(),
    }
}

/// Why there are no figures.
pub(crate) fn error(error: &RunError) -> String {
    let (message, mend) = error.told();
    let (list, at) = match error.place() {
        Some(Place::Line(line)) => ("line", format!("line {}: ", letter(line))),
        Some(place @ Place::Step(_)) => ("step", format!("{place}: ")),
        Some(place @ Place::Garnish(_)) => ("garnish", format!("{place}: ")),
        None => ("", String::new()),
    };
    format!(
        "{} {}",
        in_list(&message.after(at), list),
        in_list(&mend, list)
    )
}

/// Why a text could not be changed.
pub(crate) fn edit(error: &EditError) -> String {
    match error {
        EditError::Unreadable { message, .. } => words(message),
        EditError::Missing { .. } | EditError::NotAValue { .. } => {
            "What was to be changed is not there any more as it was: load the page again."
                .to_owned()
        }
        EditError::Full { .. } => {
            format!("There are {LIST_ITEMS} of them already, which is the most.")
        }
    }
}

/// Why a trial cannot become the next revision.
pub(crate) fn promote(error: &PromoteError) -> String {
    match error {
        PromoteError::Edit(error) => edit(error),
        other => spoken(&other.to_string()),
    }
}

/// The list that a place lies in: `line 3, amount` lies in `line`.
fn list_of(key: &str) -> &str {
    let head = key.split(',').next().unwrap_or(key);
    head.split(' ').next().unwrap_or(head)
}

fn in_list(words: &Words, list: &str) -> String {
    let said = words.on_page(|key| field(list, key));
    // As all pages write it.
    full(&said.replace("%vol", "% vol"))
}

/// What a page calls what holds for a whole document, and what has no field of its own.
fn of_the_whole(key: &str) -> Option<&'static str> {
    Some(match key {
        "note" => "A word about it",
        "range, of" => "Held against",
        "range, sourness" => "Sourness, from and to",
        "range, sweetness" => "Sweetness, from and to",
        "carried_by" => "Carried by",
        "optional" => "Can be left off",
        "unit" => "One weighs",
        "measures" => "Jiggers",
        _ => return None,
    })
}

/// What stands beside the field of a key: in this list, or else where there is one.
pub(crate) fn field(list: &str, key: &str) -> Option<&'static str> {
    let of_a_line = || {
        let found = OF_A_LINE.iter().find(|(of, _)| *of == key);
        found.map(|(_, label)| *label)
    };
    let own = match list {
        "line" => of_a_line(),
        "step" => steps::label(key),
        "garnish" => steps::label_of_garnish(key),
        _ => of_the_whole(key).or_else(|| ingredients::label(key)),
    };
    own.or_else(|| of_the_whole(key).filter(|_| key != "note"))
        .or_else(|| steps::label(key))
        .or_else(|| ingredients::label(key))
        .or_else(|| house::label(key))
        .or_else(of_a_line)
}

#[cfg(test)]
mod tests {
    use pomace_book::{Source, parse};

    use super::*;

    /// All that is said of a text that somebody wrote into a file.
    fn said(text: &str) -> Vec<String> {
        let parsed = parse(&Source::new("D", text));
        parsed.findings.iter().map(both).collect()
    }

    #[test]
    fn a_field_is_called_as_its_page_calls_it() {
        let line = "drink = \"D\"\n[[line]]\nwhat = \"gin, 40 %\"\namount = \"a splash\"\n[[line]]\nwhat = \"soda\"\n";
        assert_eq!(
            said(line),
            [
                "“splash” is no measure that two people pour alike. Measure it once and write it, such as “5 mL”; or “to taste, from 5 mL”.",
                "The line “soda” does not say how much. Fill in “How much”, such as “40 mL”, or “to taste, from 5 mL”.",
            ]
        );
        let top = "drink = \"D\"\n[[line]]\nwhat = \"soda\"\namount = \"top up\"\n";
        assert_eq!(
            said(top),
            [
                "“top” says when, not how much. Write the amount that goes in, such as “60 mL”, and “Enters at”: “top”."
            ]
        );
        let step = "prep = \"P\"\n[[step]]\ndo = \"wash\"\ntime = \"overnight\"\n";
        assert_eq!(
            said(step),
            [
                "The step “wash” does not say with which fat. Fill in “With which fat”, since its allergens and taste stay.",
                "“overnight” is a different time in every house. Write the hours it had, such as “10 h” or “12 h”.",
            ]
        );
    }

    #[test]
    fn a_name_in_a_sentence_is_set_apart() {
        assert_eq!(
            source("what is in Vinegar, cider"),
            "what is in “Vinegar, cider”"
        );
        assert_eq!(source("how much aquavit, 42 %"), "how much “aquavit, 42 %”");
        assert_eq!(
            source("what is in quince / flesh (only similar)"),
            "what is in “quince / flesh” (only similar)"
        );
        assert_eq!(source("pace of the melt"), "pace of the melt");
    }

    #[test]
    fn what_only_a_file_can_have_is_not_said_as_a_file_has_it() {
        let broken = "drink = \"D\"\n[[line]\nwhat = \"gin, 40 %\"\n";
        assert_eq!(
            said(broken),
            [
                "Its file cannot be read: something is wrong at line 2 of it. That is mended in its file, not on a page; an earlier revision can be brought back from its history."
            ]
        );
    }
}
