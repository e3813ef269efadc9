//! The plate: the field with the drink among its house's, and the gist of it in figures.

use maud::{Markup, html};
use pomace_bench::report::{Figure, Figures};
use pomace_book::{ToldValue, Verb};
use pomace_matter::Substance;
use pomace_matter::liquid::Property;
use pomace_plate::Doubtful;
use pomace_plate::field::{self, Ended, Field, Neighbour, Push, Ranges, Remembered, Spot, Taste};

use super::study::{Outcome, Stand, Study};
use crate::kitchen::Mark;
use crate::view::plate::Widths;
use crate::words::{and, known, letter};

pub(super) fn part(study: &Study<'_>, field: &field::Field, widths: Widths) -> Markup {
    let report = study.outcome.as_ref().ok().map(|outcome| &outcome.report);
    let gist = |label: (&str, &str),
                value: Option<f64>,
                decimals: usize,
                unit: &str,
                class: &str| {
        html! { div class=(class) { dt { (label.0) @if !label.1.is_empty() { " " small { (label.1) } } } dd { (known(value, decimals)) " " small { (unit) } } } }
    };
    html! {
        div class="plate stay" {
            figure {
                (widths.draw("field", |width, prefix| Some(field::draw(field, width, prefix))))
                figcaption { b { "Fig. 1." } " Ice and soda carry a drink straight toward water; only the lines turn it." }
            }
            @if let Some(report) = report {
                dl class="gist" aria-live="polite" {
                    (gist(("volume", ""), report.after.volume.value, 0, "mL", "wide"))
                    (gist(("strength", ""), report.after.get(Property::Strength), 1, "% vol", ""))
                    (gist(("sweetness", "in 100 mL"), report.after.get(Property::Sweetness), 1, "g", ""))
                    (gist(("sourness", "in 1 L"), report.after.get(Property::TitratableAcidity), 1, "g", ""))
                    (gist(("served at", ""), report.after.celsius.value, 1, "°C", ""))
                }
                @if !study.unknown().is_empty() { p class="without" { "Without " (and(&study.unknown())) ": nobody has said what that is." } }
            }
        }
    }
}

const fn taste(stand: Stand) -> Taste {
    Taste {
        sourness_g_per_l: stand.sourness_g_per_l,
        sweetness_g_per_100ml: stand.sweetness_g_per_100ml,
    }
}

pub(super) fn doubtful(figure: Option<Figure>) -> Option<Doubtful> {
    let figure = figure?;
    Some(Doubtful {
        value: figure.value?,
        plus_minus: figure.plus_minus,
    })
}

fn spot(figures: &Figures) -> Option<Spot> {
    Some(Spot {
        sourness_g_per_l: doubtful(figures.figure(Property::TitratableAcidity))?,
        sweetness_g_per_100ml: doubtful(figures.figure(Property::Sweetness))?,
        strength_percent: figures.get(Property::Strength).unwrap_or(0.0),
    })
}

/// The field of a drink among its house's.
pub(crate) fn field(
    study: &Study<'_>,
    pushes: &[(usize, Stand)],
    house: Vec<(String, Mark)>,
    was: Option<Stand>,
    kept: Option<Ranges>,
) -> Field {
    let mut field = Field {
        name: study.doc.name.value.clone(),
        kept,
        house: house
            .into_iter()
            .map(|(name, mark)| Neighbour {
                name,
                taste: Taste {
                    sourness_g_per_l: mark.sourness_g_per_l,
                    sweetness_g_per_100ml: mark.sweetness_g_per_100ml,
                },
                strength_percent: mark.strength_percent,
            })
            .collect(),
        ..Field::default()
    };
    field.remembered = remembered(study);
    let Ok(outcome) = &study.outcome else {
        return field;
    };
    let report = &outcome.report;
    field.served = spot(&report.after);
    let meets_ice = !outcome.mixed.on_ice.is_empty();
    field.before = spot(&report.before).filter(|_| meets_ice);
    let served = Stand::of(&report.after);
    field.was = was
        .filter(|was| served.is_some_and(|now| now != *was))
        .map(taste);
    field.ended = ended(study, outcome);
    if let Some(served) = served {
        field.pushes = pushes
            .iter()
            .map(|(line, stand)| Push {
                letter: letter(*line),
                change: Taste {
                    sourness_g_per_l: stand.sourness_g_per_l - served.sourness_g_per_l,
                    sweetness_g_per_100ml: stand.sweetness_g_per_100ml
                        - served.sweetness_g_per_100ml,
                },
            })
            .collect();
    }
    field
}

/// The range that the drink is held against, in the units of the field.
fn remembered(study: &Study<'_>) -> Option<Remembered> {
    let range = study.doc.range.as_ref()?;
    let between = |told: &Option<pomace_book::Spanned<ToldValue>>| match told.as_ref()?.value {
        ToldValue::Between(low, high) => Some((low, high)),
        ToldValue::Exactly(_) | ToldValue::NotStated => None,
    };
    let (sour, sweet) = (between(&range.sourness)?, between(&range.sweetness)?);
    let corner = |sour: f64, sweet: f64| Taste {
        sourness_g_per_l: sour,
        sweetness_g_per_100ml: sweet / 10.0,
    };
    Some(Remembered {
        words: range
            .of
            .as_ref()
            .map_or_else(String::new, |of| of.value.clone()),
        from: corner(sour.0, sweet.0),
        to: corner(sour.1, sweet.1),
    })
}

/// Where the last step on ice ended, if something was added after it.
fn ended(study: &Study<'_>, outcome: &Outcome) -> Option<Ended> {
    let on_ice = outcome.mixed.on_ice.last()?;
    let moment = on_ice.way(f64::INFINITY).pop()?;
    let mut liquid = on_ice.chill.liquid;
    liquid.put(Substance::Water, moment.melt_grams);
    if liquid.total().0 > 0.99 * outcome.mixed.after.liquid.total().0 {
        return None;
    }
    let stream = pomace_bench::Stream {
        liquid,
        celsius: moment.celsius,
        ..pomace_bench::Stream::default()
    };
    let stand = Stand::of(&Figures::of(&stream))?;
    let verb = done(last_on_ice(study)?);
    Some(Ended {
        taste: taste(stand),
        words: format!("{verb} {:.0} s", on_ice.seconds),
    })
}

/// What is done on ice, as it was done: `shaken`.
pub(super) fn done(verb: Verb) -> &'static str {
    match verb {
        Verb::Shake => "shaken",
        Verb::Stir => "stirred",
        Verb::Throw => "thrown",
        Verb::Swizzle => "swizzled",
        Verb::BlendWithIce => "blended",
        _ => "on ice",
    }
}

/// The step on ice that came last.
pub(super) fn last_on_ice(study: &Study<'_>) -> Option<Verb> {
    let verbs = study.doc.steps.iter().map(|step| step.verb.value);
    verbs.rev().find(|verb| {
        matches!(
            verb,
            Verb::Shake | Verb::Stir | Verb::Throw | Verb::Swizzle | Verb::BlendWithIce
        )
    })
}
