//! Amounts that can be read in more than one way.

use pomace_book::{Document, DocumentId, Reading, Spot};

use super::Bench;
use crate::compile::{Change, To};

/// An amount that can be read in more than one way.
#[derive(Clone, Debug)]
pub struct Question {
    /// The document that asks.
    pub document: DocumentId,
    /// Where in it.
    pub spot: Spot,
    /// As written.
    pub text: String,
    /// Why it can be read so.
    pub why: String,
    /// The readings, the likelier first.
    pub readings: Vec<Reading>,
}

impl Bench<'_> {
    /// The amounts of a document, and of the preps it needs, that can be read in two ways.
    #[must_use]
    pub fn questions(&self, id: DocumentId) -> Vec<Question> {
        self.needs(id)
            .into_iter()
            .rev()
            .flat_map(|d| self.questions_of(d))
            .collect()
    }

    fn questions_of(&self, document: DocumentId) -> Vec<Question> {
        let Some(doc) = self.book.document(document) else {
            return Vec::new();
        };
        let steps = doc
            .steps()
            .iter()
            .enumerate()
            .map(|(i, s)| (Spot::Step(i), s.amount.as_ref()));
        let (lines, garnish) = match doc {
            Document::Drink(drink) => (drink.lines.as_slice(), drink.garnish.as_slice()),
            _ => (&[][..], &[][..]),
        };
        let lines = lines
            .iter()
            .enumerate()
            .map(|(i, l)| (Spot::Line(i), l.amount.as_ref()));
        let garnish = garnish
            .iter()
            .enumerate()
            .map(|(i, g)| (Spot::Garnish(i), g.amount.as_ref()));
        steps
            .chain(lines)
            .chain(garnish)
            .filter_map(|(spot, amount)| {
                let amount = amount?;
                let Reading::Question { why, readings } = &amount.value.reading else {
                    return None;
                };
                Some(Question {
                    document,
                    spot,
                    text: amount.value.text.clone(),
                    why: why.clone(),
                    readings: readings.clone(),
                })
            })
            .collect()
    }

    /// The same book with one question answered by its reading of that index.
    #[must_use]
    pub fn answered(&self, question: &Question, reading: usize) -> Self {
        self.with(&[Change {
            document: question.document,
            spot: question.spot,
            to: To::Reading(reading),
        }])
    }
}
