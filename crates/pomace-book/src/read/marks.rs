//! Marks: `[marks]` with a number from 0 to 5 for each taste.

use super::faults::Faults;
use super::table::Table;
use crate::document::Marks;
use crate::quantity::cursor::shorten;
use crate::quantity::{Fault, QuantityError};

/// The marks of a drink or a prep.
pub(super) fn marks(table: &mut Table<'_>, faults: &mut Faults<'_>) -> Marks {
    let Some(mut table) = table.table("marks", faults) else {
        return Marks::default();
    };
    let marks = Marks {
        bitter: table.read("bitter", faults, mark),
        savoury: table.read("savoury", faults, mark),
        tannin: table.read("tannin", faults, mark),
    };
    table.finish(faults);
    marks
}

fn mark(text: &str) -> Result<f64, QuantityError> {
    let number = text.trim().replace(',', ".").parse::<f64>().ok();
    number
        .filter(|mark| (0.0..=Marks::MOST).contains(mark))
        .ok_or_else(|| {
            QuantityError::new(
                Fault::OutOfRange,
                0,
                format!("`{}` is no mark", shorten(text.trim())),
                "write a number from 0 (none) to 5 (very strong)",
            )
        })
}
