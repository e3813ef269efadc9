//! Which words fit, and where: the rule for labels at marks.
//!
//! Labels are placed one after the other in the order they are asked for, so what matters most is
//! asked first. Each tries the places around its mark, near ones before far ones, in a fixed order,
//! and takes the first that is free of everything: of what is drawn, and of the labels before it. It
//! stands nearer to its own mark than to any other, so that nobody reads it for that one's name.
//! A label that finds none is dropped, unless it must be shown: that one looks further out, and a
//! fine line ties it to its mark. The same input always gives the same picture.

use crate::Voice;
use crate::geometry::{Point, Rect};
pub use crate::svg::Anchor;

/// Air around a label, px.
const AIR: f64 = 5.0;

/// A label that wants a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Wanted {
    /// Its lines, one under the other.
    pub lines: Vec<(Voice, String)>,
    /// The middle of its mark.
    pub at: Point,
    /// How far the mark reaches from there, px.
    pub reach: f64,
    /// Whether it looks further out rather than be dropped.
    pub must: bool,
    /// Where it stands by preference.
    pub side: Side,
}

/// Where a label stands by preference.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Side {
    /// Right or left of its mark.
    #[default]
    Beside,
    /// Above or below it.
    Above,
}

/// A label in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// The room that its words take.
    pub room: Rect,
    /// Which end its lines are held by.
    pub anchor: Anchor,
    /// A line to its mark, where it stands far off.
    pub leader: Option<(Point, Point)>,
}

/// What is drawn already, and no label may cover.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawn {
    /// Boxes.
    pub boxes: Vec<Rect>,
    /// Discs: middle and radius, px.
    pub discs: Vec<(Point, f64)>,
    /// Straight lines.
    pub lines: Vec<(Point, Point)>,
    /// Discs that only a label which must be shown may cover, before it goes far.
    pub faint: Vec<(Point, f64)>,
}

impl Drawn {
    /// Whether nothing that is drawn reaches into the room.
    #[must_use]
    pub fn leaves(&self, room: Rect) -> bool {
        !self.boxes.iter().any(|other| other.meets(room))
            && !self
                .discs
                .iter()
                .any(|(centre, radius)| room.meets_disc(*centre, *radius))
            && !self.lines.iter().any(|(a, b)| room.meets_line(*a, *b))
    }
}

impl Side {
    /// Ways around a mark, as steps right and down, in the order in which they are tried.
    const fn ways(self) -> [(f64, f64); 8] {
        const RIGHT: (f64, f64) = (1.0, 0.0);
        const LEFT: (f64, f64) = (-1.0, 0.0);
        const UP: (f64, f64) = (0.0, -1.0);
        const DOWN: (f64, f64) = (0.0, 1.0);
        const ACROSS: [(f64, f64); 4] = [(1.0, -1.0), (-1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
        let [a, b, c, d] = ACROSS;
        match self {
            Self::Beside => [RIGHT, LEFT, UP, DOWN, a, b, c, d],
            Self::Above => [UP, DOWN, a, b, c, d, RIGHT, LEFT],
        }
    }
}

/// Finds a place for each label inside the box, or `None` where it is dropped.
#[must_use]
pub fn place(wanted: &[Wanted], drawn: &Drawn, within: Rect) -> Vec<Option<Placed>> {
    place_close(wanted, drawn, within, AIR)
}

/// The same with less air around each, for single letters.
pub(crate) fn place_close(
    wanted: &[Wanted],
    drawn: &Drawn,
    within: Rect,
    air: f64,
) -> Vec<Option<Placed>> {
    let mut drawn = drawn.clone();
    wanted
        .iter()
        .map(|label| {
            let placed = find(label, &drawn, within, air)?;
            drawn.boxes.push(placed.room.grown(air));
            drawn.lines.extend(placed.leader);
            Some(placed)
        })
        .collect()
}

fn find(label: &Wanted, drawn: &Drawn, within: Rect, air: f64) -> Option<Placed> {
    if !label.at.is_finite() || label.lines.is_empty() {
        return None;
    }
    let faint = |room: Rect| {
        !drawn
            .faint
            .iter()
            .any(|(centre, radius)| room.meets_disc(*centre, *radius))
    };
    let clear = |placed: &Placed| {
        within.encloses(placed.room) && drawn.leaves(placed.room.grown(air * 0.4))
    };
    let unlined = |placed: &Placed| {
        placed
            .leader
            .is_none_or(|(from, to)| !drawn.boxes.iter().any(|other| other.meets_line(from, to)))
    };
    let lies_free = |placed: &Placed| {
        within.encloses(placed.room) && !drawn.boxes.iter().any(|other| other.meets(placed.room))
    };
    let off_marks = |placed: &Placed| {
        let mut marks = drawn.discs.iter();
        !marks.any(|(centre, radius)| placed.room.meets_disc(*centre, *radius))
    };
    let lines = label.lines.iter();
    let widths = lines.map(|(voice, words)| voice.width(words));
    let size = (widths.fold(0.0, f64::max), height(&label.lines));
    let tries = |gaps| tries(label, size, gaps, within);
    let first = tries(&[5.0, 9.0]).find(|placed| {
        clear(placed) && faint(placed.room) && (label.must || belongs(label, placed, drawn))
    });
    if first.is_some() || !label.must {
        return first;
    }
    tries(&[14.0, 20.0, 26.0])
        .find(|placed| clear(placed) && faint(placed.room))
        .or_else(|| tries(&FAR).find(|placed| clear(placed) && unlined(placed)))
        .or_else(|| tries(&FAR).find(clear))
        // Over a line sooner than over a mark, whose label it would seem to be.
        .or_else(|| tries(&FAR).find(|placed| lies_free(placed) && off_marks(placed)))
        .or_else(|| tries(&FAR).find(lies_free))
}

/// Whether a label stands nearer to its own mark than to any other.
fn belongs(label: &Wanted, placed: &Placed, drawn: &Drawn) -> bool {
    let own = placed.room.gap(label.at) - label.reach;
    let others = drawn.faint.iter().chain(&drawn.discs);
    others
        .filter(|(at, _)| at.distance(label.at) > 0.5)
        .all(|(at, reach)| placed.room.gap(*at) - reach > own + 1.0)
}

/// Distances from the mark, px, for a label that must be shown.
const FAR: [f64; 14] = [
    5.0, 12.0, 20.0, 30.0, 44.0, 60.0, 80.0, 110.0, 150.0, 200.0, 260.0, 330.0, 420.0, 520.0,
];

fn tries<'a>(
    label: &'a Wanted,
    size: (f64, f64),
    gaps: &'a [f64],
    within: Rect,
) -> impl Iterator<Item = Placed> + 'a {
    gaps.iter().flat_map(move |gap| {
        let ways = label.side.ways().into_iter();
        ways.map(move |way| candidate(label, size, way, *gap, within))
    })
}

