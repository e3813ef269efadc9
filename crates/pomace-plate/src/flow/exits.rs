//! Where lines end: the kept stream at the end of the flow, all else turned out before it.

use super::Flow;
use super::sizes::{EXIT, Sizes};
use super::thread::{Thread, of_outflow};

/// The end of an outflow, px.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Exit {
    /// Its middle, along the flow.
    pub(super) along: f64,
    /// Half its width.
    pub(super) half: f64,
}

/// The ends of a flow.
pub(super) struct Exits {
    /// Of each outflow that turns out.
    pub(super) out: Vec<Exit>,
    /// Where the kept stream ends, along.
    pub(super) along: f64,
    /// Its lanes, the first and the last.
    pub(super) kept: Option<(f64, f64)>,
}

/// Sets the ends of the lines.
pub(super) fn give(flow: &Flow, threads: &mut [Thread], sizes: &Sizes) -> Exits {
    let mut out = vec![Exit::default(); flow.outflows.len()];
    let mut order: Vec<usize> = (0..out.len()).filter(|out| !flow.keeps(*out)).collect();
    // As the lanes lie: at one station what is lost turns out first.
    order.sort_by_key(|index| {
        let fate = flow.outflows.get(*index).map(|out| out.fate);
        (
            flow.leaves_at(*index),
            std::cmp::Reverse(fate),
            std::cmp::Reverse(*index),
        )
    });
    let last = flow.stations.len().max(1) - 1;
    let mut along_end = sizes.at_station(last) + sizes.pick(96.0, 0.0);
    let mut free = 0.0_f64;
    for index in order {
        let begin = (sizes.at_station(flow.leaves_at(index)) + 20.0).max(free);
        let mut along = begin;
        for thread in of_outflow(threads, index) {
            thread.end = along;
            along += sizes.apart;
        }
        // The next one leaves room for the words at this one.
        free = (begin + sizes.pick(EXIT, 116.0)).max(along + 22.0);
        along_end = along_end.max(along + sizes.pick(EXIT, 0.0));
        if let Some(exit) = out.get_mut(index) {
            *exit = Exit {
                along: f64::midpoint(begin, (along - sizes.apart).max(begin)),
                half: (along - begin) / 2.0,
            };
        }
    }
    if !sizes.turned {
        squeeze(flow, threads, &mut out, sizes.wide - 130.0);
        along_end = sizes.wide - 186.0;
    }
    let mut kept: Option<(f64, f64)> = None;
    for thread in threads
        .iter_mut()
        .filter(|thread| flow.keeps(thread.outflow))
    {
        thread.end = along_end;
        let lane = thread.last_lane();
        kept = Some(kept.map_or((lane, lane), |(a, b)| (a.min(lane), b.max(lane))));
    }
    Exits {
        out,
        along: along_end,
        kept,
    }
}

/// Moves what turns out nearer together where it would leave the drawing.
fn squeeze(flow: &Flow, threads: &mut [Thread], out: &mut [Exit], most: f64) {
    let ends = out
        .iter()
        .enumerate()
        .filter(|(index, _)| !flow.keeps(*index));
    let (first, last) = ends.fold((f64::INFINITY, 0.0_f64), |(low, high), (_, exit)| {
        (
            low.min(exit.along - exit.half),
            high.max(exit.along + exit.half),
        )
    });
    if last <= most || first >= most {
        return;
    }
    let share = (most - first) / (last - first);
    for thread in threads
        .iter_mut()
        .filter(|thread| !flow.keeps(thread.outflow))
    {
        thread.end = first + (thread.end - first) * share;
    }
    for exit in out {
        exit.along = first + (exit.along - first) * share;
    }
}
