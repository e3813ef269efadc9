//! Names that do not depend on a place in a document: the book's and the larder's.

use std::collections::HashMap;

use super::reference::Reference;
use crate::book::{Book, DocumentId};
use crate::document::scale::STRENGTH;
use crate::document::{Document, ToldValue};
use crate::names::{self, fold};

/// How looking a name up went.
pub(super) enum Found {
    /// It leads somewhere.
    One(Reference),
    /// Plain ethanol and water, read from `name, N %`.
    Spirit(Reference),
    /// Several preps leave something of this name.
    Several(Vec<String>),
    /// `cream, 35 %`: a percentage that is no strength.
    NoStrength { head: String },
    /// It leads nowhere.
    Nothing,
}

/// Every name of a book.
pub(super) struct Names<'b> {
    book: &'b Book,
    documents: HashMap<String, DocumentId>,
    by_products: HashMap<String, Vec<(DocumentId, &'b str)>>,
}

impl<'b> Names<'b> {
    pub(super) fn of(book: &'b Book) -> Self {
        let mut documents = HashMap::new();
        let mut by_products: HashMap<String, Vec<(DocumentId, &str)>> = HashMap::new();
        for (id, document) in book.documents() {
            if matches!(document, Document::House(_)) {
                continue;
            }
            documents.entry(fold(document.name())).or_insert(id);
            for name in document
                .steps()
                .iter()
                .filter_map(|step| step.by_product.as_ref())
            {
                let left = by_products.entry(fold(name)).or_default();
                if !left.iter().any(|(prep, _)| *prep == id) {
                    left.push((id, name));
                }
            }
        }
        Self {
            book,
            documents,
            by_products,
        }
    }

    /// What a name leads to from document `own`, whose by-products count only where they lie
    /// behind; `apart` is left out (an ingredient cannot be like itself).
    pub(super) fn find(&self, name: &str, own: DocumentId, apart: Option<DocumentId>) -> Found {
        let folded = fold(name);
        if let Some(id) = self.documents.get(&folded).filter(|id| Some(**id) != apart) {
            return Found::One(Reference::Document(*id));
        }
        let left = self.by_products.get(&folded).map_or(&[][..], Vec::as_slice);
        let left: Vec<_> = left.iter().filter(|(prep, _)| *prep != own).collect();
        match left.as_slice() {
            [] => {}
            [(prep, name)] => {
                return Found::One(Reference::ByProduct {
                    prep: *prep,
                    name: (*name).to_owned(),
                });
            }
            several => {
                let ways = several.iter().filter_map(|(prep, name)| {
                    Some(format!(
                        "{} / {name}",
                        self.book.document(*prep)?.name().value
                    ))
                });
                return Found::Several(ways.collect());
            }
        }
        if let Some(part) = self.part(name, apart) {
            return Found::One(part);
        }
        if let Some(ingredient) = pomace_larder::find(name) {
            return Found::One(Reference::Catalogue(ingredient));
        }
        self.spirit(name)
    }

    /// `whole / part`, or `prep / by-product`.
    fn part(&self, name: &str, apart: Option<DocumentId>) -> Option<Reference> {
        let (whole, part) = name.rsplit_once('/')?;
        let (whole, part) = (whole.trim(), part.trim());
        let id = self
            .documents
            .get(&fold(whole))
            .copied()
            .filter(|id| Some(*id) != apart);
        match id.and_then(|id| Some((id, self.book.document(id)?))) {
            Some((prep, document @ (Document::Prep(_) | Document::Drink(_)))) => {
                let mut left = document
                    .steps()
                    .iter()
                    .filter_map(|step| step.by_product.as_ref());
                let name = left.find(|name| names::same(name, part))?.value.clone();
                return Some(Reference::ByProduct { prep, name });
            }
            Some((id, Document::Ingredient(ingredient))) => {
                let own = ingredient
                    .parts
                    .iter()
                    .find(|own| names::same(&own.name, part));
                let like = ingredient.based_on.as_ref();
                let like = like.and_then(|like| pomace_larder::part(like, part));
                let larder = || pomace_larder::part(&ingredient.name, part);
                let part = match own {
                    Some(own) => own.name.value.clone(),
                    None => like.or_else(larder)?.1.name.to_owned(),
                };
                return Some(Reference::Part {
                    of: Box::new(Reference::Document(id)),
                    part,
                });
            }
            Some((_, Document::House(_))) | None => {}
        }
        let (whole, part) = pomace_larder::part(whole, part)?;
        let part = whole
            .parts
            .iter()
            .position(|other| other.name == part.name)?;
        Some(Reference::WholePart { whole, part })
    }

