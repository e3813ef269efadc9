//! Where the lines of a flow run.
//!
//! Everything is laid out along the flow (`along`) and across it (`across`), and turned for a phone,
//! where the flow runs down. Bundles that turn in or out are nested, so their lines do not cross.

use super::{Counted, Fate, Flow, Matter};
use crate::Width;
use crate::geometry::Point;
use crate::svg::Trace;

/// One line from where it enters to where it leaves.
pub(super) struct Course {
    pub(super) matter: Matter,
    /// The pen: a place to go to straight, or a curve with both its handles.
    moves: Vec<Move>,
}

#[derive(Clone, Copy)]
enum Move {
    Start(Point),
    Line(Point),
    Curve(Point, Point, Point),
}

impl Course {
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
        let mut last = Point::new(0.0, 0.0);
        for step in &self.moves {
            match *step {
                Move::Start(to) => {
                    places.push(to);
                    last = to;
                }
                Move::Line(to) => {
                    let parts = (last.distance(to) / 7.0).ceil().clamp(1.0, 200.0) as u32;
                    for part in 1..=parts {
                        places.push(last.toward(to, f64::from(part) / f64::from(parts)));
                    }
                    last = to;
                }
                Move::Curve(a, b, to) => {
                    for part in 1..=16 {
                        let share = f64::from(part) / 16.0;
                        let (p, q, r) = (
                            last.toward(a, share),
                            a.toward(b, share),
                            b.toward(to, share),
                        );
                        places.push(p.toward(q, share).toward(q.toward(r, share), share));
                    }
                    last = to;
                }
            }
        }
        places
    }
}

/// The whole drawing, in pixels.
pub(super) struct Layout {
    pub(super) height: f64,
    pub(super) courses: Vec<Course>,
    /// Middle of each inflow's beginning.
    pub(super) starts: Vec<Point>,
    /// Middle of each outflow's end, and how far its label stays away.
    pub(super) ends: Vec<(Point, f64)>,
    /// A place above each station's bundle.
    pub(super) stations: Vec<Point>,
    kept: Option<(Point, Point)>,
    turned: bool,
}

/// A line by what it joins, and where it runs.
struct Thread {
    inflow: usize,
    outflow: usize,
    /// Place across at its beginning, after each station, and along at its end.
    start: (f64, f64),
    lanes: Vec<Option<f64>>,
    end: f64,
}

/// Sizes of a drawing, px.
struct Sizes {
    turned: bool,
    apart: f64,
    /// From the edge to the first place of the flow, along.
    begin: f64,
    /// From there to the first station, along.
    first: f64,
    /// Between two stations, along.
    pace: f64,
    /// Across: the lane nearest to where things enter.
    first_lane: f64,
    /// Between two inflows side by side, across.
    between: f64,
    /// Least room of an inflow, across.
    least: f64,
}

impl Sizes {
    /// Where a station lies along the flow.
    fn at_station(&self, station: usize) -> f64 {
        self.begin + self.first + self.pace * station as f64
    }
}

impl Layout {
    pub(super) fn new(flow: &Flow, counted: &Counted, width: Width) -> Self {
        let stations = flow.stations.len().max(1);
        let turned = width == Width::Phone;
        let late = flow.inflows.iter().any(|inflow| inflow.station > 0);
        let span = width.pixels() - 190.0;
        let sizes = Sizes {
            turned,
            apart: if turned { 2.8 } else { 3.1 },
            begin: if turned { 62.0 } else { 2.0 },
            first: if turned { 88.0 } else { 196.0 },
            pace: if turned {
                if late { 146.0 } else { 112.0 }
            } else {
                (span - 250.0) / (stations as f64 - 1.0).max(1.0)
            },
            first_lane: match (turned, late) {
                (true, true) => 92.0,
                (true, false) => 92.0,
                (false, true) => 124.0,
                (false, false) => 74.0,
            },
            between: if turned { 18.0 } else { 66.0 },
            least: if turned { 108.0 } else { 0.0 },
        };
        let mut threads = threads(flow, counted, stations);
        let bundle = lanes(flow, &mut threads, stations, &sizes);
        let begins = starts(flow, &mut threads, &sizes, bundle, width);
        Self::drawn(flow, &mut threads, &sizes, &begins, width)
    }

