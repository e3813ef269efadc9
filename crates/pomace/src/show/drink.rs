//! A drink, from parts to glass.

use pomace_bench::doubt::Doubt;
use pomace_bench::report::{DrinkReport, Figures};
use pomace_bench::{Bench, Mixed, Question};
use pomace_book::{Document, DocumentId, DrinkDoc, PrepDoc, Reference, Spot};
use pomace_matter::Substance;
use pomace_matter::liquid::Property;

use super::{becomes, said};
use crate::number::{align, set};
use crate::page::{BOLD, DIM, rule, shorten, signs, wrap};

pub(crate) fn page(
    bench: &Bench<'_>,
    id: DocumentId,
    doc: &DrinkDoc,
    (mixed, report, doubt): (&Mixed, &DrinkReport, &Doubt),
    width: usize,
) -> String {
    let mut page = String::new();
    title(&mut page, bench, doc, width);
    said::unheard(&mut page, bench, id, width);
    goes_in(&mut page, bench, id, doc, mixed, width);
    parts(&mut page, bench, id, width);
    said::heading(&mut page, "What it becomes");
    let (before, after) = (
        ("before ice", &report.before),
        ("in the glass", &report.after),
    );
    if report.before == report.after {
        becomes::table(&mut page, &[after], width);
    } else {
        becomes::table(&mut page, &[before, after], width);
    }
    if doc.lines.iter().any(|l| l.enters.is_some()) && mixed.melt > 0.0 {
        page.push_str(&format!(
            "{DIM}{}{DIM:#}\n",
            wrap(
                "Before ice is what meets the ice; a line that enters later is in the glass only.",
                width,
                "  ",
                "  "
            )
        ));
    }
    becomes::notes(&mut page, &report.after, width);
    waits(&mut page, report, width);
    why(&mut page, doc, mixed, width);
    served(&mut page, bench, id, doc, (mixed, report), width);
    questions(&mut page, bench, id, width);
    said::cautions(&mut page, bench, id, width);
    said::doubt(&mut page, doubt, "after_ice", width);
    how_sure(&mut page, mixed, width);
    page
}

fn title(page: &mut String, bench: &Bench<'_>, doc: &DrinkDoc, width: usize) {
    let house = bench.house().name.clone().unwrap_or_default();
    let gap = width
        .saturating_sub(signs(&doc.name) + signs(&house))
        .max(2);
    page.push_str(&format!("\n{BOLD}{}{BOLD:#}", doc.name.value));
    if !house.is_empty() {
        page.push_str(&format!("{}{DIM}{house}{DIM:#}", " ".repeat(gap)));
    }
    page.push('\n');
    page.push_str(&rule(width));
    page.push('\n');
    if let Some(note) = &doc.note {
        page.push_str(&format!("{}\n", wrap(note, width, "", "")));
    }
}

fn goes_in(
    page: &mut String,
    bench: &Bench<'_>,
    id: DocumentId,
    doc: &DrinkDoc,
    mixed: &Mixed,
    width: usize,
) {
    said::heading(page, "What goes in");
    let lines = doc.lines.iter().enumerate().map(|(index, line)| {
        let name = match &line.enters {
            Some(step) => format!("{} ({})", line.what.value, step.value),
            None => line.what.value.clone(),
        };
        (Spot::Line(index), line.amount.as_ref(), name)
    });
    // What a step adds is as much in the drink as a line is.
    let steps = doc.steps.iter().enumerate().filter_map(|(index, step)| {
        let what = step.what.as_ref()?;
        let name = format!("{} ({})", what.value, step.verb.value);
        Some((Spot::Step(index), step.amount.as_ref(), name))
    });
    let mut rows: Vec<(String, String, [Option<f64>; 4])> = Vec::new();
    for (spot, amount, name) in lines.chain(steps) {
        let grams = mixed.amount(spot);
        let brings = grams.and_then(|grams| bench.brings(id, spot, grams));
        let of = |which: &dyn Fn(&pomace_matter::Mixture) -> f64| brings.as_ref().map(which);
        rows.push((
            amount.map_or_else(|| "?".to_owned(), |a| a.value.text.clone()),
            name,
            [
                grams,
                of(&|m| m.grams(Substance::Ethanol)),
                of(&pomace_matter::Mixture::sugars),
                of(&pomace_matter::Mixture::acids),
            ],
        ));
    }
    let amount = rows.iter().map(|(a, _, _)| signs(a)).max().unwrap_or(0);
    // A narrow page has room for the mass alone.
    let shown = if width < 72 { 1 } else { 4 };
    let numbers = shown * 10;
    let name = rows.iter().map(|(_, n, _)| signs(n)).max().unwrap_or(0);
    let name = name.min(width.saturating_sub(amount + numbers + 6)).max(12);
    let columns: Vec<Vec<String>> = (0..shown)
        .map(|c| {
            align(
                &rows
                    .iter()
                    .map(|(_, _, n)| match n[c] {
                        Some(v) if c == 0 => set(v, 1),
                        Some(v) if v >= 0.005 => set(v, 2),
                        Some(_) => "–".to_owned(),
                        None => "?".to_owned(),
                    })
                    .collect::<Vec<_>>(),
            )
        })
        .collect();
    page.push_str(&format!("  {:amount$}  {:name$}", "", ""));
    for head in ["mass", "alcohol", "sugar", "acid"].into_iter().take(shown) {
        page.push_str(&format!("{DIM}{head:>9}{DIM:#} "));
    }
    page.push_str(&format!("{DIM}g{DIM:#}\n"));
    for (index, (how_much, what, _)) in rows.iter().enumerate() {
        let what = shorten(what, name);
        page.push_str(&format!("  {how_much:>amount$}  {what:name$}"));
        for column in &columns {
            page.push_str(&format!(
                "{BOLD}{:>9}{BOLD:#} ",
                column.get(index).map_or("", String::as_str)
            ));
        }
        page.push('\n');
    }
}

