//! What is in the glass: ruled liquid, ice left as paper, stippled foam; and on it.

use super::leaders::Named;
use super::profile::Profile;
use super::{Glass, Ice, Volumes};
use crate::Voice;
use crate::geometry::{Point, Rect};
use crate::number::{grams, number};
use crate::svg::{Svg, Trace};

/// Draws the contents; answers what is to be named.
pub(super) fn draw(
    svg: &mut Svg,
    clip: &str,
    glass: &Glass,
    volumes: &Volumes,
    profile: &Profile,
) -> Vec<Named> {
    let wash = profile.level(volumes.wash);
    let foam = profile.level(volumes.foam);
    let wide = profile.middle - profile.left_edge();
    let mut marks = Vec::new();
    let ice = pieces(glass.ice, wash, profile);
    svg.clipped(clip, |svg| {
        let shift = 1.5;
        let room = Rect::new(
            profile.middle - wide + shift,
            wash + shift,
            profile.middle + wide,
            profile.floor(),
        );
        svg.rect("wash", room);
        svg.trace("hatch", &ruled(wash, profile));
        if foam < wash - 1.0 {
            svg.rect(
                "paper",
                Rect::new(profile.middle - wide, foam, profile.middle + wide, wash),
            );
            svg.trace("stipple", &stipple(foam, wash, profile));
            svg.trace("neat", &across(foam, profile));
        }
        for piece in &ice {
            svg.trace("ice", &piece.shape);
        }
        let mut shine = Trace::new();
        for piece in &ice {
            for (from, to) in &piece.shine {
                shine.start(*from).line(*to);
            }
        }
        svg.trace("lead", &shine);
        svg.trace("washline", &across(wash, profile));
    });
    let over = volumes.over();
    if over > 0.5 {
        let y = profile.brim() - 12.0;
        let half = profile.radius_at(profile.brim());
        svg.line(
            "spill",
            Point::new(profile.middle - half, y),
            Point::new(profile.middle + half, y),
        );
        marks.push(Named::new(
            Point::new(profile.middle + half, y),
            &[
                (Voice::Note, "does not fit"),
                (Voice::Scale, &format!("{} mL over", number(over, 0))),
            ],
        ));
    }
    let brim = profile.brim();
    marks.push(Named::new(
        Point::new(profile.right_at(brim), brim + 1.0),
        &[(Voice::Note, &format!("brim {}", number(volumes.brim, 0)))],
    ));
    if foam < wash - 1.0 {
        let y = f64::midpoint(foam, wash);
        marks.push(Named::new(
            Point::new(profile.middle + profile.radius_at(y) - 5.0, y),
            &[(
                Voice::Note,
                &format!("foam {}", number(volumes.foam - volumes.wash, 0)),
            )],
        ));
    }
    marks.push(Named::new(
        Point::new(profile.right_at(wash), wash),
        &[
            (Voice::Mark, "wash line"),
            (Voice::Scale, &format!("{} mL", number(volumes.wash, 0))),
        ],
    ));
    if let Some(piece) = ice
        .iter()
        .max_by(|a, b| a.name_at.y.total_cmp(&b.name_at.y))
    {
        marks.push(Named::new(
            piece.name_at,
            &[(
                Voice::Note,
                &format!("{} {}", glass.ice.name(), grams(glass.ice.grams())),
            )],
        ));
    }
    crown(svg, glass, profile, &mut marks);
    marks
}

/// What is on the glass: a coat on its rim, something set on it.
fn crown(svg: &mut Svg, glass: &Glass, profile: &Profile, marks: &mut Vec<Named>) {
    let brim = profile.brim();
    if let Some(rim) = &glass.rim {
        let mut coat = Trace::new();
        let mut random = Random(7);
        for _ in 0..44 {
            let side = if random.next() < 0.5 { -1.0 } else { 1.0 };
            let y = brim + random.next() * 13.0;
            let x = profile.radius_at(y) + 1.0 + random.next() * 6.5;
            coat.dot(Point::new(profile.middle + side * x, y));
        }
        svg.trace("stipple", &coat);
        marks.push(Named::new(
            Point::new(profile.right_at(brim) + 4.0, brim + 8.0),
            &[(Voice::Note, rim)],
        ));
    }
    if let Some(garnish) = &glass.garnish {
        // A plain strip over the rim, whatever it is: we draw no likeness that we do not have.
        let x = profile.middle + profile.radius_at(brim) * 0.62;
        let at = |right: f64, down: f64| Point::new(x + right, brim + down);
        let mut strip = Trace::new();
        strip
            .start(at(-5.0, 26.0))
            .curve(at(-6.0, -2.0), at(-4.0, -22.0), at(6.0, -22.0))
            .curve(at(15.0, -22.0), at(16.0, -8.0), at(15.0, 4.0))
            .line(at(8.0, 4.0))
            .curve(at(8.0, -8.0), at(8.0, -13.0), at(5.0, -13.0))
            .curve(at(2.0, -13.0), at(3.0, 2.0), at(4.0, 26.0))
            .close();
        svg.trace("set", &strip);
        marks.push(Named::new(at(12.0, -16.0), &[(Voice::Note, garnish)]));
    }
}

fn across(y: f64, profile: &Profile) -> Trace {
    let half = profile.radius_at(y);
    Trace::through([
        Point::new(profile.middle - half, y),
        Point::new(profile.middle + half, y),
    ])
}