    fn drawn(
        flow: &Flow,
        threads: &mut [Thread],
        sizes: &Sizes,
        begins: &[(f64, f64)],
        width: Width,
    ) -> Self {
        let stations = flow.stations.len().max(1);
        let at_station = |station: usize| sizes.at_station(station);
        let mut far: f64 = threads
            .iter()
            .flat_map(|thread| {
                thread
                    .lanes
                    .iter()
                    .flatten()
                    .copied()
                    .chain([thread.start.1])
            })
            .chain(begins.iter().map(|begin| begin.1))
            .fold(sizes.first_lane, f64::max);
        far += 46.0;
        let mut next_exit = 0.0_f64;
        let mut order: Vec<usize> = (0..flow.outflows.len())
            .filter(|out| {
                flow.outflows
                    .get(*out)
                    .is_some_and(|out| out.fate != Fate::Kept)
            })
            .collect();
        // At one station what is lost leaves nearest to it; see the order of the lanes.
        order.sort_by_key(|out| {
            flow.outflows
                .get(*out)
                .map(|out| (out.station, std::cmp::Reverse(out.fate)))
        });
        let mut ends: Vec<(Point, f64)> = vec![(Point::new(0.0, 0.0), 0.0); flow.outflows.len()];
        let turn = |along: f64, across: f64| {
            if sizes.turned {
                Point::new(across, along)
            } else {
                Point::new(along, across)
            }
        };
        let exit_across = if sizes.turned {
            width.pixels() - 118.0
        } else {
            far
        };
        let mut along_end = at_station(stations - 1) + if sizes.turned { 96.0 } else { 0.0 };
        for out in order {
            let station = flow.outflows.get(out).map_or(0, |out| out.station);
            let mut mine: Vec<&mut Thread> = threads
                .iter_mut()
                .filter(|thread| thread.outflow == out)
                .collect();
            let across = |thread: &Thread| last_lane(thread);
            mine.sort_by(|a, b| across(b).total_cmp(&across(a)));
            let begin = (at_station(station) + 20.0).max(next_exit);
            let mut along = begin;
            for thread in &mut mine {
                thread.end = along;
                along += sizes.apart;
            }
            let label = if sizes.turned { 58.0 } else { 116.0 };
            next_exit = (begin + label).max(along + 22.0);
            along_end = along_end.max(along + if sizes.turned { 58.0 } else { 0.0 });
            let middle = f64::midpoint(begin, (along - sizes.apart).max(begin));
            let half = (along - begin) / 2.0;
            if let Some(end) = ends.get_mut(out) {
                let reach = if sizes.turned { 2.0 } else { half.min(24.0) };
                *end = (turn(middle, exit_across + 2.0), reach.min(half + 2.0));
            }
        }
        if !sizes.turned {
            squeeze(flow, threads, &mut ends, width.pixels() - 130.0);
        }
        let along_end = if sizes.turned {
            along_end
        } else {
            width.pixels() - 186.0
        };
        let mut kept: Option<(f64, f64)> = None;
        for thread in threads.iter_mut() {
            let is_kept = flow
                .outflows
                .get(thread.outflow)
                .is_some_and(|out| out.fate == Fate::Kept);
            if is_kept {
                thread.end = along_end;
                let lane = last_lane(thread);
                kept = Some(kept.map_or((lane, lane), |(a, b)| (a.min(lane), b.max(lane))));
            }
        }
        if let Some((low, high)) = kept {
            for (out, end) in flow.outflows.iter().zip(&mut ends) {
                if out.fate == Fate::Kept {
                    *end = (turn(along_end + 8.0, f64::midpoint(low, high)), 4.0);
                }
            }
        }
        let courses = threads
            .iter()
            .map(|thread| course(flow, thread, sizes, &at_station, exit_across))
            .collect();
        let starts = begins
            .iter()
            .map(|(along, across)| turn(*along, *across))
            .collect();
        let station_places = (0..stations)
            .map(|station| {
                let lanes = threads
                    .iter()
                    .filter_map(|thread| thread.lanes.get(station).copied().flatten());
                let low = lanes.fold(f64::INFINITY, f64::min);
                let low = if low.is_finite() {
                    low
                } else {
                    sizes.first_lane
                };
                let late = flow.inflows.iter().any(|inflow| inflow.station == station);
                // Beside what turns in, its name stands where that has joined.
                let after = if sizes.turned && late && station > 0 {
                    22.0
                } else {
                    0.0
                };
                turn(at_station(station) + after, low - 12.0)
            })
            .collect();
        let height = if sizes.turned {
            along_end + 124.0
        } else {
            far + 64.0
        };
        Self {
            height,
            courses,
            starts,
            ends,
            stations: station_places,
            kept: kept.map(|(low, high)| {
                (
                    turn(along_end + 5.0, low - 3.0),
                    turn(along_end + 5.0, high + 3.0),
                )
            }),
            turned: sizes.turned,
        }
    }

