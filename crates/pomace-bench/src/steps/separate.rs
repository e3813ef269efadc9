//! Strain and press: liquid from solid.
//!
//! Out comes what is not held: by the pieces (their sap, and a film on them), by dry pieces that
//! soak, and by the filter itself, which keeps so many grams at any size (models.md G10).

use pomace_larder::yields::Yield;
use pomace_matter::{Mixture, Scalar};

use crate::record::Destination;
use crate::remark::{Assumption, Remark};
use crate::stream::{Stream, sap_and_dry};
use crate::vessel::Vessel;

/// What liquid is parted from solid with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Filter {
    /// A sieve, or nothing said.
    Sieve,
    /// Cloth.
    Cloth,
    /// Paper.
    Paper,
}

impl Filter {
    /// From the words of a document.
    pub(crate) fn named(text: &str) -> Self {
        let text = text.to_lowercase();
        let has = |words: &[&str]| words.iter().any(|w| text.contains(w));
        if has(&["paper", "coffee filter"]) {
            Self::Paper
        } else if has(&["cloth", "muslin", "towel", "linen", "bag"]) {
            Self::Cloth
        } else {
            Self::Sieve
        }
    }

    /// Grams that it keeps (models.md G10).
    const fn keeps(self) -> (&'static str, Assumption) {
        const SOURCE: &str = "common practice, no source";
        match self {
            Self::Sieve => (
                "sieve",
                Assumption::new("liquid on the sieve", (3.0, 1.0, 5.0), "g", SOURCE),
            ),
            Self::Cloth => (
                "cloth",
                Assumption::new("liquid in the cloth", (15.0, 8.0, 25.0), "g", SOURCE),
            ),
            Self::Paper => (
                "paper",
                Assumption::new("liquid in the paper", (10.0, 6.0, 15.0), "g", SOURCE),
            ),
        }
    }
}

/// Film of liquid on drained pieces, share of their weight.
const FILM: Assumption = Assumption::new(
    "liquid that clings to the drained pieces",
    (5.0, 2.0, 10.0),
    "% of their weight",
    "common practice, no source",
);

/// What dry pieces soak up where the larder knows no better, g per g.
const SOAK: Assumption = Assumption::new(
    "liquid held by the drained solids",
    (1.2, 0.7, 2.0),
    "g per g dry",
    "common practice, no source",
);

/// What a press leaves in wet grounds, g per g of what does not dissolve (55–60 % moisture).
const CAKE: Assumption = Assumption::new(
    "liquid left in the pressed cake",
    (1.35, 1.2, 1.5),
    "g per g dry",
    "common practice, no source",
);

/// Share of its sap that fresh tissue keeps in a hand press.
const TISSUE: Assumption = Assumption::new(
    "sap that stays in the pressed pieces",
    (50.0, 30.0, 70.0),
    "% of it",
    "common practice, no source",
);

/// Pieces with more sap than this are fresh tissue, with less they are dry and soak.
const FRESH: f64 = 0.6;
/// A syrup with more solids than this clings as the larder's `cling` says.
const THICK: f64 = 0.4;

/// Strains.
pub(crate) fn strain<S: Scalar>(
    vessel: &mut Vessel<S>,
    filter: Filter,
    hold_up: Option<&'static Yield>,
) {
    let pieces = vessel.stream.pieces;
    let mass = pieces.total().0;
    if mass.value() <= 0.0 && vessel.stream.ice.value() > 0.0 {
        part(vessel, S::zero());
    }
    if mass.value() > 0.0 {
        let (sap, dry) = sap_and_dry(&pieces);
        let fresh = sap.total().0.value() > FRESH * mass.value();
        let held = if fresh {
            let cling = cling(vessel);
            vessel.remark(Remark::Assumed(cling));
            sap.total().0 + mass * (cling.value / 100.0)
        } else {
            let soak = hold_up.map_or(SOAK, |y| {
                Assumption::of_yield("liquid held by the drained solids", y)
            });
            vessel.remark(Remark::Assumed(soak));
            let soaked = dry.total().0 * soak.value;
            if soaked.value() > sap.total().0.value() {
                soaked
            } else {
                sap.total().0
            }
        };
        part(vessel, held);
    }
    settle_filter(vessel, filter);
}

