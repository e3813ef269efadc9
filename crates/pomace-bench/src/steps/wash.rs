//! Wash with fat: held together, chilled, the fat lifted off with some of the spirit in it.

use pomace_larder::yields;
use pomace_matter::Scalar;

use crate::remark::Assumption;
use crate::vessel::Vessel;

const BACK: Assumption = Assumption::new(
    "spirit that comes back",
    (94.0, 88.0, 97.0),
    "% of it",
    "common practice, no source",
);

/// The fat has been put in; it leaves with everything that does not dissolve, and takes liquid along.
/// Its allergens stay: butter is milk, and washing does not change that.
pub(crate) fn run<S: Scalar>(vessel: &mut Vessel<'_, S>) {
    let back = yields::find("wash", "fat").map_or(BACK, |entry| {
        Assumption::of_yield("spirit that comes back", entry)
    });
    let back = vessel.assume(back);
    vessel.stirred();
    let all = vessel.stream.liquid + vessel.stream.pieces;
    let solids = all.only(|s| !s.is_soluble(), false);
    let liquid = all.without(&solids);
    let kept = liquid * (back / 100.0);
    vessel.stream.liquid = kept;
    vessel.set_rest_aside(all.without(&kept));
}
