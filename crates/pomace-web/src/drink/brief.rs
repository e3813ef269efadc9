//! The brief: what the drink should bring to mind, and what carries it.

use maud::{Markup, html};
use pomace_book::names;

use super::study::Study;
use crate::view::{At, Doc};
use crate::words::letter;

pub(super) fn part(study: &Study<'_>, doc: &Doc<'_>) -> Markup {
    let at = At {
        change: "add",
        list: Some("brief"),
        index: None,
        key: None,
    };
    html! {
        section class="section" {
            header { h2 { "Brief" } }
            @if !study.doc.brief.is_empty() {
                ul class="points" {
                    @for brief in &study.doc.brief {
                        li {
                            span { (brief.note.as_ref().map_or("", |note| note.value.as_str())) }
                            @if let Some(sense) = &brief.sense { small { (sense.value.word()) } }
                            span class="dots" {}
                            i { @for name in &brief.carried_by {
                                @match letter_of(study, name) { Some(letter) => { (letter) " " }, None => { (name.value) " " } }
                            } }
                        }
                    }
                }
            }
            details class="fold" { summary { "Add what it should bring to mind" }
                (doc.form(&at, "put-in", &html! {
                    label class="field" { span { "A dish, a place, a memory: one piece of it" } input name="key" placeholder="orchard after rain"; }
                    button class="button" { "Add it" }
                }))
            }
        }
    }
}

/// The preps and the parts of a drink are drawn by the letters of its lines.
fn letter_of(study: &Study<'_>, name: &str) -> Option<char> {
    let lines = study.doc.lines.iter();
    let found = lines
        .enumerate()
        .find(|(_, line)| names::same(&line.what, name));
    found.map(|(index, _)| letter(index))
}