/// Level lines through the liquid, wider apart toward the bottom.
fn ruled(top: f64, profile: &Profile) -> Trace {
    let mut trace = Trace::new();
    let mut y = top + 3.6;
    let mut apart = 3.6;
    while y < profile.floor() - 1.0 {
        let half = profile.radius_at(y) - 1.2;
        if half > 1.0 {
            trace
                .start(Point::new(profile.middle - half, y))
                .line(Point::new(profile.middle + half, y));
        }
        y += apart;
        apart = (apart + 0.05).min(6.0);
    }
    trace
}

/// Dots for foam, denser toward the liquid.
fn stipple(top: f64, bottom: f64, profile: &Profile) -> Trace {
    let mut trace = Trace::new();
    let mut random = Random(3);
    let area = (bottom - top) * profile.radius_at(bottom) * 2.0;
    let count = (area / 20.0).clamp(12.0, 110.0) as u32;
    for _ in 0..count {
        let down = random.next().powf(0.7);
        let y = top + 2.0 + (bottom - top - 3.5).max(0.0) * down;
        let half = profile.radius_at(y) - 3.0;
        let x = profile.middle + (random.next() * 2.0 - 1.0) * half;
        trace.dot(Point::new(x, y));
    }
    trace
}

/// One piece of ice.
struct Piece {
    shape: Trace,
    shine: Vec<(Point, Point)>,
    name_at: Point,
}

/// The ice where it floats: nine tenths below the wash line, or on the bottom if it is too large.
fn pieces(ice: Ice, wash: f64, profile: &Profile) -> Vec<Piece> {
    let mass = ice.grams();
    if mass < 0.5 {
        return Vec::new();
    }
    let scale = profile.pixels_per_cm;
    let (side, turned) = match ice {
        Ice::None => return Vec::new(),
        Ice::Block { .. } => ((mass / 0.917).cbrt() * scale, 0.0),
        Ice::Cubes { .. } => (2.9 * scale, 0.28),
        Ice::Crushed { .. } => (0.9 * scale, 1.2),
    };
    if matches!(ice, Ice::Block { .. }) {
        let bottom = (wash + side * 0.9).min(profile.floor() - 2.0);
        let half = (side / 2.0).min(profile.radius_at(wash) - 4.0);
        let side = side.min(bottom - 2.0);
        return vec![square(
            profile.middle,
            bottom - side / 2.0,
            half,
            side / 2.0,
            0.0,
        )];
    }
    // Pieces side by side from the surface down, as many as their mass asks for.
    let cm = side / scale;
    let count = (mass / (cm.powi(3) * 0.917)).round().clamp(1.0, 400.0);
    let rim = profile.radius_at(wash);
    let across = ((2.0 * rim) / (side * 1.06)).floor().max(1.0);
    // A section shows the pieces that it cuts: of a layer as deep as wide, one row.
    let seen = (count / across.max(1.0)).ceil().max(1.0) * if across > 1.0 { 1.0 } else { 0.6 };
    let mut random = Random(11);
    let mut found = Vec::new();
    let (mut row, mut left) = (0.0, (seen * across.sqrt()).min(60.0).round().max(1.0));
    while left > 0.5 && row < 30.0 {
        let y = wash + side * (0.36 + row * 1.04);
        if y + side * 0.5 > profile.floor() {
            break;
        }
        let room = profile.radius_at(y + side * 0.4) - 2.0;
        let fit = ((2.0 * room) / (side * 1.06)).floor().max(0.0).min(left);
        for index in 0..fit as u32 {
            let free = 2.0 * room - fit * side;
            let x = profile.middle - room
                + (f64::from(index) + 0.5) * side
                + free * (f64::from(index) + 0.5) / fit;
            let turn = (random.next() * 2.0 - 1.0) * turned;
            let loose = side * 0.2 * turned;
            let (dx, dy) = (random.next() - 0.5, random.next() - 0.5);
            let half = side * (0.45 - 0.2 * random.next() * turned);
            let tall = half * (1.0 - 0.4 * random.next() * turned);
            found.push(square(
                x + dx * loose,
                y + dy * loose * 2.0,
                half,
                tall,
                turn,
            ));
        }
        left -= fit.max(1.0);
        row += 1.0;
    }
    found
}

/// A square by its middle and half sides, turned, with two strokes of shine.
fn square(x: f64, y: f64, half: f64, tall: f64, turn: f64) -> Piece {
    let at = |right: f64, down: f64| {
        let (right, down) = (right * half, down * tall);
        Point::new(
            x + right * turn.cos() - down * turn.sin(),
            y + right * turn.sin() + down * turn.cos(),
        )
    };
    let mut shape = Trace::through([at(-1.0, -1.0), at(1.0, -1.0), at(1.0, 1.0), at(-1.0, 1.0)]);
    shape.close();
    let shine = if half > 12.0 {
        vec![
            (at(-0.55, 0.55), at(-0.15, -0.1)),
            (at(-0.25, 0.65), at(0.1, 0.1)),
        ]
    } else {
        Vec::new()
    };
    Piece {
        shape,
        shine,
        name_at: at(0.78, 0.2),
    }
}

/// Numbers from 0 to 1 that look accidental and are the same each time.
struct Random(u32);

impl Random {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        f64::from(self.0 >> 8) / f64::from(1_u32 << 24)
    }
}
