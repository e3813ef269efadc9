//! The glass in sentences.

use super::{Glass, Ice, Shape, Volumes};
use crate::number::{grams, number};

pub(super) fn describe(glass: &Glass, volumes: &Volumes) -> String {
    let kind = match glass.shape {
        Shape::Tall => "A tall glass",
        Shape::Rocks => "A rocks glass",
        Shape::Coupe => "A coupe",
        Shape::Stem => "A stemmed glass",
        Shape::Unknown => "A glass of unknown shape",
    };
    let mut said = vec![format!(
        "{kind} of {} mL to the brim.",
        number(volumes.brim, 0)
    )];
    if glass.liquid_ml.value.is_finite() {
        said.push(format!("{} mL of drink in it.", glass.liquid_ml.words(0)));
    }
    match glass.ice {
        Ice::None => {}
        ice => said.push(format!("Ice: {}, {}.", ice.name(), grams(ice.grams()))),
    }
    said.push(format!(
        "The wash line stands at {} mL.",
        number(volumes.wash, 0)
    ));
    if volumes.foam - volumes.wash > 0.5 {
        said.push(format!(
            "Foam: {} mL.",
            number(volumes.foam - volumes.wash, 0)
        ));
    }
    said.extend(glass.rim.iter().map(|rim| format!("On the rim: {rim}.")));
    said.extend(
        glass
            .garnish
            .iter()
            .map(|garnish| format!("Set on it: {garnish}.")),
    );
    if volumes.over() > 0.5 {
        let over = number(volumes.over(), 0);
        said.push(format!("It does not fit: {over} mL over the brim."));
    }
    said.join(" ")
}
