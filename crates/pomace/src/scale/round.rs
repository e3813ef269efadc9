//! One serve by what is in the hand, beside the drink as it is written.

use pomace_bench::Bench;
use pomace_bench::report::{Figures, tidy};
use pomace_bench::rounding::{Rounded, RoundedLine, Tool};
use pomace_book::{Document, DocumentId};
use pomace_matter::liquid::Property;
use serde_json::{Value, json};

use super::page::{name_of, spot_name};
use crate::cli;
use crate::fault::{Answer, Fault, Stop};
use crate::number::{set, set_short};
use crate::page::{BOLD, DIM, rule, shorten, show, signs, width};
use crate::show::said::heading;
use crate::show::stuck;

/// What rounding may move, with its decimals.
const LOOKED_AT: [Property; 4] = [
    Property::Strength,
    Property::Sugar,
    Property::TitratableAcidity,
    Property::Ph,
];

pub(super) fn run(
    bench: &Bench<'_>,
    id: DocumentId,
    tool: cli::Tool,
    is_json: bool,
) -> Result<Answer, Stop> {
    if !matches!(bench.book().document(id), Some(Document::Drink(_))) {
        return Err(Fault::new(
            format!("`{}` is no drink", name_of(bench, id)),
            "a prep is weighed: `--make \"2 L\"` gives its grams",
        )
        .into());
    }
    let tool = match tool {
        cli::Tool::Grams => Tool::Grams,
        cli::Tool::Millilitres => Tool::Millilitres,
        cli::Tool::Jiggers => Tool::Jiggers,
    };
    let rounded = bench
        .rounded(id, tool)
        .map_err(|error| stuck(bench, id, &error))?;
    show(&if is_json {
        json(bench, id, &rounded)
    } else {
        page(bench, id, &rounded, width())
    })?;
    Ok(Answer::Done)
}

/// `25 + 10`, with the same pour several times told once: `10 × 50`.
fn pours(line: &RoundedLine) -> String {
    let mut parts: Vec<(f64, u32)> = Vec::new();
    for pour in &line.pours {
        match parts.last_mut() {
            Some((same, count)) if (*same - pour).abs() < 1e-9 => *count += 1,
            _ => parts.push((*pour, 1)),
        }
    }
    let parts: Vec<String> = parts
        .iter()
        .map(|(pour, count)| match count {
            1 => set_short(*pour, 5),
            _ => format!("{count} × {}", set_short(*pour, 5)),
        })
        .collect();
    parts.join(" + ")
}

fn page(bench: &Bench<'_>, id: DocumentId, rounded: &Rounded, width: usize) -> String {
    let mut page = format!("\n{BOLD}{}{BOLD:#}\n{}\n", name_of(bench, id), rule(width));
    let rows: Vec<(String, String, &str, String)> = rounded
        .lines
        .iter()
        .map(|line| {
            let off = line.sum() - line.told;
            let off = if off.abs() < 0.05 {
                String::new()
            } else {
                format!("written {}", set(line.told, 1))
            };
            let unit = if line.is_weighed { "g" } else { "mL" };
            (spot_name(bench, id, line.spot), pours(line), unit, off)
        })
        .collect();
    let names = rows.iter().map(|r| signs(&r.0)).max().unwrap_or(0);
    let names = names.min(width.saturating_sub(36)).max(12);
    let amounts = rows.iter().map(|r| signs(&r.1)).max().unwrap_or(0);
    for (name, pours, unit, off) in &rows {
        let name = shorten(name, names);
        page.push_str(&format!(
            "  {name:names$}  {BOLD}{pours:>amounts$}{BOLD:#} {DIM}{unit:2}{DIM:#}"
        ));
        if !off.is_empty() {
            page.push_str(&format!("  {DIM}{off}{DIM:#}"));
        }
        page.push('\n');
    }
    heading(&mut page, "What rounding does, in the glass");
    page.push_str(&format!(
        "  {:30}{DIM}{:>9}{:>9}{DIM:#}\n",
        "", "written", "rounded"
    ));
    let mut row = |label: &str, unit: &str, told: Option<f64>, now: Option<f64>, decimals| {
        let text = |v: Option<f64>| v.map_or_else(|| "—".to_owned(), |v| set(v, decimals));
        page.push_str(&format!(
            "  {label:30}{:>9}{BOLD}{:>9}{BOLD:#}",
            text(told),
            text(now)
        ));
        if !unit.is_empty() {
            page.push_str(&format!(" {DIM}{unit}{DIM:#}"));
        }
        page.push('\n');
    };
    let (told, now) = (&rounded.told.after, &rounded.rounded.after);
    row("volume", "mL", told.volume.value, now.volume.value, 1);
    for property in LOOKED_AT {
        row(
            property.label(),
            property.unit(),
            told.get(property),
            now.get(property),
            property.decimals(),
        );
    }
    page
}

fn json(bench: &Bench<'_>, id: DocumentId, rounded: &Rounded) -> String {
    let lines: Vec<Value> = rounded
        .lines
        .iter()
        .map(|line| {
            json!({
                "what": spot_name(bench, id, line.spot),
                "unit": if line.is_weighed { "g" } else { "mL" },
                "written": tidy(line.told),
                "pours": line.pours.iter().map(|p| tidy(*p)).collect::<Vec<_>>(),
            })
        })
        .collect();
    let figures = |figures: &Figures| figures.json();
    let value = json!({
        "drink": name_of(bench, id),
        "lines": lines,
        "written": figures(&rounded.told.after),
        "rounded": figures(&rounded.rounded.after),
    });
    format!(
        "{}\n",
        serde_json::to_string_pretty(&value).unwrap_or_default()
    )
}
