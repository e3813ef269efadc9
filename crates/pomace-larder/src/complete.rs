//! Filling the gaps of a row so that it is exactly 100 g of matter.

use std::fmt;

use pomace_matter::substance::{Kind, Set};
use pomace_matter::{Mixture, Substance};

use crate::form::Form;
use crate::ingredient::{Ingredient, is_mass};

/// 100 g of an ingredient.
#[derive(Clone, Debug, PartialEq)]
pub struct Completed {
    /// The matter.
    pub mixture: Mixture,
    /// What had to be taken for granted, in the order of the rules.
    pub remarks: Vec<Remark>,
}

/// Something that the completion of a row took for granted. Grams are in 100 g.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Remark {
    /// The table names nothing: all is booked as `other`.
    NothingKnown,
    /// Sugars known only as a sum were booked as `other_sugars`.
    SugarsUnsplit {
        /// How much.
        grams: f64,
    },
    /// Chloride was taken to balance the sodium.
    ChlorideAssumed {
        /// How much.
        grams: f64,
    },
    /// The gas of a closed bottle was added.
    GasAssumed {
        /// How much.
        grams: f64,
    },
    /// No acid is known, though there must be some.
    AcidsUnknown,
    /// Water is what the rest leaves.
    WaterByDifference {
        /// How much.
        grams: f64,
    },
    /// The table has no water, and too little else to tell it.
    WaterUnknown,
    /// Carbohydrate known only by difference was booked as sugar or as starch.
    CarbohydrateByDifference {
        /// How much.
        grams: f64,
        /// Whether as sugar.
        sweet: bool,
    },
    /// What the table leaves unnamed was booked as `other`.
    Unnamed {
        /// How much.
        grams: f64,
    },
    /// The pieces came to more than 100 g and were scaled down.
    ScaledDown {
        /// What they came to.
        from: f64,
    },
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NothingKnown => f.write_str("composition not known"),
            Self::SugarsUnsplit { grams } => {
                write!(f, "{grams:.1} g of sugars known only as a sum")
            }
            Self::ChlorideAssumed { grams } => {
                write!(f, "{grams:.2} g of chloride assumed, to balance the sodium")
            }
            Self::GasAssumed { grams } => {
                write!(
                    f,
                    "{grams:.2} g of carbon dioxide assumed, as in a closed bottle"
                )
            }
            Self::AcidsUnknown => f.write_str("acids not known"),
            Self::WaterByDifference { grams } => {
                write!(f, "water ({grams:.1} g) assumed from what the rest leaves")
            }
            Self::WaterUnknown => f.write_str("water not known"),
            Self::CarbohydrateByDifference { grams, sweet } => {
                let what = if *sweet {
                    "sugar"
                } else {
                    "starch and dextrin"
                };
                write!(
                    f,
                    "{grams:.1} g of carbohydrate known by difference, counted as {what}"
                )
            }
            Self::Unnamed { grams } => write!(f, "{grams:.1} g unnamed in the table"),
            Self::ScaledDown { from } => {
                write!(f, "the named pieces sum to {from:.1} g, scaled to 100 g")
            }
        }
    }
}

/// Sodium above this was put there as salt, g in 100 g.
const ADDED_SALT_SODIUM: f64 = 0.1;
/// Rests smaller than the last printed digit of the tables are not worth a remark, g.
const ROUNDING: f64 = 0.05;

/// Completes a row; the rules are told at [`Ingredient::mixture`].
pub(crate) fn complete(ingredient: &Ingredient) -> Completed {
    let mut mixture = Mixture::default();
    let mut remarks = Vec::new();
    if ingredient.cells().all(|(_, cell)| cell.value <= 0.0) && ingredient.sugars_unsplit.is_none()
    {
        mixture.set(Substance::Other, 100.0);
        return Completed {
            mixture,
            remarks: vec![Remark::NothingKnown],
        };
    }

    for (substance, cell) in ingredient.cells() {
        mixture.set(substance, cell.value);
    }
    if let Some(sugars) = ingredient.sugars_unsplit.filter(|cell| cell.value > 0.0) {
        mixture.put(Substance::OtherSugars, sugars.value);
        remarks.push(Remark::SugarsUnsplit {
            grams: sugars.value,
        });
    }
    take_ions_off_ash(ingredient, &mut mixture, &mut remarks);
    let gas = mixture.grams(Substance::CarbonDioxide);
    if gas > 0.0 {
        remarks.push(Remark::GasAssumed { grams: gas });
    }
    if lacks_acids(ingredient) {
        remarks.push(Remark::AcidsUnknown);
    }
    fill_or_scale(ingredient, &mut mixture, &mut remarks);
    Completed { mixture, remarks }
}

