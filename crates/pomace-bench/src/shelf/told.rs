//! An ingredient of the house: what its document tells, over what it is like.

use pomace_book::{DocumentId, IngredientDoc, ToldValue};
use pomace_larder::{Allergen, Basis, Form};
use pomace_matter::{Mixture, Substance, acidity};

use super::bought::{model_density, place};
use super::item::{Item, Similar};
use super::label::middle;
use super::maker::Maker;
use crate::finding::{self, Where};
use crate::house::ROOM;
use crate::stream::Carried;

impl Maker<'_> {
    /// One gram of a composition in g/100 g; what is missing to 100 is water.
    pub(super) fn composition(
        &mut self,
        id: DocumentId,
        told: &[(
            pomace_book::Spanned<String>,
            pomace_book::Spanned<ToldValue>,
        )],
        remarks: &mut Vec<String>,
    ) -> Mixture {
        let mut mixture = Mixture::default();
        for (name, value) in told {
            let key = name.trim().to_lowercase().replace([' ', '-'], "_");
            let Some(substance) = Substance::named(&key) else {
                self.findings
                    .push(finding::unknown_substance(self.book, id, name));
                continue;
            };
            if let ToldValue::Between(low, high) = value.value {
                remarks.push(format!(
                    "{name} between {low} and {high} %: computed with the middle",
                    name = name.value
                ));
            }
            if value.value == ToldValue::NotStated {
                self.findings
                    .push(finding::not_stated(self.book, id, &Where::of(value), name));
            }
            mixture.put(substance, middle(value.value).unwrap_or(0.0) / 100.0);
        }
        let rest = 1.0 - mixture.total().0;
        if rest < -1e-9 {
            self.findings.push(finding::over_a_hundred(
                self.book,
                id,
                told,
                100.0 * (1.0 - rest),
            ));
            return mixture * (1.0 / (1.0 - rest));
        }
        mixture.put(Substance::Water, rest.max(0.0));
        mixture
    }

    pub(super) fn allergens(
        &mut self,
        id: DocumentId,
        told: &[pomace_book::Spanned<String>],
        carried: &mut Carried,
    ) {
        for name in told {
            match name.parse::<Allergen>() {
                Ok(allergen) => carried.allergens.put(allergen),
                Err(_) => self
                    .findings
                    .push(finding::unknown_allergen(self.book, id, name)),
            }
        }
    }

    /// An ingredient as its label tells it, over what it is like.
    pub(super) fn told(&mut self, id: DocumentId, doc: &IngredientDoc) -> Item {
        let like = self
            .graph
            .like(id)
            .cloned()
            .and_then(|like| self.make(&like));
        let has_base = like.is_some();
        let mut item = like.unwrap_or_else(|| Item {
            name: "".into(),
            gram: place(
                Mixture::of(&[(Substance::Water, pomace_matter::units::Grams(1.0))]),
                Form::Liquid,
                Carried::default(),
                ROOM,
            ),
            form: Form::Liquid,
            grams_per_ml: None,
            piece_grams: None,
            piece_noun: None,
            source: String::new(),
            remarks: Vec::new(),
            cautions: Vec::new(),
            part_of: None,
            similar: Similar::default(),
        });
        if has_base {
            let of = std::mem::take(&mut item.name);
            let is_told = !doc.composition.is_empty();
            let contents =
                (!is_told && doc.sugar.is_none() && doc.brix.is_none()).then(|| of.clone());
            item.similar = Similar {
                contents,
                strength: (!is_told && doc.strength.is_none()).then_some(of),
            };
        }
        item.name = doc.name.value.as_str().into();
        item.source = if has_base {
            format!("{}, with the label's own figures", item.source)
        } else {
            "the label".into()
        };
        if let Some(form) = &doc.form {
            item.form = form.value;
        }
        let mut mixture = item.gram.matter();
        let mut basis = item.gram.carried.basis;
        if !doc.composition.is_empty() {
            mixture = self.composition(id, &doc.composition, &mut item.remarks);
            basis = Some(Basis::Declared);
        }
        let told = doc.strength.is_some()
            || doc.sugar.is_some()
            || doc.acid.is_some()
            || doc.brix.is_some();
        if told {
            let has_base = has_base || !doc.composition.is_empty();
            mixture = self.by_label(id, doc, &mixture, has_base, &mut item.remarks);
            basis = basis.max(Some(Basis::Declared));
        }
        if let Some(ph) = doc.ph.as_ref().and_then(|ph| middle(ph.value))
            && let Ok(charge) = acidity::unlisted_charge_for_ph(&mixture, ph)
        {
            mixture.unlisted_charge = charge;
        }
        let mut carried = item.gram.carried.clone();
        carried.basis = basis.or(Some(Basis::Assumed));
        if item.similar.contents.is_some() {
            carried.basis = carried.basis.max(Some(Basis::Typical));
        }
        if mixture.grams(Substance::Ethanol) <= 0.0 {
            item.similar.strength = None;
        }
        item.remarks.extend(item.similar.remark());
        self.allergens(id, &doc.allergens, &mut carried);
        item.cautions
            .extend(doc.cautions.iter().map(|c| c.value.clone()));
        item.gram = place(mixture, item.form, carried, item.gram.celsius);
        item.grams_per_ml = doc
            .density
            .as_ref()
            .and_then(|d| middle(d.value))
            .or_else(|| {
                if item.form.pours() {
                    model_density(&mixture)
                } else {
                    item.grams_per_ml
                }
            });
        if let Some(unit) = &doc.unit {
            item.piece_grams = Some(unit.value.grams);
            item.piece_noun.clone_from(&unit.value.noun);
        }
        item
    }
}
