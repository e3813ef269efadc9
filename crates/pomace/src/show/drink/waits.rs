//! The drink while it waits in its glass.

use pomace_bench::report::{DrinkReport, Figures};
use pomace_matter::liquid::Property;

use crate::number::set;
use crate::page::{BOLD, DIM, wrap};
use crate::show::said;

/// Its figures by the minute, over the ice in its glass, and its foam.
pub(super) fn waits(page: &mut String, report: &DrinkReport, width: usize) {
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