    /// `aquavit, 42 %`, but not `cream, 35 %`.
    fn spirit(&self, name: &str) -> Found {
        const NO_SPIRITS: &[&str] = &[
            "acid",
            "vinegar",
            "cream",
            "milk",
            "yoghurt",
            "yogurt",
            "cheese",
            "butter",
            "whey",
            "syrup",
            "juice",
            "salt",
            "saline",
            "brine",
            "sugar",
            "honey",
            "solution",
            "chocolate",
            "cocoa",
            "cacao",
            "peroxide",
            "fat",
        ];
        let Some((head, strength)) = name.rsplit_once(',') else {
            return Found::Nothing;
        };
        let head = head.trim();
        let Ok(ToldValue::Exactly(strength_percent)) = STRENGTH.read(strength) else {
            return Found::Nothing;
        };
        if head.is_empty() || strength_percent <= 0.0 {
            return Found::Nothing;
        }
        let words = fold(head);
        let told = words.split(' ').any(|word| NO_SPIRITS.contains(&word));
        let in_book = self.documents.contains_key(&words);
        let dry = pomace_larder::find(head).is_some_and(|ingredient| {
            let ethanol = ingredient.cell(pomace_matter::Substance::Ethanol);
            ethanol.is_none_or(|cell| cell.value < 0.5)
        });
        if told || in_book || dry {
            return Found::NoStrength {
                head: head.to_owned(),
            };
        }
        Found::Spirit(Reference::Spirit {
            name: head.to_owned(),
            strength_percent,
        })
    }

    /// Names close to one that leads nowhere, best first.
    pub(super) fn nearest(&self, name: &str, local: &[&str]) -> Vec<String> {
        let documents = self.book.documents();
        let own = documents
            .filter(|(_, document)| !matches!(document, Document::House(_)))
            .map(|(_, document)| document.name().value.as_str());
        let left = self.by_products.values().flatten().map(|(_, name)| *name);
        let all = local.iter().copied().chain(own).chain(left);
        let mut near: Vec<String> = Vec::new();
        near.extend(as_part(name));
        near.extend(names::nearest(name, all, 3).into_iter().map(str::to_owned));
        // Long texts are no slip of a name.
        if name.len() <= 80 {
            let hits = pomace_larder::search(name, 2)
                .into_iter()
                .filter(|hit| hit.score >= 40.0);
            near.extend(hits.map(|hit| hit.matched.to_owned()));
        }
        let mut seen = Vec::new();
        near.retain(|name| {
            let folded = fold(name);
            let new = !seen.contains(&folded);
            seen.push(folded);
            new
        });
        near.truncate(3);
        near
    }
}

/// `quince peel` as `quince / peel`, if the larder takes it apart so.
fn as_part(name: &str) -> Option<String> {
    let folded = fold(name);
    let mut splits = folded.match_indices(' ').take(8);
    splits.find_map(|(at, _)| {
        let (whole, part) = (folded.get(..at)?, folded.get(at + 1..)?);
        let (whole, part) = pomace_larder::part(whole, part)?;
        Some(format!("{} / {}", whole.name, part.name))
    })
}
