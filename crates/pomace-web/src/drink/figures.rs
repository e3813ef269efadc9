//! The drink's figures, with why each is what it is.

use maud::{Markup, html};
use pomace_bench::doubt::{FigureName, Stage};
use pomace_bench::report::{Figure, Figures};
use pomace_bench::stream::Carried;
use pomace_book::{Reference, Spot};
use pomace_larder::Basis;
use pomace_matter::liquid::Property;
use pomace_matter::{Mixture, Substance};
use pomace_plate::strip::{Share, Strip};

use super::study::{LATER, Outcome, Study};
use crate::view::figures::{self, Row, Why};
use crate::view::plate::Widths;
use crate::words::{letter, set};

/// What a figure is made of, gram by gram, where it is.
#[derive(Clone, Copy)]
struct Made {
    /// `acid`.
    what: &'static str,
    grams: fn(&Mixture) -> f64,
}

const ETHANOL: Made = Made {
    what: "alcohol",
    grams: |m| m.grams(Substance::Ethanol),
};
const SUGAR: Made = Made {
    what: "sugar",
    grams: |m| m.sugars(),
};
const ACID: Made = Made {
    what: "acid",
    grams: |m| m.acids(),
};

/// What is told of a figure: key, label, unit, decimals, what it is made of, what it means.
struct Told {
    name: &'static str,
    label: &'static str,
    unit: &'static str,
    decimals: usize,
    made: Option<Made>,
    means: &'static str,
}

const fn told(
    name: &'static str,
    label: &'static str,
    unit: &'static str,
    decimals: usize,
    made: Option<Made>,
    means: &'static str,
) -> Told {
    Told {
        name,
        label,
        unit,
        decimals,
        made,
        means,
    }
}

/// In the order of the page.
const TOLD: &[Told] = &[
    told(
        "volume_ml",
        "volume",
        "mL",
        0,
        None,
        "What there is to drink, at its temperature, without ice and foam.",
    ),
    told(
        "abv_percent",
        "strength",
        "% vol",
        1,
        Some(ETHANOL),
        "Alcohol by volume at 20 °C. Ice and soda thin it.",
    ),
    told(
        "sweetness_sucrose_g_per_100ml",
        "sweetness",
        "g in 100 mL",
        1,
        Some(SUGAR),
        "Grams of table sugar that would taste as sweet: each sugar by its own strength, less in the cold. An estimate, as palates differ.",
    ),
    told(
        "titratable_acidity_citric_g_per_l",
        "sourness",
        "g in 1 L",
        1,
        Some(ACID),
        "Acid that a titration finds, counted as citric.",
    ),
    told(
        "balance",
        "sweet to one of sour",
        "",
        1,
        None,
        "Sweetness over sourness, both in grams per litre: it stays as it is when water comes in.",
    ),
    told(
        "ph",
        "pH",
        "",
        2,
        None,
        "How sharp the acid is at 25 °C. Salts in juice and whey blunt it.",
    ),
    told(
        "temperature_celsius",
        "temperature",
        "°C",
        1,
        None,
        "When it is served.",
    ),
    told(
        "dilution_percent",
        "melt",
        "mL in 100 mL",
        0,
        None,
        "Water from ice, for 100 mL that met it.",
    ),
    told(
        "freezing_point_celsius",
        "begins to freeze at",
        "°C",
        1,
        None,
        "Sugar and alcohol hold ice off.",
    ),
    told(
        "energy_kcal_per_100ml",
        "energy",
        "kcal in 100 mL",
        0,
        None,
        "By the usual factors for sugar, alcohol, acid, fat and protein.",
    ),
    told("mass_g", "mass", "g", 0, None, "What a scale would show."),
];

pub(super) fn part(study: &Study<'_>, widths: Widths) -> Markup {
    let Ok(outcome) = &study.outcome else {
        return html! {};
    };
    let lines = 0..study.doc.lines.len();
    let brought: Vec<Option<Mixture>> = lines.map(|at| study.brings(Spot::Line(at))).collect();
    let rows: Vec<Row> = TOLD
        .iter()
        .filter_map(|told| row(study, outcome, &brought, told))
        .collect();
    html! {
        section class="section" {
            header { h2 { "Figures" } }
            (figures::table(&rows, widths))
        }
    }
}

fn figure(figures: &Figures, name: &str) -> Option<Figure> {
    Some(match name {
        "volume_ml" => figures.volume,
        "temperature_celsius" => figures.celsius,
        "mass_g" => figures.mass,
        "dilution_percent" => figures.dilution_percent?,
        "balance" => {
            let sweet = figures.figure(Property::Sweetness)?;
            let sour = figures.figure(Property::TitratableAcidity)?;
            let (Some(a), Some(b)) = (sweet.value, sour.value.filter(|sour| *sour > 0.05)) else {
                return None;
            };
            let part = |figure: Figure| Some(figure.plus_minus? / figure.value?);
            let ratio = 10.0 * a / b;
            let off = part(sweet).zip(part(sour)).map(|(x, y)| ratio * x.hypot(y));
            Figure {
                value: Some(ratio),
                plus_minus: off,
                basis: sweet.basis.max(sour.basis),
            }
        }
        name => {
            let property = Property::ALL.into_iter().find(|p| p.name() == name)?;
            figures.figure(property)?
        }
    })
}

