//! The shelf: every ingredient that a book calls for, as one gram of matter.

use std::collections::HashMap;

use pomace_book::{
    Document, DocumentId, Finding, Graph, IngredientDoc, PartDoc, Reference, ToldValue,
};
use pomace_larder::{Allergen, Basis, Form, Ingredient};
use pomace_matter::density::{self, PURE_ETHANOL_20C, ethanol_water};
use pomace_matter::substance::Kind;
use pomace_matter::units::{Celsius, VolumePercent};
use pomace_matter::{Mixture, Scalar, Substance, acidity};

use crate::finding::{self, Where};
use crate::house::{FRIDGE, ROOM};
use crate::inputs::{Inputs, SourceKey};
use crate::stream::{Carried, Stream};

/// One standard deviation of what is in an ingredient, and of its strength, as a share of it: measured,
/// declared, typical, assumed. Estimates, no source.
const CONTENTS: [f64; 4] = [0.01, 0.02, 0.08, 0.15];
const STRENGTH: [f64; 4] = [0.002, 0.004, 0.03, 0.06];

/// Doubt of what is taken as of something similar, in times the usual one of that; no source, our
/// judgement. What is similar is never known better than a catalogue knows it.
const SIMILAR: f64 = 2.0;

/// Stands behind the name of such a source of doubt.
pub const SIMILAR_MARK: &str = " (only similar)";

/// What the mark means, as a sentence.
#[must_use]
pub fn similar_told() -> String {
    format!(
        "Only similar: taken as of another ingredient, with its doubt × {SIMILAR}; our judgement, no source."
    )
}

/// An ingredient, ready to be measured out.
#[derive(Clone, Debug)]
pub struct Item {
    /// What it is called.
    pub name: String,
    /// One gram of it, as it comes.
    pub gram: Stream,
    /// How it comes.
    pub form: Form,
    /// Density at 20 °C, g/mL, where it can be measured by volume.
    pub grams_per_ml: Option<f64>,
    /// Weight of one piece, g.
    pub piece_grams: Option<f64>,
    /// What such a piece is called, if that is said: `fruit`.
    pub piece_noun: Option<String>,
    /// Where its composition is from.
    pub source: String,
    /// What was taken for granted.
    pub remarks: Vec<String>,
    /// Warnings that travel with it.
    pub cautions: Vec<String>,
    /// The share of its whole that a part is at the most, %, and the whole's name.
    pub part_of: Option<(String, f64)>,
    /// What its contents and its strength are taken from, where it is only similar to that.
    pub similar: Similar,
}

/// What stands in for figures of its own.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Similar {
    /// Whose contents it is taken to have.
    pub contents: Option<String>,
    /// Whose strength.
    pub strength: Option<String>,
}

impl Similar {
    /// Times the usual doubt, and a mark behind the name of the source.
    fn widened(of: Option<&String>) -> (f64, &'static str) {
        match of {
            None => (1.0, ""),
            Some(_) => (SIMILAR, SIMILAR_MARK),
        }
    }

    fn remark(&self) -> Option<String> {
        let (what, of) = match (&self.contents, &self.strength) {
            (Some(of), Some(_)) => ("contents and strength", of),
            (Some(of), None) => ("contents", of),
            (None, Some(of)) => ("strength", of),
            (None, None) => return None,
        };
        Some(format!(
            "{what} taken as of `{of}`, which is only similar: their doubt is × {SIMILAR}, our judgement, no source"
        ))
    }
}

