//! The flow of a prep: parts in, the kept stream and everything else out.
//!
//! One engraved line is a fixed mass, the same everywhere in the drawing, so lines can be counted and
//! balance: what goes in comes out. Heavy lines are the ingredient's own matter, fine ones liquid,
//! dashed ones sweetener. Where things steep or dissolve the lines interleave, so that each bundle
//! that leaves shows what it took along. A short flow runs to the right; a long one, and every one on
//! a phone, runs down.

mod count;
mod course;
mod exits;
mod lanes;
mod layout;
mod merge;
mod sizes;
mod starts;
mod thread;
mod words;

use crate::geometry::{Point, Rect};
use crate::labels::{self, Drawn, Side, Wanted};
use crate::number::{grams, number};
use crate::svg::{Svg, Trace};
use crate::{Drawing, Voice, Width};

pub use count::{Counted, count};
use layout::Layout;

/// What a line is made of, by how it is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Matter {
    /// The ingredient's own: heavy.
    Ingredient,
    /// Liquid: fine.
    Liquid,
    /// Sweetener: dashed.
    Sweetener,
}

impl Matter {
    const fn class(self) -> &'static str {
        match self {
            Self::Ingredient => "own",
            Self::Liquid => "liquid",
            Self::Sweetener => "sweet",
        }
    }
}

/// Something that goes in.
#[derive(Clone, Debug, PartialEq)]
pub struct Inflow {
    /// Its name.
    pub name: String,
    /// How it is drawn.
    pub matter: Matter,
    /// The station at which it enters, counted from 0.
    pub station: usize,
}

/// A place where something is done.
#[derive(Clone, Debug, PartialEq)]
pub struct Station {
    /// What is done: `steep`.
    pub name: String,
    /// How: `30 h, 18 °C`; may be empty.
    pub note: String,
}

/// Where something ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fate {
    /// The kept stream.
    Kept,
    /// A stream that other preps may take.
    ByProduct,
    /// On cloth and bowl, into the air.
    Lost,
}

/// Something that comes out.
#[derive(Clone, Debug, PartialEq)]
pub struct Outflow {
    /// Its name.
    pub name: String,
    /// More about it: `to quince leather`; may be empty.
    pub note: String,
    /// Where it ends.
    pub fate: Fate,
    /// The station at which it leaves, counted from 0.
    pub station: usize,
    /// Grams from each inflow, in their order; what is missing or no mass is none.
    pub grams_from: Vec<f64>,
}

/// What the flow shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Flow {
    /// Name of the prep.
    pub name: String,
    /// What goes in.
    pub inflows: Vec<Inflow>,
    /// What is done, in order.
    pub stations: Vec<Station>,
    /// What comes out.
    pub outflows: Vec<Outflow>,
}

impl Flow {
    /// Grams of an inflow that end in an outflow.
    fn grams(&self, inflow: usize, outflow: usize) -> f64 {
        self.outflows
            .get(outflow)
            .and_then(|out| out.grams_from.get(inflow))
            .copied()
            .filter(|grams| grams.is_finite() && *grams > 0.0)
            .map_or(0.0, |grams| grams.min(1e9))
    }

    fn grams_in(&self, inflow: usize) -> f64 {
        (0..self.outflows.len())
            .map(|out| self.grams(inflow, out))
            .sum()
    }

    fn grams_out(&self, outflow: usize) -> f64 {
        (0..self.inflows.len())
            .map(|inflow| self.grams(inflow, outflow))
            .sum()
    }
}

impl Flow {
    fn enters_at(&self, inflow: usize) -> usize {
        self.inflows.get(inflow).map_or(0, |inflow| inflow.station)
    }

    /// Whether an outflow is the kept stream.
    fn keeps(&self, outflow: usize) -> bool {
        let out = self.outflows.get(outflow);
        out.is_some_and(|out| out.fate == Fate::Kept)
    }

    /// The station at which an outflow leaves; after the last for the kept stream.
    fn leaves_at(&self, outflow: usize) -> usize {
        if self.keeps(outflow) {
            self.stations.len()
        } else {
            self.outflows.get(outflow).map_or(0, |out| out.station)
        }
    }
}

/// How many lines a drawing of this width holds, at most.
#[must_use]
pub fn most_lines(width: Width) -> usize {
    width.pick(44, 84)
}

