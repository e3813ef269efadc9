//! Whether all that a text lists can be read.
//!
//! A page tells lines, steps and garnish by their number. One that cannot be read is not shown, and all
//! behind it would be taken for the one before.

use pomace_book::edit::Draft;
use pomace_book::{Document, Gravity, ReadOnce, Source};

use crate::change::Asked;
use crate::voice;

/// Why changes are not made: they would leave something that cannot be read, or tell by its number what
/// stands behind something that cannot be. None where they are.
pub(crate) fn refusal(
    before: &str,
    after: &ReadOnce,
    draft: Option<&Draft>,
    asked: &[Asked],
) -> Option<String> {
    let unread = unread(after, draft?)?;
    let source = Source::new(&after.source().path, before);
    let was = ReadOnce::of(source).ok().zip(Draft::open(before).ok());
    let was_whole = was.is_none_or(|(read, draft)| self::unread(&read, &draft).is_none());
    if was_whole {
        Some(unread)
    } else if asked.iter().any(|asked| asked.at.is_some()) {
        Some(format!(
            "Something here cannot be read, so what stands behind it cannot be changed on this page. {unread}"
        ))
    } else {
        None
    }
}

/// What is wrong with the first thing that is listed and cannot be read.
fn unread(read: &ReadOnce, draft: &Draft) -> Option<String> {
    let lists: &[(&str, usize)] = match read.document() {
        Document::Drink(drink) => &[
            ("line", drink.lines.len()),
            ("step", drink.steps.len()),
            ("garnish", drink.garnish.len()),
        ],
        Document::Prep(prep) => &[("step", prep.steps.len())],
        Document::Ingredient(_) | Document::House(_) => &[],
    };
    // Where as many are read as are written, there is none behind the last.
    let (list, _) = lists
        .iter()
        .find(|(list, count)| !draft.entries(list, *count).is_empty())?;
    let fault = read
        .findings()
        .iter()
        .find(|fault| fault.gravity == Gravity::Stop && fault.place.key.starts_with(list));
    Some(match fault {
        Some(fault) => voice::both(fault),
        None => format!("A {list} cannot be read."),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const WHOLE: &str = "drink = \"D\"\n[[line]]\nwhat = \"gin, 40 %\"\namount = \"40 mL\"\n";
    const BROKEN: &str = "drink = \"D\"\n[[line]]\namount = \"20 mL\"\n[[line]]\nwhat = \"gin, 40 %\"\namount = \"40 mL\"\n";

    fn refused(before: &str, after: &str, asked: &[Asked]) -> Option<String> {
        let read = ReadOnce::of(Source::new("D", after)).unwrap();
        refusal(before, &read, Draft::open(after).ok().as_ref(), asked)
    }

    #[test]
    fn what_would_leave_something_unread_is_refused() {
        let why = refused(WHOLE, BROKEN, &[]).unwrap();
        assert!(
            why.contains("does not say what goes in") && why.contains("Fill in “What goes in”"),
            "{why}"
        );
        assert_eq!(refused(WHOLE, WHOLE, &[]), None);
        // What mends it is not.
        assert_eq!(refused(BROKEN, WHOLE, &[]), None);
    }

    #[test]
    fn behind_something_unread_nothing_is_told_by_its_number() {
        let by_number = Asked {
            at: Some(0),
            ..Asked::default()
        };
        let why = refused(BROKEN, BROKEN, &[by_number]).unwrap();
        assert!(why.contains("cannot be read"), "{why}");
        assert_eq!(refused(BROKEN, BROKEN, &[Asked::default()]), None);
    }
}
