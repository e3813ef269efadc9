//! The table of figures: one column for what it was, one for what it is.

use pomace_bench::report::Figures;
use pomace_matter::liquid::Property;

use crate::liquid::notes::sentences;
use crate::number::{align, set};
use crate::page::{BOLD, DIM, signs, wrap};

/// Figures side by side under their headings.
pub(crate) fn table(page: &mut String, columns: &[(&str, &Figures)]) {
    let mut rows: Vec<(&str, Vec<String>, &str)> = Vec::new();
    let mut row = |label, unit, values: Vec<Option<f64>>, decimals| {
        if values.iter().any(Option::is_some) {
            let texts = values
                .into_iter()
                .map(|v| v.map_or_else(|| "—".to_owned(), |v| set(v, decimals)))
                .collect();
            rows.push((label, texts, unit));
        }
    };
    let each = |read: &dyn Fn(&Figures) -> Option<f64>| {
        columns.iter().map(|(_, f)| read(f)).collect::<Vec<_>>()
    };
    row("mass", "g", each(&|f| f.mass.value), 1);
    row("volume", "mL", each(&|f| f.volume.value), 1);
    row("temperature", "°C", each(&|f| f.celsius.value), 1);
    if columns.len() > 1 {
        row(
            "dilution by ice",
            "mL per 100 mL before ice",
            each(&|f| f.dilution_percent.and_then(|d| d.value)),
            0,
        );
    }
    for property in Property::ALL {
        if property != Property::Volume {
            row(
                property.label(),
                property.unit(),
                each(&|f| f.get(property)),
                property.decimals(),
            );
        }
    }
    let label_width = rows
        .iter()
        .map(|(l, _, _)| signs(l))
        .max()
        .unwrap_or(0)
        .max(16);
    let set_columns: Vec<Vec<String>> = (0..columns.len())
        .map(|c| {
            align(
                &rows
                    .iter()
                    .map(|(_, v, _)| v.get(c).cloned().unwrap_or_default())
                    .collect::<Vec<_>>(),
            )
        })
        .collect();
    let widths: Vec<usize> = set_columns
        .iter()
        .zip(columns)
        .map(|(texts, (name, _))| {
            texts
                .iter()
                .map(|t| signs(t))
                .max()
                .unwrap_or(0)
                .max(signs(name))
        })
        .collect();
    if columns.len() > 1 {
        page.push_str(&format!("  {:label_width$}", ""));
        for ((name, _), width) in columns.iter().zip(&widths) {
            page.push_str(&format!("   {DIM}{name:>width$}{DIM:#}"));
        }
        page.push('\n');
    }
    for (index, (label, _, unit)) in rows.iter().enumerate() {
        page.push_str(&format!("  {label:label_width$}"));
        for (texts, width) in set_columns.iter().zip(&widths) {
            let text = texts.get(index).map_or("", String::as_str);
            page.push_str(&format!("   {BOLD}{text:>width$}{BOLD:#}"));
        }
        if !unit.is_empty() {
            page.push_str(&format!(" {DIM}{unit}{DIM:#}"));
        }
        page.push('\n');
    }
}

/// Notes beside the figures, each once.
pub(crate) fn notes(page: &mut String, figures: &Figures, width: usize) {
    for text in sentences(&figures.notes) {
        page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
    }
}
