//! Sizes of a flow's drawing, and the turn between a wide one and a phone's.

use super::Flow;
use crate::Width;
use crate::geometry::Point;

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
    /// From there to the first station, along.
    first: f64,
    /// Between two stations, along.
    pub(super) pace: f64,
    /// Across: the lane nearest to where things enter.
    pub(super) first_lane: f64,
    /// Across: where those begin that enter later.
    pub(super) side: f64,
    /// Between two inflows side by side, across.
    pub(super) between: f64,
    /// Least room of an inflow, across.
    pub(super) least: f64,
}

impl Sizes {
    pub(super) fn new(flow: &Flow, width: Width) -> Self {
        let late = flow.inflows.iter().any(|inflow| inflow.station > 0);
        let wide = width.pixels();
        let paces = (flow.stations.len().max(2) - 1) as f64;
        if width == Width::Phone {
            Self {
                turned: true,
                wide,
                apart: 2.8,
                begin: 62.0,
                first: 88.0,
                pace: if late { 146.0 } else { 112.0 },
                first_lane: 92.0,
                side: 4.0,
                between: 18.0,
                least: 108.0,
            }
        } else {
            Self {
                turned: false,
                wide,
                apart: 3.1,
                begin: 2.0,
                first: 196.0,
                pace: (wide - 440.0) / paces,
                first_lane: if late { 124.0 } else { 74.0 },
                side: 54.0,
                between: 66.0,
                least: 0.0,
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
        self.begin + self.first + self.pace * station as f64
    }

    /// One of two, by whether the flow runs down.
    pub(super) const fn pick(&self, turned: f64, straight: f64) -> f64 {
        if self.turned { turned } else { straight }
    }
}