/// Presses.
pub(crate) fn press<S: Scalar>(vessel: &mut Vessel<S>, filter: Filter) {
    let pieces = vessel.stream.pieces;
    let mass = pieces.total().0;
    if mass.value() > 0.0 {
        let (sap, dry) = sap_and_dry(&pieces);
        let inside = sap.total().0;
        let held = if inside.value() > FRESH * mass.value() {
            vessel.remark(Remark::Assumed(TISSUE));
            inside * (TISSUE.value / 100.0)
        } else {
            vessel.remark(Remark::Assumed(CAKE));
            dry.total().0 * CAKE.value
        };
        part(vessel, held);
    }
    settle_filter(vessel, filter);
}

fn cling<S: Scalar>(vessel: &Vessel<S>) -> Assumption {
    let liquid = &vessel.stream.liquid;
    let total = liquid.total().0.value();
    let solids = pomace_matter::density::solids_share(liquid).value();
    if total > 0.0
        && solids > THICK
        && let Some(entry) = pomace_larder::yields::find("cling", "any")
    {
        return Assumption::of_yield("syrup that clings to the drained solid", entry);
    }
    FILM
}

/// Sets the pieces aside with `held` grams of liquid in and on them: their own sap first, then free
/// liquid; if they held more, the rest runs out.
fn part<S: Scalar>(vessel: &mut Vessel<S>, held: S) {
    let stream = &mut vessel.stream;
    let (sap, dry) = sap_and_dry(&stream.pieces);
    let (inside, free) = (sap.total().0, stream.liquid.total().0);
    let (kept, taken) = if held.value() <= inside.value() {
        let share = if inside.value() > 0.0 {
            held / inside
        } else {
            S::zero()
        };
        stream.liquid += sap * (-share + 1.0);
        (sap * share, Mixture::default())
    } else {
        let wanted = held - inside;
        let more = if wanted.value() < free.value() {
            wanted
        } else {
            free
        };
        let share = if free.value() > 0.0 {
            more / free
        } else {
            S::zero()
        };
        let taken = stream.liquid * share;
        stream.liquid = stream.liquid.without(&taken);
        (sap, taken)
    };
    let left = Stream {
        pieces: dry + kept + taken,
        crystals: stream.crystals,
        ice: stream.ice,
        celsius: stream.celsius,
        carried: stream.carried.clone(),
        ..Stream::default()
    };
    stream.pieces = Mixture::default();
    stream.crystals = Mixture::default();
    stream.ice = S::zero();
    vessel.set_aside(&left);
}

/// The filter takes its grams; paper also takes the particles.
fn settle_filter<S: Scalar>(vessel: &mut Vessel<S>, filter: Filter) {
    if filter == Filter::Paper {
        let liquid = vessel.stream.liquid;
        let particles = liquid.only(|s| !s.is_soluble(), false);
        if particles.total().0.value() > 0.0 {
            vessel.stream.liquid = liquid.without(&particles);
            let left = Stream {
                pieces: particles,
                carried: vessel.stream.carried.clone(),
                ..Stream::empty(vessel.stream.celsius.value())
            };
            vessel.set_aside(&left);
        }
    }
    let (on, keeps) = filter.keeps();
    // Never more than a tenth: a spoonful through a large cloth is not computed as nothing.
    let grams = keeps
        .value
        .min(0.1 * vessel.stream.liquid.total().0.value());
    vessel.lose_liquid(Destination::Drain, S::from(grams));
    if grams > 0.0 {
        vessel.remark(Remark::FixedLoss { grams, on });
    }
}
