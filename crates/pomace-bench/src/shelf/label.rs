//! What a label says of a litre: alcohol, sugar, acid and Brix in the place of a mixture's own.

use pomace_book::{DocumentId, IngredientDoc, ToldValue};
use pomace_matter::density::{self, PURE_ETHANOL_20C};
use pomace_matter::substance::{Kind, Set};
use pomace_matter::units::Celsius;
use pomace_matter::{Mixture, Substance};

use super::bought::model_density;
use super::maker::Maker;
use crate::finding::{self, Where};

impl Maker<'_> {
    /// A litre with the label's ethanol, sugar and acid in place of the mixture's own.
    pub(super) fn by_label(
        &mut self,
        id: DocumentId,
        doc: &IngredientDoc,
        like: &Mixture,
        has_base: bool,
        remarks: &mut Vec<String>,
    ) -> Mixture {
        let grams_per_ml = model_density(like).unwrap_or(1.0);
        let mut litre = *like * (1000.0 * grams_per_ml);
        if let Some(strength) = &doc.strength
            && let Some(percent) = self.known(id, "strength", strength, has_base, remarks)
        {
            litre.set(Substance::Ethanol, percent * PURE_ETHANOL_20C / 100.0);
        }
        if let Some(sugar) = &doc.sugar
            && let Some(grams) = self.known(id, "sugar", sugar, has_base, remarks)
        {
            sweeten_to(&mut litre, grams, remarks);
        }
        // Sugar on the label says more than Brix does.
        let brix = match &doc.brix {
            Some(brix) if doc.sugar.is_none() => {
                remarks.push("Brix is taken as dissolved solids, % by mass".to_owned());
                self.known(id, "Brix", brix, has_base, remarks)
            }
            _ => None,
        };
        if let Some(acid) = &doc.acid {
            let which = acid
                .value
                .acid
                .as_deref()
                .and_then(|name| Substance::named(&name.to_lowercase()));
            let told = pomace_book::Spanned::new(acid.value.value, acid.span);
            if let Some(grams) = self.known(id, "acid", &told, has_base, remarks) {
                scale_to(
                    &mut litre,
                    Kind::Acid,
                    which.unwrap_or(Substance::Citric),
                    grams,
                );
            }
        }
        let mut off = f64::INFINITY;
        for _ in 0..200 {
            if let Some(percent) = brix {
                let others = litre.sum(Set::SOLUBLE.without(Set::SOLVENTS).without(Set::SUGARS));
                let grams = percent / 100.0 * litre.total().0 - others;
                scale_to(&mut litre, Kind::Sugar, Substance::Sucrose, grams.max(0.0));
            }
            let Ok(volume) = density::volume(&litre, Celsius(20.0)) else {
                break;
            };
            off = 1000.0 - volume.0;
            let water = (litre.grams(Substance::Water) + off).max(0.0);
            litre.set(Substance::Water, water);
            if off.abs() < 1e-9 {
                break;
            }
        }
        if off.abs() > 0.1 {
            self.findings
                .push(finding::impossible_label(self.book, id, doc.name.span));
        }
        litre * (1.0 / litre.total().0)
    }

    /// The middle of what a label tells; a range or a blank is said to be one.
    fn known(
        &mut self,
        id: DocumentId,
        what: &str,
        told: &pomace_book::Spanned<ToldValue>,
        has_base: bool,
        remarks: &mut Vec<String>,
    ) -> Option<f64> {
        match told.value {
            ToldValue::Exactly(value) => Some(value),
            ToldValue::Between(low, high) => {
                remarks.push(format!(
                    "{what} between {low} and {high}: computed with the middle"
                ));
                Some(0.5 * (low + high))
            }
            ToldValue::NotStated => {
                let place = Where::of(told);
                if has_base {
                    self.findings
                        .push(finding::not_stated(self.book, id, &place, what));
                    remarks.push(format!("{what} not stated: taken as of what it is like"));
                } else {
                    self.findings
                        .push(finding::left_out(self.book, id, &place, what));
                    remarks.push(format!("{what} not stated: computed as if there were none"));
                }
                None
            }
        }
    }
}

/// Brings the sugars to a sum in g. What is above the mixture's own was added, and is sucrose: a cream
/// liqueur is not sweetened with more of the cream's lactose.
fn sweeten_to(litre: &mut Mixture, grams: f64, remarks: &mut Vec<String>) {
    let own = litre.sugars();
    if own > 0.0 && grams > own {
        litre.put(Substance::Sucrose, grams - own);
        remarks.push("sugar above that of what it is like is taken as sucrose".to_owned());
    } else {
        scale_to(litre, Kind::Sugar, Substance::Sucrose, grams);
    }
}

/// Brings a kind of substances to a sum in g; none there means `stand_in` alone.
fn scale_to(litre: &mut Mixture, kind: Kind, stand_in: Substance, grams: f64) {
    let present = litre.sum(Set::of_kind(kind));
    for substance in Substance::ALL.into_iter().filter(|s| s.kind() == kind) {
        let share = if present > 0.0 {
            litre.grams(substance) / present
        } else {
            f64::from(u8::from(substance == stand_in))
        };
        litre.set(substance, grams * share);
    }
}

pub(super) fn middle(told: ToldValue) -> Option<f64> {
    match told {
        ToldValue::Exactly(value) => Some(value),
        ToldValue::Between(low, high) => Some(0.5 * (low + high)),
        ToldValue::NotStated => None,
    }
}
