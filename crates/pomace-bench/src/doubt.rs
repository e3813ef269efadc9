//! Doubt: how far off every figure may be, and where that comes from.
//!
//! Each source is moved by one standard deviation up and down with all others held, and the whole
//! document is run again. Half of the difference is the slope of a figure along the source, and how far
//! the middle of both lies from the told value is its bend; a figure is expected to miss the told value
//! by both. Where bends matter, at kinks above all (ice that is just gone, sugar that just dissolves), all
//! sources are drawn at random together, always with the same seed, and the reach of 95 of 100 draws counts.
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
    effects: Vec<(FigureName, Option<Vec<Effect>>, f64)>,
    /// By figure: the reach of 95 of 100 draws about the told value, where bends make the sum of squares
    /// a poor guide.
    drawn: Vec<Option<f64>>,
}

/// What a source does to a figure: f = slope z + bend z², z in standard deviations.
#[derive(Clone, Copy, Debug)]
struct Effect {
    slope: f64,
    bend: f64,
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
        let mut effects: Vec<(FigureName, Option<Vec<Effect>>, f64)> = names_and_values
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
                    (Some(up), Some(down), Some(middle)) => Some(Effect {
                        slope: 0.5 * (up - down),
                        bend: 0.5 * (up + down) - middle,
                    }),
                    // One side lies outside the models.
                    (Some(side), None, Some(middle)) | (None, Some(side), Some(middle)) => {
                        Some(Effect {
                            slope: side - middle,
                            bend: 0.0,
                        })
                    }
                    _ => None,
                };
                match (found, &mut *effect) {
                    (Some(found), Some(known)) => known.push(found),
                    _ => *effect = None,
                }
            }
        }
        let drawn = drawn(&run, &sources, &effects, &names_and_values);
        Ok(Self {
            sources,
            effects,
            drawn,
        })
    }

    /// Writes two standard deviations beside every figure.
    pub fn write(&self, report: &mut impl HasFigures) {
        let mut place = 0;
        report.each(&mut |name, figure| {
            if let Some((known, _, model)) = self.effects.get(place)
                && *known == name
            {
                let own = self.own(place);
                figure.plus_minus = own.map(|own| 2.0 * own.hypot(*model));
            }
            place += 1;
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

    /// How far a figure is from its told value for its sources alone, as a root mean square, without what
    /// the model is off by.
    #[must_use]
    pub fn of_sources(&self, name: FigureName) -> Option<f64> {
        let place = self.effects.iter().position(|(n, _, _)| *n == name)?;
        self.own(place)
    }

    /// One standard deviation from the sources alone, or what draws say instead.
    fn own(&self, place: usize) -> Option<f64> {
        let (_, effects, _) = self.effects.get(place)?;
        let summed = square(effects.as_ref()?, 0.0).sqrt();
        let drawn = self.drawn.get(place).copied().flatten();
        Some(drawn.map_or(summed, |reach| reach / NORMAL_95))
    }

    /// The largest parts of a figure's doubt, largest first. Nothing where it has none.
    #[must_use]
    pub fn largest(&self, name: FigureName, count: usize) -> Vec<Share<'_>> {
        let Some((_, Some(effects), model)) = self.effects.iter().find(|(n, _, _)| *n == name)
        else {
            return Vec::new();
        };
        let variance = square(effects, *model);
        if variance <= 0.0 {
            return Vec::new();
        }
        let shift: f64 = effects.iter().map(|e| e.bend).sum();
        let mut shares: Vec<Share<'_>> = self
            .sources
            .iter()
            .zip(effects)
            .map(|(source, e)| Share {
                name: &source.name,
                reading: source.reading,
                share: (e.slope * e.slope + 2.0 * e.bend * e.bend + e.bend * shift) / variance,
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

/// 95 of 100 normal numbers lie within so many standard deviations.
const NORMAL_95: f64 = 1.96;

/// Where bends are more than this part of the mean square, sources are drawn.
const BENT: f64 = 0.01;

/// How often, and from where on.
const DRAWS: usize = 300;
const SEED: u64 = 0x0070_6f6d_6163_6500;

/// For each figure that is bent, how far 95 of 100 draws lie from the told value.
fn drawn<R: HasFigures>(
    run: &impl Fn(&Inputs) -> Result<R, RunError>,
    sources: &[Source],
    effects: &[(FigureName, Option<Vec<Effect>>, f64)],
    told: &[(FigureName, Option<f64>)],
) -> Vec<Option<f64>> {
    let is_bent = |effects: &Option<Vec<Effect>>| {
        effects.as_ref().is_some_and(|effects| {
            let straight: f64 = effects.iter().map(|e| e.slope * e.slope).sum();
            let whole = square(effects, 0.0);
            whole - straight > BENT * whole && whole > 1e-18
        })
    };
    let bent: Vec<bool> = effects.iter().map(|(_, e, _)| is_bent(e)).collect();
    if !bent.contains(&true) {
        return vec![None; bent.len()];
    }
    // The seed is the document's own, so that no run of luck is common to a whole book.
    let seed = told
        .iter()
        .filter_map(|(_, v)| *v)
        .fold(SEED, |seed, value| {
            seed.rotate_left(7).wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ value.to_bits()
        });
    let mut chance = Chance(seed);
    let mut off: Vec<Vec<f64>> = vec![Vec::new(); bent.len()];
    for _ in 0..DRAWS {
        let moves = sources.iter().map(|s| (s.key, chance.normal())).collect();
        let Ok(mut report) = run(&Inputs::moved(moves)) else {
            continue;
        };
        for (place, (_, value)) in read(&mut report).into_iter().enumerate() {
            let middle = told.get(place).and_then(|(_, v)| *v);
            if let (Some(value), Some(middle), Some(off)) = (value, middle, off.get_mut(place)) {
                off.push((value - middle).abs());
            }
        }
    }
    bent.iter()
        .zip(off)
        .map(|(is_bent, mut off)| {
            off.sort_by(f64::total_cmp);
            let place = (0.95 * off.len() as f64) as usize;
            is_bent.then(|| off.get(place).copied()).flatten()
        })
        .collect()
}

/// Seeded chance: the same book always tells the same doubt. (Steele, Lea and Flood 2014, SplitMix.)
struct Chance(u64);

impl Chance {
    /// Above 0, up to 1.
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^= z >> 31;
        ((z >> 11) as f64 + 1.0) / 9_007_199_254_740_992.0
    }

    /// A normal number (Box and Muller 1958).
    fn normal(&mut self) -> f64 {
        let radius = (-2.0 * self.uniform().ln()).sqrt();
        radius * (std::f64::consts::TAU * self.uniform()).cos()
    }
}

/// Mean square of how far a figure lies from its told value: slopes and bends spread it, and the bends
/// of all sources together shift it.
fn square(effects: &[Effect], model: f64) -> f64 {
    let spread: f64 = effects
        .iter()
        .map(|e| e.slope * e.slope + 2.0 * e.bend * e.bend)
        .sum();
    let shift: f64 = effects.iter().map(|e| e.bend).sum();
    spread + shift * shift + model * model
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
