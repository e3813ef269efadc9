//! Names that do not depend on a place in a document: the book's and the larder's.

use std::cell::{Cell, OnceCell, RefCell};
use std::collections::{HashMap, HashSet};

use super::reference::Reference;
use crate::book::{Book, DocumentId};
use crate::document::scale::STRENGTH;
use crate::document::{Document, ToldValue};
use crate::limits::SUGGESTING;
use crate::names::{self, NameIndex, Near, fold};

/// How looking a name up went.
pub(super) enum Found {
    /// It leads somewhere.
    One(Reference),
    /// Plain ethanol and water, read from `name, N %`.
    /// Plain spirit; whether its name says that it is a distillate.
    Spirit { reference: Reference, is_sure: bool },
    /// It leads to a drink, which is no ingredient.
    Drink,
    /// Several preps leave something of this name.
    Several(Vec<String>),
    /// `cream, 35 %`: a percentage that is no strength.
    NoStrength { head: String },
    /// It leads nowhere.
    Nothing,
}

/// What it costs to search the larder, in names looked at.
const LARDER_COST: usize = 20_000;
/// How many of the preps that leave something of one name are named.
const WAYS: usize = 6;

/// Every name of a book.
pub(super) struct Names<'b> {
    book: &'b Book,
    documents: HashMap<String, DocumentId>,
    /// Who leaves something of a name, in the order of the book.
    by_products: HashMap<String, Vec<(DocumentId, &'b str)>>,
    /// All of those names, for suggestions.
    left: Vec<&'b str>,
    index: OnceCell<NameIndex<'b>>,
    suggested: RefCell<HashMap<String, Suggested<'b>>>,
    /// What may still be spent on suggestions.
    effort: Cell<usize>,
}

/// Names of book and larder close to one that leads nowhere.
#[derive(Clone, Default)]
struct Suggested<'b> {
    part: Option<String>,
    book: Vec<Near<'b>>,
    larder: Vec<&'static str>,
}

/// Distillates that carry little but ethanol and water. Any other name may hide sugar or an allergen.
const DISTILLATES: &[&str] = &[
    "gin",
    "genever",
    "vodka",
    "rum",
    "rhum",
    "whisky",
    "whiskey",
    "bourbon",
    "rye",
    "scotch",
    "brandy",
    "cognac",
    "armagnac",
    "calvados",
    "tequila",
    "mezcal",
    "aquavit",
    "akvavit",
    "pisco",
    "cachaca",
    "grappa",
    "marc",
    "kirsch",
    "slivovitz",
    "schnapps",
    "korn",
    "absinthe",
    "soju",
    "shochu",
    "baijiu",
    "arrack",
    "distillate",
    "vie",
    "spirit",
    "alcohol",
    "ethanol",
];

impl<'b> Names<'b> {
    pub(super) fn of(book: &'b Book) -> Self {
        let mut names = Self {
            book,
            documents: HashMap::new(),
            by_products: HashMap::new(),
            left: Vec::new(),
            index: OnceCell::new(),
            suggested: RefCell::default(),
            effort: Cell::new(SUGGESTING),
        };
        for (id, document) in book.documents() {
            // Nothing can be made with a variant: it stands beside the book.
            if matches!(document, Document::House(_)) || book.variant(id).is_some() {
                continue;
            }
            names.documents.entry(fold(document.name())).or_insert(id);
            for name in document
                .steps()
                .iter()
                .filter_map(|step| step.by_product.as_ref())
            {
                let left = names.by_products.entry(fold(name)).or_default();
                // Its own come together.
                if left.last().is_none_or(|(prep, _)| *prep != id) {
                    left.push((id, name));
                    names.left.push(name);
                }
            }
        }
        names
    }

