//! The bare numbers of a result, in any number type: values, or values with their slopes.
//!
//! A report says them with their units and how well they are known; doubt takes their slopes.

use pomace_matter::liquid::{Properties, Property, properties};
use pomace_matter::units::Celsius;
use pomace_matter::{Mixture, Scalar, Substance, density, energy};

use crate::inputs::Inputs;
use crate::made::{Made, Mixed};
use crate::stream::Stream;

/// What a figure is called: where in the drink, and its name there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct FigureName {
    /// Where.
    pub stage: Stage,
    /// Its name in JSON.
    pub name: &'static str,
}

/// What a figure is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Stage {
    /// What meets the ice.
    BeforeIce,
    /// What is served.
    AfterIce,
    /// What is in the glass so many minutes later, over ice.
    Minute(u32),
    /// What one serve brings.
    PerServe,
    /// What a prep keeps.
    Kept,
}

impl FigureName {
    /// The same figure of what is served, where it is of the moment at which it is served.
    pub(crate) fn at_once(self) -> Self {
        match self.stage {
            Stage::Minute(0) => Self {
                stage: Stage::AfterIce,
                ..self
            },
            _ => self,
        }
    }
}

impl std::fmt::Display for Stage {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::BeforeIce => f.write_str("before_ice"),
            Self::AfterIce => f.write_str("after_ice"),
            Self::Minute(minute) => write!(f, "minute_{minute}"),
            Self::PerServe => f.write_str("per_serve"),
            Self::Kept => f.write_str("kept"),
        }
    }
}

impl std::fmt::Display for FigureName {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}.{}", self.stage, self.name)
    }
}

/// A list of numbers by name; `None` where one is not known.
pub(crate) type Named<S> = Vec<(FigureName, Option<S>)>;

/// Density of ice, g/mL (models.md G9).
const ICE_GRAMS_PER_ML: f64 = 0.917;

/// Millilitres of ethanol in a UK unit, and its grams in a US standard drink.
const UK_UNIT_MILLILITRES: f64 = 10.0;
const US_STANDARD_DRINK_GRAMS: f64 = 14.0;

/// Of what pours in a stream.
pub(crate) struct Numbers<S: Scalar> {
    /// Mass, g.
    pub mass: S,
    /// Volume at its temperature, mL.
    pub volume: Option<S>,
    /// Temperature, °C.
    pub celsius: S,
    /// The properties.
    pub properties: Properties<S>,
}

impl<S: Scalar> Numbers<S> {
    pub(crate) fn of(stream: &Stream<S>) -> Self {
        let mut found = properties(&stream.liquid, Celsius(stream.celsius));
        if stream.liquid.is_empty() {
            // What does not pour has no figures of a liquid, and needs no excuse for each.
            found.notes.clear();
        }
        let liquid = stream.liquid.total().0;
        // Of what pours, and the ice beaten into it; a jar of pieces has no volume to speak of.
        let volume = found
            .get(Property::Density)
            .filter(|_| stream.pieces.is_empty() && stream.crystals.is_empty())
            .map(|d| liquid / d * 1000.0 + stream.ice / ICE_GRAMS_PER_ML);
        let others = stream.crystals.total().0 + stream.pieces.total().0 + stream.ice;
        Self {
            mass: liquid + others,
            volume,
            celsius: stream.celsius,
            properties: found,
        }
    }

    fn list(&self, stage: Stage, dilution: Option<Option<S>>, list: &mut Named<S>) {
        let mut put = |name, number| list.push((FigureName { stage, name }, number));
        put("mass_g", Some(self.mass));
        put("volume_ml", self.volume);
        put("temperature_celsius", Some(self.celsius));
        if let Some(dilution) = dilution {
            put("dilution_percent", dilution);
        }
        for (property, number) in self.properties.iter() {
            put(property.name(), number);
        }
    }
}

/// Of what a prep keeps.
pub(crate) fn of_prep<S: Scalar>(made: &Made<S>) -> Named<S> {
    let mut list = Vec::with_capacity(Property::COUNT + 3);
    Numbers::of(&made.kept).list(Stage::Kept, None, &mut list);
    list
}

/// Of a drink.
pub(crate) struct DrinkNumbers<S: Scalar> {
    pub before: Numbers<S>,
    pub after: Numbers<S>,
    /// Melt as water at 20 °C, mL for 100 mL that met the ice.
    pub dilution_percent: Option<S>,
    pub serve: Serve<S>,
}

