//! Where everything of a flow lies.
//!
//! Laid out along the flow and across it, and turned for a phone, where the flow runs down. Bundles
//! that turn in or out are nested, so their lines do not cross.

use super::course::Course;
use super::sizes::{JOINED, Names, Sizes};
use super::thread::Thread;
use super::{Counted, Flow, exits, lanes, starts};
use crate::Width;
use crate::geometry::Point;
use crate::svg::Trace;

/// The whole drawing, in pixels.
pub(super) struct Layout {
    pub(super) height: f64,
    pub(super) courses: Vec<Course>,
    /// Where each inflow is named.
    pub(super) starts: Vec<Point>,
    /// Middle of each outflow's end, and how far its label stays away.
    pub(super) ends: Vec<(Point, f64)>,
    /// A place beside each station's bundle.
    pub(super) stations: Vec<Point>,
    /// The ends of the bracket around the kept stream.
    kept: Option<(Point, Point)>,
    /// Ways of what is too little for a line.
    pub(super) hairs: Vec<(Point, Point)>,
    pub(super) names: Names,
    pub(super) turned: bool,
}

impl Layout {
    pub(super) fn new(flow: &Flow, counted: &Counted, width: Width) -> Self {
        let sizes = Sizes::new(flow, counted, width);
        let mut threads = Thread::all(flow, counted);
        lanes::give(flow, &mut threads, &sizes);
        let begins = starts::give(flow, &mut threads, &sizes);
        let exits = exits::give(flow, &mut threads, &sizes);

        let taken = threads.iter().flat_map(|thread| {
            let lanes = thread.lanes.iter().flatten().copied();
            lanes.chain([thread.start.1])
        });
        let furthest = taken
            .chain(begins.iter().map(|begin| begin.1))
            .fold(sizes.first_lane, f64::max);
        let exit_across = sizes.pick(sizes.exit, furthest + 46.0);
        let hairs = hairs(flow, &threads, &sizes, &begins, &exits, exit_across);
        let ends = exits
            .out
            .iter()
            .enumerate()
            .map(|(out, exit)| match exits.kept {
                Some((low, high)) if flow.keeps(out) => (
                    sizes.place(exits.along + 8.0, f64::midpoint(low, high)),
                    4.0,
                ),
                _ => {
                    let at = sizes.place(exit.along, exit_across + 2.0);
                    (at, sizes.pick(2.0, exit.half.min(80.0) + 1.0))
                }
            })
            .collect();
        Self {
            height: sizes.pick(exits.along + 124.0, exit_across + 64.0),
            courses: threads
                .iter()
                .map(|thread| Course::new(flow, thread, &sizes, exit_across))
                .collect(),
            starts: begins
                .iter()
                .map(|(along, across)| sizes.place(*along, *across))
                .collect(),
            ends,
            stations: stations(flow, &threads, &sizes),
            kept: exits.kept.map(|(low, high)| {
                let along = exits.along + 5.0;
                (
                    sizes.place(along, low - 3.0),
                    sizes.place(along, high + 3.0),
                )
            }),
            hairs,
            names: sizes.names,
            turned: sizes.turned,
        }
    }

    /// The bracket at the end of the kept stream.
    pub(super) fn bracket(&self) -> Trace {
        let Some((from, to)) = self.kept else {
            return Trace::new();
        };
        let back = |at: Point| self.moved(at, -5.0);
        Trace::through([back(from), from, to, back(to)])
    }

    /// A short stroke at each station, toward its bundle.
    pub(super) fn gates(&self) -> Trace {
        let mut trace = Trace::new();
        for at in &self.stations {
            let to = if self.turned {
                Point::new(at.x + 8.0, at.y)
            } else {
                Point::new(at.x, at.y + 8.0)
            };
            trace.start(*at).line(to);
        }
        trace
    }

    /// Further along the flow.
    fn moved(&self, at: Point, by: f64) -> Point {
        if self.turned {
            Point::new(at.x, at.y + by)
        } else {
            Point::new(at.x + by, at.y)
        }
    }
}

/// The straight ways of what comes in later or turns out and is too little for a line of its own.
fn hairs(
    flow: &Flow,
    threads: &[Thread],
    sizes: &Sizes,
    begins: &[(f64, f64)],
    exits: &exits::Exits,
    exit_across: f64,
) -> Vec<(Point, Point)> {
    let lanes = |station: usize| {
        let lanes = threads
            .iter()
            .filter_map(move |thread| *thread.lanes.get(station)?);
        lanes.fold(None, |found: Option<(f64, f64)>, lane| {
            Some(found.map_or((lane, lane), |(low, high)| (low.min(lane), high.max(lane))))
        })
    };
    let mut hairs = Vec::new();
    for (inflow, (along, across)) in begins.iter().enumerate() {
        let station = flow.enters_at(inflow);
        let has_lines = threads.iter().any(|thread| thread.inflow == inflow);
        if let (false, true, Some((low, _))) = (has_lines, station > 0, lanes(station)) {
            hairs.push((sizes.place(*along, *across), sizes.place(*along, low - 3.0)));
        }
    }
    for (index, exit) in exits.out.iter().enumerate() {
        let has_lines = threads.iter().any(|thread| thread.outflow == index);
        let station = flow.leaves_at(index);
        // Behind its station those lanes are that the next one has.
        let near = lanes(station).or_else(|| lanes(station.saturating_sub(1)));
        if let (false, false, Some((_, high))) = (has_lines, flow.keeps(index), near) {
            hairs.push((
                sizes.place(exit.along, high + 3.0),
                sizes.place(exit.along, exit_across),
            ));
        }
    }
    hairs
}

fn stations(flow: &Flow, threads: &[Thread], sizes: &Sizes) -> Vec<Point> {
    (0..flow.stations.len())
        .map(|station| {
            let lanes = threads
                .iter()
                .filter_map(|thread| *thread.lanes.get(station)?);
            let low = lanes.reduce(f64::min).unwrap_or(sizes.first_lane);
            let joined = (0..flow.inflows.len()).any(|inflow| flow.enters_at(inflow) == station);
            // Beside what turns in, the name stands where that has joined.
            let after = if joined && station > 0 {
                sizes.pick(JOINED, 0.0)
            } else {
                0.0
            };
            sizes.place(sizes.at_station(station) + after, low - 12.0)
        })
        .collect()
}
