//! What is said of a result: figures with names that others rely on.
//!
//! The names, with their units, are those of the design's section 8 and do not change.

use pomace_larder::Basis;
use pomace_matter::Mixture;
use pomace_matter::liquid::{Note, Property};
use serde_json::{Map, Value, json};

use crate::inputs::Inputs;
use crate::made::{Made, Mixed};
use crate::numbers::{DrinkNumbers, Later, Numbers};
use crate::stream::Stream;
use crate::texture::Texture;

/// A figure: a value, its doubt, and how well it is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// The value; `None` where it is not known.
    pub value: Option<f64>,
    /// Two standard deviations; `None` where the doubt is not known.
    pub plus_minus: Option<f64>,
    /// How well it is known.
    pub basis: Basis,
}

impl Figure {
    /// A figure whose doubt is not known.
    #[must_use]
    pub const fn new(value: Option<f64>, basis: Basis) -> Self {
        Self {
            value,
            plus_minus: None,
            basis,
        }
    }

    /// As JSON.
    #[must_use]
    pub fn json(&self) -> Value {
        json!({
            "value": self.value.map(tidy),
            "plus_minus": self.plus_minus.map(tidy),
            "basis": self.basis.as_str(),
        })
    }
}

/// A number with seven significant digits: enough for every use, and stable.
#[must_use]
pub fn tidy(value: f64) -> f64 {
    format!("{value:.6e}").parse().unwrap_or(value)
}

/// The figures of a liquid: every property, and mass, volume, temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct Figures {
    /// Mass, g.
    pub mass: Figure,
    /// Volume at the liquid's temperature, mL.
    pub volume: Figure,
    /// Temperature, °C.
    pub celsius: Figure,
    /// Melt, mL per 100 mL before ice, where it applies.
    pub dilution_percent: Option<Figure>,
    /// The properties, in order.
    pub properties: Vec<(Property, Figure)>,
    /// What must be said beside them.
    pub notes: Vec<Note>,
}

impl Figures {
    /// Of what pours in a stream.
    #[must_use]
    pub fn of(stream: &Stream) -> Self {
        let basis = stream.carried.basis.unwrap_or(Basis::Assumed);
        Self::with(Numbers::of(stream), basis)
    }

    fn with(numbers: Numbers<f64>, basis: Basis) -> Self {
        let properties = numbers.properties;
        Self {
            mass: Figure::new(Some(numbers.mass), basis),
            volume: Figure::new(numbers.volume, basis),
            celsius: Figure::new(Some(numbers.celsius), basis),
            dilution_percent: None,
            properties: properties
                .iter()
                .map(|(p, v)| (p, Figure::new(v, basis)))
                .collect(),
            notes: properties.notes,
        }
    }

    /// The figure of one property.
    #[must_use]
    pub fn figure(&self, property: Property) -> Option<Figure> {
        let found = self.properties.iter().find(|(p, _)| *p == property);
        found.map(|(_, figure)| *figure)
    }

    /// The value of one property.
    #[must_use]
    pub fn get(&self, property: Property) -> Option<f64> {
        self.figure(property)?.value
    }

    /// As JSON.
    #[must_use]
    pub fn json(&self) -> Value {
        let mut map = Map::new();
        map.insert("mass_g".into(), self.mass.json());
        map.insert("volume_ml".into(), self.volume.json());
        map.insert("temperature_celsius".into(), self.celsius.json());
        if let Some(dilution) = &self.dilution_percent {
            map.insert("dilution_percent".into(), dilution.json());
        }
        for (property, figure) in &self.properties {
            map.insert(property.name().into(), figure.json());
        }
        map.insert(
            "notes".into(),
            self.notes.iter().map(ToString::to_string).collect(),
        );
        Value::Object(map)
    }
}

/// What one serve brings to the person who drinks it.
#[derive(Clone, Debug, PartialEq)]
pub struct PerServe {
    /// Ethanol, g.
    pub alcohol_g: Figure,
    /// UK units: 10 mL of ethanol each.
    pub uk_units: Figure,
    /// US standard drinks: 14 g of ethanol each.
    pub us_standard_drinks: Figure,
    /// Energy, kcal.
    pub energy_kcal: Figure,
    /// Sugar, g.
    pub sugar_g: Figure,
    /// Caffeine, mg.
    pub caffeine_mg: Figure,
    /// Allergens surely in it.
    pub allergens: Vec<&'static str>,
    /// Allergens that may be in it.
    pub allergens_possible: Vec<&'static str>,
    /// Warnings that came with what is in it.
    pub cautions: Vec<String>,
}

