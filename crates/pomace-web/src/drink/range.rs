//! The range that the drink is held against.

use maud::{Markup, html};
use pomace_book::edit::{Draft, Path};

use super::study::Study;
use crate::view::{At, Doc};

/// The range that the drink is held against: chosen, edited, or none.
pub(super) fn part(study: &Study<'_>, doc: &Doc<'_>, draft: Option<&Draft>) -> Markup {
    let choose = At {
        change: "range",
        list: None,
        index: None,
        key: None,
    };
    let chosen = study.doc.range.as_ref().and_then(|range| range.of.as_ref());
    let chosen = chosen.map_or("", |of| of.value.as_str());
    let fields = [
        ("range.of", "of", "Of what"),
        ("range.sourness", "sourness", "Sourness, from and to"),
        ("range.sweetness", "sweetness", "Sweetness, from and to"),
    ];
    html! {
        details class="fold" data-key="range" {
            summary { @if study.doc.range.is_some() { "Held against: " (chosen) ", from memory, unchecked" } @else { "Hold it against a usual range" } }
            (doc.form(&choose, "field-row", &html! {
                label class="field" { span { "Usual ranges, from memory and unchecked; a house may stand outside on purpose" }
                    select name="value" {
                        option value="" { "none" }
                        @for known in &crate::ranges::KNOWN { option value=(known.of) selected[known.of == chosen] { (known.of) } }
                    } }
                button class="act" { "keep" }
            }))
            @if study.doc.range.is_some() {
                @for (key, name, label) in fields {
                    @let at = At { change: "set", list: None, index: None, key: Some(key) };
                    @let value = draft.and_then(|d| d.get(&Path::within("range", name))).unwrap_or_default();
                    (doc.form(&at, "field-row", &html! {
                        label class="field" { span { (label) } input name="value" value=(value); }
                        button class="act" { "keep" }
                    }))
                }
            }
        }
    }
}
