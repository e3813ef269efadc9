//! All that can be said of a liquid at once.

use std::fmt;

use crate::acidity;
use crate::activity::{Activity, freezing};
use crate::density;
use crate::energy;
use crate::mixture::Mixture;
use crate::range::{ACTIVITY_TEMPERATURE, Outside};
use crate::refraction;
use crate::saturation::Crystal;
use crate::scalar::Scalar;
use crate::substance::Substance;
use crate::taste;
use crate::units::{Celsius, ICE_POINT_KELVIN, VolumePercent};

macro_rules! properties {
    ($($(#[$doc:meta])* $variant:ident, $name:literal, $label:literal, $unit:literal, $decimals:literal;)*) => {
        /// A property of a liquid.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[repr(u8)]
        pub enum Property { $($(#[$doc])* $variant,)* }

        impl Property {
            /// All of them, in the order in which they are shown.
            pub const ALL: [Self; Self::COUNT] = [$(Self::$variant,)*];
            /// How many there are.
            pub const COUNT: usize = [$($name,)*].len();

            /// Its name in JSON and CSV, unit included.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name,)* }
            }

            /// Its name for people.
            #[must_use]
            pub const fn label(self) -> &'static str {
                match self { $(Self::$variant => $label,)* }
            }

            /// Its unit for people.
            #[must_use]
            pub const fn unit(self) -> &'static str {
                match self { $(Self::$variant => $unit,)* }
            }

            /// Decimals that are worth showing.
            #[must_use]
            pub const fn decimals(self) -> usize {
                match self { $(Self::$variant => $decimals,)* }
            }
        }
    };
}

properties! {
    /// Density at the temperature of the liquid.
    Density, "density_kg_per_m3", "density", "kg/m³", 1;
    /// Volume at 20 °C.
    Volume, "volume_ml_20c", "volume at 20 °C", "mL", 1;
    /// Strength at 20 °C.
    Strength, "abv_percent", "strength", "%vol", 1;
    /// Dissolved solids by mass.
    SolubleSolids, "soluble_solids_percent", "dissolved solids", "% by mass", 1;
    /// What a refractometer shows at 20 °C.
    RefractometerBrix, "refractometer_brix", "a refractometer reads", "°Bx", 1;
    /// All sugars.
    Sugar, "sugar_g_per_100ml", "sugar", "g/100 mL", 1;
    /// All acids.
    Acid, "acid_g_per_100ml", "acid", "g/100 mL", 2;
    /// Titratable acidity as citric acid.
    TitratableAcidity, "titratable_acidity_citric_g_per_l", "titratable acidity, as citric", "g/L", 1;
    /// pH at 25 °C.
    Ph, "ph", "pH", "", 2;
    /// Water activity at the temperature of the liquid.
    WaterActivity, "water_activity", "water activity", "", 3;
    /// Freezing point.
    FreezingPoint, "freezing_point_celsius", "begins to freeze at", "°C", 1;
    /// Sweetness.
    Sweetness, "sweetness_sucrose_g_per_100ml", "sweetness, as sucrose", "g/100 mL", 1;
    /// Energy.
    Energy, "energy_kcal_per_100ml", "energy", "kcal/100 mL", 0;
}

impl fmt::Display for Property {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// Something that must be said beside the figures.
#[derive(Clone, Debug, PartialEq)]
pub enum Note {
    /// A property is left out, since the liquid lies outside its model.
    LeftOut {
        /// Which property.
        property: Property,
        /// Why.
        outside: Outside,
    },
    /// A property is left out that is told per volume, since the volume is.
    NeedsVolume {
        /// Which property.
        property: Property,
    },
    /// A property is left out since no model says what it is.
    NoModel {
        /// Which property.
        property: Property,
    },
    /// No freezing point above −58 °C.
    StaysLiquid,
    /// More of something than water can hold at this temperature.
    OverSaturated {
        /// What may crystallise.
        crystal: Crystal,
        /// Its share of itself and water, %.
        percent: f64,
        /// The share at which water is saturated, %.
        saturated_percent: f64,
    },
    /// pH in a strong drink is no more than a hint.
    IndicativePh,
    /// pH where ions are too many for their activity coefficients.
    CrowdedIons {
        /// Ionic strength, mol/kg of water.
        ionic_strength: f64,
    },
    /// Minerals outweigh the acids that could hold them, so the pH is not that of a food.
    Unbalanced,
    /// Colder than its freezing point: the figures are those of the liquid before any ice forms.
    Supercooled {
        /// Freezing point, °C.
        freezing_celsius: f64,
    },
    /// More of a substance than the data reached: volume and refraction are carried on.
    BeyondData {
        /// Which substance.
        substance: Substance,
    },
}

impl Note {
    /// The property that is missing, where that is what the note says.
    const fn of_missing(&self) -> Option<Property> {
        match self {
            Self::LeftOut { property, .. }
            | Self::NeedsVolume { property }
            | Self::NoModel { property } => Some(*property),
            Self::StaysLiquid => Some(Property::FreezingPoint),
            _ => None,
        }
    }

    /// The property that is missing and why, where that is what the note says.
    #[must_use]
    pub fn missing(&self) -> Option<(Property, String)> {
        match self {
            Self::LeftOut { property, outside } => Some((*property, outside.to_string())),
            Self::NeedsVolume { property } => {
                Some((*property, "the volume is not known".to_owned()))
            }
            Self::NoModel { property } => Some((*property, "no model says".to_owned())),
            Self::StaysLiquid => Some((
                Property::FreezingPoint,
                "it stays liquid down to −58 °C".to_owned(),
            )),
            _ => None,
        }
    }
}

/// One line without `;`, so that notes can be parted by it; it begins with what it is about.
impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some((property, why)) = self.missing() {
            return write!(f, "{property}: {why}");
        }
        match self {
            Self::OverSaturated {
                crystal,
                percent,
                saturated_percent,
            } => write!(
                f,
                "{crystal}: {percent:.1} % of {crystal} and water, water holds {saturated_percent:.1} %, may crystallise"
            ),
            Self::IndicativePh => f.write_str("ph: a hint only above 30 %vol"),
            Self::CrowdedIons { ionic_strength } => write!(
                f,
                "ph: ionic strength {ionic_strength:.1} mol/kg, beyond 0.5 where the activity of ions is known: ± 0.3"
            ),
            Self::Unbalanced => f.write_str(
                "ph: the minerals outweigh the acids given, as if there were lye in it: give the acids that hold them",
            ),
            Self::Supercooled { freezing_celsius } => write!(
                f,
                "ice would form below {freezing_celsius:.1} °C: figures are those of the liquid without it"
            ),
            Self::BeyondData { substance } => write!(
                f,
                "density_kg_per_m3, refractometer_brix: more {} than the data reached, carried on from there",
                substance.label()
            ),
            Self::LeftOut { .. }
            | Self::NeedsVolume { .. }
            | Self::NoModel { .. }
            | Self::StaysLiquid => Ok(()),
        }
    }
}

/// The properties of a liquid; what no model covers is missing and named in the notes.
#[derive(Clone, Debug, PartialEq)]
pub struct Properties<S = f64> {
    values: [Option<S>; Property::COUNT],
    /// What must be said beside the figures: first every property that is missing, in order.
    pub notes: Vec<Note>,
}

impl<S: Scalar> Properties<S> {
    /// A property, if it is known.
    #[must_use]
    pub fn get(&self, property: Property) -> Option<S> {
        self.values[property as usize]
    }

    /// Every property with its value.
    pub fn iter(&self) -> impl Iterator<Item = (Property, Option<S>)> + '_ {
        Property::ALL.into_iter().zip(self.values)
    }

    fn keep(&mut self, property: Property, value: Result<S, Outside>) -> Option<S> {
        match value {
            Ok(value) if value.value().is_finite() => {
                self.values[property as usize] = Some(value);
                Some(value)
            }
            Ok(_) => None,
            Err(outside) => {
                self.notes.push(Note::LeftOut { property, outside });
                None
            }
        }
    }

    /// Names every missing property, in order, before all else that was noted.
    fn name_missing(&mut self) {
        if self.values.iter().all(Option::is_some) {
            return;
        }
        let (mut told, others): (Vec<Note>, Vec<Note>) = std::mem::take(&mut self.notes)
            .into_iter()
            .partition(|note| note.of_missing().is_some());
        for (property, value) in Property::ALL.into_iter().zip(self.values) {
            if value.is_some() {
                continue;
            }
            let reason = told
                .iter()
                .position(|note| note.of_missing() == Some(property));
            self.notes.push(match reason {
                Some(at) => told.swap_remove(at),
                None if property.is_per_volume() && self.get(Property::Volume).is_none() => {
                    Note::NeedsVolume { property }
                }
                None => Note::NoModel { property },
            });
        }
        self.notes.extend(others);
    }
}

