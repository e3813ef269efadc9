//! Allergens and cautions, and what a serve brings to the person who drinks it.

use maud::{Markup, html};
use pomace_bench::report::Figure;

use super::study::Study;
use crate::view::said;
use crate::words::known;

pub(super) fn part(study: &Study<'_>) -> Markup {
    let Ok(outcome) = &study.outcome else {
        return html! {};
    };
    let serve = &outcome.report.per_serve;
    let value = |figure: Figure, decimals| known(figure.value, decimals);
    html! {
        section class="section" {
            header { h2 { "Allergens" } }
            (said::allergens(&serve.allergens, &serve.allergens_possible, &serve.cautions, &study.unknown()))
        }
        section class="section" {
            header { h2 { "A serve" } }
            p class="said" {
                (value(serve.alcohol_g, 1)) " g of alcohol (" (value(serve.uk_units, 1)) " UK units, "
                (value(serve.us_standard_drinks, 1)) " US standard drinks), "
                (value(serve.energy_kcal, 0)) " kcal, " (value(serve.sugar_g, 1)) " g of sugar"
                @if serve.caffeine_mg.value.is_some_and(|mg| mg >= 0.5) { ", " (value(serve.caffeine_mg, 0)) " mg of caffeine" }
                "."
            }
        }
    }
}
