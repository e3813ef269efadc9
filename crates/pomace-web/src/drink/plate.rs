//! The drawings of a drink: field, path, glass.

use pomace_bench::report::{Figure, Figures};
use pomace_book::{Document, ToldValue, Verb};
use pomace_matter::liquid::Property;
use pomace_matter::units::Celsius;
use pomace_matter::{Mixture, Substance, activity};
use pomace_plate::Doubtful;
use pomace_plate::field::{Ended, Field, Neighbour, Push, Ranges, Remembered, Spot, Taste};
use pomace_plate::glass::{Glass, Ice, Shape};
use pomace_plate::path::{IcePath, Moment, State};

use super::study::{Outcome, Stand, Study};
use crate::kitchen::Mark;
use crate::words::letter;

const fn taste(stand: Stand) -> Taste {
    Taste {
        sourness_g_per_l: stand.sourness_g_per_l,
        sweetness_g_per_100ml: stand.sweetness_g_per_100ml,
    }
}

fn doubtful(figure: Option<Figure>) -> Option<Doubtful> {
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

/// What is done on ice, as it was done: `shaken`.
fn done(verb: Verb) -> &'static str {
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
fn last_on_ice(study: &Study<'_>) -> Option<Verb> {
    let verbs = study.doc.steps.iter().map(|step| step.verb.value);
    verbs.rev().find(|verb| {
        matches!(
            verb,
            Verb::Shake | Verb::Stir | Verb::Throw | Verb::Swizzle | Verb::BlendWithIce
        )
    })
}

/// Where the last step on ice ended, if something was added after it.
fn ended(study: &Study<'_>, outcome: &Outcome) -> Option<Ended> {
    let on_ice = outcome.mixed.on_ice.last()?;
    let moment = on_ice.way(1).pop()?;
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

/// How a drink gets cold and thin.
pub(crate) fn path(study: &Study<'_>) -> Option<IcePath> {
    let outcome = study.outcome.as_ref().ok()?;
    let volume = outcome
        .report
        .before
        .get(Property::Volume)
        .filter(|v| *v > 0.0)?;
    let percent = |grams: f64| 100.0 * grams / 0.9982 / volume;
    let mut on_ice = Vec::new();
    let mut freezing = Vec::new();
    let (mut seconds, mut melt) = (0.0, 0.0);
    for meeting in &outcome.mixed.on_ice {
        let parts = meeting.seconds.clamp(1.0, 12.0).round() as u32;
        let way = meeting.way(parts);
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

/// The glass, where the drink says which.
pub(crate) fn glass(study: &Study<'_>) -> Option<Glass> {
    let outcome = study.outcome.as_ref().ok()?;
    let pour = study
        .doc
        .steps
        .iter()
        .rev()
        .find(|step| step.glass.is_some());
    let named = pour.and_then(|step| step.glass.as_ref());
    let brim_ml = outcome.mixed.glass_ml?;
    let after = &outcome.report.after;
    let over = pour.and_then(|step| step.over.as_ref());
    let ice = outcome.mixed.glass_ice.map_or(Ice::None, |ice| {
        let grams = ice.grams;
        let is_crushed = over.is_some_and(|words| words.value.to_lowercase().contains("crush"));
        if ice.is_block {
            Ice::Block { grams }
        } else if is_crushed {
            Ice::Crushed { grams }
        } else {
            Ice::Cubes { grams }
        }
    });
    let garnish = |wanted: &dyn Fn(pomace_book::GarnishAction) -> bool| {
        let found = study.doc.garnish.iter().find(|g| wanted(g.action.value));
        found.and_then(|g| Some(g.what.as_ref()?.value.clone()))
    };
    use pomace_book::GarnishAction as Do;
    Some(Glass {
        name: study.doc.name.value.clone(),
        shape: named.map_or(Shape::Unknown, |glass| shape(&glass.value.name)),
        brim_ml,
        liquid_ml: doubtful(Some(after.volume))?,
        ice,
        foam_ml: outcome
            .report
            .texture
            .as_ref()
            .and_then(|texture| texture.foam_ml)
            .unwrap_or(0.0),
        rim: garnish(&|action| action == Do::Coat),
        garnish: garnish(&|action| matches!(action, Do::Set | Do::Float)),
    })
}

/// The outline that a glass of this name has.
fn shape(name: &str) -> Shape {
    let name = name.to_lowercase();
    let is = |words: &[&str]| words.iter().any(|word| name.contains(word));
    if is(&["coupe", "saucer"]) {
        Shape::Coupe
    } else if is(&["rocks", "tumbler", "short", "old", "low"]) {
        Shape::Rocks
    } else if is(&["tall", "long", "high", "sling"]) {
        Shape::Tall
    } else if is(&["stem", "wine", "goblet", "flute", "cocktail"]) {
        Shape::Stem
    } else {
        Shape::Unknown
    }
}

/// The preps and the parts of a drink are drawn by the letters of its lines.
pub(crate) fn letter_of(study: &Study<'_>, name: &str) -> Option<char> {
    let lines = study.doc.lines.iter();
    let found = lines
        .enumerate()
        .find(|(_, line)| pomace_book::names::same(&line.what, name));
    found.map(|(index, _)| letter(index))
}

/// Where a line leads: the document that it calls for.
pub(crate) fn leads_to(study: &Study<'_>, line: usize) -> Option<pomace_book::DocumentId> {
    let reference = study.bench.graph().line(study.id, line)?;
    let id = reference.document()?;
    matches!(
        study.bench.book().document(id),
        Some(Document::Prep(_) | Document::Ingredient(_))
    )
    .then_some(id)
}