    /// What a name leads to from document `own`, whose by-products count only where they lie
    /// behind; `apart` is left out (an ingredient cannot be like itself).
    pub(super) fn find(&self, name: &str, own: DocumentId, apart: Option<DocumentId>) -> Found {
        let folded = fold(name);
        if let Some(id) = self.documents.get(&folded).filter(|id| Some(**id) != apart) {
            return match self.book.document(*id) {
                Some(Document::Drink(_)) => Found::Drink,
                _ => Found::One(Reference::Document(*id)),
            };
        }
        let left = self.by_products.get(&folded).into_iter().flatten();
        let left = left.filter(|(prep, _)| *prep != own).take(WAYS);
        match left.collect::<Vec<_>>().as_slice() {
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
            Some((prep, Document::Prep(_) | Document::Drink(_))) => {
                let left = self.by_products.get(&fold(part))?;
                let at = left.binary_search_by_key(&prep, |(prep, _)| *prep).ok()?;
                let name = left.get(at)?.1.to_owned();
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
            "wine",
            "beer",
            "ale",
            "cider",
            "mead",
            "sake",
            "sherry",
            "port",
            "vermouth",
            "liqueur",
            "liquor",
            "bitters",
            "tincture",
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
        Found::Spirit {
            is_sure: words
                .split([' ', '-'])
                .any(|word| DISTILLATES.contains(&word)),
            reference: Reference::Spirit {
                name: head.to_owned(),
                strength_percent,
            },
        }
    }

    /// Names close to one that leads nowhere, best first; `local` are those of its document.
    pub(super) fn nearest(&self, name: &str, local: Vec<Near<'_>>) -> Vec<String> {
        let suggested = self.suggested(name);
        let mut names = local;
        names.extend(suggested.book);
        names.sort_by(|a, b| {
            b.likeness
                .total_cmp(&a.likeness)
                .then_with(|| a.name.cmp(b.name))
        });
        names.dedup_by_key(|near| near.name);
        names.truncate(3);
        let mut near: Vec<String> = suggested.part.into_iter().collect();
        near.extend(names.into_iter().map(|near| near.name.to_owned()));
        near.extend(suggested.larder.into_iter().map(str::to_owned));
        let mut seen = HashSet::new();
        near.retain(|name| seen.insert(fold(name)));
        near.truncate(3);
        near
    }

    /// Each name is asked about once, however often it stands in the book.
    fn suggested(&self, name: &str) -> Suggested<'b> {
        let folded = fold(name);
        if let Some(known) = self.suggested.borrow().get(&folded) {
            return known.clone();
        }
        let mut suggested = Suggested::default();
        if self.effort.get() > 0 {
            suggested.part = as_part(&folded);
            suggested.book = self.near(self.index(), &folded, 3);
            // Long texts are no slip of a name.
            if name.len() <= 80 {
                self.effort
                    .set(self.effort.get().saturating_sub(LARDER_COST));
                let hits = pomace_larder::search(name, 2).into_iter();
                let hits = hits.filter(|hit| hit.score >= 40.0);
                suggested.larder = hits.map(|hit| hit.matched).collect();
            }
        }
        let mut all = self.suggested.borrow_mut();
        all.insert(folded, suggested.clone());
        suggested
    }

    /// Names of an index close to another, for as long as suggestions are made at all.
    pub(super) fn near<'n>(
        &self,
        index: &NameIndex<'n>,
        name: &str,
        count: usize,
    ) -> Vec<Near<'n>> {
        let mut effort = self.effort.get();
        let near = index.nearest_within(name, count, &mut effort);
        self.effort.set(effort);
        near
    }

    fn index(&self) -> &NameIndex<'b> {
        self.index.get_or_init(|| {
            let documents = self.book.documents();
            let own = documents
                .filter(|(_, document)| {
                    !matches!(document, Document::House(_) | Document::Drink(_))
                })
                .map(|(_, document)| document.name().value.as_str());
            NameIndex::new(own.chain(self.left.iter().copied()))
        })
    }
}

/// `quince peel` as `quince / peel`, if the larder takes it apart so.
fn as_part(folded: &str) -> Option<String> {
    let mut splits = folded.match_indices(' ').take(8);
    splits.find_map(|(at, _)| {
        let (whole, part) = (folded.get(..at)?, folded.get(at + 1..)?);
        let (whole, part) = pomace_larder::part(whole, part)?;
        Some(format!("{} / {}", whole.name, part.name))
    })
}
