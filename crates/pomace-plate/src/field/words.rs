//! The field in sentences, for those who hear it.

use super::{Field, Ranges, Spot, Taste};
use crate::number::{listed, number, short};

pub(super) fn describe(field: &Field, ranges: Ranges, nearest: &[String]) -> String {
    let mut said = vec![
        "Sourness runs to the right, sweetness upward; water is the lower left corner.".to_owned(),
    ];
    let name = if field.name.is_empty() {
        "The drink"
    } else {
        &field.name
    };
    let known = |spot: &Option<Spot>| spot.filter(|spot| spot.taste().is_finite());
    if let Some(spot) = known(&field.before) {
        said.push(format!("{name} before ice: {}.", state(&spot)));
    }
    match known(&field.served) {
        Some(spot) => said.push(format!(
            "{name} as served: {}{}.",
            state(&spot),
            balance(&spot)
        )),
        None => said.push(format!("{name} cannot be placed yet.")),
    }
    if let Some(was) = field.was.filter(|was| was.is_finite()) {
        said.push(format!(
            "Before the last change it was served at {}.",
            place(was)
        ));
    }
    if let Some(ended) = field.ended.as_ref().filter(|ended| ended.taste.is_finite()) {
        said.push(format!(
            "A tick shows where it was {}: {}.",
            ended.words,
            place(ended.taste)
        ));
    }
    let pushes: Vec<String> = field
        .pushes
        .iter()
        .filter(|push| push.change.is_finite())
        .map(|push| {
            let change = push.change;
            format!(
                "{} {} and {}",
                push.letter,
                signed(change.sweetness_g_per_100ml),
                signed(change.sourness_g_per_l)
            )
        })
        .collect();
    if !pushes.is_empty() {
        said.push(format!(
            "One step more of a line, g as sugar in 100 mL and g of acid in 1 L: {}.",
            pushes.join("; ")
        ));
    }
    if let Some(range) = &field.remembered {
        said.push(format!(
            "A range for {} is drawn from memory, unchecked: {} to {} g of acid in 1 L, {} to {} g as sugar in 100 mL.",
            range.words,
            short(range.from.sourness_g_per_l, 1),
            short(range.to.sourness_g_per_l, 1),
            short(range.from.sweetness_g_per_100ml, 1),
            short(range.to.sweetness_g_per_100ml, 1)
        ));
    }
    if !nearest.is_empty() {
        let near: Vec<&String> = nearest.iter().take(3).collect();
        said.push(format!("Nearest of the house's own: {}.", listed(&near)));
    }
    let outside = field
        .house
        .iter()
        .filter(|other| {
            let taste = other.taste;
            !(0.0..=ranges.sourness_g_per_l).contains(&taste.sourness_g_per_l)
                || !(0.0..=ranges.sweetness_g_per_100ml).contains(&taste.sweetness_g_per_100ml)
        })
        .count();
    if outside > 0 {
        said.push(format!("Outside the scales: {outside} of the house's own."));
    }
    said.join(" ")
}

fn state(spot: &Spot) -> String {
    let strength = if spot.strength_percent.is_finite() {
        format!(", {} % vol", number(spot.strength_percent, 1))
    } else {
        String::new()
    };
    format!(
        "{} g of acid in 1 L, {} g as sugar in 100 mL{strength}",
        spot.sourness_g_per_l.words(1),
        spot.sweetness_g_per_100ml.words(1)
    )
}

fn place(taste: Taste) -> String {
    format!(
        "{} g of acid in 1 L and {} g as sugar in 100 mL",
        number(taste.sourness_g_per_l, 1),
        number(taste.sweetness_g_per_100ml, 1)
    )
}

fn balance(spot: &Spot) -> String {
    let Taste {
        sourness_g_per_l: sour,
        sweetness_g_per_100ml: sweet,
    } = spot.taste();
    if sour > 0.05 && sweet > 0.0 {
        let parts = sweet * 10.0 / sour;
        format!(
            ", {} of sweet to one of sour",
            short(parts, usize::from(parts < 9.95))
        )
    } else {
        String::new()
    }
}

fn signed(value: f64) -> String {
    let sign = if value > 0.0 { "+" } else { "" };
    format!("{sign}{}", short(value, 2))
}