    /// The bracket at the end of the kept stream.
    pub(super) fn bracket(&self) -> Trace {
        let Some((from, to)) = self.kept else {
            return Trace::new();
        };
        let back = |at: Point| {
            if self.turned {
                Point::new(at.x, at.y - 5.0)
            } else {
                Point::new(at.x - 5.0, at.y)
            }
        };
        Trace::through([back(from), from, to, back(to)])
    }

    /// A short stroke at each station.
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
}

/// Moves what leaves nearer together where it would leave the drawing.
fn squeeze(flow: &Flow, threads: &mut [Thread], ends: &mut [(Point, f64)], most: f64) {
    let leaves = |out: usize| {
        let out = flow.outflows.get(out);
        out.is_some_and(|out| out.fate != Fate::Kept)
    };
    let along = threads
        .iter()
        .filter(|thread| leaves(thread.outflow))
        .map(|thread| thread.end);
    let (first, last) = along
        .chain(
            ends.iter()
                .enumerate()
                .filter(|(out, _)| leaves(*out))
                .map(|(_, end)| end.0.x),
        )
        .fold((f64::INFINITY, 0.0_f64), |(low, high), at| {
            (low.min(at), high.max(at))
        });
    if last <= most || first >= most {
        return;
    }
    let share = (most - first) / (last - first);
    for thread in threads.iter_mut().filter(|thread| leaves(thread.outflow)) {
        thread.end = first + (thread.end - first) * share;
    }
    for (out, end) in ends.iter_mut().enumerate() {
        if leaves(out) {
            end.0.x = first + (end.0.x - first) * share;
        }
    }
}

fn last_lane(thread: &Thread) -> f64 {
    thread
        .lanes
        .iter()
        .rev()
        .flatten()
        .next()
        .copied()
        .unwrap_or(thread.start.1)
}

