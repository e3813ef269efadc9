//! What an ingredient comes apart into: each part's share of the whole, and the part itself.

use pomace_book::{Document, DocumentId, IngredientDoc, PartDoc, Reference, ToldValue};
use pomace_larder::{Basis, Whole};
use pomace_matter::Mixture;

use super::item::Item;
use super::maker::Maker;
use crate::bench::Bench;
use crate::stream::sap_and_dry;

/// One part of an ingredient.
#[derive(Clone, Debug)]
pub struct Part {
    /// Its name: `peel`.
    pub name: String,
    /// Its share of the whole; `None` where nobody told and the catalogue does not know.
    pub share: Option<Share>,
    /// The part, ready to be measured out; `None` where nothing is known of what is in it.
    pub item: Option<Item>,
}

/// The share that a part is of its whole, % of the mass.
#[derive(Clone, Debug, PartialEq)]
pub struct Share {
    /// The usual one, %.
    pub percent: f64,
    /// From so many to so many, %, where a range is known.
    pub range: Option<(f64, f64)>,
    /// How well it is known: measured where the house tells it.
    pub basis: Basis,
    /// Where it was taken from.
    pub source: String,
}

/// What is in 100 g of something that need not pour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contents {
    /// g.
    pub water: f64,
    /// All sugars, g.
    pub sugar: f64,
    /// All acids, g.
    pub acid: f64,
    /// kcal.
    pub energy: f64,
    /// What is dissolved in its juice, % of that: about what a refractometer shows. Only of what is moist.
    pub juice_brix: Option<f64>,
}

/// Drier than this nothing runs out that a refractometer could read, g in 100 g.
const MOIST: f64 = 60.0;

impl Contents {
    /// Of any matter; `None` of nothing.
    #[must_use]
    pub fn of(matter: &Mixture) -> Option<Self> {
        let total = matter.total().0;
        if total <= 0.0 {
            return None;
        }
        let hundred = *matter * (100.0 / total);
        let water = hundred.grams(pomace_matter::Substance::Water);
        let (sap, _) = sap_and_dry(&hundred);
        let solvents = water + hundred.grams(pomace_matter::Substance::Ethanol);
        let juice = sap.total().0;
        Some(Self {
            water,
            sugar: hundred.sugars(),
            acid: hundred.acids(),
            energy: pomace_matter::energy::kilocalories(&hundred),
            juice_brix: (water >= MOIST).then(|| 100.0 * (juice - solvents) / juice),
        })
    }
}

impl Item {
    /// What is in 100 g of it.
    #[must_use]
    pub fn contents(&self) -> Option<Contents> {
        Contents::of(&self.gram.matter())
    }
}

impl Bench<'_> {
    /// What an ingredient of the book comes apart into: as its document tells; where that names no part, as the
    /// catalogue knows the whole of its name, or what it is like.
    #[must_use]
    pub fn parts(&self, id: DocumentId) -> Vec<Part> {
        let Some(Document::Ingredient(doc)) = self.book().document(id) else {
            return Vec::new();
        };
        if !doc.parts.is_empty() {
            let own = doc.parts.iter().map(|part| self.told_part(id, doc, part));
            return own.collect();
        }
        let of_catalogue = |whole: &'static Whole| {
            let counted = whole.parts.iter().filter(|part| part.counted);
            counted
                .map(|part| Part {
                    name: part.name.to_owned(),
                    share: Some(known_share(part)),
                    item: self.part_item(id, part.name),
                })
                .collect()
        };
        whole_of(doc).map(of_catalogue).unwrap_or_default()
    }

    fn told_part(&self, id: DocumentId, doc: &IngredientDoc, part: &PartDoc) -> Part {
        let told = part.share.as_ref().and_then(|share| match share.value {
            ToldValue::Exactly(percent) => Some((percent, None)),
            ToldValue::Between(low, high) => Some((f64::midpoint(low, high), Some((low, high)))),
            ToldValue::NotStated => None,
        });
        let share = told.map(|(percent, range)| Share {
            percent,
            range,
            basis: Basis::Measured,
            source: "the house's own document".to_owned(),
        });
        let known = || {
            let like = doc.based_on.as_ref();
            let like = like.and_then(|like| pomace_larder::part(like, &part.name));
            let part = like.or_else(|| pomace_larder::part(&doc.name, &part.name))?;
            Some(known_share(part.1))
        };
        Part {
            name: part.name.value.clone(),
            share: share.or_else(known),
            item: self.part_item(id, &part.name),
        }
    }

    fn part_item(&self, id: DocumentId, name: &str) -> Option<Item> {
        let reference = Reference::Part {
            of: Box::new(Reference::Document(id)),
            part: name.to_owned(),
        };
        // What there is to say of a part is said where the document is compiled.
        let mut findings = Vec::new();
        let mut maker = Maker {
            book: self.book(),
            graph: self.graph(),
            findings: &mut findings,
            depth: 0,
        };
        maker.make(&reference)
    }
}

/// The whole of the catalogue that an ingredient is, or is like.
fn whole_of(doc: &IngredientDoc) -> Option<&'static Whole> {
    let like = doc.based_on.as_ref();
    pomace_larder::whole(&doc.name).or_else(|| pomace_larder::whole(like?))
}

fn known_share(part: &pomace_larder::Part) -> Share {
    Share {
        percent: part.share_percent,
        range: (part.low < part.high).then_some((part.low, part.high)),
        basis: part.basis,
        source: part.source.to_owned(),
    }
}
