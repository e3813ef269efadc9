//! One line of a flow: what it joins, and the lanes it runs in.

use super::{Counted, Flow};

/// A line from an inflow to an outflow.
pub(super) struct Thread {
    pub(super) inflow: usize,
    pub(super) outflow: usize,
    /// Where it begins: along and across, px.
    pub(super) start: (f64, f64),
    /// Place across after each station, while it is in the flow.
    pub(super) lanes: Vec<Option<f64>>,
    /// Where it ends or turns out: along, px.
    pub(super) end: f64,
}

impl Thread {
    /// As many as are counted, in order of inflow and outflow.
    pub(super) fn all(flow: &Flow, counted: &Counted) -> Vec<Self> {
        let stations = flow.stations.len().max(1);
        let mut threads = Vec::new();
        for (inflow, row) in counted.lines.iter().enumerate().take(flow.inflows.len()) {
            for (outflow, lines) in row.iter().enumerate() {
                for _ in 0..*lines {
                    threads.push(Self {
                        inflow,
                        outflow,
                        start: (0.0, 0.0),
                        lanes: vec![None; stations],
                        end: 0.0,
                    });
                }
            }
        }
        threads
    }

    /// Its lane where it enters; far out, in order, if it leaves at once.
    pub(super) fn first_lane(&self) -> f64 {
        let first = self.lanes.iter().flatten().next().copied();
        first.unwrap_or(1e4 + self.outflow as f64)
    }

    /// Its lane before it leaves; where it began, if it leaves at once.
    pub(super) fn last_lane(&self) -> f64 {
        let last = self.lanes.iter().rev().flatten().next().copied();
        last.unwrap_or(self.start.1)
    }
}

/// Those of one inflow, in order of their lanes.
pub(super) fn of_inflow(threads: &mut [Thread], inflow: usize) -> Vec<&mut Thread> {
    let mine = threads.iter_mut().filter(|thread| thread.inflow == inflow);
    let mut mine: Vec<&mut Thread> = mine.collect();
    mine.sort_by(|a, b| a.first_lane().total_cmp(&b.first_lane()));
    mine
}

/// Those of one outflow, the furthest across first: so that they turn out nested.
pub(super) fn of_outflow(threads: &mut [Thread], outflow: usize) -> Vec<&mut Thread> {
    let mine = threads
        .iter_mut()
        .filter(|thread| thread.outflow == outflow);
    let mut mine: Vec<&mut Thread> = mine.collect();
    mine.sort_by(|a, b| b.last_lane().total_cmp(&a.last_lane()));
    mine
}