/// The preps that the drink stands on, each by its steps in one line, the deepest first.
fn parts(page: &mut String, bench: &Bench<'_>, id: DocumentId, width: usize) {
    let preps: Vec<DocumentId> = bench
        .needs(id)
        .into_iter()
        .filter(|needed| matches!(bench.book().document(*needed), Some(Document::Prep(_))))
        .collect();
    if preps.is_empty() {
        return;
    }
    said::heading(page, "From parts to glass");
    for prep in preps {
        let Some(Document::Prep(doc)) = bench.book().document(prep) else {
            continue;
        };
        let Ok(made) = bench.prep(prep) else {
            continue;
        };
        let way = way(bench, prep, doc, &made);
        page.push_str(&format!(
            "{}\n",
            wrap(&format!("{}: {way}", doc.name.value), width, "  ", "    ")
        ));
    }
}

/// `weigh 240 g quince / peel → add 336 g cider vinegar → steep 30 h → … : 678 g, and 137 g pressed peel`
pub(crate) fn way(
    bench: &Bench<'_>,
    id: DocumentId,
    doc: &PrepDoc,
    made: &pomace_bench::Made,
) -> String {
    let mut steps = Vec::new();
    for (index, step) in doc.steps.iter().enumerate() {
        if step.verb.value == pomace_book::Verb::Store {
            continue;
        }
        let brought = made.brought(index);
        let what = step
            .what
            .as_ref()
            .map(|w| w.value.as_str())
            .unwrap_or_default();
        let from = match bench.graph().step(id, index) {
            Some(Reference::ByProduct { prep, .. }) => bench
                .book()
                .document(*prep)
                .map_or_else(String::new, |d| format!(" (left by {})", d.name().value)),
            _ => String::new(),
        };
        let time = step
            .time
            .as_ref()
            .map(|t| format!(" {}", t.value))
            .unwrap_or_default();
        steps.push(if brought > 0.0 {
            format!("{} {} g {what}{from}", step.verb.value, set(brought, 0))
        } else {
            format!("{}{time}", step.verb.value)
        });
    }
    let mut way = format!(
        "{} → {} g kept",
        steps.join(" → "),
        set(made.kept.total(), 0)
    );
    for (index, step) in doc.steps.iter().enumerate() {
        let left = made
            .left
            .get(index)
            .map_or(0.0, pomace_bench::Stream::total);
        if left > 0.05 {
            let name = step
                .by_product
                .as_ref()
                .map_or("left behind", |b| b.value.as_str());
            way.push_str(&format!(", {} g {name}", set(left, 0)));
        }
    }
    way
}

