//! Drinks: lines, steps, garnish and brief.

use super::faults::Faults;
use super::marks::marks;
use super::range::range;
use super::step;
use super::table::Table;
use super::trial::{Lists, trials};
use crate::document::{Brief, DrinkDoc, Garnish, Line, Step};
use crate::finding::{Gravity, Topic};
use crate::names;
use crate::quantity::{parse_duration, parse_share};
use crate::span::Spanned;
use crate::verb::{GarnishAction, Sense, Verb};
use crate::voice::{IN_ITS_FILE, Words};

/// Reads a drink whose name is known.
pub(super) fn read(
    name: Spanned<String>,
    table: &mut Table<'_>,
    faults: &mut Faults<'_>,
) -> DrinkDoc {
    let tables = table.tables("line", faults);
    let had_lines = table.has("line");
    let mut written = tables.len();
    let lines: Vec<Line> = tables
        .into_iter()
        .filter_map(|table| line(table, faults))
        .collect();
    let (steps, steps_written) = steps(table, faults);
    let garnish = table.tables("garnish", faults);
    written += steps_written + garnish.len();
    let garnish: Vec<Garnish> = garnish
        .into_iter()
        .filter_map(|table| one_garnish(table, faults))
        .collect();
    let brief = brief(table, faults);
    let claims = table.texts("claims", faults);
    let note = table.text("note", faults);
    if !had_lines {
        faults.add(
            (Topic::Amount, Gravity::Caution),
            name.span,
            "drink",
            "the drink has no lines, so there is nothing to compute",
            Words::of_file(
                "add a line: `[[line]]` with ‹what› and ‹amount›",
                "put in what comes first, and how much of it",
            ),
        );
    }
    check_entries(&lines, &steps, faults);
    let lists = Lists {
        kind: "drink",
        lines: &lines,
        steps: &steps,
        garnish: &garnish,
        is_whole: lines.len() + steps.len() + garnish.len() == written,
    };
    let trials = trials(table, &lists, faults);
    let marks = marks(table, faults);
    let range = range(table, faults);
    DrinkDoc {
        name,
        lines,
        steps,
        garnish,
        brief,
        claims,
        marks,
        trials,
        range,
        note,
    }
}

/// The steps of a prep or a drink, and how many are written.
pub(super) fn steps(table: &mut Table<'_>, faults: &mut Faults<'_>) -> (Vec<Step>, usize) {
    let steps = table.tables("step", faults);
    let written = steps.len();
    // A step is large, and a book holds thousands: no room for more than there are.
    let mut read = Vec::with_capacity(written);
    read.extend(
        steps
            .into_iter()
            .filter_map(|table| step::read(table, faults)),
    );
    (read, written)
}

/// What a prep or a drink should bring to mind.
pub(super) fn brief(table: &mut Table<'_>, faults: &mut Faults<'_>) -> Vec<Brief> {
    let briefs = table.tables("brief", faults);
    briefs
        .into_iter()
        .map(|table| one_brief(table, faults))
        .collect()
}

fn line(mut table: Table<'_>, faults: &mut Faults<'_>) -> Option<Line> {
    let what = table.name("what", faults);
    let amount = table.amount("amount", faults);
    let enters = table.name("enters", faults);
    let note = table.text("note", faults);
    table.finish(faults);
    let Some(what) = what else {
        if !table.has("what") {
            faults.add(
                (Topic::Name, Gravity::Stop),
                table.span,
                &table.at,
                "the line does not say what goes in",
                "‹add what = …› with the name of an ingredient or a prep",
            );
        }
        return None;
    };
    if !table.has("amount") {
        faults.add(
            (Topic::Amount, Gravity::Caution),
            what.span,
            &table.at,
            format!("the line `{}` does not say how much", what.value),
            "‹add amount = …›, such as `40 mL`, or `to taste, from 5 mL`",
        );
    }
    Some(Line {
        what,
        amount,
        enters,
        note,
        span: table.span,
    })
}

fn one_garnish(mut table: Table<'_>, faults: &mut Faults<'_>) -> Option<Garnish> {
    let actions = || GarnishAction::ALL.iter().map(|action| action.word());
    let action = table.word("do", faults, GarnishAction::named, actions);
    if action.is_none() && !table.has("do") {
        faults.add(
            (Topic::Syntax, Gravity::Stop),
            table.span,
            &table.at,
            "the garnish does not say what is done",
            Words::of_file(
                format!("‹add do = …› with {}", names::either(actions())),
                IN_ITS_FILE,
            ),
        );
    }
    let what = table.name("what", faults);
    let amount = table.amount("amount", faults);
    let eaten = table.read("eaten", faults, parse_share);
    let optional = table
        .flag("optional", faults)
        .is_some_and(|optional| optional.value);
    let lead = table.read("lead", faults, parse_duration);
    let note = table.text("note", faults);
    table.finish(faults);
    let action = action?;
    if what.is_none() && action.value != GarnishAction::Frost && !table.has("what") {
        faults.add(
            (Topic::Name, Gravity::Caution),
            action.span,
            &table.at,
            format!("the garnish `{}` does not say what", action.value),
            "‹add what = …›, since its allergens count",
        );
    }
    Some(Garnish {
        action,
        what,
        amount,
        eaten,
        optional,
        lead,
        note,
        span: table.span,
    })
}

fn one_brief(mut table: Table<'_>, faults: &mut Faults<'_>) -> Brief {
    let note = table.text("note", faults);
    let senses = || Sense::ALL.iter().map(|sense| sense.word());
    let sense = table.word("sense", faults, Sense::named, senses);
    let carried_by = table.texts("carried_by", faults);
    table.finish(faults);
    Brief {
        note,
        sense,
        carried_by,
        span: table.span,
    }
}

/// A line must enter at a step that is there.
fn check_entries(lines: &[Line], steps: &[Step], faults: &mut Faults<'_>) {
    for (index, line) in lines.iter().enumerate() {
        let Some(enters) = &line.enters else { continue };
        let entry = |step: &Step| {
            names::same(step.verb.word(), enters)
                || step
                    .name_as
                    .as_ref()
                    .is_some_and(|name| names::same(name, enters))
        };
        if steps.iter().any(entry) {
            continue;
        }
        let verbs = steps.iter().map(|step| step.verb.word());
        let named = steps
            .iter()
            .filter_map(|step| step.name_as.as_ref())
            .map(|name| name.as_str());
        let mut known: Vec<&str> = Vec::new();
        for name in verbs.chain(named) {
            if !known.contains(&name) {
                known.push(name);
            }
        }
        let near = names::nearest(enters, known.iter().copied(), 1);
        let mend = if let [near] = near.as_slice() {
            format!("write `{near}`, if that is meant").into()
        } else if known.is_empty() {
            Words::of_file(
                format!("add the step: `[[step]]` with ‹do = {}›", Verb::Top),
                format!("add the step `{}`", Verb::Top),
            )
        } else {
            format!("write {}, or add that step", names::either(known)).into()
        };
        faults.add(
            (Topic::Name, Gravity::Caution),
            enters.span,
            &format!("line {}, enters", index + 1),
            format!(
                "the line `{}` enters at `{}`, but no step is called so",
                line.what.value, enters.value
            ),
            mend,
        );
    }
}
