//! The house: its ice, its vessels, its rooms. What it has not said is assumed.

use pomace_book::{Amount, Book, Document, Ice, Reading};
use pomace_matter::Scalar;
use pomace_matter::ice::chilling::Motion;

use crate::glass::{FILLED, GlassIce, Told};
use crate::remark::Assumption;
use crate::steps::ice::Chilling;
use crate::vessel::Vessel;

const PRACTICE: &str = "common practice, no source";

/// Settings that steps fall back on.
#[derive(Clone, Debug)]
pub struct House {
    /// Name of the house, if the book has one.
    pub name: Option<String>,
    /// The ice in use where a step names none.
    ice: Option<Ice>,
    /// Millilitres of one dash, if measured.
    dash: Option<f64>,
    /// Millilitres of one drop, if measured.
    drop: Option<f64>,
    /// Millilitres of one barspoon, if measured.
    barspoon: Option<f64>,
    /// Millilitres of each jigger mark.
    measures: Vec<f64>,
}

/// Room temperature, °C.
pub(crate) const ROOM: f64 = 20.0;
/// A fridge, where what is fizzy comes from, °C.
pub(crate) const FRIDGE: f64 = 4.0;

/// Ice as it is used: dry, wet, or nothing said: °C within, and share of water on it.
const fn usual_ice(dry: Option<bool>) -> (Assumption, Assumption) {
    let (celsius, wetness) = match dry {
        Some(true) => ((-4.0, -10.0, -1.0), (0.5, 0.0, 1.0)),
        Some(false) => ((0.0, -1.0, 0.0), (4.0, 2.0, 7.0)),
        None => ((-1.0, -5.0, 0.0), (2.0, 0.5, 4.0)),
    };
    (
        Assumption::new("temperature of the ice", celsius, "°C", PRACTICE),
        Assumption::new("water on the ice", wetness, "% of its weight", PRACTICE),
    )
}

/// What is usual for a motion.
struct Usual {
    ice: Assumption,
    vessel: Assumption,
    time: Assumption,
    pace: Assumption,
}

/// A tin or glass that stood at the bar.
const WARM_VESSEL: Assumption = Assumption::new(
    "temperature of the vessel",
    (ROOM, 10.0, 24.0),
    "°C",
    PRACTICE,
);

const fn usual_motion(motion: Motion) -> Usual {
    let pace = motion.time_constant_seconds();
    let (ice, vessel, time) = match motion {
        Motion::Shake => ((2.0, 1.5, 3.0), (60.0, 40.0, 120.0), (12.0, 8.0, 15.0)),
        Motion::Stir => ((1.8, 1.2, 2.5), (80.0, 40.0, 300.0), (30.0, 15.0, 60.0)),
        Motion::Throw => ((2.0, 1.5, 3.0), (80.0, 50.0, 150.0), (15.0, 8.0, 25.0)),
        Motion::Swizzle => ((2.5, 1.5, 3.5), (120.0, 60.0, 250.0), (15.0, 8.0, 25.0)),
        Motion::Blend => ((1.5, 1.0, 2.5), (150.0, 80.0, 300.0), (15.0, 8.0, 30.0)),
    };
    Usual {
        ice: Assumption::new("ice", ice, "g per g of drink", PRACTICE),
        vessel: Assumption::new("heat of the vessel", vessel, "J/K", PRACTICE),
        time: Assumption::new("time over ice", time, "s", PRACTICE),
        pace: Assumption::new(
            "pace of the melt",
            (pace, 0.7 * pace, 1.4 * pace),
            "s",
            "estimate, no source",
        ),
    }
}

impl House {
    /// The settings of a book: its first house document, if there is one.
    #[must_use]
    pub fn of(book: &Book) -> Self {
        let doc = book.documents().find_map(|(_, document)| match document {
            Document::House(house) => Some(house),
            _ => None,
        });
        let millilitres = |amount: Option<&Amount>| match amount.map(|a| &a.reading) {
            Some(Reading::Volume { millilitres }) => Some(*millilitres),
            _ => None,
        };
        Self {
            name: doc.map(|d| d.name.value.clone()),
            ice: doc.and_then(|d| d.ice.as_ref().map(|i| i.value.clone())),
            dash: millilitres(doc.and_then(|d| d.dash.as_deref())),
            drop: millilitres(doc.and_then(|d| d.drop.as_deref())),
            barspoon: millilitres(doc.and_then(|d| d.barspoon.as_deref())),
            measures: doc
                .iter()
                .flat_map(|d| &d.measures)
                .filter_map(|m| millilitres(Some(&m.value)))
                .filter(|ml| *ml > 0.0)
                .collect(),
        }
    }

    /// The marks of the jiggers in the house, mL.
    #[must_use]
    pub fn measures(&self) -> &[f64] {
        &self.measures
    }

    /// Millilitres of so many small measures, by the house's own bottles where it has measured them.
    #[must_use]
    pub fn small_measure(&self, measure: pomace_book::SmallMeasure, count: f64) -> Option<f64> {
        use pomace_book::SmallMeasure as M;
        let one = match measure {
            M::Dash => self.dash,
            M::Drop => self.drop,
            M::Barspoon => self.barspoon,
        };
        one.map(|ml| ml * count)
    }

    /// Ice that a drink is poured over.
    pub(crate) fn glass_ice(&self, ice: &Ice) -> GlassIce {
        use pomace_book::IceShape as Shape;
        let is_block = matches!(ice.shape, Some(Shape::Block | Shape::Sphere | Shape::Spear));
        let [cubes, block] = FILLED;
        let (cold, _) = usual_ice(ice.dry);
        GlassIce {
            grams: Told::or(ice_grams(ice), if is_block { block } else { cubes }),
            is_block,
            celsius: Told::or(ice.celsius, cold),
        }
    }

    /// Ice, vessel and time of a step for a drink of `drink_grams`, all read with their doubt.
    pub(crate) fn chilling<S: Scalar>(
        &self,
        vessel: &mut Vessel<'_, S>,
        motion: Motion,
        ice: Option<&Ice>,
        seconds: Option<f64>,
    ) -> Chilling<S> {
        let ice = ice.or(self.ice.as_ref());
        let drink = vessel.stream.liquid.total().0;
        let usual = usual_motion(motion);
        let (cold, wet) = usual_ice(ice.and_then(|i| i.dry));
        let mut or = |known: Option<f64>, usual: Assumption| match known {
            Some(known) => S::from(known),
            None => vessel.assume(usual),
        };
        let ice_grams = match ice.and_then(ice_grams) {
            Some(grams) => S::from(grams),
            None => or(None, usual.ice) * drink,
        };
        Chilling {
            motion,
            seconds: or(seconds, usual.time),
            pace_seconds: or(None, usual.pace),
            ice_grams,
            ice_celsius: or(ice.and_then(|i| i.celsius), cold),
            wetness: or(None, wet) / 100.0,
            vessel_joules_per_kelvin: or(None, usual.vessel),
            vessel_celsius: or(None, WARM_VESSEL),
        }
    }
}

/// Grams of ice that a description fixes: a weight, or so many pieces of a size (917 kg/m³).
pub(crate) fn ice_grams(ice: &Ice) -> Option<f64> {
    use pomace_book::IceShape as Shape;
    if ice.grams.is_some() {
        return ice.grams;
    }
    let (count, edge) = (ice.count?, ice.size_mm?);
    let volume = match ice.shape {
        Some(Shape::Sphere) => std::f64::consts::PI / 6.0 * edge.powi(3),
        _ => edge.powi(3),
    };
    Some(count * volume / 1000.0 * 0.917)
}
