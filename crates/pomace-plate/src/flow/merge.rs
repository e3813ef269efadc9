//! A flow with no more streams than a drawing can name: the small ones are taken together.

use super::{Fate, Flow, Inflow, Matter, Outflow};
use crate::Width;

/// The flow as it is drawn; `None` where nothing goes in, out or through.
pub(super) fn gathered(flow: &Flow, width: Width) -> Option<Flow> {
    let last = flow.stations.len().checked_sub(1)?;
    let mut drawn = flow.clone();
    for inflow in &mut drawn.inflows {
        inflow.station = inflow.station.min(last);
    }
    let mut entered = vec![last; drawn.outflows.len()];
    for (out, entered) in entered.iter_mut().enumerate() {
        // Nothing leaves before all of it has come in, and the kept stream leaves last.
        let from = drawn.inflows.iter().enumerate();
        let latest = from
            .filter(|(inflow, _)| drawn.grams(*inflow, out) > 0.0)
            .map(|(_, inflow)| inflow.station)
            .max();
        *entered = latest.unwrap_or(0);
    }
    for (out, entered) in drawn.outflows.iter_mut().zip(entered) {
        out.station = match out.fate {
            Fate::Kept => last,
            Fate::ByProduct | Fate::Lost => out.station.min(last).max(entered),
        };
    }
    drop_empty(&mut drawn);
    for station in 0..=last {
        let most = if station == 0 { width.pick(3, 5) } else { 2 };
        while let Some((into, gone)) = pair(
            &drawn
                .inflows
                .iter()
                .map(|inflow| inflow.station == station)
                .collect::<Vec<_>>(),
            most,
            |index| drawn.grams_in(index),
        ) {
            merge_inflows(&mut drawn, into, gone);
        }
        while let Some((into, gone)) = pair(
            &drawn
                .outflows
                .iter()
                .map(|out| out.station == station && out.fate != Fate::Kept)
                .collect::<Vec<_>>(),
            2,
            |index| drawn.grams_out(index),
        ) {
            merge_outflows(&mut drawn, into, gone);
        }
    }
    (!drawn.inflows.is_empty() && !drawn.outflows.is_empty()).then_some(drawn)
}

/// The two smallest of those marked, if they are more than allowed.
fn pair(marked: &[bool], most: usize, mass: impl Fn(usize) -> f64) -> Option<(usize, usize)> {
    let mut found: Vec<usize> = (0..marked.len())
        .filter(|index| marked.get(*index).copied().unwrap_or(false))
        .collect();
    if found.len() <= most {
        return None;
    }
    found.sort_by(|a, b| mass(*b).total_cmp(&mass(*a)));
    let gone = found.pop()?;
    Some((found.pop()?, gone))
}

fn drop_empty(flow: &mut Flow) {
    for out in (0..flow.outflows.len()).rev() {
        if flow.grams_out(out) <= 0.0 {
            flow.outflows.remove(out);
        }
    }
    for inflow in (0..flow.inflows.len()).rev() {
        if flow.grams_in(inflow) <= 0.0 {
            flow.inflows.remove(inflow);
            for out in &mut flow.outflows {
                if inflow < out.grams_from.len() {
                    out.grams_from.remove(inflow);
                }
            }
        }
    }
}

fn merge_inflows(flow: &mut Flow, into: usize, gone: usize) {
    let outs = flow.outflows.len();
    let sums: Vec<f64> = (0..outs)
        .map(|out| flow.grams(into, out) + flow.grams(gone, out))
        .collect();
    let count = flow.inflows.len();
    for (out, sum) in flow.outflows.iter_mut().zip(sums) {
        out.grams_from.resize(count, 0.0);
        if let Some(cell) = out.grams_from.get_mut(into) {
            *cell = sum;
        }
        out.grams_from.remove(gone);
    }
    let other = flow.inflows.remove(gone);
    let into = if gone < into { into - 1 } else { into };
    if let Some(kept) = flow.inflows.get_mut(into) {
        *kept = Inflow {
            name: together(&kept.name, &other.name),
            matter: if kept.matter == other.matter {
                kept.matter
            } else {
                Matter::Liquid
            },
            station: kept.station,
        };
    }
}

fn merge_outflows(flow: &mut Flow, into: usize, gone: usize) {
    let sums: Vec<f64> = (0..flow.inflows.len())
        .map(|inflow| flow.grams(inflow, into) + flow.grams(inflow, gone))
        .collect();
    let other = flow.outflows.remove(gone);
    let into = if gone < into { into - 1 } else { into };
    if let Some(kept) = flow.outflows.get_mut(into) {
        *kept = Outflow {
            name: together(&kept.name, &other.name),
            note: String::new(),
            fate: kept.fate.min(other.fate),
            station: kept.station,
            grams_from: sums,
        };
    }
}

fn together(one: &str, other: &str) -> String {
    format!("{one}, {other}")
}