/// Caffeine in a litre from which the EU asks for words of its own on a label, mg (Regulation (EU) No
/// 1169/2011, Annex III; from memory).
const HIGH_CAFFEINE_MG_PER_L: f64 = 150.0;

impl PerServe {
    /// What is to be said beside totals of alcohol and caffeine; `volume_ml` is that of the serve. It
    /// refers to whoever may say how much is too much, and does not say so itself. (UK chief medical
    /// officers, 2016: from memory.)
    #[must_use]
    pub fn guidance(&self, volume_ml: Option<f64>) -> Vec<String> {
        let over = |figure: Figure, least: f64| figure.value.filter(|value| *value >= least);
        let mut said = Vec::new();
        let alcohol = over(self.alcohol_g, 0.05);
        if alcohol.is_some() {
            said.push(
                "alcohol is counted otherwise in other countries, and how much is low in risk is for your local health guidance to say (UK: not over 14 units a week, over three days or more, and safest none in pregnancy); whom you may serve, for local law".to_owned(),
            );
        }
        if let Some(milligrams) = over(self.caffeine_mg, 0.5) {
            let mut text =
                "how much caffeine is too much is for your local health guidance to say".to_owned();
            if alcohol.is_some() {
                text.push_str("; with alcohol it hides how much was drunk");
            }
            let litres = volume_ml.filter(|ml| *ml > 0.0).map(|ml| ml / 1000.0);
            if litres.is_some_and(|litres| milligrams / litres > HIGH_CAFFEINE_MG_PER_L) {
                text.push_str(&format!(
                    "; above {HIGH_CAFFEINE_MG_PER_L} mg in a litre the EU asks for words of their own on a label, unless it is named for coffee or tea"
                ));
            }
            said.push(text);
        }
        said
    }
}

/// The figures of a drink: what meets the ice, what is in the glass, what a serve brings.
#[derive(Clone, Debug, PartialEq)]
pub struct DrinkReport {
    /// What meets the ice.
    pub before: Figures,
    /// What is in the glass.
    pub after: Figures,
    /// The drink by the minute over the ice in its glass; empty without it.
    pub over_time: Vec<(u32, Figures)>,
    /// What it is like in the mouth, as far as it can be said.
    pub texture: Option<Texture>,
    /// What one serve brings.
    pub per_serve: PerServe,
}

impl DrinkReport {
    /// Of a drink that has been mixed; `cautions` are those of the shelf items in it.
    #[must_use]
    pub fn of(mixed: &Mixed, cautions: Vec<String>) -> Self {
        let minutes: Vec<u32> = crate::glass::MINUTES.collect();
        Self::at(mixed, cautions, &minutes)
    }

    /// The same with some minutes only of what becomes of it.
    #[must_use]
    pub fn at(mixed: &Mixed, cautions: Vec<String>, minutes: &[u32]) -> Self {
        Self::with_inputs(mixed, cautions, minutes, &Inputs::values())
    }

    /// The same where what is assumed of its time in the glass is read from `inputs`.
    pub(crate) fn with_inputs(
        mixed: &Mixed,
        cautions: Vec<String>,
        minutes: &[u32],
        inputs: &Inputs,
    ) -> Self {
        let numbers = DrinkNumbers::of(mixed);
        let basis_of = |stream: &Stream| stream.carried.basis.unwrap_or(Basis::Assumed);
        let mut before = Figures::with(numbers.before, basis_of(&mixed.before));
        let mut after = Figures::with(numbers.after, basis_of(&mixed.after));
        // Ice, its wetness and the vessel are the house's at best: nothing after them is better
        // than assumed.
        if mixed.melt.abs() > 0.0 {
            after.weaken(Basis::Assumed);
        }
        before.dilution_percent = Some(Figure::new(Some(0.0), before.mass.basis));
        let basis = after.mass.basis;
        after.dilution_percent = Some(Figure::new(numbers.dilution_percent, basis));
        let mut carried = mixed.after.carried.clone();
        for (_, _, eaten) in &mixed.garnish {
            carried.join(&eaten.carried);
        }
        let figure = |value: f64| Figure::new(Some(value), basis);
        let serve = numbers.serve;
        Self {
            per_serve: PerServe {
                alcohol_g: figure(serve.alcohol_g),
                uk_units: figure(serve.uk_units),
                us_standard_drinks: figure(serve.us_standard_drinks),
                energy_kcal: figure(serve.energy_kcal),
                sugar_g: figure(serve.sugar_g),
                caffeine_mg: figure(serve.caffeine_mg),
                allergens: carried.allergens.iter().map(|a| a.as_str()).collect(),
                allergens_possible: carried.maybe().map(|a| a.as_str()).collect(),
                cautions,
            },
            over_time: over_time(mixed, inputs, minutes),
            texture: Texture::of(&mixed.after.liquid, mixed.after.celsius, mixed.beaten),
            before,
            after,
        }
    }

