//! Clarify: haze out, with some of the liquid.

use pomace_book::ClarifyBy;
use pomace_larder::yields;
use pomace_matter::{Mixture, Scalar, Substance};

use crate::remark::Assumption;
use crate::vessel::Vessel;

/// Where the larder has no figure for a way.
const SETTLED: Assumption = Assumption::new(
    "clear liquid off the sediment",
    (90.0, 80.0, 95.0),
    "% of the mass",
    "common practice, no source",
);

/// What a curd, a gel or a fining takes along.
const PROTEIN_TAKEN: Assumption = Assumption::new(
    "protein taken out with the haze",
    (80.0, 50.0, 95.0),
    "% of it",
    "from memory",
);

/// Clarifies; what is set aside holds all particles, most of the protein, and liquid.
///
/// Allergens stay on both sides: whey protein and lactose go through every curd.
pub(crate) fn run<S: Scalar>(vessel: &mut Vessel<'_, S>, by: Option<ClarifyBy>) {
    let entry = match by {
        Some(ClarifyBy::Milk) => yields::find("clarify", "milk"),
        Some(ClarifyBy::Gel) => yields::find("clarify", "gel"),
        Some(ClarifyBy::Spin) => yields::find("clarify", "spin"),
        _ => None,
    };
    let clear = entry.map_or(SETTLED, |y| Assumption::of_yield("clear liquid", y));
    let clear = vessel.assume(clear);
    let takes_protein = matches!(
        by,
        Some(ClarifyBy::Milk | ClarifyBy::Gel | ClarifyBy::Fining)
    );
    let protein_taken = if takes_protein {
        vessel.assume(PROTEIN_TAKEN) / 100.0
    } else {
        S::zero()
    };
    vessel.stirred();
    let all = vessel.stream.liquid + vessel.stream.pieces;
    let mut solids = Mixture::default();
    for (substance, grams) in all.iter() {
        if !substance.is_soluble() {
            solids.set(substance, grams);
        }
        if takes_protein && substance == Substance::Protein {
            solids.set(substance, grams * protein_taken);
        }
    }
    let liquid = all.without(&solids);
    let total = all.total().0;
    let wanted = total * (clear / 100.0);
    let there = liquid.total().0;
    let share = if there.value() > 0.0 {
        wanted / there
    } else {
        S::zero()
    };
    let kept = liquid * share.lesser(S::from(1.0));
    vessel.stream.liquid = kept;
    vessel.set_rest_aside(all.without(&kept));
}
