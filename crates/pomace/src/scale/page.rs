//! A plan on a page, and in JSON.

use pomace_bench::Bench;
use pomace_bench::report::tidy;
use pomace_bench::scale::{Batch, Plan};
use pomace_book::{Document, DocumentId, Spot};
use serde_json::{Value, json};

use super::bottles::Filled;
use crate::number::{align, set};
use crate::page::{BOLD, DIM, rule, shorten, signs};
use crate::show::said::heading;

/// Grams as they are weighed: tenths below 10 g, whole grams above.
fn weighed(grams: f64) -> String {
    set(grams, usize::from(grams.abs() < 9.95))
}

pub(super) fn page(
    bench: &Bench<'_>,
    id: DocumentId,
    plan: &Plan,
    filled: Option<&Filled>,
    width: usize,
) -> String {
    let name = name_of(bench, id);
    let title = match plan.serves {
        Some(serves) => format!("{name}, {} serves", number(serves)),
        None => name.to_owned(),
    };
    let mut page = format!("\n{BOLD}{title}{BOLD:#}\n{}\n", rule(width));
    if let Some(filled) = filled {
        filled.page(&mut page, width);
    }
    if !plan.lines.is_empty() {
        heading(&mut page, "In the glasses");
        let rows = plan.lines.iter().map(|(spot, grams)| {
            let what = spot_name(bench, id, *spot);
            (what, *grams, String::new())
        });
        table(&mut page, &rows.collect::<Vec<_>>(), width);
    }
    for batch in &plan.batches {
        make(&mut page, bench, batch, width);
    }
    heading(&mut page, "From the shelf");
    let rows = plan.shelf.iter().map(|(name, grams)| {
        let volume = millilitres(bench, name, *grams);
        (name.clone(), *grams, volume)
    });
    table(&mut page, &rows.collect::<Vec<_>>(), width);
    page
}

fn make(page: &mut String, bench: &Bench<'_>, batch: &Batch, width: usize) {
    let name = name_of(bench, batch.id);
    let heading_text = format!("{name}, × {}", number(batch.factor));
    heading(page, &heading_text);
    let mut rows: Vec<(String, f64, String)> = Vec::new();
    for (spot, grams) in &batch.made.amounts {
        rows.push((spot_name(bench, batch.id, *spot), *grams, String::new()));
    }
    table(page, &rows, width);
    let mut text = format!("gives {} g", weighed(batch.made.kept.total()));
    if batch.wanted_grams > 0.0 && batch.made.kept.total() > batch.wanted_grams * 1.000_001 {
        text.push_str(&format!(
            ", {} g more than is asked",
            weighed(batch.made.kept.total() - batch.wanted_grams)
        ));
    }
    for (left, name) in left_of(bench, batch) {
        let taken: f64 = batch
            .taken
            .iter()
            .filter(|(step, _)| *step == left)
            .map(|(_, g)| *g)
            .sum();
        let there = batch.made.left.grams(left);
        text.push_str(&format!("; leaves {} g {name}", weighed(there)));
        if taken > 0.0 {
            text.push_str(&format!(", {} g of it used here", weighed(taken)));
        }
    }
    let text = crate::page::wrap(&format!("{text}."), width, "  ", "  ");
    page.push_str(&format!("{DIM}{text}{DIM:#}\n"));
}

/// Steps of a batch that leave something, with its name.
fn left_of(bench: &Bench<'_>, batch: &Batch) -> Vec<(usize, String)> {
    let Some(Document::Prep(doc)) = bench.book().document(batch.id) else {
        return Vec::new();
    };
    batch
        .made
        .left
        .iter()
        .filter(|(_, left)| left.total() > 0.05)
        .map(|(step, _)| {
            let name = doc.steps.get(step).and_then(|s| s.by_product.as_ref());
            (
                step,
                name.map_or_else(|| "left behind".to_owned(), |n| n.value.clone()),
            )
        })
        .collect()
}

