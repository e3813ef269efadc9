//! The table of figures: one column for what it was, one for what it is.

use pomace_bench::report::{Figure, Figures};
use pomace_matter::liquid::Property;

use crate::liquid::notes::sentences;
use crate::number::{align, set, set_doubt};
use crate::page::{BOLD, DIM, signs, wrap};

/// So much room two columns and their doubt take.
const TWO_COLUMNS: usize = 78;

/// Below this, labels and columns are as narrow as they can be.
const NARROW: usize = 60;

/// Figures side by side under their headings, with the doubt of the last; on a narrow page the last
/// alone.
pub(crate) fn table(page: &mut String, columns: &[(&str, &Figures)], width: usize) {
    let fits = width >= TWO_COLUMNS || columns.len() < 2;
    let columns = if fits {
        columns
    } else {
        columns.get(columns.len() - 1..).unwrap_or_default()
    };
    let mut rows: Vec<(&str, Vec<String>, &str)> = Vec::new();
    let mut row =
        |label: &'static str, unit, read: &dyn Fn(&Figures) -> Option<Figure>, decimals| {
            let figures: Vec<Option<Figure>> = columns.iter().map(|(_, f)| read(f)).collect();
            if figures.iter().flatten().all(|f| f.value.is_none()) {
                return;
            }
            let value = |f: &Option<Figure>| f.and_then(|f| f.value);
            let mut texts: Vec<String> = figures
                .iter()
                .map(|f| value(f).map_or_else(|| "—".to_owned(), |v| set(v, decimals)))
                .collect();
            let doubt = figures.last().copied().flatten().and_then(|f| f.plus_minus);
            texts.push(
                doubt
                    .filter(|d| *d > 1e-9)
                    .map_or_else(String::new, |d| format!("± {}", set_doubt(d, decimals))),
            );
            // `titratable acidity, as citric`: what stands behind the comma is for wide pages.
            let short = label.split(',').next().unwrap_or(label);
            let label = match short {
                "a refractometer reads" if width < NARROW => "refractometer",
                short if width < TWO_COLUMNS => short,
                _ => label,
            };
            rows.push((label, texts, unit));
        };
    row("mass", "g", &|f| Some(f.mass), 1);
    row("volume", "mL", &|f| Some(f.volume), 1);
    row("temperature", "°C", &|f| Some(f.celsius), 1);
    let melts = |f: &Figures| f.dilution_percent.and_then(|d| d.value) > Some(0.0);
    if columns.iter().any(|(_, f)| melts(f)) {
        row("dilution by ice", "mL/100 mL", &|f| f.dilution_percent, 0);
    }
    for property in Property::ALL {
        if property != Property::Volume {
            row(
                property.label(),
                property.unit(),
                &|f| f.figure(property),
                property.decimals(),
            );
        }
    }
    let mut headings: Vec<&str> = columns.iter().map(|(name, _)| *name).collect();
    headings.push("");
    let label_width = rows
        .iter()
        .map(|(l, _, _)| signs(l))
        .max()
        .unwrap_or(0)
        .max(16);
    let set_columns: Vec<Vec<String>> = (0..headings.len())
        .map(|c| {
            let texts = rows.iter().map(|(_, v, _)| v.get(c).cloned());
            let texts: Vec<String> = texts.map(Option::unwrap_or_default).collect();
            // There is no room to set point under point.
            if width < NARROW { texts } else { align(&texts) }
        })
        .collect();
    let widths: Vec<usize> = set_columns
        .iter()
        .zip(&headings)
        .map(|(texts, name)| {
            texts
                .iter()
                .map(|t| signs(t))
                .max()
                .unwrap_or(0)
                .max(if columns.len() > 1 { signs(name) } else { 0 })
        })
        .collect();
    if columns.len() > 1 {
        page.push_str(&format!("  {:label_width$}", ""));
        for (name, width) in columns.iter().map(|(name, _)| name).zip(&widths) {
            page.push_str(&format!("  {DIM}{name:>width$}{DIM:#}"));
        }
        page.push('\n');
    }
    for (index, (label, _, unit)) in rows.iter().enumerate() {
        let mut row = format!("  {label:label_width$}");
        for (texts, width) in set_columns.iter().zip(&widths) {
            let text = texts.get(index).map_or("", String::as_str);
            row.push_str(&format!("  {BOLD}{text:>width$}{BOLD:#}"));
        }
        if !unit.is_empty() {
            row.push_str(&format!(" {DIM}{unit}{DIM:#}"));
        }
        page.push_str(row.trim_end());
        page.push('\n');
    }
}

/// Notes beside the figures, each once.
pub(crate) fn notes(page: &mut String, figures: &Figures, width: usize) {
    for text in sentences(&figures.notes) {
        page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
    }
}
