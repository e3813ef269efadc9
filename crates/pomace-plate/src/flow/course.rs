//! The way of one line over the page: straight in its lanes, curved between them.

use super::sizes::Sizes;
use super::thread::Thread;
use super::{Flow, Matter};
use crate::geometry::Point;
use crate::svg::Trace;

/// One line from where it enters to where it leaves.
pub(super) struct Course {
    pub(super) matter: Matter,
    moves: Vec<Move>,
}

/// What the pen does next.
#[derive(Clone, Copy)]
enum Move {
    Start(Point),
    Line(Point),
    /// A curve: both handles, and its end.
    Curve(Point, Point, Point),
}

impl Course {
    pub(super) fn new(flow: &Flow, thread: &Thread, sizes: &Sizes, exit_across: f64) -> Self {
        let entered = flow.enters_at(thread.inflow);
        let (mut along, mut across) = thread.start;
        let mut moves = vec![Move::Start(sizes.place(along, across))];
        for (station, lane) in thread.lanes.iter().enumerate() {
            let Some(lane) = *lane else { continue };
            let at = sizes.at_station(station);
            if station == entered && entered > 0 {
                along = turn_in(&mut moves, sizes, (along, across), (at, lane));
            } else if (lane - across).abs() > 0.05 {
                let widest = if station == 0 {
                    78.0
                } else {
                    sizes.pace(station) * 0.62
                };
                let reach = (at - along - 14.0).clamp(10.0, widest.max(10.0));
                let from = (at - reach).max(along);
                let middle = f64::midpoint(from, at);
                moves.push(Move::Line(sizes.place(from, across)));
                moves.push(Move::Curve(
                    sizes.place(middle, across),
                    sizes.place(middle, lane),
                    sizes.place(at, lane),
                ));
                along = at;
            }
            across = lane;
        }
        if flow.keeps(thread.outflow) {
            moves.push(Move::Line(sizes.place(thread.end, across)));
        } else {
            let station = sizes.at_station(flow.leaves_at(thread.outflow));
            let from = (station - 26.0).max(along).min(thread.end);
            turn_out(&mut moves, sizes, (from, across), (thread.end, exit_across));
        }
        let inflow = flow.inflows.get(thread.inflow);
        Self {
            matter: inflow.map_or(Matter::Liquid, |inflow| inflow.matter),
            moves,
        }
    }

    pub(super) fn draw(&self, trace: &mut Trace) {
        for step in &self.moves {
            match *step {
                Move::Start(to) => trace.start(to),
                Move::Line(to) => trace.line(to),
                Move::Curve(first, second, to) => trace.curve(first, second, to),
            };
        }
    }

    /// Places along the line, some pixels apart.
    pub(super) fn samples(&self) -> Vec<Point> {
        let mut places: Vec<Point> = Vec::new();
        for step in &self.moves {
            let last = places.last().copied();
            match (*step, last) {
                (Move::Start(to), _) | (Move::Line(to), None) => places.push(to),
                (Move::Line(to), Some(last)) => {
                    let parts = (last.distance(to) / 7.0).ceil().clamp(1.0, 200.0) as u32;
                    let share = |part: u32| f64::from(part) / f64::from(parts);
                    places.extend((1..=parts).map(|part| last.toward(to, share(part))));
                }
                (Move::Curve(first, second, to), last) => {
                    let last = last.unwrap_or(first);
                    places.extend((1..=16).map(|part| {
                        let share = f64::from(part) / 16.0;
                        let (p, q, r) = (
                            last.toward(first, share),
                            first.toward(second, share),
                            second.toward(to, share),
                        );
                        p.toward(q, share).toward(q.toward(r, share), share)
                    }));
                }
            }
        }
        places
    }
}

/// From the side into the flow; answers how far along it has joined.
fn turn_in(
    moves: &mut Vec<Move>,
    sizes: &Sizes,
    (along, across): (f64, f64),
    (at, lane): (f64, f64),
) -> f64 {
    let bend = (lane - 34.0).max(across);
    // Those that come furthest in take a little longer: nested, not crossed.
    let to = at + 16.0 + (lane - sizes.first_lane) * 0.12;
    moves.push(Move::Line(sizes.place(along, bend)));
    moves.push(Move::Curve(
        sizes.place(along, f64::midpoint(bend, lane) + (lane - bend) * 0.35),
        sizes.place(along + (to - along) * 0.35, lane),
        sizes.place(to, lane),
    ));
    to
}

/// Out of the flow to its side.
fn turn_out(
    moves: &mut Vec<Move>,
    sizes: &Sizes,
    (from, across): (f64, f64),
    (end, exit_across): (f64, f64),
) {
    let room = (exit_across - 16.0 - across).max(4.0);
    let down = (across + ((end - from) * 0.9).min(room)).min(exit_across);
    moves.push(Move::Line(sizes.place(from, across)));
    moves.push(Move::Curve(
        sizes.place(from + (end - from) * 0.6, across),
        sizes.place(end, across + (down - across) * 0.35),
        sizes.place(end, down),
    ));
    moves.push(Move::Line(sizes.place(end, exit_across)));
}
