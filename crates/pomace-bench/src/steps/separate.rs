//! Strain and press: liquid from solid.
//!
//! Out comes what is not held: by the pieces (their sap, and a film on them), by dry pieces that
//! soak, and by the filter itself, which keeps so many grams at any size (models.md G10).

use pomace_matter::{Mixture, Scalar};

use crate::record::Destination;
use crate::remark::Assumption;
use crate::stream::sap_and_dry;
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

/// Strains; `soak` is what the larder knows of dry pieces.
pub(crate) fn strain<S: Scalar>(
    vessel: &mut Vessel<'_, S>,
    filter: Filter,
    soak: Option<Assumption>,
) {
    let pieces = vessel.stream.pieces;
    let mass = pieces.total().0;
    let (sap, dry) = sap_and_dry(&pieces);
    let inside = sap.total().0;
    if mass.value() <= 0.0 {
        vessel.set_rest_aside(Mixture::default());
    } else if inside.value() > FRESH * mass.value() {
        let clings = cling(vessel);
        let cling = vessel.assume(clings);
        part(vessel, (sap, dry), inside, inside + mass * cling / 100.0);
    } else {
        let soak = soak.unwrap_or(SOAK);
        // Some are told per gram as it went in, some per gram dry.
        let base = if soak.unit.contains("fresh") {
            mass
        } else {
            dry.total().0
        };
        let soaked = base * vessel.assume(soak);
        part(vessel, (sap, dry), inside, soaked.greater(inside));
    }
    settle_filter(vessel, filter);
}

/// Presses.
pub(crate) fn press<S: Scalar>(vessel: &mut Vessel<'_, S>, filter: Filter) {
    let pieces = vessel.stream.pieces;
    let mass = pieces.total().0;
    if mass.value() > 0.0 {
        let (sap, dry) = sap_and_dry(&pieces);
        let inside = sap.total().0;
        let held = if inside.value() > FRESH * mass.value() {
            inside * vessel.assume(TISSUE) / 100.0
        } else {
            dry.total().0 * vessel.assume(CAKE)
        };
        part(vessel, (sap, dry), inside, held);
    }
    settle_filter(vessel, filter);
}

fn cling<S: Scalar>(vessel: &Vessel<'_, S>) -> Assumption {
    let liquid = &vessel.stream.liquid;
    let total = liquid.weight().0;
    let solids = pomace_matter::density::solids_share(liquid).value();
    if total > 0.0
        && solids > THICK
        && let Some(entry) = pomace_larder::yields::find("cling", "any")
    {
        return Assumption::of_yield("syrup that clings to the drained solid", entry);
    }
    FILM
}

/// Sets the pieces aside with `held` grams of liquid in and on them: their own sap first, `inside` grams,
/// then free liquid; if they held more, the rest runs out.
fn part<S: Scalar>(
    vessel: &mut Vessel<'_, S>,
    (mut sap, dry): (Mixture<S>, Mixture<S>),
    inside: S,
    held: S,
) {
    let stream = &mut vessel.stream;
    let ratio = |part: S, whole: S| {
        if whole.value() > 0.0 {
            part / whole
        } else {
            S::zero()
        }
    };
    let kept = if held.value() <= inside.value() {
        let share = ratio(held, inside);
        stream.liquid.put_times(&sap, -share + 1.0);
        sap * share
    } else {
        let free = stream.liquid.total().0;
        let taken = ratio((held - inside).lesser(free), free);
        sap.put_times(&stream.liquid, taken);
        stream.liquid = stream.liquid * (-taken + 1.0);
        sap
    };
    vessel.set_rest_aside(dry + kept);
}

/// The filter takes its grams; paper also takes the particles.
fn settle_filter<S: Scalar>(vessel: &mut Vessel<'_, S>, filter: Filter) {
    if filter == Filter::Paper {
        let liquid = vessel.stream.liquid;
        let particles = liquid.only(|s| !s.is_soluble(), false);
        if particles.weight().0 > 0.0 {
            vessel.stream.liquid = liquid.without(&particles);
            vessel.set_rest_aside(particles);
        }
    }
    let (on, keeps) = filter.keeps();
    vessel.lose_fixed(Destination::Drain, keeps, on);
}
