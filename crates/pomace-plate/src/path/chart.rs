//! The frame of the path: its scales, and where a state lies between them.

use super::{IcePath, State};
use crate::geometry::{Point, Rect};
use crate::number::number;
use crate::scale::{Scale, ceiling, places, step};
use crate::svg::{Anchor, Svg, Trace};
use crate::{Voice, Width};

/// Where things lie on the path.
pub(super) struct Chart {
    pub(super) width: f64,
    pub(super) height: f64,
    pub(super) plot: Rect,
    pub(super) melt: Scale,
    pub(super) celsius: Scale,
}

impl Chart {
    pub(super) fn new(path: &IcePath, width: Width) -> Self {
        let wide = match width {
            Width::Phone => 358.0,
            Width::Tablet => 440.0,
            Width::Desktop => 480.0,
        };
        let high = width.pick(286.0, 316.0);
        let plot = Rect::new(40.0, 32.0, wide - 16.0, high - 48.0);
        let states = || {
            let moments = path.on_ice.iter().chain(&path.in_glass);
            moments.map(|moment| moment.state).chain(path.topped)
        };
        let coast = || path.freezing.iter().flatten().copied();
        let finite = |state: &State| state.is_finite();
        let most = states()
            .filter(finite)
            .map(|state| state.melt_percent)
            .fold(0.0, f64::max);
        // A coast far below the path is left to itself.
        let coldest = states().filter(finite).map(|state| state.celsius);
        let coldest = coldest.fold(0.0, f64::min);
        let floor = coast()
            .filter(finite)
            .map(|state| state.celsius.max(coldest - 8.0))
            .fold(coldest, f64::min);
        let warmest = states().filter(finite).map(|state| state.celsius);
        let warmest = warmest.fold(5.0, f64::max);
        let fives = |value: f64| (value.clamp(-300.0, 300.0) / 5.0 + 0.04).ceil() * 5.0;
        Self {
            width: wide,
            height: high,
            plot,
            melt: Scale {
                values: (0.0, ceiling(most, 10.0, None).min(800.0)),
                pixels: (plot.left, plot.right),
            },
            celsius: Scale {
                values: (-fives(-floor + 1.0), fives(warmest + 2.0)),
                pixels: (plot.bottom, plot.top),
            },
        }
    }

    /// A state in the frame, or at its edge.
    pub(super) fn at(&self, state: State) -> Option<Point> {
        state.is_finite().then(|| {
            let room = self.plot;
            Point::new(
                self.melt
                    .at(state.melt_percent)
                    .clamp(room.left, room.right),
                self.celsius.at(state.celsius).clamp(room.top, room.bottom),
            )
        })
    }

    /// Frame, numbers and titles.
    pub(super) fn draw(&self, svg: &mut Svg) {
        let plot = self.plot;
        let (mut grid, mut black) = (Trace::new(), Trace::new());
        let up = step(self.celsius.values.1 - self.celsius.values.0, 5.0);
        for tick in self.celsius.ticks(up) {
            let y = self.celsius.at(tick);
            let at = Point::new(plot.left - 9.0, y + 5.0);
            svg.text(Voice::Scale, at, Anchor::End, &number(tick, places(up)));
            let long = if tick.abs() < 1e-9 {
                plot.right
            } else {
                plot.left
            };
            grid.start(Point::new(plot.left - 5.0, y))
                .line(Point::new(long, y));
        }
        let across = step(self.melt.values.1, 5.0);
        for tick in self.melt.ticks(across) {
            let (x, half) = (self.melt.at(tick), self.melt.at(tick + across / 2.0));
            if half <= plot.right + 0.5 {
                let y = plot.bottom + 5.0;
                black.start(Point::new(x, y)).line(Point::new(half, y));
            }
            let at = Point::new(x, plot.bottom + 24.0);
            svg.text(
                Voice::Scale,
                at,
                Anchor::Middle,
                &number(tick, places(across)),
            );
        }
        svg.trace("ray", &grid);
        svg.rect("frame", plot);
        svg.trace("chequer", &black);
        let mut edge = Trace::new();
        for y in [plot.bottom + 3.0, plot.bottom + 7.0] {
            edge.start(Point::new(plot.left, y))
                .line(Point::new(plot.right, y));
        }
        svg.trace("neat", &edge);
        svg.text(
            Voice::Scale,
            Point::new(0.0, 15.0),
            Anchor::Start,
            "↑ temperature, °C",
        );
        let end = Point::new(plot.right, self.height - 4.0);
        svg.text(
            Voice::Scale,
            end,
            Anchor::End,
            "melt, mL in 100 mL before ice →",
        );
    }
}