/// What one serve brings, what is eaten of its garnish counted.
pub(crate) struct Serve<S> {
    pub alcohol_g: S,
    pub uk_units: S,
    pub us_standard_drinks: S,
    pub energy_kcal: S,
    pub sugar_g: S,
    pub caffeine_mg: S,
}

impl<S: Scalar> DrinkNumbers<S> {
    pub(crate) fn of(mixed: &Mixed<S>) -> Self {
        let before = Numbers::of(&mixed.before);
        let dilution_percent = dilution(mixed.melt, before.properties.get(Property::Volume));
        // What is drunk, and what is eaten of the garnish.
        let eaten = mixed.garnish.iter().map(|(_, _, eaten)| eaten.matter());
        let eaten: Vec<Mixture<S>> = eaten.collect();
        let whole = |of: &dyn Fn(&Mixture<S>) -> S| {
            let drunk = of(&mixed.after.liquid);
            eaten.iter().fold(drunk, |sum, eaten| sum + of(eaten))
        };
        let alcohol = whole(&|matter| matter.grams(Substance::Ethanol));
        Self {
            dilution_percent,
            after: Numbers::of(&mixed.after),
            before,
            serve: Serve {
                alcohol_g: alcohol,
                uk_units: alcohol / (density::PURE_ETHANOL_20C / 1000.0) / UK_UNIT_MILLILITRES,
                us_standard_drinks: alcohol / US_STANDARD_DRINK_GRAMS,
                energy_kcal: whole(&energy::kilocalories),
                sugar_g: whole(&Mixture::sugars),
                caffeine_mg: whole(&|matter| matter.grams(Substance::Caffeine)) * 1000.0,
            },
        }
    }

    pub(crate) fn list(&self) -> Named<S> {
        let mut list = Vec::with_capacity(2 * Property::COUNT + 14);
        let none = Some(Some(S::zero()));
        self.before.list(Stage::BeforeIce, none, &mut list);
        self.after
            .list(Stage::AfterIce, Some(self.dilution_percent), &mut list);
        let serve = &self.serve;
        for (name, number) in [
            ("alcohol_g", serve.alcohol_g),
            ("uk_units", serve.uk_units),
            ("us_standard_drinks", serve.us_standard_drinks),
            ("energy_kcal", serve.energy_kcal),
            ("sugar_g", serve.sugar_g),
            ("caffeine_mg", serve.caffeine_mg),
        ] {
            let stage = Stage::PerServe;
            list.push((FigureName { stage, name }, Some(number)));
        }
        list
    }
}

/// A drink in its glass at some minute, over ice.
pub(crate) struct Later<S: Scalar> {
    pub minute: u32,
    pub numbers: Numbers<S>,
    /// All melt, as [`DrinkNumbers::dilution_percent`].
    pub dilution_percent: Option<S>,
}

impl<S: Scalar> Later<S> {
    /// A drink at each of some minutes; nothing where it is not poured over ice.
    pub(crate) fn of(mixed: &Mixed<S>, inputs: &Inputs, at: &[u32]) -> Vec<Self> {
        let minutes = mixed.over_time(inputs, at);
        if minutes.is_empty() {
            return Vec::new();
        }
        let at_20c = Celsius(S::from(density::STANDARD_TEMPERATURE.0));
        let before = density::volume(&mixed.before.liquid, at_20c);
        let before = before.ok().map(|volume| volume.0);
        let later = minutes.iter().map(|later| Self {
            minute: later.minute,
            numbers: Numbers::of(&later.stream),
            dilution_percent: dilution(mixed.melt + later.melt, before),
        });
        later.collect()
    }

    pub(crate) fn list(&self, list: &mut Named<S>) {
        let stage = Stage::Minute(self.minute);
        self.numbers.list(stage, Some(self.dilution_percent), list);
    }
}

/// Melt as water at 20 °C, mL for 100 mL of what met the ice.
fn dilution<S: Scalar>(melt_grams: S, volume_before: Option<S>) -> Option<S> {
    volume_before
        .filter(|v| v.value() > 0.0)
        .map(|v| melt_grams * 100.0 / (density::WATER_20C / 1000.0) / v)
}