fn table(page: &mut String, rows: &[(String, f64, String)], width: usize) {
    let grams = align(&rows.iter().map(|(_, g, _)| weighed(*g)).collect::<Vec<_>>());
    let widest = rows.iter().map(|(n, _, _)| signs(n)).max().unwrap_or(0);
    let widest = widest.min(width.saturating_sub(28)).max(12);
    for ((name, _, also), grams) in rows.iter().zip(grams) {
        let name = shorten(name, widest);
        page.push_str(&format!(
            "  {name:widest$}  {BOLD}{grams:>9}{BOLD:#} {DIM}g{DIM:#}"
        ));
        if !also.is_empty() {
            page.push_str(&format!("  {DIM}{also:>10}{DIM:#}"));
        }
        page.push('\n');
    }
}

/// The volume of what is poured from a bottle.
fn millilitres(bench: &Bench<'_>, name: &str, grams: f64) -> String {
    let item = bench.shelf().iter().find(|i| *i.name == *name);
    match item.filter(|i| i.form.pours()).and_then(|i| i.grams_per_ml) {
        Some(density) => format!("{} mL", set(grams / density, 0)),
        None => String::new(),
    }
}

pub(super) fn number(value: f64) -> String {
    if (value - value.round()).abs() < 1e-9 {
        set(value, 0)
    } else {
        set(value, 2)
    }
}

pub(super) fn name_of<'b>(bench: &'b Bench<'_>, id: DocumentId) -> &'b str {
    bench
        .book()
        .document(id)
        .map_or("", |d| d.name().value.as_str())
}

pub(super) fn spot_name(bench: &Bench<'_>, id: DocumentId, spot: Spot) -> String {
    let Some(document) = bench.book().document(id) else {
        return String::new();
    };
    let name = match (spot, document) {
        (Spot::Line(i), Document::Drink(drink)) => drink.lines.get(i).map(|l| l.what.value.clone()),
        (Spot::Garnish(i), Document::Drink(drink)) => drink
            .garnish
            .get(i)
            .and_then(|g| Some(format!("{} ({})", g.what.as_ref()?.value, g.action.value))),
        (Spot::Step(i), _) => document.steps().get(i).map(|s| match &s.what {
            Some(what) => format!("{} {}", s.verb.value, what.value),
            None => s.verb.value.to_string(),
        }),
        _ => None,
    };
    name.unwrap_or_default()
}

pub(super) fn json(
    bench: &Bench<'_>,
    id: DocumentId,
    plan: &Plan,
    filled: Option<&Filled>,
) -> String {
    let amounts = |id: DocumentId, amounts: &[(Spot, f64)]| -> Value {
        amounts
            .iter()
            .map(|(spot, grams)| json!({ "what": spot_name(bench, id, *spot), "mass_g": tidy(*grams) }))
            .collect()
    };
    let batches: Vec<Value> = plan
        .batches
        .iter()
        .map(|batch| {
            let left: Vec<Value> = left_of(bench, batch)
                .into_iter()
                .map(|(step, name)| {
                    let taken = batch.taken.iter().filter(|(s, _)| *s == step);
                    json!({
                        "name": name,
                        "mass_g": tidy(batch.made.left.grams(step)),
                        "used_g": tidy(taken.map(|(_, g)| g).sum()),
                    })
                })
                .collect();
            json!({
                "prep": name_of(bench, batch.id),
                "factor": tidy(batch.factor),
                "wanted_g": tidy(batch.wanted_grams),
                "gives_g": tidy(batch.made.kept.total()),
                "amounts": amounts(batch.id, &batch.made.amounts),
                "by_products": left,
            })
        })
        .collect();
    let shelf: Vec<Value> = plan
        .shelf
        .iter()
        .map(|(name, grams)| json!({ "what": name, "mass_g": tidy(*grams) }))
        .collect();
    let mut value = json!({
        "name": name_of(bench, id),
        "serves": plan.serves.map(tidy),
        "lines": amounts(id, &plan.lines),
        "preps": batches,
        "shelf": shelf,
    });
    if let (Some(filled), Value::Object(map)) = (filled, &mut value) {
        map.insert("bottles".into(), filled.json());
    }
    format!(
        "{}\n",
        serde_json::to_string_pretty(&value).unwrap_or_default()
    )
}
