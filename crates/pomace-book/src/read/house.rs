//! Settings of a house.

use super::faults::Faults;
use super::table::{Table, ask};
use crate::document::{HouseDoc, Ice};
use crate::finding::{Gravity, Topic};
use crate::quantity::{Amount, Reading, parse_amount};
use crate::span::Spanned;

/// What is poured is told by volume; anything else would be passed over.
fn only_volume(amount: &Spanned<Amount>, key: &'static str, faults: &mut Faults<'_>) {
    if !matches!(
        amount.reading,
        Reading::Volume { .. } | Reading::Question { .. }
    ) {
        faults.add(
            (Topic::Amount, Gravity::Caution),
            amount.span,
            key,
            format!("`{}` is no volume, and is passed over", amount.text),
            "write millilitres, such as `0.8 mL`: ten of them on a scale, water being 1 g a millilitre",
        );
    }
}

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
                ask(&amount, || "measures".to_owned(), faults);
                only_volume(&amount, "measures", faults);
                measures.push(amount);
            }
            Err(error) => faults.quantity(error, text.span, "measures"),
        }
    }
    let mut small = |key: &'static str| {
        let amount = table.amount(key, faults);
        if let Some(amount) = &amount {
            only_volume(amount, key, faults);
        }
        amount
    };
    let (dash, drop, barspoon) = (small("dash"), small("drop"), small("barspoon"));
    HouseDoc {
        name,
        currency,
        measures,
        dash,
        drop,
        barspoon,
        ice: table.read("ice", faults, Ice::parse),
        note: table.text("note", faults),
    }
}
