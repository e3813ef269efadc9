//! Doubt: how far off every figure may be, and where that comes from.
//!
//! Each source is moved by one standard deviation up and down with all others held, and the whole
//! document is run again. Half of the difference is what the source does to a figure: right to second
//! order, and at a kink (ice that is just gone, sugar that just dissolves) the mean of both sides.
//! Sources do not depend on one another, so their effects add as squares; so does what the models
//! themselves may be off by. A check draws all sources at random and compares.

use pomace_matter::liquid::Property;

use crate::error::RunError;
use crate::inputs::{Inputs, Source, SourceKey};
use crate::report::{DrinkReport, Figure, Figures};

/// What a figure is called: where in the drink, and its name there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct FigureName {
    /// `before_ice`, `after_ice` or `per_serve`; `kept` of a prep.
    pub stage: &'static str,
    /// Its name in JSON.
    pub name: &'static str,
}

impl std::fmt::Display for FigureName {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}.{}", self.stage, self.name)
    }
}

/// Something with figures, always in the same order.
pub trait HasFigures {
    /// Shows every figure.
    fn each(&mut self, visit: &mut dyn FnMut(FigureName, &mut Figure));
}

impl Figures {
    fn each_at(&mut self, stage: &'static str, visit: &mut dyn FnMut(FigureName, &mut Figure)) {
        let mut show = |name, figure: &mut Figure| visit(FigureName { stage, name }, figure);
        show("mass_g", &mut self.mass);
        show("volume_ml", &mut self.volume);
        show("temperature_celsius", &mut self.celsius);
        if let Some(dilution) = &mut self.dilution_percent {
            show("dilution_percent", dilution);
        }
        for (property, figure) in &mut self.properties {
            show(property.name(), figure);
        }
    }
}

impl HasFigures for Figures {
    fn each(&mut self, visit: &mut dyn FnMut(FigureName, &mut Figure)) {
        self.each_at("kept", visit);
    }
}

impl HasFigures for DrinkReport {
    fn each(&mut self, visit: &mut dyn FnMut(FigureName, &mut Figure)) {
        self.before.each_at("before_ice", visit);
        self.after.each_at("after_ice", visit);
        let serve = &mut self.per_serve;
        for (name, figure) in [
            ("alcohol_g", &mut serve.alcohol_g),
            ("uk_units", &mut serve.uk_units),
            ("us_standard_drinks", &mut serve.us_standard_drinks),
            ("energy_kcal", &mut serve.energy_kcal),
            ("sugar_g", &mut serve.sugar_g),
            ("caffeine_mg", &mut serve.caffeine_mg),
        ] {
            let stage = "per_serve";
            visit(FigureName { stage, name }, figure);
        }
    }
}

/// The doubt of all figures of a document.
#[derive(Clone, Debug)]
pub struct Doubt {
    sources: Vec<Source>,
    /// By figure: its name, the effect of one standard deviation of each source, and of the model.
    effects: Vec<(FigureName, Option<Vec<f64>>, f64)>,
}

/// One part of a figure's doubt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share<'a> {
    /// What it comes from.
    pub name: &'a str,
    /// The reading that would settle it.
    pub reading: &'a str,
    /// Its part of the variance, 0 to 1.
    pub share: f64,
    /// Whether it is what the model may be off by, and no source.
    pub is_model: bool,
}