fn row(
    study: &Study<'_>,
    outcome: &Outcome,
    brought: &[Option<Mixture>],
    told: &Told,
) -> Option<Row> {
    let report = &outcome.report;
    let served = figure(&report.after, told.name)?;
    let has_ice = !outcome.mixed.on_ice.is_empty();
    if told.name == "dilution_percent" && !has_ice {
        return None;
    }
    // What is not known there has its place all the same.
    let of =
        |figures: &Figures| figure(figures, told.name).unwrap_or(Figure::new(None, Basis::Assumed));
    let later = report.over_time.iter().find(|(minute, _)| *minute == LATER);
    Some(Row {
        key: told.name,
        label: told.label.to_owned(),
        unit: told.unit.to_owned(),
        decimals: told.decimals,
        before: has_ice.then(|| of(&report.before)),
        served,
        later: later.map(|(minute, figures)| (*minute, of(figures))),
        why: why(study, outcome, brought, told),
    })
}

fn why(study: &Study<'_>, outcome: &Outcome, brought: &[Option<Mixture>], told: &Told) -> Why {
    let mut why = Why {
        sentence: told.means.to_owned(),
        ..Why::default()
    };
    if let Some(made) = told.made {
        bring(study, outcome, brought, made, &mut why);
    }
    let name = FigureName {
        stage: Stage::AfterIce,
        name: told.name,
    };
    let largest = outcome.doubt.largest(name, 3);
    why.doubts = largest
        .iter()
        .map(|share| (share.name.to_owned(), 100.0 * share.share))
        .collect();
    why.reading = largest
        .iter()
        .find(|share| !share.is_model)
        .map(|share| share.reading.to_owned());
    let about = format!("{}:", told.name);
    why.notes = outcome
        .report
        .after
        .notes
        .iter()
        .map(ToString::to_string)
        .filter_map(|note| note.strip_prefix(&about).map(|rest| rest.trim().to_owned()))
        .collect();
    why
}

/// What each line brings of a substance.
fn bring(
    study: &Study<'_>,
    outcome: &Outcome,
    brought: &[Option<Mixture>],
    made: Made,
    why: &mut Why,
) {
    let mut shares = Vec::new();
    let mut sum = 0.0;
    for (index, (line, brought)) in study.doc.lines.iter().zip(brought).enumerate() {
        let Some(brought) = brought else {
            continue;
        };
        let grams = (made.grams)(brought);
        if grams < 0.005 {
            continue;
        }
        sum += grams;
        let reference = study.bench.graph().line(study.id, index);
        why.table.push((
            format!("{} {}", letter(index), line.what.value),
            set(grams, 2),
            known_by(study, reference).as_str().to_owned(),
        ));
        shares.push(Share {
            letter: letter(index).to_string(),
            name: line.what.value.clone(),
            amount: grams,
            of_ingredient: matches!(
                reference,
                Some(Reference::Document(_) | Reference::ByProduct { .. })
            ),
        });
    }
    why.head = format!("{}, g", made.what);
    if let Some(volume) = outcome.report.after.volume.value
        && !why.table.is_empty()
    {
        why.table.push((
            format!("in {} mL", set(volume, 0)),
            set(sum, 2),
            String::new(),
        ));
    }
    if shares.len() > 1 {
        why.strip = Some(Strip {
            figure: made.what.to_owned(),
            unit: "g".to_owned(),
            shares,
        });
    }
}

/// How well what a line leads to is known.
fn known_by(study: &Study<'_>, reference: Option<&Reference>) -> Basis {
    let basis = |carried: &Carried| carried.basis.unwrap_or(Basis::Assumed);
    match reference {
        Some(Reference::Document(id)) => match study.bench.prep(*id) {
            Ok(made) => basis(&made.kept.carried),
            Err(_) => study.bench.ingredient(*id).map_or(Basis::Assumed, |item| {
                item.gram.carried.basis.unwrap_or(Basis::Assumed)
            }),
        },
        Some(Reference::Spirit { .. }) => Basis::Declared,
        Some(Reference::Catalogue(_) | Reference::WholePart { .. }) => Basis::Typical,
        _ => Basis::Assumed,
    }
}

#[cfg(test)]
mod tests {
    use pomace_bench::Bench;
    use pomace_book::{Document, demo};

    use super::*;

    fn shown(name: &str, part: impl Fn(&Study<'_>, Widths) -> Markup) -> String {
        let book = demo::book();
        let bench = Bench::new(&book);
        let id = book.by_name(name).unwrap();
        let Some(Document::Drink(doc)) = book.document(id) else {
            panic!("{name} is no drink");
        };
        part(&Study::of(&bench, id, doc), Widths(None)).into_string()
    }

    /// Of what stands beside what is served it is told how sure it is, where there is such a thing.
    #[test]
    fn every_column_says_how_sure_it_is() {
        let over_ice = shown("Second Pressing", part);
        let sentences = |page: &str| page.matches("minutes in the glass").count();
        assert!(
            over_ice.contains("Before ice 17.3 ± 0.7; after 10 minutes in the glass 7.6 ± 0.6.")
        );
        assert!(sentences(&over_ice) > 8, "{}", sentences(&over_ice));
        let up = shown("Slack Water", part);
        assert!(up.contains("Before ice ") && sentences(&up) == 0);
    }
    /// And the drawing says what its minutes stand on.
    #[test]
    fn what_is_assumed_in_the_glass_is_said() {
        let said =
            |name: &str| shown(name, crate::drink::ice::part).contains("Assumed in the glass");
        assert!(said("Second Pressing") && !said("Slack Water"));
    }
}
