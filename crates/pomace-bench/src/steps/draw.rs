//! Draw: dry sugar or salt pulls water out of a solid.
//!
//! The end is where syrup and what is left of the sap hold their water equally firmly: equal water
//! activity, one unknown (models.md E1). The way there is a hyperbola with a half-time. What the
//! balance says and what is published of fruit do not agree; both are shown, and a house learns its
//! own.

use pomace_larder::yields;
use pomace_matter::activity::Activity;
use pomace_matter::saturation::saturated_percent;
use pomace_matter::units::ICE_POINT_KELVIN;
use pomace_matter::{Mixture, Scalar, Sloped, Substance};

use crate::remark::{Assumption, Remark};
use crate::steps::dissolve;
use crate::stream::{is_sap, sap_and_dry};
use crate::vessel::Vessel;

/// The rest of the sap's water is bound to the tissue (models.md E1).
const FREE: Assumption = Assumption::new(
    "sap water free to leave",
    (90.0, 80.0, 97.0),
    "% of it",
    "common practice, no source",
);

const HALF_TIME: Assumption = Assumption::new(
    "time to half of the draw",
    (180.0, 60.0, 480.0),
    "min",
    "common practice, no source",
);

/// Water lost by fruit in published osmotic drying, % of its mass: `process_yields.csv` of the
/// design, slices in strong syrup for hours.
const PUBLISHED: (f64, f64) = (28.0, 57.0);

/// How strong the drawn water is, against the sap that it leaves.
const ALONG: Assumption = Assumption::new(
    "solutes that come with the water",
    (50.0, 20.0, 80.0),
    "% of the sap's strength",
    "common practice, no source",
);

/// Drawn water, g, with its share of what is dissolved in the sap.
fn leak<S: Scalar>(pieces: &Mixture<S>, water: S, strength: S) -> Mixture<S> {
    let (sap, _) = sap_and_dry(pieces);
    let all = sap.grams(Substance::Water);
    if all.value() <= 0.0 {
        return Mixture::default();
    }
    let mut along = sap * (water / all * strength);
    along.set(Substance::Water, water);
    along
}

/// Draws for `seconds`, or to the end where no time is given.
pub(crate) fn run<S: Scalar>(vessel: &mut Vessel<'_, S>, seconds: Option<f64>) {
    let solid = vessel.stream.pieces.total().0;
    let drawing = vessel.stream.crystals;
    if solid.value() <= 0.0 || drawing.weight().0 <= 0.0 {
        return dissolve::run(vessel);
    }
    let free = vessel.assume(FREE) / 100.0;
    let stream = &vessel.stream;
    let ceiling = ceiling(
        &stream.pieces,
        &drawing,
        &stream.liquid,
        stream.celsius,
        free,
    );
    let half_time = yields::find("draw half-time", "any").map_or(HALF_TIME, |entry| {
        Assumption::of_yield("time to half of the draw", entry)
    });
    let share = match seconds {
        None => S::from(1.0),
        Some(s) => {
            let halves = S::from(s / 60.0) / vessel.assume(half_time);
            halves / (halves + 1.0)
        }
    };
    let drawn = ceiling * share;
    let along = vessel.assume(ALONG) / 100.0;
    let leak = leak(&vessel.stream.pieces, drawn, along);
    vessel.stream.pieces = vessel.stream.pieces.without(&leak);
    vessel.stream.liquid += leak;
    vessel.remark(Remark::Drawn {
        percent: 100.0 * drawn.value() / solid.value(),
        ceiling: 100.0 * ceiling.value() / solid.value(),
        published: PUBLISHED,
    });
    dissolve::run(vessel);
}

/// Water, g, that leaves the pieces until their sap is as dry as the syrup.
fn ceiling<S: Scalar>(
    pieces: &Mixture<S>,
    crystals: &Mixture<S>,
    liquid: &Mixture<S>,
    celsius: S,
    free_share: S,
) -> S {
    let (sap, _) = sap_and_dry(pieces);
    let free = sap.grams(Substance::Water) * free_share;
    let most = free.value();
    if most <= 0.0 {
        return S::zero();
    }
    let sloped = |m: &Mixture<S>| m.values().lift::<Sloped<1>>();
    let (plain_sap, plain_crystals, plain_liquid) =
        (sloped(&sap), sloped(crystals), sloped(liquid));
    let gap = |w: f64| {
        difference(
            &plain_sap,
            &plain_crystals,
            &plain_liquid,
            Sloped::<1>::variable(w, 0),
            Sloped::from(celsius.value()),
            Sloped::from(free_share.value()),
        )
    };
    // The syrup is drier than the sap until enough water has come over.
    let (mut low, mut high) = (0.0, most * (1.0 - 1e-9));
    if gap(high).value < 0.0 {
        return free;
    }
    let mut root = 0.5 * (low + high);
    let mut slope = 0.0;
    for _ in 0..80 {
        let g = gap(root);
        slope = g.slopes[0];
        if g.value < 0.0 {
            low = root;
        } else {
            high = root;
        }
        let next = root - g.value / slope;
        // Where saturation takes over the gap bends: there halves serve until it does not.
        let is_within = next > low && next < high;
        let step = if is_within { next } else { 0.5 * (low + high) } - root;
        root += step;
        // Newton squares its error: after such a step none is left.
        let enough = if is_within { 1e-7 } else { 1e-12 };
        if step.abs() < enough * most {
            break;
        }
    }
    let residual = difference(&sap, crystals, liquid, S::from(root), celsius, free_share);
    if slope.abs() > 0.0 && residual.value().is_finite() {
        S::implicit(root, residual, slope)
    } else {
        S::from(root)
    }
}

/// ln a_w of the syrup less that of the sap, when `water` grams have come over.
fn difference<S: Scalar>(
    sap: &Mixture<S>,
    crystals: &Mixture<S>,
    liquid: &Mixture<S>,
    water: S,
    celsius: S,
    free_share: S,
) -> S {
    let mut bound = *sap;
    bound.put(
        Substance::Water,
        -(sap.grams(Substance::Water) * (-free_share + 1.0)),
    );
    bound.put(Substance::Water, -water);
    let mut syrup = liquid.only(is_sap, true);
    syrup.put(Substance::Water, water);
    let most = saturated_percent(Substance::Sucrose, celsius.value()).unwrap_or(67.0);
    for (substance, grams) in crystals.iter() {
        let limit = if substance == Substance::Sucrose {
            syrup.grams(Substance::Water) * (most / (100.0 - most))
        } else {
            grams
        };
        syrup.put(substance, limit.lesser(grams));
    }
    let kelvin = celsius + ICE_POINT_KELVIN;
    // A liquid too dry for the model holds its water as firmly as any.
    let ln = |m: &Mixture<S>| match Activity::of(m) {
        Ok(activity) => activity.ln_activity(kelvin),
        Err(_) => S::from(-1.0),
    };
    ln(&syrup) - ln(&bound)
}
