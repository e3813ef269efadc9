//! What is bought: the catalogue's composition made whole, and plain spirit.

use pomace_larder::{Basis, Form, Ingredient};
use pomace_matter::density::{self, ethanol_water};
use pomace_matter::units::{Celsius, VolumePercent};
use pomace_matter::{Mixture, Substance, acidity};

use super::cautions::{RAW_EGG, carried_raw_egg};
use super::item::{Item, Similar};
use crate::house::{FRIDGE, ROOM};
use crate::stream::{Carried, Stream};

/// Matter in the place of a stream where its form belongs.
pub(super) fn place(matter: Mixture, form: Form, carried: Carried, celsius: f64) -> Stream {
    let mut stream = Stream {
        celsius,
        carried,
        ..Stream::default()
    };
    match form {
        Form::Liquid | Form::Thick => stream.liquid = matter,
        Form::Crystals => stream.crystals = matter,
        Form::Pieces | Form::Powder => stream.pieces = matter,
    }
    stream
}

pub(super) fn model_density(mixture: &Mixture) -> Option<f64> {
    density::density(mixture, Celsius(20.0))
        .ok()
        .map(|d| d.0 / 1000.0)
}

/// A plant of which no pH is known is taken to be about as sour as most leaves and peels.
const USUAL_PH: f64 = 5.8;

/// Sets the charge that no table lists. A pH that is known says what it is. Where none is known, and
/// the minerals outweigh the acids that the table names, something unlisted must hold them: else a
/// leaf would come out as lye.
fn balance_ions(gram: &mut Mixture, ph: Option<pomace_larder::PhRange>) -> Option<String> {
    let charge = |ph: f64| acidity::unlisted_charge_for_ph(gram, ph).ok();
    if let Some((ph, charge)) = ph.and_then(|ph| Some((ph, charge(0.5 * (ph.low + ph.high))?))) {
        gram.unlisted_charge = charge;
        return Some(format!(
            "ions set to its usual pH of {} to {}",
            ph.low, ph.high
        ));
    }
    let strong = gram.strong_ion_charge();
    match charge(USUAL_PH) {
        // The charge is counted from the listed ions on: below zero, there are too many of them.
        Some(unlisted) if unlisted < 0.0 => {
            gram.unlisted_charge = unlisted;
            (strong > 1e-6)
                .then(|| format!("minerals outweigh the acids known: held at pH {USUAL_PH}"))
        }
        Some(_) => None,
        None => {
            // Too dry for a pH: no more charge than its acids can hold.
            let held: f64 = acidity::acids::ACIDS
                .iter()
                .map(|acid| gram.moles(acid.substance) * acid.steps.len() as f64)
                .sum();
            gram.unlisted_charge -= (strong - 0.5 * held).max(0.0);
            None
        }
    }
}

/// An ingredient of the catalogue.
pub(super) fn bought(ingredient: &'static Ingredient) -> Item {
    let completed = ingredient.mixture();
    let mut gram = completed.mixture * 0.01;
    let mut remarks: Vec<String> = completed.remarks.iter().map(ToString::to_string).collect();
    if let Some(remark) = balance_ions(&mut gram, ingredient.ph) {
        remarks.push(remark);
    }
    let mut carried = Carried {
        basis: Some(ingredient.basis),
        ..Carried::default()
    };
    for allergen in &ingredient.allergens {
        carried.allergens.put(allergen.class);
    }
    for allergen in &ingredient.allergens_possible {
        carried.possible.put(allergen.class);
    }
    let fizzy = gram.grams(Substance::CarbonDioxide) > 0.0;
    Item {
        name: ingredient.name.into(),
        grams_per_ml: if ingredient.form.pours() {
            model_density(&gram)
        } else {
            ingredient.density_g_per_ml.map(|d| d.value)
        },
        gram: place(
            gram,
            ingredient.form,
            carried,
            if fizzy { FRIDGE } else { ROOM },
        ),
        form: ingredient.form,
        piece_grams: ingredient.unit.map(|u| u.as_bought_g.unwrap_or(u.edible_g)),
        piece_noun: ingredient.unit.map(|u| u.name.to_owned()),
        source: ingredient.source.to_owned(),
        remarks,
        cautions: if carried_raw_egg(ingredient) {
            vec![RAW_EGG.to_owned()]
        } else {
            Vec::new()
        },
        part_of: None,
        similar: Similar::default(),
    }
}

/// Plain spirit: ethanol and water.
pub(super) fn spirit(name: &str, strength_percent: f64) -> Item {
    let p = ethanol_water::mass_fraction(VolumePercent(strength_percent.clamp(0.0, 100.0)))
        .map_or(0.0, |p| p.0);
    let mut gram = Mixture::default();
    gram.put(Substance::Ethanol, p);
    gram.put(Substance::Water, 1.0 - p);
    let carried = Carried {
        basis: Some(Basis::Declared),
        ..Carried::default()
    };
    Item {
        name: format!("{name}, {strength_percent} %").into(),
        grams_per_ml: model_density(&gram),
        gram: place(gram, Form::Liquid, carried, ROOM),
        form: Form::Liquid,
        piece_grams: None,
        piece_noun: None,
        source: "the strength on its label; ethanol and water, nothing else".to_owned(),
        remarks: Vec::new(),
        cautions: Vec::new(),
        part_of: None,
        similar: Similar::default(),
    }
}