    /// As JSON, with the names that others rely on.
    #[must_use]
    pub fn json(&self) -> Value {
        let serve = &self.per_serve;
        let over_time: Vec<Value> = self
            .over_time
            .iter()
            .map(|(minute, figures)| {
                let mut value = figures.json();
                if let Value::Object(map) = &mut value {
                    map.insert("minute".into(), json!(minute));
                }
                value
            })
            .collect();
        json!({
            "before_ice": self.before.json(),
            "after_ice": self.after.json(),
            "over_time": over_time,
            "texture": self.texture.as_ref().map(Texture::json),
            "per_serve": {
                "alcohol_g": serve.alcohol_g.json(),
                "uk_units": serve.uk_units.json(),
                "us_standard_drinks": serve.us_standard_drinks.json(),
                "energy_kcal": serve.energy_kcal.json(),
                "sugar_g": serve.sugar_g.json(),
                "caffeine_mg": serve.caffeine_mg.json(),
                "cost": Value::Null,
                "allergens": serve.allergens,
                "allergens_possible": serve.allergens_possible,
                "cautions": serve.cautions,
                "guidance": serve.guidance(self.after.volume.value),
            },
        })
    }
}

/// The figures by the minute; the dilution counts all melt.
fn over_time(mixed: &Mixed, inputs: &Inputs, minutes: &[u32]) -> Vec<(u32, Figures)> {
    let basis = Basis::Assumed;
    let later = Later::of(mixed, inputs, minutes).into_iter().map(|later| {
        let mut figures = Figures::with(later.numbers, basis);
        figures.dilution_percent = Some(Figure::new(later.dilution_percent, basis));
        (later.minute, figures)
    });
    later.collect()
}

impl Texture {
    /// As JSON.
    #[must_use]
    pub fn json(&self) -> Value {
        json!({
            "foam_ml": self.foam_ml.map(tidy),
            "volume_with_foam_ml": tidy(self.volume_with_foam_ml),
            "foam_half_minutes": self.foam_half_minutes.map(|h| h.value),
            "suspended_g_per_100ml": tidy(self.suspended_g_per_100ml),
            "body_g_per_100ml": tidy(self.body_g_per_100ml),
            "basis": Basis::Assumed.as_str(),
        })
    }
}

impl Figures {
    fn weaken(&mut self, basis: Basis) {
        for figure in [&mut self.mass, &mut self.volume, &mut self.celsius] {
            figure.basis = figure.basis.max(basis);
        }
        for (_, figure) in &mut self.properties {
            figure.basis = figure.basis.max(basis);
        }
    }
}

/// The figures of a prep: what it keeps, and what it leaves.
#[must_use]
pub fn prep_json(made: &Made, kept: &Figures, by_products: &[(String, usize)]) -> Value {
    let left: Vec<Value> = by_products
        .iter()
        .filter_map(|(name, step)| {
            let stream = made.left.get(*step)?;
            Some(json!({
                "name": name,
                "mass_g": tidy(stream.total()),
                "composition_g": composition(&stream.matter()),
            }))
        })
        .collect();
    json!({
        "kept": kept.json(),
        "composition_g": composition(&made.kept.matter()),
        "by_products": left,
        "allergens": made.kept.carried.allergens.iter().map(|a| a.as_str()).collect::<Vec<_>>(),
        "allergens_possible": made.kept.carried.maybe().map(|a| a.as_str()).collect::<Vec<_>>(),
    })
}

/// Grams of each substance that is there.
fn composition(mixture: &Mixture) -> Value {
    let mut map = Map::new();
    for (substance, grams) in mixture.iter().filter(|(_, g)| *g > 1e-9) {
        map.insert(substance.name().into(), json!(tidy(grams)));
    }
    Value::Object(map)
}
