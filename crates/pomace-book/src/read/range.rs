//! The range that a drink is held against: `[range]`.

use super::faults::Faults;
use super::table::Table;
use crate::document::Range;
use crate::document::scale::{ACID, SUGAR};

/// The range of a drink, if it has one.
pub(super) fn range(table: &mut Table<'_>, faults: &mut Faults<'_>) -> Option<Range> {
    let mut table = table.table("range", faults)?;
    let range = Range {
        of: table.text("of", faults),
        sourness: table.read("sourness", faults, |text| ACID.read(text)),
        sweetness: table.read("sweetness", faults, |text| SUGAR.read(text)),
    };
    table.finish(faults);
    Some(range)
}