/// The drink while it waits over the ice in its glass, and its foam.
fn waits(page: &mut String, report: &DrinkReport, width: usize) {
    let mut stops: Vec<&(u32, Figures)> = report
        .over_time
        .iter()
        .filter(|(minute, _)| minute % 5 == 0)
        .collect();
    if stops.is_empty() {
        return;
    }
    // Every other stop, where not all have room.
    let room = (width.saturating_sub(29) / 8).max(1);
    while stops.len() > room {
        let mut place = 0;
        stops.retain(|_| {
            place += 1;
            place % 2 == 1
        });
    }
    said::heading(page, "While it waits");
    let mut row = |label: &str, unit: &str, values: Vec<String>| {
        page.push_str(&format!("  {label:16}"));
        for value in values {
            page.push_str(&format!("{BOLD}{value:>8}{BOLD:#}"));
        }
        page.push_str(&format!("  {DIM}{unit}{DIM:#}\n"));
    };
    let each = |read: &dyn Fn(&Figures) -> Option<f64>, decimals| {
        stops
            .iter()
            .map(|(_, f)| read(f).map_or_else(|| "—".to_owned(), |v| set(v, decimals)))
            .collect::<Vec<_>>()
    };
    row(
        "in the glass for",
        "minutes",
        stops.iter().map(|(m, _)| m.to_string()).collect(),
    );
    row("temperature", "°C", each(&|f| f.celsius.value, 1));
    row("strength", "%vol", each(&|f| f.get(Property::Strength), 1));
    row("sugar", "g/100 mL", each(&|f| f.get(Property::Sugar), 1));
    if let Some(texture) = report.texture.as_ref().filter(|t| t.foam_ml.is_some()) {
        let foam = stops
            .iter()
            .map(|(m, _)| set(texture.foam_after(f64::from(*m)), 0))
            .collect();
        row("foam", "mL", foam);
    }
    let text = "Warmth of the room, pace of the ice and fall of the foam are assumed.";
    page.push_str(&format!("{DIM}{}{DIM:#}\n", wrap(text, width, "  ", "  ")));
}

/// What ice and steps did, and what had to be assumed.
fn why(page: &mut String, doc: &DrinkDoc, mixed: &Mixed, width: usize) {
    if mixed.melt <= 0.0 && mixed.records.iter().all(|r| r.remarks.is_empty()) {
        return;
    }
    said::heading(page, "Why");
    if mixed.melt > 0.0 {
        let text = format!(
            "{} g of ice melt into it: melting takes heat from the drink, which cools towards the point where it would begin to freeze, and as far as the step lasts.",
            set(mixed.melt, 1)
        );
        page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
    }
    let verbs = doc.steps.iter().map(|s| s.verb.value);
    let all = mixed
        .records
        .iter()
        .zip(verbs)
        .flat_map(|(record, verb)| record.remarks.iter().map(move |r| (verb, r)));
    said::remarks(page, all, width);
}

/// How the prep of a garnish keeps, as its document tells: `30 days at 18 °C in closed tin`.
fn kept(bench: &Bench<'_>, id: DocumentId, garnish: usize) -> Option<String> {
    let prep = bench.graph().garnish(id, garnish)?.document()?;
    let Document::Prep(prep) = bench.book().document(prep)? else {
        return None;
    };
    let store = prep.keeping()?;
    let mut told = store.time.as_ref()?.value.to_string();
    if let Some(celsius) = &store.temperature {
        told.push_str(&format!(" at {} °C", set(celsius.value, 0)));
    }
    if let Some(vessel) = &store.vessel {
        told.push_str(&format!(", {}", vessel.value));
    }
    Some(told)
}

