//! The names on the field: this drink's own always, the others as they fit, the nearest first.

use super::Neighbour;
use super::frame::Frame;
use super::lens::Lens;
use super::marks::{Mark, Own};
use crate::Voice;
use crate::geometry::{Point, Rect};
use crate::labels::{self, Side, Wanted};
use crate::number::number;
use crate::svg::Svg;

/// Sets the names; answers the other drinks in order of their distance, nearest first.
pub(super) fn draw(
    svg: &mut Svg,
    frame: &Frame,
    own: &Own,
    lens: Option<&Lens>,
    shown: &[(&Neighbour, Point, f64)],
) -> Vec<String> {
    let mut drawn = own.drawn();
    drawn.faint = shown
        .iter()
        .map(|(_, at, reach)| (*at, reach + 1.0))
        .collect();
    if let Some(lens) = lens {
        drawn.discs.push((lens.at, lens.reach + 4.0));
        if let Some(served) = own.served {
            drawn.lines.extend(lens.sight(served));
            let ring = lens.ring(served).map(|ring| (served.at, ring));
            drawn.faint.extend(ring);
        }
    }
    let room = frame.plot.grown(-3.0);
    let mut wanted = own_labels(own, frame, room);
    if let Some(lens) = lens {
        // All of it if there is room beside this drink's own names, else only the number.
        let title = |words: &str, must: bool| Wanted {
            lines: vec![(Voice::Scale, words.to_owned())],
            at: lens.at,
            reach: lens.reach + 2.0,
            must,
            side: Side::Above,
        };
        wanted.push(title(&lens.words, false));
        let fits = labels::place(&wanted, &drawn, room);
        if fits.last().is_none_or(Option::is_none) {
            wanted.pop();
            wanted.push(title(&lens.times_words, true));
        }
    }
    let owned = wanted.len();

    let from = own
        .served
        .or(own.before)
        .map_or(Point::new(frame.plot.left, frame.plot.bottom), |mark| {
            mark.at
        });
    let mut near: Vec<&(&Neighbour, Point, f64)> = shown.iter().collect();
    near.sort_by(|a, b| {
        from.distance(a.1)
            .total_cmp(&from.distance(b.1))
            .then_with(|| a.0.name.cmp(&b.0.name))
    });
    let most = frame.width.pick(6, 14);
    wanted.extend(near.iter().map(|(other, at, reach)| Wanted {
        lines: vec![(Voice::Other, Voice::Other.fitted(&other.name, 150.0))],
        at: *at,
        reach: *reach,
        must: false,
        side: Side::default(),
    }));
    wanted.push(Wanted {
        lines: vec![(Voice::Scale, "water".to_owned())],
        at: Point::new(frame.plot.left, frame.plot.bottom),
        reach: 4.0,
        must: false,
        side: Side::Beside,
    });
    let mut left = most + 1;
    let placed = labels::place(&wanted, &drawn, room);
    for (index, (label, placed)) in wanted.iter().zip(&placed).enumerate() {
        if let Some(placed) = placed {
            if index >= owned {
                if left == 0 {
                    continue;
                }
                left -= 1;
            }
            labels::set(svg, label, placed);
        }
    }
    near.iter()
        .map(|(other, _, _)| other.name.clone())
        .collect()
}

fn own_labels(own: &Own, frame: &Frame, room: Rect) -> Vec<Wanted> {
    let strength = |mark: &Mark| {
        let words = format!("{} % vol", number(mark.strength_percent, 1));
        (Voice::Note, words)
    };
    let mut wanted = Vec::new();
    if let Some(mark) = &own.served {
        wanted.push(Wanted {
            lines: vec![(Voice::Chief, "served".to_owned()), strength(mark)],
            at: mark.at,
            reach: mark.reach,
            must: true,
            side: Side::default(),
        });
    }
    if let Some(mark) = &own.before {
        wanted.push(Wanted {
            lines: vec![(Voice::Mark, "before ice".to_owned()), strength(mark)],
            at: mark.at,
            reach: mark.reach,
            must: true,
            side: Side::default(),
        });
    }
    if let (Some((at, words)), Some(_)) = (&own.ended, own.before) {
        wanted.push(Wanted {
            lines: vec![(Voice::Note, Voice::Note.fitted(words, room.width() * 0.45))],
            at: *at,
            reach: 6.0,
            must: true,
            side: Side::default(),
        });
    }
    if let Some((at, reach)) = own.was {
        let moved = own
            .served
            .is_some_and(|mark| mark.at.distance(at) > mark.reach);
        if moved {
            wanted.push(Wanted {
                lines: vec![(Voice::Scale, "was".to_owned())],
                at,
                reach,
                must: false,
                side: Side::default(),
            });
        }
    }
    if let Some((oval, words)) = &own.remembered {
        let widest = frame.width.pick(130.0, 220.0);
        wanted.push(Wanted {
            lines: vec![
                (
                    Voice::Aside,
                    Voice::Aside.fitted(&format!("{words},"), widest),
                ),
                (Voice::Aside, "from memory, unchecked".to_owned()),
            ],
            at: Point::new(f64::midpoint(oval.left, oval.right), oval.top),
            reach: 0.0,
            must: false,
            side: Side::Above,
        });
    }
    wanted
}
