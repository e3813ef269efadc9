//! Figures of a document and its variants in columns, as many as fit, then the next below.

use pomace_bench::difference::{Named, SWEET_TO_SOUR};
use pomace_bench::doubt::Stage;
use pomace_bench::report::Figure;
use pomace_matter::liquid::Property;

use crate::number::{set, set_doubt};
use crate::page::{BOLD, DIM, shorten, signs};

/// A figure that is looked at: where it is, what it is called, its unit, its decimals.
#[derive(Clone, Copy)]
pub(super) struct Row {
    pub stage: Stage,
    pub name: &'static str,
    pub label: &'static str,
    pub unit: &'static str,
    pub decimals: usize,
}

const fn row(stage: Stage, name: &'static str, told: (&'static str, &'static str)) -> Row {
    Row {
        stage,
        name,
        label: told.0,
        unit: told.1,
        decimals: 1,
    }
}

const fn of(stage: Stage, property: Property) -> Row {
    Row {
        stage,
        name: property.name(),
        label: property.label(),
        unit: property.unit(),
        decimals: property.decimals(),
    }
}

/// What matters of a drink as it is served.
const OF_A_DRINK: [Row; 11] = [
    row(Stage::AfterIce, "volume_ml", ("volume", "mL")),
    row(
        Stage::AfterIce,
        "temperature_celsius",
        ("temperature", "°C"),
    ),
    row(Stage::AfterIce, "dilution_percent", ("dilution", "%")),
    of(Stage::AfterIce, Property::Strength),
    of(Stage::AfterIce, Property::Sugar),
    of(Stage::AfterIce, Property::Sweetness),
    of(Stage::AfterIce, Property::TitratableAcidity),
    row(Stage::AfterIce, SWEET_TO_SOUR, ("sweet to sour", "")),
    of(Stage::AfterIce, Property::Ph),
    row(Stage::PerServe, "alcohol_g", ("alcohol a serve", "g")),
    row(Stage::PerServe, "energy_kcal", ("energy a serve", "kcal")),
];

/// What matters of what a prep keeps.
const OF_A_PREP: [Row; 10] = [
    row(Stage::Kept, "mass_g", ("mass", "g")),
    row(Stage::Kept, "volume_ml", ("volume", "mL")),
    of(Stage::Kept, Property::Strength),
    of(Stage::Kept, Property::RefractometerBrix),
    of(Stage::Kept, Property::Sugar),
    of(Stage::Kept, Property::Sweetness),
    of(Stage::Kept, Property::TitratableAcidity),
    row(Stage::Kept, SWEET_TO_SOUR, ("sweet to sour", "")),
    of(Stage::Kept, Property::Ph),
    of(Stage::Kept, Property::WaterActivity),
];

impl Row {
    /// `titratable acidity, as citric`: what stands behind the comma has no room here.
    pub(super) fn short(&self) -> &'static str {
        match self.label {
            "a refractometer reads" => "refractometer",
            "tastes as sweet as sucrose" => "sweetness",
            label => label.split(',').next().unwrap_or(label),
        }
    }

    pub(super) fn figure(&self, named: &Named) -> Option<Figure> {
        named.get(self.stage, self.name)
    }

    /// `8.7 ± 0.4`; a dash where it is not known.
    fn text(&self, named: &Named) -> String {
        let Some((figure, value)) = self.figure(named).and_then(|f| Some((f, f.value?))) else {
            return "—".to_owned();
        };
        let doubt = figure.plus_minus.filter(|d| *d > 1e-9);
        let doubt = doubt.map_or_else(String::new, |d| {
            format!(" ± {}", set_doubt(d, self.decimals))
        });
        format!("{}{doubt}", set(value, self.decimals))
    }
}

/// The rows that say anything of these.
pub(super) fn rows(is_drink: bool, all: &[&Named]) -> Vec<Row> {
    let rows: &[Row] = if is_drink { &OF_A_DRINK } else { &OF_A_PREP };
    let says = |row: &&Row| {
        let least = 0.5 * 10f64.powi(-i32::try_from(row.decimals).unwrap_or(0));
        let mut values = all.iter().filter_map(|named| row.figure(named)?.value);
        values.any(|value| value.abs() >= least)
    };
    rows.iter().filter(says).copied().collect()
}

/// Columns under their headings: the first in every block, of the others as many as fit.
pub(super) fn table(page: &mut String, rows: &[Row], columns: &[(&str, &Named)], width: usize) {
    let Some((first, others)) = columns.split_first() else {
        return;
    };
    let widths: Vec<usize> = columns
        .iter()
        .map(|(_, named)| {
            rows.iter()
                .map(|r| signs(&r.text(named)))
                .max()
                .unwrap_or(0)
                .max(10)
        })
        .collect();
    let label = rows.iter().map(|r| signs(r.short())).max().unwrap_or(0);
    let unit = rows.iter().map(|r| signs(r.unit)).max().unwrap_or(0);
    let column = widths.iter().max().copied().unwrap_or(0);
    let room = width.saturating_sub(2 + label + 1 + unit);
    let fit = (room / (column + 2)).saturating_sub(1);
    // Where not even two stand beside a label, they stand below it.
    let is_narrow = fit == 0;
    let fit = if is_narrow {
        ((width - 2) / (column + 2)).saturating_sub(1).max(1)
    } else {
        fit
    };
    let blocks: Vec<&[(&str, &Named)]> = if others.is_empty() {
        vec![&[]]
    } else {
        others.chunks(fit).collect()
    };
    for (place, block) in blocks.into_iter().enumerate() {
        if place > 0 {
            page.push('\n');
        }
        let shown: Vec<&(&str, &Named)> = std::iter::once(first).chain(block).collect();
        let lead = if is_narrow {
            String::new()
        } else {
            format!("  {:label$} {:unit$}", "", "")
        };
        page.push_str(&lead);
        for (name, _) in &shown {
            page.push_str(&format!("  {DIM}{:>column$}{DIM:#}", shorten(name, column)));
        }
        page.push('\n');
        for row in rows {
            page.push_str(&format!(
                "  {:label$} {DIM}{:unit$}{DIM:#}",
                row.short(),
                row.unit
            ));
            if is_narrow {
                page.push('\n');
            }
            for (_, named) in &shown {
                page.push_str(&format!("  {BOLD}{:>column$}{BOLD:#}", row.text(named)));
            }
            page.push('\n');
        }
    }
}