/// Height of lines set under one another, px.
#[must_use]
pub fn height(lines: &[(Voice, String)]) -> f64 {
    lines
        .iter()
        .map(|(voice, _)| voice.rise() + voice.drop() + 1.0)
        .sum()
}

fn candidate(
    label: &Wanted,
    (wide, high): (f64, f64),
    (right, down): (f64, f64),
    gap: f64,
    within: Rect,
) -> Placed {
    let across = right.abs() > 0.5 && down.abs() > 0.5;
    // Across, the corner of the words comes as near to the mark as their side does beside it.
    let away = (label.reach + gap) * if across { 0.75 } else { 1.0 };
    let left = match right {
        r if r > 0.5 => label.at.x + away,
        r if r < -0.5 => label.at.x - away - wide,
        // Above or below it may slide along, but not past its mark.
        _ => (label.at.x - wide / 2.0)
            .min(within.right - wide)
            .max(within.left)
            .clamp(label.at.x - wide, label.at.x),
    };
    let top = match down {
        d if d > 0.5 => label.at.y + away,
        d if d < -0.5 => label.at.y - away - high,
        _ => label.at.y - high / 2.0,
    };
    let room = Rect::new(left, top, left + wide, top + high);
    let anchor = match right {
        r if r > 0.5 => Anchor::Start,
        r if r < -0.5 => Anchor::End,
        _ => Anchor::Middle,
    };
    let leader = (gap > 25.0).then(|| {
        let end = Point::new(
            label.at.x.clamp(room.left, room.right),
            label.at.y.clamp(room.top, room.bottom),
        );
        (
            label.at.stepped(end, label.reach),
            end.stepped(label.at, 3.0),
        )
    });
    Placed {
        room,
        anchor,
        leader,
    }
}

/// Sets the words of a label in its place.
pub(crate) fn set(svg: &mut crate::svg::Svg, label: &Wanted, placed: &Placed) {
    if let Some((from, to)) = placed.leader {
        svg.line("lead", from, to);
    }
    let x = match placed.anchor {
        Anchor::Start => placed.room.left,
        Anchor::Middle => f64::midpoint(placed.room.left, placed.room.right),
        Anchor::End => placed.room.right,
    };
    let mut y = placed.room.top;
    for (voice, words) in &label.lines {
        y += voice.rise() + 0.5;
        svg.text(*voice, Point::new(x, y), placed.anchor, words);
        y += voice.drop() + 0.5;
    }
}