fn take_ions_off_ash(ingredient: &Ingredient, mixture: &mut Mixture, remarks: &mut Vec<Remark>) {
    let sodium = mixture.grams(Substance::Sodium);
    if ingredient.cell(Substance::Chloride).is_none() && sodium > ADDED_SALT_SODIUM {
        let chloride = mixture.moles(Substance::Sodium) * Substance::Chloride.molar_mass();
        mixture.set(Substance::Chloride, chloride);
        remarks.push(Remark::ChlorideAssumed { grams: chloride });
    }
    let ions = mixture.sum(Set::IONS);
    let ash = mixture.grams(Substance::Ash);
    mixture.set(Substance::Ash, (ash - ions).max(0.0));
}

fn lacks_acids(ingredient: &Ingredient) -> bool {
    matches!(
        ingredient.category,
        "fruit" | "juice" | "vegetable" | "vinegar"
    ) && !ingredient
        .cells()
        .any(|(substance, _)| substance.kind() == Kind::Acid && substance != Substance::Ascorbic)
}

fn fill_or_scale(ingredient: &Ingredient, mixture: &mut Mixture, remarks: &mut Vec<Remark>) {
    let total = mixture.total().0;
    let rest = 100.0 - total;
    if rest < 0.0 {
        *mixture = *mixture * (100.0 / total);
        if rest < -ROUNDING {
            remarks.push(Remark::ScaledDown { from: total });
        }
        return;
    }
    let dry = matches!(ingredient.form, Form::Crystals | Form::Powder);
    let water_known = ingredient.cell(Substance::Water).is_some();
    if !water_known && !dry && knows_proximates(ingredient) {
        mixture.put(Substance::Water, rest);
        remarks.push(Remark::WaterByDifference { grams: rest });
        return;
    }
    if !water_known && rest > ROUNDING {
        remarks.push(Remark::WaterUnknown);
    }
    let rest = rest - carbohydrate(ingredient, mixture, rest, remarks);
    mixture.put(Substance::Other, rest);
    if rest > ROUNDING {
        remarks.push(Remark::Unnamed { grams: rest });
    }
}

/// Carbohydrate that the table knows only by difference, booked in place of the unnamed rest; gives
/// its grams. It includes fibre and, but for vinegars, acids.
///
/// A fruit or juice of which no sugar is named has its sugar there; elsewhere it is dextrin, starch
/// and their like, which are not sweet.
fn carbohydrate(
    ingredient: &Ingredient,
    mixture: &mut Mixture,
    rest: f64,
    remarks: &mut Vec<Remark>,
) -> f64 {
    let Some(cell) = ingredient.carbohydrate_by_difference else {
        return 0.0;
    };
    let acids = if ingredient.category == "vinegar" {
        0.0
    } else {
        mixture.acids()
    };
    let named = mixture.sugars()
        + mixture.grams(Substance::Starch)
        + mixture.grams(Substance::Fibre)
        + acids;
    let grams = (cell.value - named).clamp(0.0, rest);
    if grams <= ROUNDING {
        return 0.0;
    }
    let no_sugar = mixture.sugars() <= 0.0;
    let sweet = no_sugar && matches!(ingredient.category, "fruit" | "juice");
    mixture.put(
        if sweet {
            Substance::OtherSugars
        } else {
            Substance::Starch
        },
        grams,
    );
    remarks.push(Remark::CarbohydrateByDifference { grams, sweet });
    grams
}

/// Whether the table has at least three of protein, fat, ash and carbohydrate.
fn knows_proximates(ingredient: &Ingredient) -> bool {
    let has = |substance| ingredient.cell(substance).is_some();
    let carbohydrate = ingredient.sugars_unsplit.is_some()
        || ingredient.carbohydrate_by_difference.is_some()
        || ingredient.cells().any(|(substance, _)| {
            is_mass(substance)
                && matches!(
                    (substance.kind(), substance),
                    (Kind::Sugar, _) | (_, Substance::Starch | Substance::Fibre)
                )
        });
    [
        has(Substance::Protein),
        has(Substance::Fat),
        has(Substance::Ash),
        carbohydrate,
    ]
    .into_iter()
    .filter(|known| *known)
    .count()
        >= 3
}
