//! Settings of a house.

use super::faults::Faults;
use super::table::{Table, ask};
use crate::document::{HouseDoc, Ice};
use crate::finding::{Gravity, Topic};
use crate::quantity::parse_amount;
use crate::span::Spanned;

/// Reads the settings of a house whose name is known.
pub(super) fn read(
    name: Spanned<String>,
    table: &mut Table<'_>,
    faults: &mut Faults<'_>,
) -> HouseDoc {
    let currency = table.text("currency", faults).filter(|currency| {
        let three =
            currency.len() == 3 && currency.chars().all(|letter| letter.is_ascii_uppercase());
        if !three {
            faults.add(
                (Topic::Syntax, Gravity::Stop),
                currency.span,
                "currency",
                format!("`{}` is no currency", currency.value),
                "write its three letters, such as `EUR`",
            );
        }
        three
    });
    let mut measures = Vec::new();
    for text in table.texts("measures", faults) {
        match parse_amount(&text) {
            Ok(amount) => {
                let amount = Spanned::new(amount, text.span);
                ask(&amount, "measures", faults);
                measures.push(amount);
            }
            Err(error) => faults.quantity(error, text.span, "measures"),
        }
    }
    HouseDoc {
        name,
        currency,
        measures,
        dash: table.amount("dash", faults),
        drop: table.amount("drop", faults),
        barspoon: table.amount("barspoon", faults),
        ice: table.read("ice", faults, Ice::parse),
        note: table.text("note", faults),
    }
}