impl Doubt {
    /// Runs a document once as it is and twice for each source.
    pub(crate) fn of<R: HasFigures>(
        run: impl Fn(&Inputs) -> Result<R, RunError>,
    ) -> Result<Self, RunError> {
        let noting = Inputs::noting();
        let names_and_values = read(&mut run(&noting)?);
        let sources = noting.into_sources();
        let mut effects: Vec<(FigureName, Option<Vec<f64>>, f64)> = names_and_values
            .iter()
            .map(|(name, value)| {
                let known = value.map(|_| Vec::with_capacity(sources.len()));
                (*name, known, value.map_or(0.0, |v| off_by(*name, v)))
            })
            .collect();
        for source in &sources {
            let moved = |by: f64| {
                let run = run(&Inputs::moved(vec![(source.key, by)]));
                run.map(|mut found| read(&mut found)).unwrap_or_default()
            };
            let (up, down) = (moved(1.0), moved(-1.0));
            for (place, (_, effect, _)) in effects.iter_mut().enumerate() {
                let at = |side: &[(FigureName, Option<f64>)]| side.get(place).and_then(|(_, v)| *v);
                let middle = at(&names_and_values);
                let found = match (at(&up), at(&down), middle) {
                    (Some(up), Some(down), _) => Some(0.5 * (up - down)),
                    // One side lies outside the models.
                    (Some(up), None, Some(middle)) => Some(up - middle),
                    (None, Some(down), Some(middle)) => Some(middle - down),
                    _ => None,
                };
                match (found, &mut *effect) {
                    (Some(found), Some(known)) => known.push(found),
                    _ => *effect = None,
                }
            }
        }
        Ok(Self { sources, effects })
    }

    /// Writes two standard deviations beside every figure.
    pub fn write(&self, report: &mut impl HasFigures) {
        let mut deviations = self.effects.iter();
        report.each(&mut |name, figure| {
            if let Some((known, effect, model)) = deviations.next()
                && *known == name
            {
                figure.plus_minus = effect.as_ref().map(|e| 2.0 * deviation(e, *model));
            }
        });
    }

    /// The names of all figures.
    pub fn names(&self) -> impl Iterator<Item = FigureName> {
        self.effects.iter().map(|(name, _, _)| *name)
    }

    /// The sources that were moved.
    #[must_use]
    pub fn sources(&self) -> &[Source] {
        &self.sources
    }

    /// One standard deviation of a figure from its sources alone, without what the model is off by.
    #[must_use]
    pub fn of_sources(&self, name: FigureName) -> Option<f64> {
        let (_, effects, _) = self.effects.iter().find(|(n, _, _)| *n == name)?;
        Some(deviation(effects.as_ref()?, 0.0))
    }

    /// The largest parts of a figure's doubt, largest first. Nothing where it has none.
    #[must_use]
    pub fn largest(&self, name: FigureName, count: usize) -> Vec<Share<'_>> {
        let Some((_, Some(effects), model)) = self.effects.iter().find(|(n, _, _)| *n == name)
        else {
            return Vec::new();
        };
        let variance = deviation(effects, *model).powi(2);
        if variance <= 0.0 {
            return Vec::new();
        }
        let mut shares: Vec<Share<'_>> = self
            .sources
            .iter()
            .zip(effects)
            .map(|(source, effect)| Share {
                name: &source.name,
                reading: source.reading,
                share: effect * effect / variance,
                is_model: false,
            })
            .collect();
        shares.push(Share {
            name: "the model itself",
            reading: "the drink itself, read",
            share: model * model / variance,
            is_model: true,
        });
        shares.retain(|s| s.share > 0.005);
        shares.sort_by(|a, b| b.share.total_cmp(&a.share));
        shares.truncate(count);
        shares
    }
}

fn deviation(effects: &[f64], model: f64) -> f64 {
    let squares: f64 = effects.iter().map(|e| e * e).sum();
    (squares + model * model).sqrt()
}

fn read(report: &mut impl HasFigures) -> Vec<(FigureName, Option<f64>)> {
    let mut found = Vec::new();
    report.each(&mut |name, figure| found.push((name, figure.value)));
    found
}

/// One standard deviation of what a model is off by in a drink: half of what `docs/accuracy.md` and
/// models.md expect of it. Estimates, since mixtures have no independent table.
fn off_by(name: FigureName, value: f64) -> f64 {
    if name.name == "temperature_celsius" && name.stage == "after_ice" {
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

/// Sources moved by standard deviations, for a check by chance.
pub type Moves = Vec<(SourceKey, f64)>;
