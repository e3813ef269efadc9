//! At the bar: tonight's spec, to read with wet hands; nothing here can be spoiled.

use std::sync::Arc;

use axum::extract::{Query, State};
use maud::{Markup, html};
use pomace_bench::Bench;
use pomace_book::{Document, Reading, Spot};
use serde::Deserialize;

use super::fault::Fault;
use super::opened::Opened;
use crate::app::App;
use crate::drink::steps::entering;
use crate::drink::study::{Study, pours};
use crate::view::frame;
use crate::view::said;
use crate::view::steps::step_words;
use crate::words::{Unit, letter, set};

#[derive(Debug, Deserialize)]
pub(crate) struct Asked {
    #[serde(default = "one")]
    rounds: u32,
    #[serde(default, rename = "in")]
    unit: Unit,
}

const fn one() -> u32 {
    1
}

/// Seconds of the first step that has a time, for the timer.
fn seconds(steps: &[pomace_book::Step]) -> Option<u64> {
    let time = steps.iter().find_map(|step| step.time.as_ref())?;
    let seconds = time.value.seconds();
    (1.0..=3600.0).contains(&seconds).then_some(seconds as u64)
}

pub(crate) async fn page(
    State(app): State<Arc<App>>,
    opened: Opened,
    Query(asked): Query<Asked>,
) -> Result<Markup, Fault> {
    let Opened { id, kept, read, .. } = &opened;
    let around = app.kitchen().around(Some(id), read);
    let bench = Bench::with_memo(&around.book, &app.memo);
    let Some(Document::Drink(drink)) = around.book.document(around.document) else {
        return Err(Fault::nowhere());
    };
    let study = Study::of(&bench, around.document, drink);
    let rounds = asked.rounds.clamp(1, 12);
    let frame = opened.frame(&app, "drinks");
    let link = |rounds: u32, unit: Unit| format!("/bar/{id}?rounds={rounds}&in={}", unit.key());
    // On the scale together is what enters together.
    let mut totals: Vec<(Option<&str>, Option<f64>)> = Vec::new();
    let lines: Vec<(char, String, String, String)> = drink
        .lines
        .iter()
        .enumerate()
        .map(|(index, line)| {
            let spot = Spot::Line(index);
            let grams = study.grams(spot).map(|grams| grams * f64::from(rounds));
            let enters = line.enters.as_ref().map(|step| step.value.as_str());
            let place = totals.iter().position(|(other, _)| *other == enters);
            let place = place.unwrap_or_else(|| {
                totals.push((enters, Some(0.0)));
                totals.len() - 1
            });
            let total = totals.get_mut(place).and_then(|(_, total)| {
                *total = total.zip(grams).map(|(total, grams)| total + grams);
                *total
            });
            let amount = line.amount.as_ref().map(|amount| &amount.value);
            let amount = many(&study, spot, amount, asked.unit, rounds);
            let running =
                total.map_or_else(|| "–".to_owned(), |total| format!("{} g", set(total, 0)));
            (letter(index), line.what.value.clone(), amount, running)
        })
        .collect();
    let serve = study
        .outcome
        .as_ref()
        .ok()
        .map(|outcome| &outcome.report.per_serve);
    let inner = html! {
        main id="main" class="bar" data-bar=(id) {
            header class="title" { h1 { (kept.name) } p { "× " (rounds) } }
            div class="acts rounds" {
                @for count in [1, 2, 3, 4, 6] {
                    a class="act" href=(link(count, asked.unit)) aria-current=[(count == rounds).then_some("true")] { "× " (count) }
                }
                @for unit in Unit::ALL.into_iter().filter(|unit| *unit != Unit::Jiggers || !bench.house().measures().is_empty()) {
                    a class="act" href=(link(rounds, unit)) aria-current=[(unit == asked.unit).then_some("true")] { (unit.label()) }
                }
            }
            ol class="pours" {
                @for (letter, name, amount, running) in &lines {
                    li { span class="letter" { (letter) } span class="what" { (name) } b { (amount) } small { (running) " in all" } }
                }
            }
            section class="section" { header { h2 { "Allergens" } }
                @match serve {
                    Some(serve) => (said::allergens(&serve.allergens, &serve.allergens_possible, &serve.cautions, &study.unknown())),
                    None => p class="said" { "Not known: the drink cannot be worked out yet. Ask before you serve it." },
                }
            }
            section class="section" { header { h2 { @if rounds == 1 { "Steps" } @else { "Steps, amounts for one" } } }
            ol class="steps" {
                @for (index, step) in drink.steps.iter().enumerate() {
                    @let (words, note) = step_words(step, &entering(drink, index, step));
                    li { span class="number" { (index + 1) } p { (crate::words::sentence(&words)) @if !note.is_empty() { small { (note) } } } p {} }
                }
                @for garnish in &drink.garnish {
                    li { span class="number" {} p { (crate::words::sentence(garnish.action.value.word())) " "
                        (garnish.what.as_ref().map_or("", |what| what.value.as_str()))
                        @if garnish.optional { small { "can be left off" } } }
                        p { (garnish.amount.as_ref().map_or("", |a| a.value.text.as_str())) } }
                }
            }
            }
            @if let Some(seconds) = seconds(&drink.steps) {
                div class="buttons" { button class="button timer" type="button" data-timer=(seconds) hidden { "time " (seconds) " s" } }
            }
            p { a class="act" href={ "/drinks/" (id) } { "back to the drink" } }
        }
    };
    Ok(frame::page(&frame, &inner))
}

/// An amount for so many rounds.
fn many(
    study: &Study<'_>,
    spot: Spot,
    amount: Option<&pomace_book::Amount>,
    unit: Unit,
    rounds: u32,
) -> String {
    let times = f64::from(rounds);
    if unit == Unit::Written {
        let Some(amount) = amount else {
            return "–".to_owned();
        };
        let more = match &amount.reading {
            Reading::Mass { grams } => Reading::Mass {
                grams: grams * times,
            },
            Reading::Volume { millilitres } => Reading::Volume {
                millilitres: millilitres * times,
            },
            Reading::Measure { measure, count, .. } => measure.times(count * times),
            Reading::Ounces { count } => Reading::Ounces {
                count: count * times,
            },
            Reading::Count { count, noun } => Reading::Count {
                count: count * times,
                noun: noun.clone(),
            },
            // A share stays a share; what is to taste is tasted each time.
            _ => return amount.text.trim().to_owned(),
        };
        return if rounds == 1 {
            amount.text.trim().to_owned()
        } else {
            more.to_string()
        };
    }
    let Some(grams) = study.grams(spot).map(|grams| grams * times) else {
        return "–".to_owned();
    };
    if unit == Unit::Jiggers
        && let Some(density) = study.bench.grams_per_ml(study.id, spot)
        && let Some(pours) = pours(grams / density, study.bench.house().measures())
    {
        return pours;
    }
    let decimals = |value: f64| if value < 10.0 { 1 } else { 0 };
    match study
        .bench
        .grams_per_ml(study.id, spot)
        .filter(|_| unit == Unit::Millilitres)
    {
        Some(density) => {
            let millilitres = grams / density;
            format!("{} mL", set(millilitres, decimals(millilitres)))
        }
        None => format!("{} g", set(grams, decimals(grams))),
    }
}
