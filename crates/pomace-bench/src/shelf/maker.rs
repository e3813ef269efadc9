//! From a reference to an item: the catalogue's, a part of a whole, or what the house tells.

use pomace_book::{
    Document, DocumentId, Finding, Graph, IngredientDoc, PartDoc, Reference, ToldValue,
};
use pomace_larder::{Basis, Form};
use pomace_matter::Substance;

use super::bought::{bought, place, spirit};
use super::cautions::{AMYGDALIN, holds_amygdalin};
use super::item::{Item, Similar};
use crate::finding;
use crate::stream::Carried;

/// So many ingredients may each be like the next.
const DEEPEST: usize = 64;

pub(super) struct Maker<'a> {
    pub book: &'a pomace_book::Book,
    pub graph: &'a Graph,
    pub findings: &'a mut Vec<Finding>,
    pub depth: usize,
}

impl Maker<'_> {
    pub(super) fn make(&mut self, reference: &Reference) -> Option<Item> {
        // Ingredients may start from one another; the resolver has refused loops.
        if self.depth > DEEPEST {
            if let Reference::Document(id) = reference {
                self.findings.push(finding::too_deep(self.book, *id));
            }
            return None;
        }
        self.depth += 1;
        let item = self.find(reference);
        self.depth -= 1;
        item
    }

    fn find(&mut self, reference: &Reference) -> Option<Item> {
        match reference {
            Reference::Catalogue(ingredient) => Some(bought(ingredient)),
            Reference::Spirit {
                name,
                strength_percent,
            } => Some(spirit(name, *strength_percent)),
            Reference::WholePart { whole, part } => {
                let part = whole.parts.get(*part)?;
                let mut item = match part.as_ingredient() {
                    Some(ingredient) => bought(ingredient),
                    None => self.stand_in(whole.name, part.moisture_percent)?,
                };
                item.name = format!("{} / {}", whole.name, part.name).into();
                item.part_of = Some((whole.name.to_owned(), part.high));
                if holds_amygdalin(whole.name, part.name) {
                    item.cautions.push(AMYGDALIN.to_owned());
                }
                if !part.notes.is_empty() {
                    item.remarks.push(part.notes.to_owned());
                }
                Some(item)
            }
            Reference::Part { of, part } => self.part(of, part),
            Reference::Document(id) => match self.book.document(*id)? {
                Document::Ingredient(doc) => Some(self.told(*id, doc)),
                _ => None,
            },
            _ => None,
        }
    }

    /// A part of which only the whole's composition is known.
    fn stand_in(&mut self, whole: &str, moisture_percent: Option<f64>) -> Option<Item> {
        let mut item = bought(pomace_larder::find(whole)?);
        item.remarks.push(format!(
            "composition not known; taken like `{}`, with wide doubt",
            item.name
        ));
        item.gram.carried.basis = Some(Basis::Assumed);
        item.form = Form::Pieces;
        let mut all = item.gram.matter();
        if let Some(percent) = moisture_percent {
            let water = percent / 100.0;
            let dry = all.total().0 - all.grams(Substance::Water);
            if dry > 0.0 && water < 1.0 {
                all = all * ((1.0 - water) / dry);
                all.set(Substance::Water, water);
            }
        }
        item.gram = place(
            all,
            Form::Pieces,
            item.gram.carried.clone(),
            item.gram.celsius,
        );
        Some(item)
    }

    fn part(&mut self, of: &Reference, part: &str) -> Option<Item> {
        let Reference::Document(id) = of else {
            return None;
        };
        let Document::Ingredient(doc) = self.book.document(*id)? else {
            return None;
        };
        let known = doc
            .parts
            .iter()
            .enumerate()
            .find(|(_, p)| pomace_book::names::same(&p.name, part));
        let whole = self.told(*id, doc);
        let Some((index, part_doc)) = known else {
            let like = doc.based_on.as_ref();
            let like = like.and_then(|like| pomace_larder::part(like, part));
            let (larder, part) = like.or_else(|| pomace_larder::part(&doc.name, part))?;
            let base = larder.parts.iter().position(|p| p == part)?;
            return self.make(&Reference::WholePart {
                whole: larder,
                part: base,
            });
        };
        let mut item = match self.graph.part_like(*id, index).cloned() {
            Some(like) => self.make(&like)?,
            None => Item {
                form: Form::Pieces,
                ..whole.clone()
            },
        };
        self.shape_part(&mut item, *id, doc, part_doc);
        item.gram.carried.join(&Carried {
            basis: None,
            origins: Vec::new(),
            ..whole.gram.carried
        });
        item.cautions.extend(whole.cautions);
        Some(item)
    }

    fn shape_part(&mut self, item: &mut Item, id: DocumentId, doc: &IngredientDoc, part: &PartDoc) {
        let of = std::mem::take(&mut item.name);
        item.name = format!("{} / {}", doc.name.value, part.name.value).into();
        item.piece_grams = None;
        item.cautions
            .extend(part.cautions.iter().map(|c| c.value.clone()));
        if let Some(form) = &part.form {
            item.form = form.value;
        }
        if !part.composition.is_empty() {
            item.similar = Similar::default();
            item.remarks.clear();
            let mixture = self.composition(id, &part.composition, &mut item.remarks);
            let mut carried = item.gram.carried.clone();
            carried.basis = Some(Basis::Declared);
            item.gram = place(mixture, item.form, carried, item.gram.celsius);
            item.source = format!("the house's own figures ({})", doc.name.value);
        } else {
            item.similar = Similar {
                contents: Some(of),
                strength: None,
            };
            item.remarks.extend(item.similar.remark());
            item.gram = place(
                item.gram.matter(),
                item.form,
                item.gram.carried.clone(),
                item.gram.celsius,
            );
        }
        item.part_of = part.share.as_ref().and_then(|s| match s.value {
            ToldValue::Exactly(share) => Some((doc.name.value.clone(), share)),
            ToldValue::Between(_, high) => Some((doc.name.value.clone(), high)),
            ToldValue::NotStated => None,
        });
        self.allergens(id, &part.allergens, &mut item.gram.carried);
    }
}