impl Property {
    /// Whether it is told for a volume of the liquid.
    const fn is_per_volume(self) -> bool {
        matches!(
            self,
            Self::Strength
                | Self::Sugar
                | Self::Acid
                | Self::TitratableAcidity
                | Self::Sweetness
                | Self::Energy
        )
    }
}

/// Everything that can be said of a liquid at a temperature.
///
/// Insoluble substances in it count as particles: they take room, and nothing else.
///
/// ```
/// use pomace_matter::{Mixture, Substance, liquid::{Property, properties}, units::{Celsius, Grams}};
/// let sour = Mixture::of(&[
///     (Substance::Water, Grams(60.0)),
///     (Substance::Ethanol, Grams(24.0)),
///     (Substance::Sucrose, Grams(10.0)),
///     (Substance::Citric, Grams(1.0)),
/// ]);
/// let figures = properties(&sour, Celsius(20.0));
/// assert!(figures.get(Property::Strength).unwrap() > 30.0);
/// ```
#[must_use]
pub fn properties<S: Scalar>(liquid: &Mixture<S>, temperature: Celsius<S>) -> Properties<S> {
    use Property as P;
    let mut found = Properties {
        values: [None; Property::COUNT],
        notes: Vec::new(),
    };
    let makeup = density::Makeup::of(liquid);
    found.keep(
        P::Density,
        density::density_of(&makeup, temperature).map(|d| d.0),
    );
    let standard = Celsius(S::from(density::STANDARD_TEMPERATURE.0));
    if let Some(volume) = found.keep(
        P::Volume,
        density::volume_of(&makeup, standard).map(|v| v.0),
    ) {
        let per_100 = |grams: S| grams / volume * 100.0;
        let strength = density::strength_in(liquid, crate::units::Millilitres(volume)).0;
        found.keep(P::Strength, Ok(strength));
        found.keep(P::Sugar, Ok(per_100(liquid.sugars())));
        found.keep(P::Acid, Ok(per_100(liquid.acids())));
        found.keep(P::Energy, Ok(per_100(energy::kilocalories(liquid))));
        found.keep(
            P::Sweetness,
            Ok(taste::sweetness(liquid, volume, temperature.0)),
        );
        let titrated = acidity::titratable_as_citric(liquid);
        found.keep(P::TitratableAcidity, titrated.map(|g| g / volume * 1000.0));
        find_ph(&mut found, liquid, Some(VolumePercent(strength)));
    } else {
        find_ph(&mut found, liquid, None);
    }
    if makeup.soluble.value() > 0.0 {
        let of_all = makeup.soluble / makeup.total;
        found.keep(P::SolubleSolids, Ok(makeup.solids * of_all * 100.0));
    }
    let index = match found.get(P::Volume) {
        Some(volume) => Ok(refraction::index_in(&makeup, volume)),
        None => refraction::index(liquid),
    };
    let brix = index.and_then(refraction::brix::from_index);
    found.keep(P::RefractometerBrix, brix.map(|b| b.0));
    match Activity::of(liquid) {
        Ok(activity) => {
            let at = ACTIVITY_TEMPERATURE.check(temperature.0);
            found.keep(
                P::WaterActivity,
                at.map(|t| activity.ln_activity(t + ICE_POINT_KELVIN).exp()),
            );
            match freezing::of_activity(&activity).celsius() {
                Some(t) => {
                    found.keep(P::FreezingPoint, Ok(t.0));
                    if temperature.0.value() < t.0.value() - 0.05 {
                        found.notes.push(Note::Supercooled {
                            freezing_celsius: t.0.value(),
                        });
                    }
                }
                None => found.notes.push(Note::StaysLiquid),
            }
        }
        Err(outside) => {
            found.keep(P::WaterActivity, Err(outside));
            found.keep(P::FreezingPoint, Err(outside));
        }
    }
    let plain = liquid.values();
    let crystals = over_saturated(&plain, temperature.0.value());
    found.notes.extend(crystals);
    if found.get(P::Density).is_some() || found.get(P::RefractometerBrix).is_some() {
        let beyond = density::beyond_data(&makeup);
        found
            .notes
            .extend(beyond.map(|substance| Note::BeyondData { substance }));
    }
    found.name_missing();
    found
}