impl Item {
    /// One gram of it, read with its doubt: what is dissolved or dry in it moves together against the
    /// water, and its strength apart.
    pub(crate) fn read<S: Scalar>(&self, index: usize, inputs: &Inputs) -> Stream<S> {
        let key = index as u32;
        let basis = self.gram.carried.basis.unwrap_or(Basis::Assumed);
        let matter = self.gram.matter();
        let water = matter.grams(Substance::Water);
        // A pure thing is what it is: sugar, salt, water.
        let solids = 1.0 - water - matter.grams(Substance::Ethanol);
        if water < 0.03 || (solids < 0.003 && matter.grams(Substance::Ethanol) <= 0.0) {
            return self.gram.lift();
        }
        let deviation = |by: [f64; 4]| by[basis as usize];
        let contents: S = if solids < 0.003 {
            S::from(1.0)
        } else {
            let (wider, told) = Similar::widened(self.similar.contents.as_ref());
            inputs.read(
                1.0,
                deviation(CONTENTS) * wider,
                SourceKey::Contents(key),
                || format!("what is in {}{told}", self.name),
                "a refractometer, and a titration for its acid",
            )
        };
        let strength: S = if matter.grams(Substance::Ethanol) > 0.0 {
            let (wider, told) = Similar::widened(self.similar.strength.as_ref());
            inputs.read(
                1.0,
                deviation(STRENGTH) * wider,
                SourceKey::Strength(key),
                || format!("the strength of {}{told}", self.name),
                "a hydrometer and a refractometer together",
            )
        } else {
            S::from(1.0)
        };
        let read = |place: &Mixture| {
            let total = place.total().0;
            let mut moved = Mixture::default();
            for (substance, grams) in place.iter() {
                let factor = match substance {
                    Substance::Water => continue,
                    Substance::Ethanol => strength,
                    _ => contents,
                };
                moved.put(substance, factor * grams);
            }
            moved.unlisted_charge = contents * place.unlisted_charge;
            let rest = -moved.total().0 + total;
            moved.set(Substance::Water, rest.at_least(0.0));
            moved
        };
        let empty = |m: &Mixture| m.total().0 <= 0.0;
        Stream {
            liquid: if empty(&self.gram.liquid) {
                Mixture::default()
            } else {
                read(&self.gram.liquid)
            },
            crystals: self.gram.crystals.lift(),
            pieces: if empty(&self.gram.pieces) {
                Mixture::default()
            } else {
                read(&self.gram.pieces)
            },
            ice: S::zero(),
            celsius: S::from(self.gram.celsius),
            carried: self.gram.carried.clone(),
        }
    }
}

/// Everything a book calls for, each thing once.
#[derive(Clone, Debug, Default)]
pub struct Shelf {
    items: Vec<Item>,
    /// Where each thing stands, by what leads to it.
    places: HashMap<String, usize>,
}

impl Shelf {
    /// The item at an index.
    #[must_use]
    pub fn get(&self, index: usize) -> Option<&Item> {
        self.items.get(index)
    }

    /// All items.
    pub fn iter(&self) -> impl Iterator<Item = &Item> {
        self.items.iter()
    }

    /// The item that a reference leads to, put on the shelf if it is not there yet. `None` for what
    /// is made, not bought.
    pub(crate) fn item(
        &mut self,
        reference: &Reference,
        book: &pomace_book::Book,
        graph: &Graph,
        findings: &mut Vec<Finding>,
    ) -> Option<usize> {
        let key = key(reference)?;
        if let Some(index) = self.places.get(&key) {
            return Some(*index);
        }
        let mut item = Maker {
            book,
            graph,
            findings,
            depth: 0,
        }
        .make(reference)?;
        let index = self.items.len();
        item.gram.carried.origins = vec![index as u32];
        self.items.push(item);
        self.places.insert(key, index);
        Some(index)
    }

    /// The item of an ingredient of the book.
    pub(crate) fn of_document(&self, id: DocumentId) -> Option<&Item> {
        let index = self.places.get(&key(&Reference::Document(id))?)?;
        self.items.get(*index)
    }
}

/// What makes two references the same thing on the shelf; nothing for what is made.
fn key(reference: &Reference) -> Option<String> {
    Some(match reference {
        Reference::Document(id) => format!("document {}", id.0),
        Reference::Part { of, part } => {
            format!("{} / {}", key(of)?, pomace_book::names::fold(part))
        }
        Reference::Catalogue(ingredient) => format!("larder {}", ingredient.id),
        Reference::WholePart { whole, part } => {
            format!("whole {} {} {part}", whole.name, whole.split)
        }
        Reference::Spirit {
            name,
            strength_percent,
        } => format!("spirit {name} {strength_percent}"),
        _ => return None,
    })
}

