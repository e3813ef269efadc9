//! What is in 100 g, and how well that is known.

use maud::{Markup, html};
use pomace_bench::shelf::{Contents, Item};
use pomace_book::IngredientDoc;
use pomace_larder::Basis;

use crate::voice;
use crate::words::set;

/// The reading that tells most of what is in something.
pub(super) const READING: &str = "a refractometer on its juice, and a titration for its acid";

/// What is in it, as label, value and unit.
pub(super) fn figures(contents: &Contents) -> Vec<(&'static str, String, &'static str)> {
    let mut figures = vec![
        ("water", set(contents.water, 1), "g"),
        ("sugar", set(contents.sugar, 1), "g"),
        ("acid", set(contents.acid, 2), "g"),
        ("energy", set(contents.energy, 0), "kcal"),
    ];
    if let Some(brix) = contents.juice_brix {
        figures.push(("its juice reads about", set(brix, 1), "°Bx"));
    }
    figures
}

/// Whether a document says nothing of what is in it.
pub(super) const fn is_untold(doc: &IngredientDoc) -> bool {
    doc.based_on.is_none()
        && doc.composition.is_empty()
        && doc.strength.is_none()
        && doc.sugar.is_none()
        && doc.acid.is_none()
        && doc.brix.is_none()
}

/// What 100 g hold of something that does not pour, with its source and what would settle it.
pub(crate) fn part(doc: &IngredientDoc, item: &Item) -> Markup {
    if is_untold(doc) {
        return html! {
            section class="section" { header { h2 { "In 100 g" } }
                p class="said" { "Nobody told what is in it. Say what it is similar to, or what a refractometer shows." }
            }
        };
    }
    let Some(contents) = item.contents() else {
        return html! {};
    };
    html! {
        section class="section" { header { h2 { "In 100 g" } }
            ul class="points" {
                @for (label, value, unit) in figures(&contents) {
                    li { span { (label) } span class="dots" {} span { (value) " " small { (unit) } } }
                }
            }
            (known_by(item, None))
        }
    }
}

/// How well the contents are known: what is unknown and which reading would settle it, and behind a fold the sources
/// and all that was taken for granted.
pub(super) fn known_by(item: &Item, share_source: Option<&str>) -> Markup {
    let basis = item.gram.carried.basis.unwrap_or(Basis::Assumed);
    html! {
        @if let Some(of) = &item.similar.contents {
            p class="inside" { "Only similar to " (of) ": " (READING) " would settle it." }
        } @else if basis == Basis::Assumed {
            p class="inside" { "What is in it is assumed: " (READING) " would settle it." }
        }
        details class="fold" {
            summary { "How it is known" }
            @if let Some(source) = share_source { p class="inside" { (voice::spoken(&format!("its share: {source}"))) } }
            p class="inside" {
                (voice::spoken(&format!("what is in it, {basis}: {}", item.source)))
                @for remark in &item.remarks { " " (voice::spoken(remark)) }
            }
        }
    }
}
