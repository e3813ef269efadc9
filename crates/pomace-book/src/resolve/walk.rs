//! The names of one document, each resolved where it stands.

use super::graph::Links;
use super::here::{Here, called_at_all};
use super::lookup::{Found, Names};
use super::reference::{Reference, Spot};
use crate::book::DocumentId;
use crate::document::{Brief, Document, DrinkDoc, IngredientDoc, PrepDoc, Step, Told};
use crate::finding::{Gravity, Topic};
use crate::names::{self, fold};
use crate::quantity::Amount;
use crate::quantity::cursor::shorten;
use crate::read::faults::Faults;
use crate::span::Spanned;

const STOP: (Topic, Gravity) = (Topic::Name, Gravity::Stop);

/// Walks over one document.
pub(super) struct Walk<'w, 'b> {
    pub names: &'w Names<'b>,
    pub faults: Faults<'w>,
    /// The document walked over.
    pub id: DocumentId,
}

impl Walk<'_, '_> {
    pub(super) fn document(&mut self, document: &Document) -> Links {
        match document {
            Document::Prep(prep) => self.prep(prep),
            Document::Drink(drink) => self.drink(drink),
            Document::Ingredient(ingredient) => self.ingredient(ingredient),
            Document::House(_) => Links::default(),
        }
    }

    fn ingredient(&mut self, ingredient: &IngredientDoc) -> Links {
        let apart = Some(self.id);
        let mut links = Links::default();
        if let Some(like) = &ingredient.based_on {
            links.like = self.name(like, "like", apart, None);
        }
        for (index, part) in ingredient.parts.iter().enumerate() {
            let key = format!("part {}, like", index + 1);
            links.parts.push(
                part.based_on
                    .as_ref()
                    .and_then(|like| self.name(like, &key, apart, None)),
            );
        }
        links
    }

    fn prep(&mut self, prep: &PrepDoc) -> Links {
        let mut links = Links::default();
        let mut here = Here::of(&prep.steps, &[], &[]);
        self.steps(&prep.steps, &mut here, &mut links);
        if let Some(told) = &prep.told {
            let mut name = |name: &Option<Spanned<String>>, key: &str| {
                name.as_ref()
                    .and_then(|name| self.name(name, key, None, None))
            };
            links.told_base = name(&told.base, "told, base");
            links.told_solid = name(&told.solid, "told, solid");
            self.told_shares(told);
        }
        self.carried(&prep.brief, &here);
        links
    }

    fn drink(&mut self, drink: &DrinkDoc) -> Links {
        let mut links = Links::default();
        let mut here = Here::of(&drink.steps, &drink.lines, &drink.garnish);
        for (index, line) in drink.lines.iter().enumerate() {
            let key = format!("line {}, what", index + 1);
            links.lines.push(self.name(&line.what, &key, None, None));
        }
        self.steps(&drink.steps, &mut here, &mut links);
        for (index, garnish) in drink.garnish.iter().enumerate() {
            let key = format!("garnish {}, what", index + 1);
            links.garnish.push(
                garnish
                    .what
                    .as_ref()
                    .and_then(|what| self.described(what, &key)),
            );
        }
        self.line_shares(&drink.lines, &here, &mut links);
        for (index, garnish) in drink.garnish.iter().enumerate() {
            let key = format!("garnish {}, amount", index + 1);
            let share = self.line_share(garnish.amount.as_ref(), &here, &key, None);
            links
                .shares
                .extend(share.map(|share| (Spot::Garnish(index), share)));
        }
        self.carried(&drink.brief, &here);
        links
    }

    fn steps(&mut self, steps: &[Step], here: &mut Here<'_>, links: &mut Links) {
        for (index, step) in steps.iter().enumerate() {
            let key = |key: &str| format!("step {}, {key}", index + 1);
            let found = step.what.as_ref().and_then(|what| {
                here.earlier
                    .stream(&fold(what))
                    .or_else(|| self.name(what, &key("what"), None, Some(here)))
            });
            if let (true, Some(Reference::Stream(made)), Some(what)) =
                (step.verb.brings_in(), &found, &step.what)
            {
                self.there_already(what, *made, &key("what"));
            }
            links.steps.push(found);
            if let Some(fat) = &step.fat {
                let stream = here.earlier.stream(&fold(fat));
                let fat = stream.or_else(|| self.name(fat, &key("fat"), None, Some(here)));
                links.fats.extend(fat.map(|fat| (index, fat)));
            }
            let share = self.step_share(step.amount.as_ref(), here, index);
            links
                .shares
                .extend(share.map(|share| (Spot::Step(index), share)));
            here.pass(index, step);
        }
    }

    /// A step brings in what an earlier one has kept.
    fn there_already(&mut self, what: &Spanned<String>, made: usize, key: &str) {
        self.faults.add(
            (Topic::Name, Gravity::Caution),
            what.span,
            key,
            format!(
                "`{}` is in the vessel already, from step {}",
                shorten(what.trim()),
                made + 1
            ),
            "take this step out; if something else of that name comes in, give the stream another",
        );
    }

