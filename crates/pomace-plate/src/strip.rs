//! A ruled strip: what each line gave to one figure, with the letters of the lines above it; or what a whole
//! comes apart into.

use crate::geometry::{Point, Rect};
use crate::number::{number, short};
use crate::svg::{Anchor, Svg, Trace};
use crate::{Drawing, Voice, Width};

/// One share.
#[derive(Clone, Debug, PartialEq)]
pub struct Share {
    /// The letter of the line; a word where it has none.
    pub letter: String,
    /// What gives it.
    pub name: String,
    /// How much, in the unit of the strip.
    pub amount: f64,
    /// Whether it comes from the ingredient, which has the accent.
    pub of_ingredient: bool,
}

/// What the strip shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Strip {
    /// Of what: `acid`.
    pub figure: String,
    /// Unit of the amounts: `g`.
    pub unit: String,
    /// The shares, in the order of the lines.
    pub shares: Vec<Share>,
}

/// Distances between the rules of one share, the next and so on, px: neighbours always differ.
const RULES: [f64; 4] = [3.6, 7.0, 5.0, 10.0];

/// Draws the strip; `None` where no share is more than nothing. Ids in it begin with the prefix.
#[must_use]
pub fn draw(strip: &Strip, width: Width, prefix: &str) -> Option<Drawing> {
    let title = format!("{}: where it comes from", strip.figure);
    ruled(strip, width.pick(320.0, 520.0), &title, prefix)
}

/// Draws what something comes apart into, as wide as a plate; else as [`draw`].
#[must_use]
pub fn draw_parts(strip: &Strip, width: Width, prefix: &str) -> Option<Drawing> {
    let title = format!("{}: what it comes apart into", strip.figure);
    ruled(strip, width.pixels(), &title, prefix)
}

fn ruled(strip: &Strip, wide: f64, title: &str, prefix: &str) -> Option<Drawing> {
    let shares: Vec<&Share> = strip
        .shares
        .iter()
        .filter(|share| share.amount.is_finite() && share.amount > 0.0)
        .collect();
    let whole: f64 = shares.iter().map(|share| share.amount).sum();
    if !whole.is_finite() || whole <= 0.0 {
        return None;
    }
    let mut svg = Svg::new(wide, 50.0, prefix);
    let room = Rect::new(1.0, 25.0, wide - 2.0, 47.0);
    let (mut left, mut said_until) = (room.left, -1.0);
    let mut parts = Trace::new();
    let mut letters = Vec::new();
    for (index, share) in shares.iter().enumerate() {
        let right = left + share.amount / whole * room.width();
        if share.of_ingredient {
            svg.rect(
                "wash",
                Rect::new(left + 1.5, room.top + 1.5, right + 1.0, room.bottom + 1.5),
            );
        }
        let apart = RULES.get(index % RULES.len()).copied().unwrap_or(4.0);
        let mut rules = Trace::new();
        let count = ((right - left) / apart).floor().clamp(0.0, 400.0) as u32;
        for number in 1..=count {
            let x = left + f64::from(number) * apart;
            if x < right - 1.0 {
                rules
                    .start(Point::new(x, room.top))
                    .line(Point::new(x, room.bottom));
            }
        }
        svg.trace(
            if share.of_ingredient {
                "hatch"
            } else {
                "hatch soft"
            },
            &rules,
        );
        if index > 0 {
            parts
                .start(Point::new(left, room.top - 4.0))
                .line(Point::new(left, room.bottom));
        }
        let wide = Voice::Letter.width(&share.letter);
        // A letter stands at the beginning of its share, or is left to the table below.
        let x = left.max(said_until + 6.0);
        if x + wide <= room.right && (x - left < 1.0 || x + wide / 2.0 < right) {
            letters.push((x, share.letter.as_str()));
            said_until = x + wide;
        }
        left = right;
    }
    svg.trace("tick", &parts);
    svg.rect("frame", room);
    for (x, letter) in letters {
        svg.text(
            Voice::Letter,
            Point::new(x + 1.0, 17.0),
            Anchor::Start,
            letter,
        );
    }
    Some(svg.finish("strip", title, &describe(strip, &shares, whole)))
}

fn describe(strip: &Strip, shares: &[&Share], whole: f64) -> String {
    let places = if whole < 10.0 { 2 } else { 1 };
    let said: Vec<String> = shares
        .iter()
        .map(|share| {
            let percent = number(share.amount / whole * 100.0, 0);
            let amount = short(share.amount, places);
            format!(
                "{}, {}: {amount} {}, {percent} %",
                share.letter, share.name, strip.unit
            )
        })
        .collect();
    let whole = short(whole, places);
    format!(
        "{whole} {} of {}. {}.",
        strip.unit,
        strip.figure,
        said.join("; ")
    )
}