fn threads(flow: &Flow, counted: &Counted, stations: usize) -> Vec<Thread> {
    let mut threads = Vec::new();
    for (inflow, row) in counted.lines.iter().enumerate().take(flow.inflows.len()) {
        for (outflow, lines) in row.iter().enumerate() {
            for _ in 0..*lines {
                threads.push(Thread {
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

/// Gives each line its lane after each station; answers the extent across of what is there at first.
fn lanes(flow: &Flow, threads: &mut [Thread], stations: usize, sizes: &Sizes) -> (f64, f64) {
    for station in 0..stations {
        let mut here: Vec<(usize, (usize, usize, u32), usize)> = Vec::new();
        let mut seen = vec![0_usize; flow.inflows.len() * flow.outflows.len()];
        let mut total = seen.clone();
        let cell = |thread: &Thread| thread.inflow * flow.outflows.len() + thread.outflow;
        for thread in threads.iter() {
            if let Some(count) = total.get_mut(cell(thread)) {
                *count += 1;
            }
        }
        for (index, thread) in threads.iter().enumerate() {
            let (Some(inflow), Some(out)) = (
                flow.inflows.get(thread.inflow),
                flow.outflows.get(thread.outflow),
            ) else {
                continue;
            };
            let place = cell(thread);
            let number = seen.get(place).copied().unwrap_or(0);
            if let Some(seen) = seen.get_mut(place) {
                *seen += 1;
            }
            let stays = out.station > station || out.fate == Fate::Kept;
            if inflow.station <= station && stays {
                // What leaves last lies first; of one bundle the lines interleave evenly by source.
                let count = total.get(place).copied().unwrap_or(1).max(1);
                let share = (number as f64 + 0.5) / count as f64;
                let leaves = stations - out.station.min(stations - 1);
                let last = usize::from(out.fate != Fate::Kept) * leaves;
                let group = last * 8 + out.fate as usize;
                here.push((
                    group,
                    (thread.outflow, (share * 1e6) as usize, thread.inflow as u32),
                    index,
                ));
            }
        }
        here.sort_by_key(|(group, order, _)| (*group, *order));
        let mut across = sizes.first_lane;
        let mut last: Option<usize> = None;
        for (group, (out, ..), index) in here {
            if last.is_some_and(|last| last != group * 1000 + out) {
                across += 6.0;
            }
            last = Some(group * 1000 + out);
            if let Some(lane) = threads
                .get_mut(index)
                .and_then(|thread| thread.lanes.get_mut(station))
            {
                *lane = Some(across);
            }
            across += sizes.apart;
        }
    }
    let early = threads.iter().filter(|thread| {
        flow.inflows
            .get(thread.inflow)
            .is_some_and(|inflow| inflow.station == 0)
    });
    let wide = early.count() as f64 * sizes.apart;
    (sizes.first_lane, sizes.first_lane + wide)
}

/// Places where the lines begin: side by side what is there from the first, above what comes later.
/// Answers the first corner of each inflow.
fn starts(
    flow: &Flow,
    threads: &mut [Thread],
    sizes: &Sizes,
    bundle: (f64, f64),
    width: Width,
) -> Vec<(f64, f64)> {
    let mut begins = vec![(0.0, 0.0); flow.inflows.len()];
    let count = |threads: &[Thread], inflow: usize| {
        threads
            .iter()
            .filter(|thread| thread.inflow == inflow)
            .count() as f64
    };
    let early: Vec<usize> = (0..flow.inflows.len())
        .filter(|inflow| {
            flow.inflows
                .get(*inflow)
                .is_some_and(|inflow| inflow.station == 0)
        })
        .collect();
    let rooms: Vec<f64> = early
        .iter()
        .map(|inflow| (count(threads, *inflow) * sizes.apart).max(sizes.least))
        .collect();
    let whole: f64 = rooms.iter().sum::<f64>() + sizes.between * (rooms.len().max(1) - 1) as f64;
    let centre = f64::midpoint(bundle.0, bundle.1);
    let least = if sizes.turned { 6.0 } else { 52.0 };
    let mut across = (centre - whole / 2.0).max(least);
    let mut squeeze = 1.0;
    if sizes.turned {
        let room = width.pixels() - 12.0;
        squeeze = (room / whole).min(1.0);
        across = across
            .min(width.pixels() - 6.0 - whole * squeeze)
            .max(least);
    }
    for (inflow, room) in early.iter().zip(rooms) {
        let mut mine: Vec<&mut Thread> = threads
            .iter_mut()
            .filter(|thread| thread.inflow == *inflow)
            .collect();
        mine.sort_by(|a, b| last_first(a).total_cmp(&last_first(b)));
        for (index, thread) in mine.iter_mut().enumerate() {
            let lane = across + index as f64 * sizes.apart * squeeze;
            thread.start = (sizes.begin, lane);
        }
        if let Some(begin) = begins.get_mut(*inflow) {
            *begin = (sizes.begin, across);
        }
        across += (room + sizes.between) * squeeze;
    }
    let mut beside = vec![0.0_f64; flow.stations.len().max(1)];
    for inflow in 0..flow.inflows.len() {
        let station = flow.inflows.get(inflow).map_or(0, |inflow| inflow.station);
        if station == 0 {
            continue;
        }
        let lines = count(threads, inflow);
        let taken = beside.get(station).copied().unwrap_or(0.0);
        let end = sizes.at_station(station) - 26.0 - taken;
        let wide = lines * sizes.apart;
        if let Some(taken) = beside.get_mut(station) {
            *taken += wide.max(if sizes.turned { 56.0 } else { 100.0 }) + 12.0;
        }
        let mut mine: Vec<&mut Thread> = threads
            .iter_mut()
            .filter(|thread| thread.inflow == inflow)
            .collect();
        // Nested: what turns first lies furthest along.
        mine.sort_by(|a, b| last_first(a).total_cmp(&last_first(b)));
        for (index, thread) in mine.iter_mut().enumerate() {
            let along = end - index as f64 * sizes.apart;
            thread.start = (along, if sizes.turned { 4.0 } else { 54.0 });
        }
        if let Some(begin) = begins.get_mut(inflow) {
            let first = end - (lines - 1.0).max(0.0) * sizes.apart;
            *begin = (first, if sizes.turned { 4.0 } else { 54.0 });
        }
    }
    begins
}

/// The first lane of a line, or where it ends up if it has none.
fn last_first(thread: &Thread) -> f64 {
    thread
        .lanes
        .iter()
        .flatten()
        .next()
        .copied()
        .unwrap_or(1e4 + thread.outflow as f64)
}

fn course(
    flow: &Flow,
    thread: &Thread,
    sizes: &Sizes,
    at_station: &dyn Fn(usize) -> f64,
    exit_across: f64,
) -> Course {
    let turn = |along: f64, across: f64| {
        if sizes.turned {
            Point::new(across, along)
        } else {
            Point::new(along, across)
        }
    };
    let inflow = flow.inflows.get(thread.inflow);
    let entered = inflow.map_or(0, |inflow| inflow.station);
    let out = flow.outflows.get(thread.outflow);
    let (mut along, mut across) = thread.start;
    let mut moves = vec![Move::Start(turn(along, across))];
    for (station, lane) in thread.lanes.iter().enumerate() {
        let Some(lane) = *lane else { continue };
        let at = at_station(station);
        if station == entered && entered > 0 {
            // Comes from the side, and turns into the flow.
            let bend = (lane - 34.0).max(across);
            moves.push(Move::Line(turn(along, bend)));
            let to = at + 16.0 + (lane - sizes.first_lane) * 0.12;
            moves.push(Move::Curve(
                turn(along, f64::midpoint(bend, lane) + (lane - bend) * 0.35),
                turn(along + (to - along) * 0.35, lane),
                turn(to, lane),
            ));
            along = to;
        } else if (lane - across).abs() > 0.05 {
            let widest = if station == 0 {
                78.0
            } else {
                sizes.pace * 0.62
            };
            let reach = (at - along - 14.0).clamp(10.0, widest.max(10.0));
            let from = (at - reach).max(along);
            moves.push(Move::Line(turn(from, across)));
            let middle = f64::midpoint(from, at);
            moves.push(Move::Curve(
                turn(middle, across),
                turn(middle, lane),
                turn(at, lane),
            ));
            along = at;
        }
        across = lane;
    }
    if out.is_some_and(|out| out.fate == Fate::Kept) {
        moves.push(Move::Line(turn(thread.end, across)));
    } else {
        let station = out.map_or(0, |out| out.station);
        let from = (at_station(station) - 26.0).max(along).min(thread.end);
        moves.push(Move::Line(turn(from, across)));
        let deep = exit_across - 16.0;
        let down = across + ((thread.end - from) * 0.9).min((deep - across).max(4.0));
        moves.push(Move::Curve(
            turn(from + (thread.end - from) * 0.6, across),
            turn(thread.end, across + (down - across) * 0.35),
            turn(thread.end, down.min(exit_across)),
        ));
        moves.push(Move::Line(turn(thread.end, exit_across)));
    }
    Course {
        matter: inflow.map_or(Matter::Liquid, |inflow| inflow.matter),
        moves,
    }
}
