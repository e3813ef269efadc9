//! How the drink gets cold and thin, drawn beside its glass.

use maud::{Markup, html};
use pomace_bench::report::Figures;
use pomace_matter::liquid::Property;
use pomace_matter::units::Celsius;
use pomace_matter::{Mixture, Substance, activity};
use pomace_plate::path::{self, IcePath, Moment, State};

use super::glass::glass;
use super::plate::{done, last_on_ice};
use super::study::Study;
use crate::view::plate::Widths;
use crate::words::{sentence, set};

pub(super) fn part(study: &Study<'_>, widths: Widths) -> Markup {
    let path = path_of(study).filter(|path| path.on_ice.len() > 1 || path.in_glass.len() > 1);
    let glass = glass(study);
    if path.is_none() && glass.is_none() {
        return html! {};
    }
    html! {
        section class="section" {
            header { h2 { @if path.is_some() { "On ice, and in the glass" } @else { "In the glass" } } }
            div class={ @if path.is_some() && glass.is_some() { "pair" } } {
                @if let Some(path) = &path {
                    figure {
                        (widths.draw("path", |width, prefix| path::draw(path, width, prefix)))
                        figcaption { b { "Fig. 2." } " " (caption(path, stroke(study))) " Nobody has yet checked temperature and melt against drinks that were weighed: weigh one before and after." (assumed(study)) }
                    }
                }
                @if let Some(glass) = &glass {
                    figure {
                        (widths.draw("glass", |width, prefix| pomace_plate::glass::draw(glass, width, prefix)))
                        figcaption { b { "Fig. 3." } " The glass, in section." }
                    }
                }
            }
        }
    }
}

/// What is taken as usual of the time in the glass.
fn assumed(study: &Study<'_>) -> String {
    let outcome = study.outcome.as_ref().ok();
    let waits = outcome.filter(|outcome| !outcome.report.over_time.is_empty());
    let ice = waits.and_then(|outcome| outcome.mixed.glass_ice.as_ref());
    ice.map_or_else(String::new, |ice| {
        let assumed = ice.assumed().join(", ");
        format!(" Assumed in the glass, without a source: {assumed}.")
    })
}

/// Seconds from stroke to stroke: of a scale's steps the first that makes no more than a dozen of them.
fn stroke(study: &Study<'_>) -> f64 {
    const STEPS: [f64; 8] = [1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 60.0, 300.0];
    let outcome = study.outcome.as_ref();
    let seconds: f64 = outcome.map_or(0.0, |outcome| {
        let meetings = outcome.mixed.on_ice.iter();
        meetings.map(|meeting| meeting.seconds).sum()
    });
    let found = STEPS.into_iter().find(|step| seconds <= 12.0 * step);
    found.unwrap_or(600.0)
}

/// What this drawing shows, and what its strokes and dots count.
fn caption(path: &IcePath, stroke: f64) -> String {
    let seconds = path.on_ice.last().map_or(0.0, |last| last.time);
    let minutes = path.in_glass.last().map_or(0.0, |last| last.time);
    let mut said = Vec::new();
    if seconds > 0.0 {
        let every = if stroke > 1.0 {
            format!("{} seconds", set(stroke, 0))
        } else {
            "second".to_owned()
        };
        let whole = set(seconds, usize::from(seconds.fract() > 0.05));
        said.push(format!(
            "{} {whole} s, a stroke for each {every}",
            path.done
        ));
    }
    if minutes > 0.0 {
        said.push(format!(
            "{} minutes in the glass, a dot for each five",
            set(minutes, 0)
        ));
    }
    sentence(&format!("{}.", said.join("; then ")))
}

/// How a drink gets cold and thin.
pub(crate) fn path_of(study: &Study<'_>) -> Option<IcePath> {
    let outcome = study.outcome.as_ref().ok()?;
    let volume = outcome
        .report
        .before
        .get(Property::Volume)
        .filter(|v| *v > 0.0)?;
    let percent = |grams: f64| 100.0 * grams / 0.9982 / volume;
    let every = stroke(study);
    let mut on_ice = Vec::new();
    let mut freezing = Vec::new();
    let (mut seconds, mut melt) = (0.0, 0.0);
    for meeting in &outcome.mixed.on_ice {
        let way = meeting.way(every);
        for moment in &way {
            on_ice.push(Moment {
                time: seconds + moment.seconds,
                state: State {
                    melt_percent: percent(melt + moment.melt_grams),
                    celsius: moment.celsius,
                },
            });
        }
        let last = way.last().copied()?;
        freezing.push(coast(&meeting.chill.liquid, last.melt_grams, |grams| {
            percent(melt + grams)
        }));
        seconds += last.seconds;
        melt += last.melt_grams;
    }
    let served = &outcome.report.after;
    let here = |figures: &Figures| {
        Some(State {
            melt_percent: figures.dilution_percent?.value?,
            celsius: figures.celsius.value?,
        })
    };
    let topped = here(served).filter(|state| {
        on_ice
            .last()
            .is_some_and(|last| (last.state.celsius - state.celsius).abs() > 0.3)
    });
    let waiting: Vec<&(u32, Figures)> = outcome
        .report
        .over_time
        .iter()
        .filter(|(minute, _)| minute % 5 == 0)
        .collect();
    let in_glass = waiting
        .iter()
        .filter_map(|(minute, figures)| {
            Some(Moment {
                time: f64::from(*minute),
                state: here(figures)?,
            })
        })
        .collect();
    let waits: Vec<State> = waiting
        .iter()
        .filter_map(|(_, figures)| {
            Some(State {
                melt_percent: figures.dilution_percent?.value?,
                celsius: figures.get(Property::FreezingPoint)?,
            })
        })
        .collect();
    if waits.len() > 1 {
        freezing.push(waits);
    }
    freezing.retain(|coast| coast.len() > 1);
    Some(IcePath {
        name: study.doc.name.value.clone(),
        done: last_on_ice(study).map_or("on ice", done).to_owned(),
        on_ice,
        topped,
        in_glass,
        freezing,
    })
}

/// Where a liquid with more and more melt would freeze.
fn coast(liquid: &Mixture, to_grams: f64, percent: impl Fn(f64) -> f64) -> Vec<State> {
    (0..=6)
        .filter_map(|part| {
            let grams = to_grams * f64::from(part) / 6.0;
            let mut thinner = *liquid;
            thinner.put(Substance::Water, grams);
            let freezing = activity::freezing::freezing_point(&thinner).ok()?;
            let Celsius(celsius) = freezing.celsius()?;
            Some(State {
                melt_percent: percent(grams),
                celsius,
            })
        })
        .collect()
}
