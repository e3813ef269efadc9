//! The flow in sentences.

use super::{Fate, Flow};
use crate::number::{grams, listed, number};

pub(super) fn describe(flow: &Flow, grams_per_line: f64) -> String {
    let places = crate::scale::places(grams_per_line);
    let mut said = vec![format!("One line is {} g.", number(grams_per_line, places))];
    let inflows: Vec<String> = flow
        .inflows
        .iter()
        .enumerate()
        .map(|(index, inflow)| format!("{} {}", grams(flow.grams_in(index)), inflow.name))
        .collect();
    said.push(format!("In: {}.", listed(&inflows)));
    let done: Vec<String> = flow
        .stations
        .iter()
        .map(|station| {
            if station.note.is_empty() {
                station.name.clone()
            } else {
                format!("{} ({})", station.name, station.note)
            }
        })
        .collect();
    said.push(format!("Then: {}.", listed(&done)));
    for (index, out) in flow.outflows.iter().enumerate() {
        let mass = grams(flow.grams_out(index));
        let from: Vec<String> = flow
            .inflows
            .iter()
            .enumerate()
            .filter(|(inflow, _)| flow.grams(*inflow, index) > 0.0)
            .map(|(inflow, source)| {
                format!("{} from {}", grams(flow.grams(inflow, index)), source.name)
            })
            .collect();
        let kind = match out.fate {
            Fate::Kept => "Kept",
            Fate::ByProduct => "By-product",
            Fate::Lost => "Lost",
        };
        said.push(format!("{kind}: {mass} {}; {}.", out.name, listed(&from)));
    }
    said.join(" ")
}
