//! Which lane each line takes after each station.

use super::Flow;
use super::sizes::Sizes;
use super::thread::Thread;

/// Between two bundles that will part, px.
const PARTED: f64 = 6.0;

/// Gives each line its lanes. What leaves last lies nearest to where things enter, so that nothing
/// crosses it; the lines of one bundle interleave evenly by where they come from.
pub(super) fn give(flow: &Flow, threads: &mut [Thread], sizes: &Sizes) {
    let shares = shares(flow, threads);
    for station in 0..flow.stations.len().max(1) {
        let mut here: Vec<((usize, usize), f64, usize)> = threads
            .iter()
            .zip(&shares)
            .enumerate()
            .filter(|(_, (thread, _))| {
                let stays = flow.leaves_at(thread.outflow) > station;
                flow.enters_at(thread.inflow) <= station && stays
            })
            .map(|(index, (thread, share))| {
                let leaves = flow.leaves_at(thread.outflow);
                let fate = flow
                    .outflows
                    .get(thread.outflow)
                    .map_or(0, |out| out.fate as usize);
                // Later first; at one station what is lost lies outermost.
                let bundle = (usize::MAX - leaves, fate * 1000 + thread.outflow);
                (bundle, *share, index)
            })
            .collect();
        here.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.cmp(&b.2)));
        let mut across = sizes.first_lane;
        let mut last = None;
        for (bundle, _, index) in here {
            if last.is_some_and(|last| last != bundle) {
                across += PARTED;
            }
            last = Some(bundle);
            let lane = threads
                .get_mut(index)
                .and_then(|thread| thread.lanes.get_mut(station));
            if let Some(lane) = lane {
                *lane = Some(across);
            }
            across += sizes.apart;
        }
    }
}

/// How far along its kind each line is, from 0 to 1: the third of four is at 0.625.
fn shares(flow: &Flow, threads: &[Thread]) -> Vec<f64> {
    let kind = |thread: &Thread| thread.inflow * flow.outflows.len() + thread.outflow;
    let mut counts = vec![0.0; flow.inflows.len() * flow.outflows.len()];
    let places: Vec<f64> = threads
        .iter()
        .map(|thread| {
            counts.get_mut(kind(thread)).map_or(0.0, |count| {
                *count += 1.0;
                *count - 0.5
            })
        })
        .collect();
    threads
        .iter()
        .zip(places)
        .map(|(thread, place)| place / counts.get(kind(thread)).copied().unwrap_or(1.0))
        .collect()
}