fn find_ph<S: Scalar>(
    found: &mut Properties<S>,
    liquid: &Mixture<S>,
    strength: Option<VolumePercent<S>>,
) {
    use Property as P;
    let ionic = acidity::ionic_at(liquid, Celsius(25.0), strength);
    let solved = ionic.and_then(|ionic| acidity::solve(&ionic));
    found.keep(P::Ph, solved.map(|s| s.ph));
    if found.get(P::Ph).is_none() {
        return;
    }
    if let Ok(solved) = solved {
        let ionic_strength = solved.ionic_strength.value();
        if ionic_strength > 0.5 {
            found.notes.push(Note::CrowdedIons { ionic_strength });
        }
        if solved.ph.value() > 10.0 {
            found.notes.push(Note::Unbalanced);
        }
    }
    if strength.is_some_and(|strength| strength.0.value() > 30.0) {
        found.notes.push(Note::IndicativePh);
    }
}

/// What there is more of than the water can hold at `t` in °C.
#[must_use]
pub fn over_saturated(liquid: &Mixture, t: f64) -> Vec<Note> {
    let water = liquid.grams(Substance::Water);
    Crystal::ALL
        .into_iter()
        .filter_map(|crystal| {
            let grams = crystal.grams(liquid);
            if grams <= 0.0 {
                return None;
            }
            let percent = grams / (grams + water) * 100.0;
            let saturated_percent = crystal.saturated_percent(t)?;
            (percent > saturated_percent).then_some(Note::OverSaturated {
                crystal,
                percent,
                saturated_percent,
            })
        })
        .collect()
}
