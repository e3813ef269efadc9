//! The drink while it waits in its glass.

use pomace_bench::glass::GlassIce;
use pomace_bench::report::{DrinkReport, Figure, Figures};
use pomace_matter::liquid::Property;

use crate::number::{set, set_doubt};
use crate::page::{BOLD, DIM, wrap};
use crate::show::said;

/// A value and its doubt: ` −12.3 ± 0.5`.
const COLUMN: usize = 12;

/// Its figures by the minute, over the ice in its glass, and its foam.
pub(super) fn waits(page: &mut String, ice: &GlassIce, report: &DrinkReport, width: usize) {
    let mut stops: Vec<&(u32, Figures)> = report
        .over_time
        .iter()
        .filter(|(minute, _)| minute % 5 == 0)
        .collect();
    if stops.is_empty() {
        return;
    }
    // What is served stands above already; then every other stop, the last one of all.
    let room = (width.saturating_sub(28) / COLUMN).max(1);
    if stops.len() > room {
        stops.remove(0);
    }
    while stops.len() > room {
        let mut after = stops.len();
        stops.retain(|_| {
            after -= 1;
            after.is_multiple_of(2)
        });
    }
    said::heading(page, "While it waits");
    let mut row = |label: &str, unit: &str, cells: Vec<(String, String)>| {
        page.push_str(&format!("  {label:16}"));
        for (value, doubt) in cells {
            page.push_str(&format!("{BOLD}{value:>6}{BOLD:#}{DIM}{doubt:<6}{DIM:#}"));
        }
        page.push_str(&format!("  {DIM}{unit}{DIM:#}\n"));
    };
    let sure = |value: String| (value, String::new());
    let each = |read: &dyn Fn(&Figures) -> Option<Figure>| {
        let cells = stops.iter().map(|(_, figures)| {
            let figure = read(figures);
            let value = figure.and_then(|f| f.value);
            let doubt = figure.and_then(|f| f.plus_minus).filter(|d| *d > 1e-9);
            (
                value.map_or_else(|| "—".to_owned(), |v| set(v, 1)),
                doubt.map_or_else(String::new, |d| format!(" ± {}", set_doubt(d, 1))),
            )
        });
        cells.collect::<Vec<_>>()
    };
    let minutes = stops.iter().map(|(m, _)| sure(m.to_string())).collect();
    row("in the glass for", "minutes", minutes);
    row("temperature", "°C", each(&|f| Some(f.celsius)));
    row("strength", "%vol", each(&|f| f.figure(Property::Strength)));
    row("sugar", "g/100 mL", each(&|f| f.figure(Property::Sugar)));
    let foamy = report.texture.as_ref().filter(|t| t.foam_ml.is_some());
    let has_foam = foamy.is_some();
    if let Some(texture) = foamy {
        let foam = stops
            .iter()
            .map(|(m, _)| sure(set(texture.foam_after(f64::from(*m)), 0)))
            .collect();
        row("foam", "mL", foam);
    }
    let mut assumed = ice.assumed();
    if has_foam {
        assumed.push("fall of the foam");
    }
    let text = format!("Assumed, without a source: {}.", assumed.join(", "));
    page.push_str(&format!("{DIM}{}{DIM:#}\n", wrap(&text, width, "  ", "  ")));
}
