//! Lines with their steppers.

use maud::{Markup, html};

use super::{At, Doc};
use crate::drink::study::Shown;

/// A line, ready to be shown.
pub(crate) struct LineView {
    pub index: usize,
    pub letter: char,
    pub name: String,
    /// The page that the name leads to.
    pub link: Option<String>,
    pub shown: Shown,
    /// What a step more does, in words.
    pub push: Option<String>,
    /// What is wrong or asked, with how to mend it.
    pub said: Vec<(String, String)>,
    /// The step at which it enters, if it is not the first.
    pub enters: Option<String>,
    pub count: usize,
    /// The steps at which a line may enter, by the words that a line says.
    pub steps: Vec<String>,
    /// Whether nobody knows yet what its name means.
    pub leads_nowhere: bool,
    /// The house's jiggers, mL.
    pub measures: Vec<f64>,
}

/// A stepper for an amount.
fn stepper(doc: &Doc<'_>, line: &LineView) -> Markup {
    let LineView { name, shown, .. } = line;
    let at = At {
        change: "set",
        list: Some("line"),
        index: Some(line.index),
        key: Some("amount"),
    };
    let step = |to: Option<&String>, class: &str, word: &str| {
        let number = to.map(|to| short(to, &shown.unit));
        html! {
            button class=(class) name="pick" value=[to] disabled[to.is_none()]
                aria-label={ (name) ", " (word) " to " (to.map_or("", String::as_str)) } {
                (number.unwrap_or_default())
            }
        }
    };
    let inner = html! {
        button class="unseen" tabindex="-1" { "set" }
        input type="hidden" name="unit" value=(shown.unit);
        (step(shown.steps.less.as_ref(), "minus", "less"))
        label {
            span class="unseen" { "amount of " (name) }
            input name="value" value=(shown.value) size="4" placeholder="?" inputmode=[is_number(&shown.value).then_some("decimal")]
                class=[(!is_number(&shown.value)).then_some("wordy")] enterkeyhint="done";
            span class="unit" { (shown.unit) }
        }
        (step(shown.steps.more.as_ref(), "plus", "more"))
        @if let Some(ticks) = ticks(line) {
            svg class="ticks" viewBox="0 0 100 11" preserveAspectRatio="none" aria-hidden="true" {
                path d=(ticks) {}
                path class="now" d="M50 2V11" {}
            }
        }
    };
    doc.form(&at, "stepper", &inner)
}

fn is_number(text: &str) -> bool {
    text.chars()
        .all(|sign| sign.is_ascii_digit() || sign == '.')
}

/// Signs that have room under a plus.
const LONGEST_STEP: usize = 9;

/// What a step leads to, without the unit that stands beside it.
fn short<'a>(to: &'a str, unit: &str) -> &'a str {
    let number = to.find(' ').and_then(|at| to.get(..at)).unwrap_or(to);
    if unit.is_empty() || to.len() > LONGEST_STEP {
        return number;
    }
    // In another unit than the one that stands there it says so: `37.5 mL` beside `4 cl`.
    to.strip_suffix(unit).map_or(to, str::trim)
}

pub(crate) fn line(doc: &Doc<'_>, line: &LineView) -> Markup {
    let list = Some("line");
    let index = Some(line.index);
    let at = |change: &'static str, key| At {
        change,
        list,
        index,
        key,
    };
    html! {
        div class="line" data-key={ "line-" (line.index) } {
            span class="letter" { (line.letter) }
            div class="name" {
                details class="more" {
                    summary { (line.name) @if let Some(step) = &line.enters { small { " at " (step) } } }
                    div class="within" {
                        (doc.form(&at("set", Some("what")), "field-row", &html! {
                            label class="field" { span { "What goes in" }
                                input name="value" value=(line.name) data-find="what"; }
                            button class="act" { "keep" }
                        }))
                        (doc.form(&at("set", Some("enters")), "field-row", &html! {
                            label class="field" { span { "Enters at" }
                                select name="value" {
                                    option value="" { "the first step" }
                                    @for step in &line.steps {
                                        option value=(step) selected[line.enters.as_ref() == Some(step)] { (step) }
                                    }
                                } }
                            button class="act" { "keep" }
                        }))
                        div class="acts" {
                            @if let Some(link) = &line.link { a class="act" href=(link) { "open" } }
                            @if line.index > 0 {
                                (doc.act(&at("move", None), &html! { input type="hidden" name="to" value=(line.index - 1); }, "up", &line.name))
                            }
                            @if line.index + 1 < line.count {
                                (doc.act(&at("move", None), &html! { input type="hidden" name="to" value=(line.index + 1); }, "down", &line.name))
                            }
                            (doc.act(&at("remove", None), &html! {}, "take out", &line.name))
                        }
                    }
                }
            }
            (stepper(doc, line))
            @if let Some(pours) = &line.shown.pours { p class="push pours-of" { "jiggers " (pours) } }
            @if let Some(push) = &line.push { p class="push" { (push) } }
            @for (message, mend) in &line.said {
                p class="amiss" { (message) " " span { (mend) } }
            }
            @if line.leads_nowhere { (unknown(doc, &line.name)) }
        }
    }
}

/// What a name may be that nobody knows: made here, bought, or like something known.
fn unknown(doc: &Doc<'_>, name: &str) -> Markup {
    let back = format!("/drinks/{}", doc.id);
    let to = |kind: &str, label: &str| {
        html! {
            form class="inline" method="get" action="/new" {
                input type="hidden" name="kind" value=(kind);
                input type="hidden" name="name" value=(name);
                input type="hidden" name="back" value=(back);
                button class="button" { (label) }
            }
        }
    };
    html! {
        div class="buttons wide" {
            (to("prep", "We make it here"))
            (to("ingredient", "It has a label, or is similar to something"))
        }
    }
}

/// Marks of the house's jiggers around an amount in millilitres, the amount in the middle.
fn ticks(line: &LineView) -> Option<String> {
    if line.shown.unit != "mL" {
        return None;
    }
    let value: f64 = line.shown.value.parse().ok()?;
    let next: f64 = line
        .shown
        .steps
        .more
        .as_deref()?
        .split(' ')
        .next()?
        .parse()
        .ok()?;
    let step = next - value;
    if step <= 0.0 {
        return None;
    }
    let mut path = String::new();
    for at in -8_i32..=8 {
        let amount = value + f64::from(at) * step;
        if amount < 0.0 || at == 0 {
            continue;
        }
        let is_jigger = line
            .measures
            .iter()
            .any(|measure| (measure - amount).abs() < 1e-6);
        let x = 50.0 + 50.0 * f64::from(at) / 8.5;
        path.push_str(&format!("M{x:.1} {}V11", if is_jigger { 3 } else { 7 }));
    }
    Some(path)
}

/// The line that is not there yet.
pub(crate) fn empty(doc: &Doc<'_>, letter: char, is_first: bool) -> Markup {
    let at = At {
        change: "add",
        list: Some("line"),
        index: None,
        key: None,
    };
    let inner = html! {
        span class="letter" aria-hidden="true" { (letter) }
        label class="field" { span { @if is_first { "What goes in first" } @else { "One more line" } }
            input name="what" data-find="what" placeholder="gin, 42 %"; }
        label class="field amount" { span { "How much" } input name="amount" placeholder="40 mL"; }
        button class="button" { "Put it in" }
    };
    doc.form(&at, "line more put-in", &inner)
}
