//! The bare numbers of a result, in any number type: values, or values with their slopes.
//!
//! A report says them with their units and how well they are known; doubt takes their slopes.

use pomace_matter::liquid::{Properties, Property, properties};
use pomace_matter::units::Celsius;
use pomace_matter::{Scalar, Substance, density, energy};

use crate::made::{Made, Mixed};
use crate::stream::Stream;

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

    fn list(&self, stage: &'static str, dilution: Option<Option<S>>, list: &mut Named<S>) {
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
    Numbers::of(&made.kept).list("kept", None, &mut list);
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
        let mut drunk = mixed.after.liquid;
        for (_, _, eaten) in &mixed.garnish {
            drunk += eaten.matter();
        }
        let alcohol = drunk.grams(Substance::Ethanol);
        Self {
            dilution_percent,
            after: Numbers::of(&mixed.after),
            before,
            serve: Serve {
                alcohol_g: alcohol,
                uk_units: alcohol / (density::PURE_ETHANOL_20C / 1000.0) / UK_UNIT_MILLILITRES,
                us_standard_drinks: alcohol / US_STANDARD_DRINK_GRAMS,
                energy_kcal: energy::kilocalories(&drunk),
                sugar_g: drunk.sugars(),
                caffeine_mg: drunk.grams(Substance::Caffeine) * 1000.0,
            },
        }
    }

    pub(crate) fn list(&self) -> Named<S> {
        let mut list = Vec::with_capacity(2 * Property::COUNT + 14);
        let none = Some(Some(S::zero()));
        self.before.list("before_ice", none, &mut list);
        self.after
            .list("after_ice", Some(self.dilution_percent), &mut list);
        let serve = &self.serve;
        for (name, number) in [
            ("alcohol_g", serve.alcohol_g),
            ("uk_units", serve.uk_units),
            ("us_standard_drinks", serve.us_standard_drinks),
            ("energy_kcal", serve.energy_kcal),
            ("sugar_g", serve.sugar_g),
            ("caffeine_mg", serve.caffeine_mg),
        ] {
            let stage = "per_serve";
            list.push((FigureName { stage, name }, Some(number)));
        }
        list
    }
}

/// Melt as water at 20 °C, mL for 100 mL of what met the ice.
pub(crate) fn dilution<S: Scalar>(melt_grams: S, volume_before: Option<S>) -> Option<S> {
    volume_before
        .filter(|v| v.value() > 0.0)
        .map(|v| melt_grams * 100.0 / (density::WATER_20C / 1000.0) / v)
}
