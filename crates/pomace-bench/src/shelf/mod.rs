//! The shelf: every ingredient that a book calls for, as one gram of matter.

mod bought;
mod cautions;
mod item;
mod label;
mod maker;
mod parts;
mod told;

pub(crate) use item::ItemRead;
pub use item::{Item, SIMILAR_MARK, Similar, similar_told};
pub use parts::{Contents, Part, Share};

use std::collections::HashMap;
use std::sync::Arc;

use pomace_book::{DocumentId, Finding, Graph, Reference};

use maker::Maker;

/// Everything a book calls for, each thing once.
#[derive(Clone, Debug, Default)]
pub struct Shelf {
    items: Vec<Arc<Item>>,
    /// Where each thing stands, by what leads to it.
    places: HashMap<String, usize>,
}

impl Shelf {
    /// The item at an index.
    #[must_use]
    pub fn get(&self, index: usize) -> Option<&Item> {
        self.items.get(index).map(Arc::as_ref)
    }

    /// The item at an index, to be kept.
    pub(crate) fn shared(&self, index: usize) -> Option<&Arc<Item>> {
        self.items.get(index)
    }

    /// All items.
    pub fn iter(&self) -> impl Iterator<Item = &Item> {
        self.items.iter().map(Arc::as_ref)
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
        self.items.push(Arc::new(item));
        self.places.insert(key, index);
        Some(index)
    }

    /// The item of an ingredient of the book.
    pub(crate) fn of_document(&self, id: DocumentId) -> Option<&Item> {
        let index = self.places.get(&key(&Reference::Document(id))?)?;
        self.get(*index)
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
