//! A document as it was written, set as a spec: nothing on it can be changed.

use maud::{Markup, html};
use pomace_book::edit::Contents;
use pomace_book::{Document, DrinkDoc, Source, Step, parse};

use super::steps::step_words;
use crate::differ::{called, label, rest};
use crate::drink::steps::entering;
use crate::words::{letter, sentence};

/// The spec of a text; none where it cannot be read.
pub(crate) fn of(text: &str) -> Option<Markup> {
    let document = parse(&Source::new("", text)).document?;
    let contents = Contents::of(text).ok()?;
    let kind = document.kind();
    let top: Vec<(String, String)> = contents
        .top
        .iter()
        .filter(|(key, _)| key != kind && key != "note")
        .map(|(key, text)| (sentence(&label("", key)), text.clone()))
        .collect();
    let others = contents
        .lists
        .iter()
        .filter(|(list, _)| !["line", "step", "garnish"].contains(&list.as_str()));
    let others: Vec<(String, String)> = others
        .flat_map(|(list, items)| {
            let items = items.iter().enumerate();
            items.map(move |(at, item)| (called(list, at, item), rest(list, item)))
        })
        .collect();
    let note = contents.top.iter().find(|(key, _)| key == "note");
    Some(html! {
        @if let Some((_, note)) = note { p class="said" { em { (note) } } }
        (points(&top))
        @if let Document::Drink(drink) = &document {
            (lines(drink))
            (steps(&drink.steps, |index, step| entering(drink, index, step)))
            (garnish(drink))
        } @else {
            (steps(document.steps(), |_, _| Vec::new()))
        }
        (points(&others))
    })
}

fn points(told: &[(String, String)]) -> Markup {
    html! {
        @if !told.is_empty() {
            ul class="points" { @for (what, how) in told { li { span { (what) } @if !how.is_empty() { span class="dots" {} span { (how) } } } } }
        }
    }
}

fn lines(drink: &DrinkDoc) -> Markup {
    html! {
        ul class="points" {
            @for (index, line) in drink.lines.iter().enumerate() {
                li {
                    i { (letter(index)) } span { (line.what.value) }
                    @if let Some(enters) = &line.enters { small { "at " (enters.value) } }
                    span class="dots" {}
                    span { (line.amount.as_ref().map_or("", |amount| amount.value.text.trim())) }
                }
            }
        }
    }
}

fn steps(steps: &[Step], letters: impl Fn(usize, &Step) -> Vec<char>) -> Markup {
    html! {
        @if !steps.is_empty() {
            ol class="steps" {
                @for (index, step) in steps.iter().enumerate() {
                    @let (words, note) = step_words(step, &letters(index, step));
                    li { span class="number" { (index + 1) } p { (sentence(&words)) @if !note.is_empty() { small { (note) } } } p {} }
                }
            }
        }
    }
}

fn garnish(drink: &DrinkDoc) -> Markup {
    html! {
        @if !drink.garnish.is_empty() {
            ul class="points" {
                @for garnish in &drink.garnish {
                    li {
                        span { (sentence(garnish.action.value.word())) " "
                            (garnish.what.as_ref().map_or("", |what| what.value.as_str())) }
                        @if garnish.optional { small { "can be left off" } }
                        span class="dots" {}
                        span { (garnish.amount.as_ref().map_or("", |amount| amount.value.text.trim())) }
                    }
                }
            }
        }
    }
}
