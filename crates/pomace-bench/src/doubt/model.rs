//! What the models themselves may be off by.

use pomace_matter::liquid::Property;

use crate::numbers::{FigureName, Stage};

/// One standard deviation of what a model is off by in a drink: half of what `docs/accuracy.md` and
/// models.md expect of it. Estimates, since mixtures have no independent table.
pub(super) fn off_by(name: FigureName, value: f64) -> f64 {
    if name.name == "temperature_celsius"
        && matches!(name.stage, Stage::AfterIce | Stage::Minute(_))
    {
        return 0.5;
    }
    if name.name == "energy_kcal" {
        return 0.03 * value.abs();
    }
    let Some(property) = Property::ALL.into_iter().find(|p| p.name() == name.name) else {
        return 0.0;
    };
    match property {
        Property::Density => 0.5,
        Property::Volume => 0.0005 * value.abs(),
        Property::Strength | Property::SolubleSolids => 0.05_f64.min(0.01 * value.abs()),
        Property::RefractometerBrix => 0.15,
        Property::Sugar | Property::Acid => 0.0,
        Property::TitratableAcidity => 0.01 * value.abs(),
        Property::Ph => 0.05,
        Property::WaterActivity => 0.005,
        Property::FreezingPoint => 0.15 + 0.015 * value.abs(),
        Property::Sweetness => 0.1 * value.abs(),
        Property::Energy => 0.03 * value.abs(),
    }
}
