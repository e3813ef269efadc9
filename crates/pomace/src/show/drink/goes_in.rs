//! What goes in, with what each of it brings.

use pomace_bench::{Bench, Mixed};
use pomace_book::{DocumentId, DrinkDoc, Spot};
use pomace_matter::Substance;

use crate::number::{align, set};
use crate::page::{BOLD, DIM, shorten, signs};
use crate::show::said;

pub(super) fn goes_in(
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