/// Draws the flow; `None` where no mass is known. Ids in it begin with the prefix.
#[must_use]
pub fn draw(flow: &Flow, width: Width, prefix: &str) -> Option<Drawing> {
    let flow = merge::gathered(flow, width)?;
    let counted = count(&flow, most_lines(width))?;
    let layout = Layout::new(&flow, &counted, width);
    let mut svg = Svg::new(width.pixels(), layout.height, prefix);
    for matter in [Matter::Liquid, Matter::Sweetener, Matter::Ingredient] {
        let mut trace = Trace::new();
        for course in layout
            .courses
            .iter()
            .filter(|course| course.matter == matter)
        {
            course.draw(&mut trace);
        }
        svg.trace(matter.class(), &trace);
    }
    svg.trace("neat", &layout.bracket());
    svg.trace("tick", &layout.gates());
    for (from, to) in &layout.hairs {
        svg.line("lead", *from, *to);
    }
    names(&mut svg, &flow, &counted, &layout, width);
    let title = format!("{}: the flow by mass", flow.name);
    Some(svg.finish(
        "flow",
        &title,
        &words::describe(&flow, counted.grams_per_line),
    ))
}

fn names(svg: &mut Svg, flow: &Flow, counted: &Counted, layout: &Layout, width: Width) {
    let wrapped = |voice: Voice, words: &str, widest: f64| -> Vec<(Voice, String)> {
        let lines = voice.wrapped(words, widest);
        lines.into_iter().map(|line| (voice, line)).collect()
    };
    let mut wanted = Vec::new();
    let mut want = |lines: Vec<(Voice, String)>, at: Point, reach: f64, side: Side| {
        wanted.push(Wanted {
            lines,
            at,
            reach,
            must: true,
            side,
        });
    };
    let room = layout.names;
    let side = if layout.turned {
        Side::Beside
    } else {
        Side::Above
    };
    for (station, at) in flow.stations.iter().zip(&layout.stations) {
        let mut lines = vec![(Voice::Mark, Voice::Mark.fitted(&station.name, room.station))];
        if !station.note.is_empty() {
            lines.extend(wrapped(Voice::Scale, &station.note, room.station));
        }
        want(lines, *at, 2.0, side);
    }
    for (index, (inflow, at)) in flow.inflows.iter().zip(&layout.starts).enumerate() {
        let widest = if inflow.station > 0 {
            room.late
        } else {
            room.early
        };
        let mut lines = wrapped(Voice::Mark, &inflow.name, widest);
        lines.push((Voice::Figure, grams(flow.grams_in(index))));
        want(lines, *at, 3.0, Side::Above);
    }
    for (index, (out, (at, reach))) in flow.outflows.iter().zip(&layout.ends).enumerate() {
        let (name, mass) = match out.fate {
            Fate::Lost => (Voice::Note, Voice::Note),
            Fate::Kept | Fate::ByProduct => (Voice::Mark, Voice::Figure),
        };
        let widest = if out.fate == Fate::Kept {
            room.kept
        } else {
            room.others
        };
        let mut lines = wrapped(name, &out.name, widest);
        lines.push((mass, grams(flow.grams_out(index))));
        let note = match (out.fate, out.note.as_str()) {
            (Fate::Kept, "") => "kept".to_owned(),
            (Fate::Kept, note) => format!("kept, {note}"),
            (_, note) => note.to_owned(),
        };
        if !note.is_empty() {
            lines.extend(wrapped(Voice::Scale, &note, widest));
        }
        want(lines, *at, *reach, Side::Beside);
    }
    let drawn = Drawn {
        discs: layout
            .courses
            .iter()
            .flat_map(course::Course::samples)
            .map(|at| (at, 4.0))
            .collect(),
        lines: layout.hairs.clone(),
        ..Drawn::default()
    };
    let room = Rect::new(1.0, 1.0, width.pixels() - 1.0, layout.height - 26.0);
    for (label, placed) in wanted.iter().zip(labels::place(&wanted, &drawn, room)) {
        if let Some(placed) = placed {
            labels::set(svg, label, &placed);
        }
    }
    let unit = counted.grams_per_line;
    let words = format!("one line is {} g", number(unit, crate::scale::places(unit)));
    let at = Point::new(0.0, layout.height - 6.0);
    svg.text(Voice::Scale, at, crate::svg::Anchor::Start, &words);
}
