//! The glass in section, to scale, beside a staff in mL.
//!
//! The outline is the usual one for its kind, sized so that it holds what it is said to hold to the
//! brim. Liquid is ruled, foam stippled, ice left as paper; leaders name what they touch. What does
//! not fit is drawn above the brim and said in words.

mod inside;
mod leaders;
mod profile;
mod words;

use crate::geometry::{Point, Rect};
use crate::number::number;
use crate::scale::step;
use crate::svg::{Anchor, Svg, Trace};
use crate::{Doubtful, Drawing, Voice, Width};
use profile::Profile;

/// Kinds of glass that have an outline of their own.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Shape {
    /// Straight and high.
    Tall,
    /// Low and wide, for a block of ice.
    Rocks,
    /// A shallow bowl on a stem.
    Coupe,
    /// A deep bowl on a stem.
    Stem,
    /// Nobody said: straight sides, thinly drawn.
    #[default]
    Unknown,
}

/// Ice in the glass.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Ice {
    /// None.
    #[default]
    None,
    /// One block of this mass.
    Block {
        /// Grams.
        grams: f64,
    },
    /// Cubes of this mass together.
    Cubes {
        /// Grams.
        grams: f64,
    },
    /// Crushed ice of this mass.
    Crushed {
        /// Grams.
        grams: f64,
    },
}

impl Ice {
    /// Grams; none for what is no mass.
    fn grams(self) -> f64 {
        match self {
            Self::None => 0.0,
            Self::Block { grams } | Self::Cubes { grams } | Self::Crushed { grams } => {
                if grams.is_finite() {
                    grams.clamp(0.0, 1e5)
                } else {
                    0.0
                }
            }
        }
    }

    const fn name(self) -> &'static str {
        match self {
            Self::None => "no ice",
            Self::Block { .. } => "block",
            Self::Cubes { .. } => "cubes",
            Self::Crushed { .. } => "crushed ice",
        }
    }
}

/// What the glass shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Glass {
    /// Name of the drink.
    pub name: String,
    /// Its kind.
    pub shape: Shape,
    /// What it holds to the brim, mL.
    pub brim_ml: f64,
    /// The drink without ice and foam, mL.
    pub liquid_ml: Doubtful,
    /// Ice in it.
    pub ice: Ice,
    /// Foam on it, mL.
    pub foam_ml: f64,
    /// A coat on the rim: `salt and whey powder`.
    pub rim: Option<String>,
    /// What is set on it: `quince leather`.
    pub garnish: Option<String>,
}

/// Volumes in the glass, mL; what is no number counts as nothing.
struct Volumes {
    brim: f64,
    /// Drink and the ice beneath its surface: where the wash line stands.
    wash: f64,
    /// With the foam.
    foam: f64,
    doubt: f64,
}

impl Volumes {
    fn new(glass: &Glass) -> Self {
        let known = |value: f64| {
            if value.is_finite() {
                value.clamp(0.0, 1e5)
            } else {
                0.0
            }
        };
        let brim = known(glass.brim_ml);
        // Floating ice displaces its own mass; of a drink, a gram is about a mL.
        let wash = known(glass.liquid_ml.value) + glass.ice.grams();
        Self {
            brim,
            wash,
            foam: wash + known(glass.foam_ml),
            doubt: glass.liquid_ml.doubt().unwrap_or(0.0),
        }
    }

    fn over(&self) -> f64 {
        (self.foam - self.brim).max(0.0)
    }
}

/// Draws the glass; `None` where nobody knows what it holds. Ids in it begin with the prefix.
#[must_use]
pub fn draw(glass: &Glass, width: Width, prefix: &str) -> Option<Drawing> {
    let volumes = Volumes::new(glass);
    if volumes.brim < 5.0 || volumes.brim > 20_000.0 {
        return None;
    }
    let wide = match width {
        Width::Phone => 340.0,
        Width::Tablet => 252.0,
        Width::Desktop => 272.0,
    };
    // What is set or coated is named first, at the rim, where it is: such a coupe stands smaller.
    let hangs = glass.shape == Shape::Coupe && glass.rim.is_none() && glass.garnish.is_none();
    let fit = |high: f64| {
        let right = if hangs {
            leaders::HANGING
        } else {
            leaders::WORDS
        };
        let room = Rect::new(46.0, 44.0, wide - right, high - 10.0);
        Profile::new(glass.shape, volumes.brim, room)
    };
    // As high as the glass, so that a low one leaves no blank.
    let most = fit(310.0);
    let high = (310.0 - most.brim() + 46.0).clamp(170.0, 310.0);
    let profile = fit(high);
    let mut svg = Svg::new(wide, high, prefix);
    let clip = svg.id("g");
    svg.define_clip(&clip, &profile.inside());
    let marks = inside::draw(&mut svg, &clip, glass, &volumes, &profile);
    outline(&mut svg, glass, &profile);
    staff(&mut svg, &volumes, &profile);
    if hangs {
        leaders::below(&mut svg, &marks, &profile, high);
    } else {
        leaders::beside(&mut svg, &marks, wide, high);
    }
    let title = format!("{}: the glass in section", glass.name);
    Some(svg.finish("glass", &title, &words::describe(glass, &volumes)))
}

fn outline(svg: &mut Svg, glass: &Glass, profile: &Profile) {
    let class = if glass.shape == Shape::Unknown {
        "wall thin"
    } else {
        "wall"
    };
    svg.trace(class, &profile.outside());
    svg.trace("wall thin", &profile.inner_line());
}

/// A staff at the left: white and black fields, level with what the glass holds.
fn staff(svg: &mut Svg, volumes: &Volumes, profile: &Profile) {
    let right = profile.left_edge() - 12.0;
    let (left, x) = (right - 4.0, right - 2.0);
    let every = step(volumes.brim, 6.0);
    let mut black = Trace::new();
    let mut last = f64::INFINITY;
    let mut at = 0.0;
    while at < volumes.brim - every * 0.05 {
        let (from, to) = (
            profile.level(at),
            profile.level((at + every / 2.0).min(volumes.brim)),
        );
        black.start(Point::new(x, from)).line(Point::new(x, to));
        if last - from >= 17.0 {
            let place = Point::new(left - 5.0, from + 5.0);
            svg.text(Voice::Scale, place, Anchor::End, &number(at, 0));
            last = from;
        }
        at += every;
    }
    let (top, bottom) = (profile.level(volumes.brim), profile.level(0.0));
    svg.rect("neat", Rect::new(left, top, right, bottom));
    svg.trace("chequer", &black);
    let title = Point::new(left - 5.0, (top - 12.0).min(last - 22.0));
    svg.text(Voice::Scale, title, Anchor::End, "mL");
    if volumes.doubt > 0.0 {
        let (low, high) = (
            profile.level((volumes.wash - volumes.doubt).clamp(0.0, volumes.brim)),
            profile.level((volumes.wash + volumes.doubt).clamp(0.0, volumes.brim)),
        );
        let x = right + 5.0;
        let mut whisker = Trace::new();
        whisker.start(Point::new(x, low)).line(Point::new(x, high));
        for y in [low, high] {
            whisker
                .start(Point::new(x - 3.0, y))
                .line(Point::new(x + 3.0, y));
        }
        svg.trace("doubt", &whisker);
    }
}
