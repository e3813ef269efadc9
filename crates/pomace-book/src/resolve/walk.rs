//! The names of one document, each resolved where it stands.

use super::graph::Links;
use super::local::{added, line_called, local_names, stream};
use super::lookup::{Found, Names};
use super::reference::{Reference, Spot};
use crate::book::DocumentId;
use crate::document::{Document, DrinkDoc, Garnish, IngredientDoc, Line, PrepDoc, Step};
use crate::finding::{Gravity, Topic};
use crate::names::{self, same};
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
            links.like = self.name(like, "like", apart, &[]);
        }
        for (index, part) in ingredient.parts.iter().enumerate() {
            let key = format!("part {}, like", index + 1);
            links.parts.push(
                part.based_on
                    .as_ref()
                    .and_then(|like| self.name(like, &key, apart, &[])),
            );
        }
        links
    }

    fn prep(&mut self, prep: &PrepDoc) -> Links {
        let mut links = Links::default();
        self.steps(&prep.steps, &[], &mut links);
        if let Some(told) = &prep.told {
            let mut name = |name: &Option<Spanned<String>>, key: &str| {
                name.as_ref()
                    .and_then(|name| self.name(name, key, None, &[]))
            };
            links.told_base = name(&told.base, "told, base");
            links.told_solid = name(&told.solid, "told, solid");
        }
        self.carried(&prep.brief, &[], &prep.steps, &[]);
        links
    }

    fn drink(&mut self, drink: &DrinkDoc) -> Links {
        let mut links = Links::default();
        for (index, line) in drink.lines.iter().enumerate() {
            let key = format!("line {}, what", index + 1);
            links.lines.push(self.name(&line.what, &key, None, &[]));
        }
        self.steps(&drink.steps, &drink.lines, &mut links);
        for (index, garnish) in drink.garnish.iter().enumerate() {
            let key = format!("garnish {}, what", index + 1);
            links.garnish.push(
                garnish
                    .what
                    .as_ref()
                    .and_then(|what| self.described(what, &key)),
            );
        }
        self.line_shares(&drink.lines, &mut links);
        for (index, garnish) in drink.garnish.iter().enumerate() {
            let key = format!("garnish {}, amount", index + 1);
            let share = self.line_share(garnish.amount.as_ref(), &drink.lines, &key, None);
            links
                .shares
                .extend(share.map(|share| (Spot::Garnish(index), share)));
        }
        self.carried(&drink.brief, &drink.lines, &drink.steps, &drink.garnish);
        links
    }

    fn steps(&mut self, steps: &[Step], lines: &[Line], links: &mut Links) {
        for (index, step) in steps.iter().enumerate() {
            let earlier = steps.get(..index).unwrap_or(&[]);
            let key = |key: &str| format!("step {}, {key}", index + 1);
            let what = step.what.as_ref().and_then(|what| {
                stream(earlier, what).or_else(|| self.name(what, &key("what"), None, steps))
            });
            links.steps.push(what);
            if let Some(fat) = &step.fat {
                let fat = stream(earlier, fat).or_else(|| self.name(fat, &key("fat"), None, steps));
                links.fats.extend(fat.map(|fat| (index, fat)));
            }
            let share = self.step_share(step.amount.as_ref(), steps, index, lines);
            links
                .shares
                .extend(share.map(|share| (Spot::Step(index), share)));
        }
    }

    /// A garnish's name; what follows its last comma may describe it.
    fn described(&mut self, what: &Spanned<String>, key: &str) -> Option<Reference> {
        let mut head = what.value.as_str();
        loop {
            match self.names.find(head, self.id, None) {
                Found::One(reference) | Found::Spirit(reference) => return Some(reference),
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
        self.name(&Spanned::new(name.to_owned(), what.span), key, None, &[])
    }

    /// A name that does not lie in the document itself.
    fn name(
        &mut self,
        name: &Spanned<String>,
        key: &str,
        apart: Option<DocumentId>,
        steps: &[Step],
    ) -> Option<Reference> {
        let shown = shorten(name.trim());
        let (message, mend) = match self.names.find(name, self.id, apart) {
            Found::One(reference) => return Some(reference),
            Found::Spirit(reference) => {
                self.faults.add(
                    (Topic::Name, Gravity::Note),
                    name.span,
                    key,
                    format!("`{shown}` is taken as plain ethanol and water of that strength"),
                    "make it an ingredient of the book if it has sugar, acid, a price or allergens",
                );
                return Some(reference);
            }
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
                let local = local_names(steps);
                if let Some(later) = local.iter().find(|local| same(local, name)) {
                    (
                        format!("`{shown}` is not there yet at this step"),
                        format!("move the step that makes `{later}` up, or name another"),
                    )
                } else {
                    let near = self.names.nearest(name, &local);
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
    fn carried(
        &mut self,
        brief: &[crate::document::Brief],
        lines: &[Line],
        steps: &[Step],
        garnish: &[Garnish],
    ) {
        for (index, brief) in brief.iter().enumerate() {
            for carrier in &brief.carried_by {
                let in_lines = line_called(lines, carrier).is_some();
                let in_garnish = garnish.iter().filter_map(|one| one.what.as_ref());
                let in_garnish = in_garnish.clone().any(|what| {
                    same(what, carrier)
                        || what
                            .rsplit_once(',')
                            .is_some_and(|(head, _)| same(head, carrier))
                });
                let in_steps = stream(steps, carrier).is_some() || added(steps, carrier).is_some();
                if in_lines || in_garnish || in_steps {
                    continue;
                }
                let mut known: Vec<&str> = lines.iter().map(|line| line.what.as_str()).collect();
                known.extend(
                    garnish
                        .iter()
                        .filter_map(|one| one.what.as_ref())
                        .map(|what| what.as_str()),
                );
                known.extend(
                    steps
                        .iter()
                        .filter_map(|step| step.what.as_ref())
                        .map(|what| what.as_str()),
                );
                let near = names::nearest(carrier, known.iter().copied(), 2);
                let mend = if near.is_empty() {
                    "name a line or garnish of this document".to_owned()
                } else {
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
