//! Sizes of a flow's drawing, and the turn between one that runs to the right and one that runs down.
//!
//! On a phone every flow runs down. Where there is more room it runs to the right, unless more is done and
//! comes in than can be named side by side.

use super::{Counted, Flow};
use crate::geometry::Point;
use crate::{Voice, Width};

/// Stations that can be named side by side, and stations with all that comes in on the way.
const SIDE_BY_SIDE: (usize, usize) = (4, 5);

/// Height of a name in two lines with its mass, and the air around it, px: along, where a flow runs down.
pub(super) const NAMED: f64 = 76.0;
/// A station's name stands so much further along where something joins, px.
pub(super) const JOINED: f64 = 22.0;
/// From one station to the next where nothing comes in or leaves between them: room for both names.
const NEAREST: f64 = 72.0;
/// Between two ends of lines, along, where a flow runs down.
pub(super) const EXIT: f64 = 58.0;

/// Sizes, px: along the flow, and across it.
pub(super) struct Sizes {
    /// Whether the flow runs down.
    pub(super) turned: bool,
    /// Width of the drawing.
    pub(super) wide: f64,
    /// Between two lines of a bundle.
    pub(super) apart: f64,
    /// From the edge to the first place of the flow, along.
    pub(super) begin: f64,
    /// Where each station lies, along.
    stations: Vec<f64>,
    /// Across: the lane nearest to where things enter.
    pub(super) first_lane: f64,
    /// Across: where those begin that enter later.
    pub(super) side: f64,
    /// Across: where those end that turn out, if the flow runs down.
    pub(super) exit: f64,
    /// Between two inflows side by side, across.
    pub(super) between: f64,
    /// Least room of an inflow, across.
    pub(super) least: f64,
    /// How wide names may be.
    pub(super) names: Names,
}

/// How wide names may be, px: of what is there from the first, of what comes in on the way, of a station, of
/// what is kept, and of all else.
#[derive(Clone, Copy)]
pub(super) struct Names {
    pub(super) early: f64,
    pub(super) late: f64,
    pub(super) station: f64,
    pub(super) kept: f64,
    pub(super) others: f64,
}

/// Whether a flow runs down.
pub(super) fn is_turned(flow: &Flow, width: Width) -> bool {
    let late = flow.inflows.iter().filter(|inflow| inflow.station > 0);
    let (stations, all) = SIDE_BY_SIDE;
    let done = flow.stations.len();
    width == Width::Phone || done > stations || done + late.count() > all
}

/// Room for the name of something that is there from the first, px: as many as there are stand side by side.
fn early_room(flow: &Flow, wide: f64) -> f64 {
    let early = flow.inflows.iter().filter(|inflow| inflow.station == 0);
    ((wide - 12.0) / early.count().max(1) as f64 - 12.0).clamp(84.0, 210.0)
}

impl Sizes {
    pub(super) fn new(flow: &Flow, counted: &Counted, width: Width) -> Self {
        let wide = width.pixels();
        if is_turned(flow, width) {
            let apart = 2.8;
            let early = early_room(flow, wide);
            let two_lines = flow.inflows.iter().any(|inflow| {
                inflow.station == 0 && Voice::Mark.wrapped(&inflow.name, early).len() > 1
            });
            let begin = if two_lines { 80.0 } else { 62.0 };
            Self {
                turned: true,
                wide,
                apart,
                begin,
                stations: downward(flow, counted, begin + 88.0, apart),
                first_lane: width.pick(92.0, wide * 0.37),
                side: width.pick(4.0, 40.0),
                exit: wide - width.pick(118.0, 190.0),
                between: 18.0,
                least: 108.0,
                names: Names {
                    early,
                    late: width.pick(84.0, 190.0),
                    station: width.pick(80.0, 170.0),
                    kept: width.pick(200.0, 300.0),
                    others: width.pick(112.0, 176.0),
                },
            }
        } else {
            let late = flow.inflows.iter().any(|inflow| inflow.station > 0);
            let begin = 2.0;
            let pace = (wide - 440.0) / (flow.stations.len().max(2) - 1) as f64;
            Self {
                turned: false,
                wide,
                apart: 3.1,
                begin,
                stations: (0..flow.stations.len().max(1))
                    .map(|station| begin + 196.0 + pace * station as f64)
                    .collect(),
                first_lane: if late { 124.0 } else { 74.0 },
                side: 54.0,
                exit: 0.0,
                between: 66.0,
                least: 0.0,
                names: Names {
                    early: 176.0,
                    late: 176.0,
                    station: 140.0,
                    kept: 176.0,
                    others: 176.0,
                },
            }
        }
    }

    /// A place along and across the flow.
    pub(super) fn place(&self, along: f64, across: f64) -> Point {
        if self.turned {
            Point::new(across, along)
        } else {
            Point::new(along, across)
        }
    }

    /// Where a station lies along the flow.
    pub(super) fn at_station(&self, station: usize) -> f64 {
        let last = self.stations.last();
        self.stations
            .get(station)
            .or(last)
            .copied()
            .unwrap_or(self.begin)
    }

    /// From the station before to this one, along.
    pub(super) fn pace(&self, station: usize) -> f64 {
        match station.checked_sub(1) {
            Some(before) => self.at_station(station) - self.at_station(before),
            None => self.at_station(0) - self.begin,
        }
    }

    /// One of two, by whether the flow runs down.
    pub(super) const fn pick(&self, turned: f64, straight: f64) -> f64 {
        if self.turned { turned } else { straight }
    }
}

/// Stations of a flow that runs down: each as far from the last one as the names between them need.
fn downward(flow: &Flow, counted: &Counted, first: f64, apart: f64) -> Vec<f64> {
    let lines_in = |inflow: usize| {
        let row = counted.lines.get(inflow).into_iter().flatten();
        row.sum::<usize>() as f64
    };
    let lines_out = |out: usize| {
        let cells = counted.lines.iter().filter_map(|row| row.get(out));
        cells.sum::<usize>() as f64
    };
    let joins = |station: usize| {
        let mut inflows = flow.inflows.iter();
        station > 0 && inflows.any(|inflow| inflow.station == station)
    };
    let mut at = first;
    let mut stations = vec![first];
    for station in 1..flow.stations.len() {
        let comes = (0..flow.inflows.len()).filter(|inflow| flow.enters_at(*inflow) == station);
        let comes: f64 = comes.map(|inflow| lines_in(inflow) * apart + NAMED).sum();
        let outs = 0..flow.outflows.len();
        let goes = outs.filter(|out| !flow.keeps(*out) && flow.leaves_at(*out) + 1 == station);
        let goes: f64 = goes
            .map(|out| (lines_out(out) * apart + 22.0).max(EXIT))
            .sum();
        let named = if comes > 0.0 { comes + 54.0 } else { 0.0 };
        let lower = if joins(station - 1) { JOINED } else { 0.0 };
        at += NEAREST.max(named).max(goes + 24.0) + lower;
        stations.push(at);
    }
    stations
}
