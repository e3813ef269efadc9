//! Where the house's drinks stand, for the field of every other drink.

use std::collections::HashSet;

use pomace_bench::Bench;
use pomace_book::DocumentId;
use pomace_matter::liquid::Property;
use pomace_store::Id;

use super::Kitchen;

/// A drink as served.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Mark {
    /// Acid as citric, g/L.
    pub sourness_g_per_l: f64,
    /// As sucrose, g/100 mL.
    pub sweetness_g_per_100ml: f64,
    /// % vol.
    pub strength_percent: f64,
}

impl Mark {
    pub(crate) fn of(bench: &Bench<'_>, document: DocumentId) -> Option<Self> {
        let mixed = bench.drink(document).ok()?;
        let figures = pomace_bench::report::Figures::of(&mixed.after);
        Some(Self {
            sourness_g_per_l: figures.get(Property::TitratableAcidity)?,
            sweetness_g_per_100ml: figures.get(Property::Sweetness)?,
            strength_percent: figures.get(Property::Strength)?,
        })
    }
}

impl Kitchen {
    /// A document and every document that leans on it, however far.
    pub(crate) fn leaning_on(&self, id: &Id) -> Vec<Id> {
        let mut reached = vec![id.clone()];
        let mut seen = HashSet::from([id.clone()]);
        let mut next = 0;
        while let Some(one) = reached.get(next).cloned() {
            next += 1;
            let names = match self.documents.get(&one).map(|kept| &kept.read) {
                Some(Ok(read)) => super::own_names(read.document()),
                _ => Vec::new(),
            };
            for name in names {
                let others = self.mentioned.get(&name).into_iter().flatten();
                reached.extend(
                    others
                        .filter(|other| seen.insert((*other).clone()))
                        .cloned(),
                );
            }
        }
        reached
    }

    /// Where a drink stands, worked out now.
    pub(crate) fn mark_of(&self, id: &Id) -> Option<Mark> {
        let kept = self.documents.get(id).filter(|kept| kept.kind == "drink")?;
        let read = kept.read.as_ref().ok()?;
        let around = self.around(Some(id), read);
        Mark::of(&Bench::new(&around.book), around.document)
    }

    /// Where a drink stands, if that was worked out already.
    pub(crate) fn mark(&self, id: &Id) -> Option<&Mark> {
        self.marks.get(id)
    }

    pub(crate) fn set_mark(&mut self, id: &Id, mark: Option<Mark>) {
        match mark {
            Some(mark) => self.marks.put(id, mark),
            None => self.marks.take_out(id),
        }
    }

    /// Drinks of the house nearest to a place on the field, `apart` left out.
    pub(crate) fn neighbours(
        &self,
        apart: Option<&Id>,
        place: (f64, f64),
        count: usize,
    ) -> Vec<(String, Mark)> {
        let near = self.marks.nearest(apart, place, count).into_iter();
        near.filter_map(|(id, mark)| Some((self.documents.get(id)?.name.clone(), mark.clone())))
            .collect()
    }
}
