//! Everything there is to say about a book.

use std::collections::HashSet;

use pomace_book::{Document, DocumentId, Finding, Gravity, Spot};

use super::Bench;
use crate::error::RunError;
use crate::finding;
use crate::program::Origin;

impl Bench<'_> {
    /// [`Bench::findings`], and what shows only when every prep is made and every drink mixed.
    #[must_use]
    pub fn check(&self) -> Vec<Finding> {
        let mut findings = self.findings.clone();
        // A document with a fault is missing something: what follows from that helps nobody.
        let faulty: HashSet<&str> = self
            .findings
            .iter()
            .filter(|f| f.gravity == Gravity::Stop)
            .map(|f| f.place.path.as_str())
            .collect();
        for (id, document) in self.book.documents() {
            if self
                .book
                .source(id)
                .is_some_and(|s| faulty.contains(s.path.as_str()))
            {
                continue;
            }
            let amounts = match document {
                Document::Prep(_) => self.prep(id).map(|made| made.amounts.clone()),
                Document::Drink(_) => self.drink(id).map(|mixed| mixed.amounts),
                Document::Ingredient(_) | Document::House(_) => continue,
            };
            let error = match amounts {
                Ok(amounts) => {
                    findings.extend(self.beyond_what_is_left(id, &amounts));
                    continue;
                }
                Err(error) => error,
            };
            // What a document lacks because another has no result is told there.
            if !matches!(error, RunError::Needs(_) | RunError::Nothing) {
                findings.push(finding::of_error(self.book, id, document, &error));
            }
        }
        findings
    }

    /// By-products that a document takes more of than one batch, as written, leaves.
    fn beyond_what_is_left(&self, id: DocumentId, amounts: &[(Spot, f64)]) -> Vec<Finding> {
        let Some(program) = self.program(id) else {
            return Vec::new();
        };
        let mut findings = Vec::new();
        for intake in &program.intakes {
            let Origin::Left(prep, step) = intake.origin else {
                continue;
            };
            let wanted = amounts.iter().find(|(spot, _)| *spot == intake.spot);
            let left = self.prep(prep).ok().and_then(|made| {
                let left = made.left.get(step)?.total();
                (left > 0.0).then_some(left)
            });
            if let (Some((spot, wanted)), Some(left)) = (wanted, left)
                && *wanted > left * (1.0 + 1e-6)
            {
                let of = self.name_of(prep);
                findings.push(finding::more_batches(
                    self.book,
                    id,
                    *spot,
                    &of,
                    wanted / left,
                ));
            }
        }
        findings
    }
}
