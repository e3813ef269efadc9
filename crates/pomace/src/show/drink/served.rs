//! A serve: what is drunk with it, its glass, its garnish, who should not have it.

use pomace_bench::report::DrinkReport;
use pomace_bench::{Bench, Mixed};
use pomace_book::{Document, DocumentId, DrinkDoc};

use crate::number::set;
use crate::page::wrap;
use crate::show::said;

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

pub(super) fn served(
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
        let ice = mixed.glass_ice.map_or(0.0, |ice| ice.grams()) / 0.917;
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
