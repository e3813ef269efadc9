//! Steps, from table to meaning; keys that do nothing in a step are pointed out.

use super::faults::Faults;
use super::table::Table;
use crate::document::{Glass, Ice, Step};
use crate::finding::{Gravity, Topic};
use crate::names;
use crate::quantity::{
    parse_duration, parse_pressure, parse_share, parse_sugar_used, parse_target, parse_temperature,
};
use crate::span::Spanned;
use crate::verb::{ClarifyBy, DrawWith, FermentKind, Gas, Verb};
use crate::voice::{IN_ITS_FILE, Words};

/// Where keys that not every step has belong.
const BELONGS: &[(&str, &[Verb])] = &[
    ("to_moisture", &[Verb::Dry]),
    ("with", &[Verb::Draw]),
    ("by", &[Verb::Clarify]),
    ("fat", &[Verb::Wash]),
    ("kind", &[Verb::Ferment]),
    ("sugar_used", &[Verb::Ferment]),
    ("gas", &[Verb::Charge]),
    ("pressure", &[Verb::Charge]),
    ("glass", &[Verb::Pour, Verb::Build]),
    ("over", &[Verb::Pour, Verb::Build]),
    (
        "ice",
        &[
            Verb::Build,
            Verb::Stir,
            Verb::Shake,
            Verb::Throw,
            Verb::Swizzle,
            Verb::BlendWithIce,
            Verb::Chill,
            Verb::Pour,
        ],
    ),
];

/// Reads one step; `None` where its verb cannot be read.
pub(super) fn read(mut table: Table<'_>, faults: &mut Faults<'_>) -> Option<Step> {
    let table = &mut table;
    let verb = verb(table, faults);
    let placeholder = Spanned::new(Verb::Add, table.span);
    let mut step = Step::bare(verb.unwrap_or(placeholder), table.span);
    step.what = table.name("what", faults);
    step.amount = table.amount("amount", faults);
    step.name_as = table.name("as", faults);
    step.through = table.text("through", faults);
    step.keep = table.name("keep", faults);
    step.by_product = table.name("by_product", faults);
    step.time = table.read("time", faults, parse_duration);
    step.temperature = table.read("temperature", faults, parse_temperature);
    step.loss = table.read("loss", faults, parse_share);
    step.to = table.read("to", faults, parse_target);
    step.to_moisture = table.read("to_moisture", faults, parse_share);
    step.with = table.word("with", faults, DrawWith::named, || ["sugar", "salt"]);
    step.by = table.word("by", faults, ClarifyBy::named, || {
        ClarifyBy::ALL.iter().map(|by| by.word())
    });
    step.fat = table.name("fat", faults);
    step.kind = table.word("kind", faults, FermentKind::named, || {
        FermentKind::ALL.iter().map(|kind| kind.word())
    });
    step.sugar_used = table.read("sugar_used", faults, parse_sugar_used);
    step.gas = table.word("gas", faults, Gas::named, || {
        Gas::ALL.iter().map(|gas| gas.word())
    });
    step.pressure = table.read("pressure", faults, parse_pressure);
    step.vessel = table.text("in", faults);
    step.ice = table.read("ice", faults, Ice::parse);
    step.glass = table.read("glass", faults, Glass::parse);
    step.over = table.text("over", faults);
    step.over_ice = over_ice(&step, table, faults);
    step.note = table.text("note", faults);
    table.finish(faults);
    let verb = verb?;
    check_keys(table, verb.value, faults);
    check_missing(table, &step, faults);
    Some(step)
}

/// What is poured over, where it reads as ice; else a word that none of it is counted.
fn over_ice(step: &Step, table: &Table<'_>, faults: &mut Faults<'_>) -> Option<Ice> {
    let over = step.over.as_ref()?;
    Ice::parse(over)
        .map_err(|error| {
            faults.add(
                (Topic::Amount, Gravity::Caution),
                over.span,
                &table.key("over"),
                error.what.after("no ice is counted here, since "),
                error.mend,
            );
        })
        .ok()
}

fn verb(table: &mut Table<'_>, faults: &mut Faults<'_>) -> Option<Spanned<Verb>> {
    if !table.has("do") {
        table.raw("do", faults);
        faults.add(
            (Topic::Syntax, Gravity::Stop),
            table.span,
            &table.at,
            "the step does not say what is done",
            Words::of_file(
                "‹add do = …› with a verb such as `add`, `steep`, `strain`, `shake` or `pour`",
                IN_ITS_FILE,
            ),
        );
        return None;
    }
    table.word("do", faults, Verb::named, || {
        Verb::ALL.iter().map(|verb| verb.word())
    })
}

/// Keys that mean nothing beside this verb.
fn check_keys(table: &Table<'_>, verb: Verb, faults: &mut Faults<'_>) {
    for (key, verbs) in BELONGS {
        if table.has(key) && !verbs.contains(&verb) {
            let verbs = names::either(verbs.iter().map(|verb| verb.word()));
            faults.add(
                (Topic::Syntax, Gravity::Caution),
                table.key_span(key),
                &table.key(key),
                format!("‹{key}› does nothing in the step `{verb}`"),
                format!("it belongs to {verbs}; move it there or leave it out"),
            );
        }
    }
}

/// What without which nothing can be computed.
fn check_missing(table: &Table<'_>, step: &Step, faults: &mut Faults<'_>) {
    let verb = step.verb.value;
    if matches!(verb, Verb::Weigh | Verb::Add | Verb::Dissolve)
        && step.what.is_none()
        && !table.has("what")
    {
        faults.add(
            (Topic::Name, Gravity::Stop),
            step.verb.span,
            &table.at,
            format!("the step `{verb}` does not say what"),
            "‹add what = …› with the name of an ingredient, a prep or a stream",
        );
    }
    if matches!(verb, Verb::Add | Verb::Dissolve) && step.what.is_some() && !table.has("amount") {
        faults.add(
            (Topic::Amount, Gravity::Caution),
            step.verb.span,
            &table.at,
            format!("the step `{verb}` does not say how much"),
            "‹add amount = …›, such as `240 g` or `35 % of peel`",
        );
    }
    if verb == Verb::Wash && step.fat.is_none() && !table.has("fat") {
        faults.add(
            (Topic::Name, Gravity::Caution),
            step.verb.span,
            &table.at,
            "the step `wash` does not say with which fat",
            "‹add fat = …›, since its allergens and taste stay",
        );
    }
}
