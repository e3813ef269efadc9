//! The path in sentences.

use super::{IcePath, State};
use crate::number::{number, short};

pub(super) fn describe(path: &IcePath) -> String {
    let mut said = vec!["Melt runs to the right, temperature upward.".to_owned()];
    let name = if path.name.is_empty() {
        "The drink"
    } else {
        &path.name
    };
    if let Some(first) = path.on_ice.first() {
        said.push(format!("{name} meets the ice at {}.", degrees(first.state)));
    }
    if let (Some(last), true) = (path.on_ice.last(), path.on_ice.len() > 1) {
        let done = if path.done.is_empty() {
            "on ice"
        } else {
            &path.done
        };
        let seconds = short(last.time, 1);
        said.push(format!("After {seconds} s {done}: {}.", state(last.state)));
    }
    if let Some(topped) = path.topped {
        said.push(format!("Topped: {}.", state(topped)));
    }
    if let Some(last) = path.in_glass.last().filter(|last| last.time > 0.0) {
        let minutes = short(last.time, 1);
        said.push(format!(
            "After {minutes} min in the glass: {}.",
            state(last.state)
        ));
    }
    let coast: Vec<State> = path
        .freezing
        .iter()
        .flatten()
        .copied()
        .filter(|state| state.is_finite())
        .collect();
    if let (Some(first), Some(last)) = (coast.first(), coast.last()) {
        said.push(format!(
            "It would begin to freeze at {} with {} mL of melt in 100 mL, at {} with {} mL.",
            degrees(*first),
            number(first.melt_percent, 0),
            degrees(*last),
            number(last.melt_percent, 0)
        ));
    }
    said.join(" ")
}

fn degrees(state: State) -> String {
    format!("{} °C", number(state.celsius, 1))
}

fn state(state: State) -> String {
    format!(
        "{} and {} mL of melt in 100 mL",
        degrees(state),
        number(state.melt_percent, 0)
    )
}
