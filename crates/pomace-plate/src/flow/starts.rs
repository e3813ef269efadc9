//! Where lines begin: side by side what is there from the first, at the side what comes later.

use super::Flow;
use super::sizes::{NAMED, Sizes};
use super::thread::{Thread, of_inflow};

/// Sets the beginnings of the lines; answers where each inflow is named, along and across.
pub(super) fn give(flow: &Flow, threads: &mut [Thread], sizes: &Sizes) -> Vec<(f64, f64)> {
    let mut begins = vec![(sizes.begin, sizes.first_lane); flow.inflows.len()];
    early(flow, threads, sizes, &mut begins);
    late(flow, threads, sizes, &mut begins);
    begins
}

fn early(flow: &Flow, threads: &mut [Thread], sizes: &Sizes, begins: &mut [(f64, f64)]) {
    let inflows: Vec<usize> = (0..flow.inflows.len())
        .filter(|inflow| flow.enters_at(*inflow) == 0)
        .collect();
    let rooms: Vec<f64> = inflows
        .iter()
        .map(|inflow| (lines(threads, *inflow) * sizes.apart).max(sizes.least))
        .collect();
    let whole = rooms.iter().sum::<f64>() + sizes.between * (rooms.len().max(1) - 1) as f64;
    let bundle: f64 = inflows
        .iter()
        .map(|inflow| lines(threads, *inflow))
        .sum::<f64>()
        * sizes.apart;
    let least = sizes.pick(6.0, 52.0);
    let mut across = (sizes.first_lane + bundle / 2.0 - whole / 2.0).max(least);
    let mut squeeze = 1.0;
    if sizes.turned {
        squeeze = ((sizes.wide - 12.0) / whole).min(1.0);
        across = across.min(sizes.wide - 6.0 - whole * squeeze).max(least);
    }
    for (inflow, room) in inflows.iter().zip(rooms) {
        let mut mine = of_inflow(threads, *inflow);
        // In the middle of a room that is wider than the lines.
        let aside = (room - mine.len() as f64 * sizes.apart) / 2.0;
        for (index, thread) in mine.iter_mut().enumerate() {
            let lane = across + (aside + index as f64 * sizes.apart) * squeeze;
            thread.start = (sizes.begin, lane);
        }
        if let Some(begin) = begins.get_mut(*inflow) {
            // Named over its middle, or at its first corner.
            let named = sizes.pick(room / 2.0, aside);
            *begin = (sizes.begin, across + named * squeeze);
        }
        across += (room + sizes.between) * squeeze;
    }
}

fn late(flow: &Flow, threads: &mut [Thread], sizes: &Sizes, begins: &mut [(f64, f64)]) {
    let mut taken = vec![0.0_f64; flow.stations.len().max(1)];
    for inflow in 0..flow.inflows.len() {
        let station = flow.enters_at(inflow);
        let Some(taken) = taken.get_mut(station).filter(|_| station > 0) else {
            continue;
        };
        let count = lines(threads, inflow);
        let end = sizes.at_station(station) - 26.0 - *taken;
        *taken += sizes.pick(
            count * sizes.apart + NAMED,
            (count * sizes.apart).max(100.0) + 12.0,
        );
        let apart = sizes.apart.min((end - 4.0).max(0.0) / count.max(1.0));
        // Nested: what turns in first begins furthest along.
        for (index, thread) in of_inflow(threads, inflow).iter_mut().enumerate() {
            thread.start = (end - index as f64 * apart, sizes.side);
        }
        if let Some(begin) = begins.get_mut(inflow) {
            *begin = (end - (count - 1.0).max(0.0) * apart, sizes.side);
        }
    }
}

fn lines(threads: &[Thread], inflow: usize) -> f64 {
    threads
        .iter()
        .filter(|thread| thread.inflow == inflow)
        .count() as f64
}
