//! Who in the house uses a part, and what becomes of what those preps leave.

use pomace_book::names::same;
use pomace_book::{Document, Verb};
use pomace_store::Id;

use crate::kitchen::Kitchen;
use crate::routes::address;

/// A document that uses a part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Use {
    pub(super) name: String,
    pub(super) link: String,
    /// What it leaves behind under a name, and who takes that: their names and links.
    pub(super) leaves: Vec<(String, Vec<(String, String)>)>,
}

/// What the documents of a house call for of one ingredient: the part's name, or nothing where they take the
/// whole; by name.
pub(super) fn of(kitchen: &Kitchen, id: &Id, name: &str) -> Vec<(Option<String>, Use)> {
    let mut uses = Vec::new();
    for other in kitchen.mentioning(name) {
        let Some(kept) = kitchen.get(&other).filter(|_| other != *id) else {
            continue;
        };
        let Ok(read) = &kept.read else { continue };
        let document = read.document();
        if !matches!(document, Document::Prep(_) | Document::Drink(_)) {
            continue;
        }
        let mut parts: Vec<Option<String>> = document
            .mentions()
            .into_iter()
            .filter_map(|mention| called_for(mention, name))
            .collect();
        parts.sort();
        parts.dedup();
        let used = Use {
            name: kept.name.clone(),
            link: address(&kept.kind, &other),
            leaves: leaves(kitchen, &other, document),
        };
        uses.extend(parts.into_iter().map(|part| (part, used.clone())));
    }
    uses.sort_by(|a, b| a.1.name.cmp(&b.1.name));
    uses
}

/// What a mention calls for of this ingredient: a part of it, the whole of it, or nothing.
fn called_for(mention: &str, name: &str) -> Option<Option<String>> {
    match mention.rsplit_once('/') {
        Some((whole, part)) if same(whole.trim(), name) => Some(Some(part.trim().to_owned())),
        Some(_) => None,
        None => {
            let whole = mention.split(',').next().unwrap_or(mention);
            (same(mention, name) || same(whole.trim(), name)).then_some(None)
        }
    }
}

fn leaves(kitchen: &Kitchen, id: &Id, document: &Document) -> Vec<(String, Vec<(String, String)>)> {
    let steps = document.steps().iter();
    let named = steps.filter(|step| step.verb.value != Verb::Store);
    let named = named.filter_map(|step| step.by_product.as_ref());
    named
        .map(|name| {
            let takers = kitchen.mentioning(name).into_iter();
            let mut takers: Vec<(String, String)> = takers
                .filter(|other| other != id)
                .filter_map(|other| {
                    let kept = kitchen.get(&other)?;
                    Some((kept.name.clone(), address(&kept.kind, &other)))
                })
                .collect();
            takers.sort();
            (name.value.clone(), takers)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mention_calls_for_a_part_or_for_the_whole() {
        let part = |words: &str| Some(Some(words.to_owned()));
        for (mention, called) in [
            ("quince / peel", part("peel")),
            ("Quince/ Peel", part("Peel")),
            ("quince", Some(None)),
            ("quince, ripe", Some(None)),
            ("quince pomace", None),
            ("medlar / peel", None),
        ] {
            assert_eq!(called_for(mention, "quince"), called, "{mention}");
        }
    }
}
