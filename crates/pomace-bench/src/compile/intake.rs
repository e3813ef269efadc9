//! What comes in: where from, how much, and whether so much of it can be.

use std::sync::Arc;

use pomace_book::{
    Amount, Book, Document, DocumentId, Gravity, Reading, Reference, Spanned, Spot, Topic,
};

use super::{Compiler, To};
use crate::dose::{Dose, ShareOf};
use crate::finding::{self, Where, finding};
use crate::program::{Intake, Origin};
use crate::run::name_of;

impl Compiler<'_> {
    /// What comes in: where from, and how much.
    pub(super) fn intake(
        &mut self,
        id: DocumentId,
        spot: Spot,
        step: usize,
        reference: Option<&Reference>,
        amount: Option<&Spanned<Amount>>,
        at: &Where,
    ) -> Option<Intake> {
        // What is unresolved, and an amount that is missing or fixes nothing, the book has told.
        let reference = reference?;
        let origin = self.origin(id, reference)?;
        if let Some(amount) = amount {
            self.check_pieces(id, spot, origin, amount, at)?;
        }
        let Some(dose) = self.dose(id, spot, reference, amount, at) else {
            self.traces.push(origin);
            return None;
        };
        Some(Intake {
            spot,
            origin,
            called: self.called(origin),
            dose,
            step,
        })
    }

    /// What matter of an origin is called.
    pub(super) fn called(&self, origin: Origin) -> Arc<str> {
        match origin {
            Origin::Shelf(index) => {
                let item = self.shelf.get(index);
                item.map_or_else(|| Arc::from(""), |item| Arc::clone(&item.name))
            }
            Origin::Made(prep) | Origin::Left(prep, _) => name_of(self.book, prep).into(),
            Origin::OwnLeft(step) => format!("what step {} leaves", step + 1).into(),
        }
    }

    /// Refuses pieces of another kind than those whose weight is known: a slice is no fruit.
    fn check_pieces(
        &mut self,
        id: DocumentId,
        spot: Spot,
        origin: Origin,
        amount: &Spanned<Amount>,
        at: &Where,
    ) -> Option<()> {
        let Origin::Shelf(index) = origin else {
            return Some(());
        };
        let item = self.shelf.get(index)?;
        let written = written(self.book, id, spot);
        let Some(noun) = item.other_pieces(&amount.value.reading, &written) else {
            return Some(());
        };
        let place = Where::new(amount.span, format!("{}, amount", at.key));
        let refused = finding::other_pieces(self.book, id, &place, item, noun);
        self.findings.push(refused);
        // Its allergens are in it all the same.
        self.traces.push(origin);
        None
    }

    /// How much of it comes in, where that is known.
    fn dose(
        &mut self,
        id: DocumentId,
        spot: Spot,
        reference: &Reference,
        amount: Option<&Spanned<Amount>>,
        at: &Where,
    ) -> Option<Dose> {
        let amount = amount?;
        let of = self.graph.share_of(id, spot).and_then(share_of);
        let said = matches!(&amount.value.reading, Reading::Share { of: Some(_), .. });
        if said && of.is_none() {
            return None;
        }
        let change = self
            .changes
            .iter()
            .find(|c| c.document == id && c.spot == spot);
        let reading = match change.map(|c| c.to) {
            Some(To::Reading(index)) => index,
            _ => 0,
        };
        let mut dose = Dose::of(&amount.value.reading, of, self.house, reading)?;
        if let Some(To::Factor(factor)) = change.map(|c| c.to) {
            dose = dose.times(factor);
        }
        self.check_part(id, reference, spot, &amount.value.reading, amount, at);
        Some(dose)
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

    pub(super) fn origin(&mut self, id: DocumentId, reference: &Reference) -> Option<Origin> {
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
        Reference::Stream(step) => Some(ShareOf::Named(*step)),
        Reference::Left(step) => Some(ShareOf::Left(*step)),
        Reference::Added(step) => Some(ShareOf::Brought(*step)),
        Reference::Line(line) => Some(ShareOf::Line(*line)),
        _ => None,
    }
}

/// What a line, step or garnish names, as it is written.
fn written(book: &Book, id: DocumentId, spot: Spot) -> String {
    let name = match (spot, book.document(id)) {
        (Spot::Line(i), Some(Document::Drink(drink))) => drink.lines.get(i).map(|l| &l.what),
        (Spot::Garnish(i), Some(Document::Drink(drink))) => {
            drink.garnish.get(i).and_then(|g| g.what.as_ref())
        }
        (Spot::Step(i), Some(document)) => document.steps().get(i).and_then(|s| s.what.as_ref()),
        _ => None,
    };
    name.map_or_else(String::new, |name| name.value.clone())
}