/// So many ingredients may each be like the next.
const DEEPEST: usize = 64;

struct Maker<'a> {
    book: &'a pomace_book::Book,
    graph: &'a Graph,
    findings: &'a mut Vec<Finding>,
    depth: usize,
}

impl Maker<'_> {
    fn make(&mut self, reference: &Reference) -> Option<Item> {
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
                item.name = format!("{} / {}", whole.name, part.name);
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
            let (larder, part) = pomace_larder::part(&doc.name, part)?;
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
        item.name = format!("{} / {}", doc.name.value, part.name.value);
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

    /// One gram of a composition in g/100 g; what is missing to 100 is water.
    fn composition(
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

    fn allergens(
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
    fn told(&mut self, id: DocumentId, doc: &IngredientDoc) -> Item {
        let like = self
            .graph
            .like(id)
            .cloned()
            .and_then(|like| self.make(&like));
        let has_base = like.is_some();
        let mut item = like.unwrap_or_else(|| Item {
            name: String::new(),
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
        item.name.clone_from(&doc.name.value);
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

    /// A litre with the label's ethanol, sugar and acid in place of the mixture's own.
    fn by_label(
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
                let others = litre.sum(|s| {
                    !matches!(s, Substance::Water | Substance::Ethanol)
                        && !matches!(s.kind(), Kind::Sugar | Kind::Insoluble)
                });
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
    let present = litre.sum(|s| s.kind() == kind);
    for substance in Substance::ALL.into_iter().filter(|s| s.kind() == kind) {
        let share = if present > 0.0 {
            litre.grams(substance) / present
        } else {
            f64::from(u8::from(substance == stand_in))
        };
        litre.set(substance, grams * share);
    }
}

fn middle(told: ToldValue) -> Option<f64> {
    match told {
        ToldValue::Exactly(value) => Some(value),
        ToldValue::Between(low, high) => Some(0.5 * (low + high)),
        ToldValue::NotStated => None,
    }
}

/// Matter in the place of a stream where its form belongs.
fn place(matter: Mixture, form: Form, carried: Carried, celsius: f64) -> Stream {
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

fn model_density(mixture: &Mixture) -> Option<f64> {
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
fn bought(ingredient: &'static Ingredient) -> Item {
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
        name: ingredient.name.to_owned(),
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

const RAW_EGG: &str = "raw egg can carry salmonella: use pasteurised egg for anyone young, old, pregnant or ill, and keep to your local food rules";

/// Egg as it comes from the shell.
fn carried_raw_egg(ingredient: &Ingredient) -> bool {
    let name = ingredient.name.to_lowercase();
    let is_egg = name.split([' ', ',']).any(|word| word == "egg");
    let treated = ["cooked", "boiled", "dried", "pasteurised", "pasteurized"];
    is_egg && !treated.iter().any(|word| name.contains(word))
}

const AMYGDALIN: &str = "these seeds hold amygdalin, which frees cyanide when crushed: keep them whole or leave them out, never ground, blended or long steeped";

/// Seeds and stones of the rose family (common practice, no source).
fn holds_amygdalin(whole: &str, part: &str) -> bool {
    let whole = whole.to_lowercase();
    let part = part.to_lowercase();
    let family = [
        "quince",
        "apple",
        "pear",
        "cherry",
        "plum",
        "peach",
        "apricot",
        "nectarine",
        "almond",
        "loquat",
        "medlar",
        "sloe",
    ];
    let kernel = ["seed", "pip", "stone", "pit", "kernel"];
    !whole.contains("pineapple")
        && family.iter().any(|f| whole.contains(f))
        && kernel.iter().any(|k| part.contains(k))
}

/// Plain spirit: ethanol and water.
fn spirit(name: &str, strength_percent: f64) -> Item {
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
        name: format!("{name}, {strength_percent} %"),
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