fn served(
    page: &mut String,
    bench: &Bench<'_>,
    id: DocumentId,
    doc: &DrinkDoc,
    (mixed, report): (&Mixed, &DrinkReport),
    width: usize,
) {
    said::heading(page, "A serve");
    let serve = &report.per_serve;
    let value =
        |f: pomace_bench::report::Figure, d| f.value.map_or_else(|| "?".to_owned(), |v| set(v, d));
    let mut text = format!(
        "{} g of alcohol ({} UK units, {} US standard drinks), {} kcal, {} g of sugar",
        value(serve.alcohol_g, 1),
        value(serve.uk_units, 1),
        value(serve.us_standard_drinks, 1),
        value(serve.energy_kcal, 0),
        value(serve.sugar_g, 1),
    );
    if serve.caffeine_mg.value.is_some_and(|mg| mg >= 0.5) {
        text.push_str(&format!(", {} mg of caffeine", value(serve.caffeine_mg, 0)));
    }
    text.push('.');
    page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
    let glass = mixed.glass_ml.map(|ml| {
        let ice = mixed.glass_ice.map_or(0.0, |ice| ice.grams) / 0.917;
        let filled = report.after.volume.value.unwrap_or(0.0) + ice;
        format!(
            "In the glass: {} mL{}, of {} mL to the brim{}",
            set(filled, 0),
            if ice > 0.0 { " with its ice" } else { "" },
            set(ml, 0),
            if filled > ml {
                ": it does not fit."
            } else {
                "."
            }
        )
    });
    if let Some(glass) = glass {
        page.push_str(&format!("{}\n", wrap(&glass, width, "  ", "  ")));
    }
    if let Some(texture) = &report.texture
        && let Some(foam) = texture.foam_ml
    {
        let falls = texture.foam_half_minutes.map_or_else(String::new, |half| {
            format!(", which falls by half in {} minutes", set(half.value, 0))
        });
        let text = format!("Foam: {} mL on top of it{falls} (assumed).", set(foam, 0));
        page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
    }
    for (place, grams, _) in &mixed.garnish {
        if let Some(garnish) = doc.garnish.get(*place) {
            let what = garnish.what.as_ref().map_or("", |w| w.value.as_str());
            let mut text = format!(
                "Garnish: {} {what}, {} g, {} % of it eaten and counted above",
                garnish.action.value,
                set(*grams, 1),
                set(100.0 * garnish.eaten.as_ref().map_or(0.5, |e| e.value), 0)
            );
            if let Some(lead) = &garnish.lead {
                text.push_str(&format!("; begin {} before", lead.value));
            }
            if let Some(keeping) = kept(bench, id, *place) {
                text.push_str(&format!("; made ahead, it keeps {keeping}"));
            }
            if garnish.optional {
                text.push_str("; can be left off");
            }
            text.push('.');
            page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
        }
    }
    let allergens = said::allergens(&serve.allergens, &serve.allergens_possible);
    page.push_str(&format!("{}\n", wrap(&allergens, width, "  ", "  ")));
    let guidance = serve.guidance(report.after.volume.value);
    for caution in serve.cautions.iter().chain(&guidance) {
        page.push_str(&format!(
            "{}\n",
            wrap(&format!("Caution: {caution}."), width, "  ", "  ")
        ));
    }
    said::marks(page, &doc.marks, width);
    said::trials(page, &doc.trials, width);
}

/// Amounts that can be read in two ways: what each makes of the drink.
fn questions(page: &mut String, bench: &Bench<'_>, id: DocumentId, width: usize) {
    let questions = bench.questions(id);
    if questions.is_empty() {
        return;
    }
    said::heading(page, "Which is meant?");
    for question in &questions {
        page.push_str(&format!(
            "{}\n",
            wrap(
                &format!("`{}`: {}", question.text, question.why),
                width,
                "  ",
                "  "
            )
        ));
        for (index, reading) in answers(bench, id, question).into_iter().enumerate() {
            page.push_str(&format!(
                "{}\n",
                wrap(&reading, width, &format!("    {} ", index + 1), "      ")
            ));
        }
    }
}

fn answers(bench: &Bench<'_>, id: DocumentId, question: &Question) -> Vec<String> {
    (0..question.readings.len())
        .map(|reading| {
            let said = question
                .readings
                .get(reading)
                .map(ToString::to_string)
                .unwrap_or_default();
            match bench.answered(question, reading).report(id) {
                Ok((_, report)) => format!(
                    "{said}: {} mL in the glass, {} %vol, sugar {} and acid {} g/100 mL",
                    report
                        .after
                        .volume
                        .value
                        .map_or_else(|| "?".into(), |v| set(v, 0)),
                    figure(&report, Property::Strength, 1),
                    figure(&report, Property::Sugar, 1),
                    figure(&report, Property::Acid, 2),
                ),
                Err(error) => format!("{said}: no figures ({error})"),
            }
        })
        .collect()
}

fn figure(report: &DrinkReport, property: Property, decimals: usize) -> String {
    report
        .after
        .get(property)
        .map_or_else(|| "?".to_owned(), |v| set(v, decimals))
}

fn how_sure(page: &mut String, mixed: &Mixed, width: usize) {
    let mut text = String::from(
        "Density, refraction, freezing and pH are checked against published tables for one substance in water; for spirit and sugar together no independent table was found: unvalidated.",
    );
    if mixed.melt > 0.0 {
        text.push_str(" Final temperature and dilution are unvalidated too: weigh one drink before and after, the difference is the melt.");
    }
    page.push_str(&format!("{DIM}{}{DIM:#}\n", wrap(&text, width, "  ", "  ")));
}
