//! From documents to programs.

use pomace_book::{
    Amount, Book, Document, DocumentId, DrinkDoc, Finding, Garnish, GarnishAction, Graph, Gravity,
    PrepDoc, Reading, Reference, Spanned, Spot, Step, Topic, Verb,
};
use pomace_larder::yields;

use crate::dose::{Dose, ShareOf};
use crate::finding::{Where, finding};
use crate::house::House;
use crate::program::{Crown, DrinkProgram, Entry, Intake, Op, Origin, PrepProgram, Program};
use crate::shelf::Shelf;
use crate::steps::separate::Filter;

/// Which reading of an ambiguous amount to use, and where.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Choice {
    pub document: DocumentId,
    pub spot: Spot,
    pub reading: usize,
}

/// Compiles one book after another document; collects what there is to say.
pub(crate) struct Compiler<'a> {
    pub book: &'a Book,
    pub graph: &'a Graph,
    pub house: &'a House,
    pub shelf: &'a mut Shelf,
    pub findings: &'a mut Vec<Finding>,
    pub choice: Option<Choice>,
}

impl Compiler<'_> {
    pub(crate) fn document(&mut self, id: DocumentId) -> Option<Program> {
        let book = self.book;
        match book.document(id)? {
            Document::Prep(prep) => Some(Program::Prep(self.prep(id, prep))),
            Document::Drink(drink) => Some(Program::Drink(self.drink(id, drink))),
            Document::Ingredient(_) | Document::House(_) => None,
        }
    }

    fn prep(&mut self, id: DocumentId, prep: &PrepDoc) -> PrepProgram {
        PrepProgram {
            ops: self.ops(id, &prep.steps),
        }
    }

    fn drink(&mut self, id: DocumentId, drink: &DrinkDoc) -> DrinkProgram {
        let mut steps = drink.steps.clone();
        if steps.is_empty() {
            // A draft without steps is built in the glass.
            steps.push(Step::bare(
                Spanned::new(Verb::Build, drink.name.span),
                drink.name.span,
            ));
        }
        let mut entries = Vec::new();
        for (index, line) in drink.lines.iter().enumerate() {
            let reference = self.graph.line(id, index);
            let at = Where::new(line.span, format!("line {}", index + 1));
            let intake = self.intake(id, Spot::Line(index), reference, line.amount.as_ref(), &at);
            let Some(intake) = intake else { continue };
            let step = match &line.enters {
                None => Some(0),
                Some(name) => steps.iter().position(|step| enters_at(step, name)),
            };
            match step {
                Some(step) => entries.push(Entry {
                    intake,
                    step,
                    line: index,
                }),
                None => self.enters_nowhere(id, line.enters.as_ref(), index),
            }
        }
        let ops = self.ops(id, &steps);
        let crowns = drink
            .garnish
            .iter()
            .enumerate()
            .filter_map(|(i, g)| self.crown(id, i, g))
            .collect();
        DrinkProgram {
            entries,
            ops,
            crowns,
        }
    }

    fn enters_nowhere(&mut self, id: DocumentId, name: Option<&Spanned<String>>, index: usize) {
        let Some(name) = name else { return };
        self.findings.push(finding(
            self.book,
            id,
            &Where::new(name.span, format!("line {}, enters", index + 1)),
            (Topic::Name, Gravity::Stop),
            format!(
                "the drink has no step `{}` at which this line could enter",
                name.value
            ),
            "write a step with that word as `do`, or the `as` name of a step".to_owned(),
        ));
    }

    fn crown(&mut self, id: DocumentId, index: usize, garnish: &Garnish) -> Option<Crown> {
        // Frost and flame bring no matter.
        if garnish.action.value == GarnishAction::Frost {
            return None;
        }
        let at = Where::new(garnish.span, format!("garnish {}", index + 1));
        garnish.what.as_ref()?;
        let reference = self.graph.garnish(id, index);
        let intake = self.intake(
            id,
            Spot::Garnish(index),
            reference,
            garnish.amount.as_ref(),
            &at,
        )?;
        Some(Crown {
            intake,
            eaten: garnish.eaten.as_ref().map_or(0.5, |e| e.value),
            place: index,
        })
    }

    fn ops(&mut self, id: DocumentId, steps: &[Step]) -> Vec<Op> {
        let mut solids: Vec<String> = Vec::new();
        steps
            .iter()
            .enumerate()
            .map(|(index, step)| {
                let op = self.op(id, index, step, &solids);
                if let Some(what) = &step.what {
                    solids.push(what.value.clone());
                }
                op
            })
            .collect()
    }

    fn op(&mut self, id: DocumentId, index: usize, step: &Step, solids: &[String]) -> Op {
        let at = Where::new(step.span, format!("step {}", index + 1));
        let verb = step.verb.value;
        let reference = match verb {
            Verb::Wash => self.graph.fat(id, index),
            _ if step.what.is_some() => self.graph.step(id, index),
            _ => None,
        };
        // A step that works on a named stream of its own brings nothing in.
        let intake = match reference {
            Some(Reference::Stream(_) | Reference::Added(_)) | None => None,
            Some(reference) => self.intake(
                id,
                Spot::Step(index),
                Some(reference),
                step.amount.as_ref(),
                &at,
            ),
        };
        let through = step.through.as_ref().map_or("", |t| t.value.as_str());
        let process = if verb == Verb::Juice {
            "juice"
        } else {
            "hold-up"
        };
        // The last solid that went in decides, by the larder's names.
        let own = step.what.as_ref().map(|w| w.value.as_str());
        let usual = own
            .into_iter()
            .chain(solids.iter().rev().map(String::as_str))
            .flat_map(|name| std::iter::once(name).chain(name.split('/').take(2)))
            .find_map(|name| yields::find(process, name.trim()));
        Op {
            verb,
            intake,
            seconds: step.time.as_ref().map(|t| t.value.0),
            celsius: step.temperature.as_ref().map(|t| t.value),
            to: step.to.as_ref().map(|t| t.value).or_else(|| {
                step.loss
                    .as_ref()
                    .map(|l| pomace_book::Target::LossShare(l.value))
            }),
            moisture: step.to_moisture.as_ref().map(|m| m.value),
            filter: Filter::named(through),
            by: step.by.as_ref().map(|b| b.value),
            usual,
            ferment: step.kind.as_ref().map(|k| k.value),
            sugar_used: step.sugar_used.as_ref().map(|u| u.value),
            gas: step.gas.as_ref().map(|g| g.value),
            gauge_bar: step.pressure.as_ref().map(|p| p.value.bar()),
            ice: step.ice.as_ref().map(|i| i.value.clone()),
            over: step
                .over_ice
                .as_ref()
                .and_then(|ice| self.house.glass_ice(ice)),
            glass_ml: step.glass.as_ref().and_then(|g| g.value.millilitres),
        }
    }

    /// What comes in: where from, and how much.
    fn intake(
        &mut self,
        id: DocumentId,
        spot: Spot,
        reference: Option<&Reference>,
        amount: Option<&Spanned<Amount>>,
        at: &Where,
    ) -> Option<Intake> {
        // An unresolved name has been reported by the resolver.
        let reference = reference?;
        let origin = self.origin(id, reference)?;
        let Some(amount) = amount else {
            // An amount that could not be read has been reported already.
            if self.has_finding_in(id, at) {
                return None;
            }
            self.findings.push(finding(
                self.book,
                id,
                at,
                (Topic::Amount, Gravity::Caution),
                "no amount is given, so it is left out of every figure".to_owned(),
                "weigh it and write `amount = \"240 g\"`, or a share of something weighed before"
                    .to_owned(),
            ));
            return None;
        };
        let of = self.graph.share_of(id, spot).and_then(share_of);
        let choice = self
            .choice
            .filter(|c| c.document == id && c.spot == spot)
            .map_or(0, |c| c.reading);
        let dose = Dose::of(&amount.value.reading, of, self.house, choice);
        if dose.is_none() {
            self.findings.push(finding(
                self.book,
                id,
                &Where::new(amount.span, format!("{}, amount", at.key)),
                (Topic::Amount, Gravity::Caution),
                format!(
                    "`{}` fixes no amount, so it is left out of every figure",
                    amount.value.text
                ),
                "give a start: `to taste, from 1 g`".to_owned(),
            ));
        }
        self.check_part(id, reference, spot, &amount.value.reading, amount, at);
        Some(Intake {
            origin,
            dose: dose?,
        })
    }

    /// Whether something has been found within a place already.
    fn has_finding_in(&self, id: DocumentId, at: &Where) -> bool {
        let path = self.book.source(id).map(|s| s.path.as_str());
        self.findings.iter().any(|f| {
            Some(f.place.path.as_str()) == path
                && f.place.key.starts_with(&format!("{}, amount", at.key))
        })
    }

    /// More of a part than its whole has.
    fn check_part(
        &mut self,
        id: DocumentId,
        reference: &Reference,
        spot: Spot,
        reading: &Reading,
        amount: &Spanned<Amount>,
        at: &Where,
    ) {
        let Reading::Share {
            fraction,
            of: Some(_),
        } = reading
        else {
            return;
        };
        let whole_is_meant = match (reference, self.graph.share_of(id, spot)) {
            (
                Reference::Part { .. } | Reference::WholePart { .. },
                Some(Reference::Stream(step) | Reference::Added(step)),
            ) => self.graph.step(id, *step),
            _ => return,
        };
        let item = self
            .shelf
            .item(reference, self.book, self.graph, self.findings);
        let Some((whole, most)) = item
            .and_then(|i| self.shelf.get(i))
            .and_then(|i| i.part_of.clone())
        else {
            return;
        };
        let same_whole = match (reference, whole_is_meant) {
            (Reference::Part { of, .. }, Some(step)) => **of == *step,
            (Reference::WholePart { whole, .. }, Some(Reference::Catalogue(i))) => {
                pomace_larder::find(whole.name).is_some_and(|w| w.id == i.id)
            }
            _ => false,
        };
        if same_whole && 100.0 * fraction > most {
            self.findings.push(finding(
                self.book,
                id,
                &Where::new(amount.span, format!("{}, amount", at.key)),
                (Topic::Amount, Gravity::Stop),
                format!(
                    "{:.0} % of the {whole}, but this part is at most {most:.0} % of it",
                    100.0 * fraction
                ),
                format!("take {most:.0} % or less, or weigh the part itself in grams"),
            ));
        }
    }

    fn origin(&mut self, id: DocumentId, reference: &Reference) -> Option<Origin> {
        match reference {
            Reference::Document(made)
                if matches!(self.book.document(*made), Some(Document::Prep(_))) =>
            {
                Some(Origin::Made(*made))
            }
            Reference::Document(made)
                if matches!(self.book.document(*made), Some(Document::Drink(_))) =>
            {
                None
            }
            Reference::ByProduct { prep, name } => {
                let Some(Document::Prep(doc)) = self.book.document(*prep) else {
                    return None;
                };
                let step = doc.steps.iter().position(|s| {
                    s.by_product
                        .as_ref()
                        .is_some_and(|b| pomace_book::names::same(b, name))
                })?;
                Some(if *prep == id {
                    Origin::OwnLeft(step)
                } else {
                    Origin::Left(*prep, step)
                })
            }
            Reference::Left(step) => Some(Origin::OwnLeft(*step)),
            Reference::Stream(_) | Reference::Added(_) | Reference::Line(_) => None,
            _ => self
                .shelf
                .item(reference, self.book, self.graph, self.findings)
                .map(Origin::Shelf),
        }
    }
}

fn share_of(reference: &Reference) -> Option<ShareOf> {
    match reference {
        Reference::Stream(step) => Some(ShareOf::Kept(*step)),
        Reference::Added(step) => Some(ShareOf::Brought(*step)),
        Reference::Line(line) => Some(ShareOf::Line(*line)),
        _ => None,
    }
}

fn enters_at(step: &Step, name: &str) -> bool {
    pomace_book::Verb::named(name) == Some(step.verb.value)
        || step.kept_names().any(|n| pomace_book::names::same(n, name))
}
