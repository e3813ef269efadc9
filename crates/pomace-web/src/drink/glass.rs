//! The glass, as far as the drink says which.

use pomace_plate::glass::{Glass, Ice, Shape};

use super::plate::doubtful;
use super::study::Study;

/// The glass, where the drink says which.
pub(crate) fn glass(study: &Study<'_>) -> Option<Glass> {
    let outcome = study.outcome.as_ref().ok()?;
    let pour = study
        .doc
        .steps
        .iter()
        .rev()
        .find(|step| step.glass.is_some());
    let named = pour.and_then(|step| step.glass.as_ref());
    let brim_ml = outcome.mixed.glass_ml?;
    let after = &outcome.report.after;
    let over = pour.and_then(|step| step.over.as_ref());
    let ice = outcome.mixed.glass_ice.map_or(Ice::None, |ice| {
        let grams = ice.grams();
        let is_crushed = over.is_some_and(|words| words.value.to_lowercase().contains("crush"));
        if ice.is_block() {
            Ice::Block { grams }
        } else if is_crushed {
            Ice::Crushed { grams }
        } else {
            Ice::Cubes { grams }
        }
    });
    let garnish = |wanted: &dyn Fn(pomace_book::GarnishAction) -> bool| {
        let found = study.doc.garnish.iter().find(|g| wanted(g.action.value));
        found.and_then(|g| Some(g.what.as_ref()?.value.clone()))
    };
    use pomace_book::GarnishAction as Do;
    Some(Glass {
        name: study.doc.name.value.clone(),
        shape: named.map_or(Shape::Unknown, |glass| shape(&glass.value.name)),
        brim_ml,
        liquid_ml: doubtful(Some(after.volume))?,
        ice,
        foam_ml: outcome
            .report
            .texture
            .as_ref()
            .and_then(|texture| texture.foam_ml)
            .unwrap_or(0.0),
        rim: garnish(&|action| action == Do::Coat),
        garnish: garnish(&|action| matches!(action, Do::Set | Do::Float)),
    })
}

/// The outline that a glass of this name has.
fn shape(name: &str) -> Shape {
    let name = name.to_lowercase();
    let is = |words: &[&str]| words.iter().any(|word| name.contains(word));
    if is(&["coupe", "saucer"]) {
        Shape::Coupe
    } else if is(&["rocks", "tumbler", "short", "old", "low"]) {
        Shape::Rocks
    } else if is(&["tall", "long", "high", "sling"]) {
        Shape::Tall
    } else if is(&["stem", "wine", "goblet", "flute", "cocktail"]) {
        Shape::Stem
    } else {
        Shape::Unknown
    }
}