    /// What is told of a prep can only be a share of the other thing told.
    fn told_shares(&mut self, told: &Told) {
        let pairs = [
            (&told.base_amount, &told.solid, "solid", "told, base_amount"),
            (&told.solid_amount, &told.base, "base", "told, solid_amount"),
        ];
        for (amount, other, word, key) in pairs {
            let Some(amount) = amount else { continue };
            let Some(of) = amount.reading.share_of() else {
                continue;
            };
            let other = other.as_ref().map(|other| other.as_str());
            if !called_at_all(of, other, word) {
                let other = other.and_then(|other| other.split(',').next());
                self.told_share(amount, of, other.unwrap_or(word), key);
            }
        }
    }

    fn told_share(&mut self, amount: &Spanned<Amount>, of: &str, other: &str, key: &str) {
        self.faults.add(
            (Topic::Amount, Gravity::Stop),
            amount.span,
            key,
            format!(
                "`{}` is a share of `{}`, which is not told here",
                amount.text.trim(),
                shorten(of)
            ),
            format!(
                "write it as a share of `{}`, or as a weight",
                shorten(other)
            ),
        );
    }

    /// A garnish's name; what follows its last comma may describe it.
    fn described(&mut self, what: &Spanned<String>, key: &str) -> Option<Reference> {
        let mut head = what.value.as_str();
        loop {
            match self.names.find(head, self.id, None) {
                Found::One(reference) | Found::Spirit { reference, .. } => return Some(reference),
                Found::Drink => break,
                _ => match head.rsplit_once(',') {
                    Some((shorter, _)) => head = shorter.trim_end(),
                    None => break,
                },
            }
        }
        // Nearest names are those of the thing, not of its description.
        let name = if head.is_empty() {
            what.value.as_str()
        } else {
            head
        };
        self.name(&Spanned::new(name.to_owned(), what.span), key, None, None)
    }

    /// A name that does not lie in the document itself.
    fn name(
        &mut self,
        name: &Spanned<String>,
        key: &str,
        apart: Option<DocumentId>,
        here: Option<&Here<'_>>,
    ) -> Option<Reference> {
        let shown = shorten(name.trim());
        let (message, mend) = match self.names.find(name, self.id, apart) {
            Found::One(reference) => return Some(reference),
            Found::Spirit { reference, is_sure } => {
                let (gravity, and) = if is_sure {
                    (Gravity::Note, "")
                } else {
                    (Gravity::Caution, ": no sugar, no acid, no allergens")
                };
                self.faults.add(
                    (Topic::Name, gravity),
                    name.span,
                    key,
                    format!("`{shown}` is taken as plain ethanol and water of that strength{and}"),
                    "make it an ingredient of the book if it has sugar, acid, a price or allergens",
                );
                return Some(reference);
            }
            // Looking for near names is work that nobody would see.
            _ if self.faults.is_full() => {
                self.faults.skip();
                return None;
            }
            Found::Drink => (
                format!("`{shown}` is a drink, and a drink is no ingredient"),
                "make what is meant a prep, and name that in both".to_owned(),
            ),
            Found::Several(ways) => (
                format!("`{shown}` is left behind by more than one prep"),
                format!("write {}", names::either(ways.iter().map(String::as_str))),
            ),
            Found::NoStrength { head } => (
                format!(
                    "`{shown}` would be read as a spirit, which `{}` is not",
                    shorten(&head)
                ),
                format!(
                    "write `{}` alone, or make it an ingredient of the book under the whole name",
                    shorten(&head)
                ),
            ),
            Found::Nothing => {
                if let Some(later) = here.and_then(|here| here.given(&fold(name))) {
                    (
                        format!("`{shown}` is not there yet at this step"),
                        format!("move the step that makes `{later}` up, or name another"),
                    )
                } else {
                    let local = here.map(|here| self.names.near(here.near_given(), name, 3));
                    let near = self.names.nearest(name, local.unwrap_or_default());
                    let mend = if near.is_empty() {
                        "add it to the book as an ingredient or a prep, or use a name of the catalogue".to_owned()
                    } else {
                        format!(
                            "write {}, if that is meant; or add it to the book",
                            names::either(near.iter().map(String::as_str)),
                        )
                    };
                    (format!("nothing is called `{shown}`"), mend)
                }
            }
        };
        self.faults.add(STOP, name.span, key, message, mend);
        None
    }

    /// What carries a brief must be in the drink, or at least be known.
    fn carried(&mut self, brief: &[Brief], here: &Here<'_>) {
        for (index, brief) in brief.iter().enumerate() {
            for carrier in &brief.carried_by {
                if here.holds(&fold(carrier)) {
                    continue;
                }
                if self.faults.is_full() {
                    self.faults.skip();
                    continue;
                }
                let near = self.names.near(here.near_carriers(), carrier, 2);
                let mend = if near.is_empty() {
                    "name a line or garnish of this document".to_owned()
                } else {
                    let near = near.iter().map(|near| near.name);
                    format!("write {}, if that is meant", names::either(near))
                };
                self.faults.add(
                    (Topic::Name, Gravity::Caution),
                    carrier.span,
                    &format!("brief {}, carried_by", index + 1),
                    format!(
                        "`{}` carries the brief but is nowhere in this document",
                        shorten(carrier)
                    ),
                    mend,
                );
            }
        }
    }
}
