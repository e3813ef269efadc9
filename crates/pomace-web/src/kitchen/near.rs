//! Marks by their place: the nearest to one are found without a look at all.

use std::collections::{BTreeMap, HashMap};

use pomace_store::Id;

use super::Mark;

/// Millionths of a gram in a litre: finer than any drink is known.
const FINE: f64 = 1e6;

/// The marks of a house, in the order of their sourness.
#[derive(Debug, Default)]
pub(super) struct Marks {
    by_sourness: BTreeMap<i64, Vec<(Id, Mark)>>,
    sourness: HashMap<Id, i64>,
}

impl Marks {
    pub(super) fn put(&mut self, id: &Id, mark: Mark) {
        self.take_out(id);
        let place = fine(mark.sourness_g_per_l);
        self.sourness.insert(id.clone(), place);
        let there = self.by_sourness.entry(place).or_default();
        there.push((id.clone(), mark));
    }

    pub(super) fn get(&self, id: &Id) -> Option<&Mark> {
        let there = self.by_sourness.get(self.sourness.get(id)?)?;
        let found = there.iter().find(|(other, _)| other == id);
        found.map(|(_, mark)| mark)
    }

    pub(super) fn take_out(&mut self, id: &Id) {
        let Some(place) = self.sourness.remove(id) else {
            return;
        };
        if let Some(there) = self.by_sourness.get_mut(&place) {
            there.retain(|(other, _)| other != id);
            if there.is_empty() {
                self.by_sourness.remove(&place);
            }
        }
    }

    /// Those nearest to a place on the field, nearest first, `apart` left out.
    pub(super) fn nearest(
        &self,
        apart: Option<&Id>,
        (sourness, sweetness): (f64, f64),
        count: usize,
    ) -> Vec<(&Id, &Mark)> {
        let from = fine(sourness);
        // Outward from the place to both sides, until sourness alone is further than all that are wanted.
        let mut right = self.by_sourness.range(from..).peekable();
        let mut left = self.by_sourness.range(..from).rev().peekable();
        let mut near: Vec<(f64, &Id, &Mark)> = Vec::with_capacity(count + 1);
        loop {
            let off = |place: &i64| place.abs_diff(from);
            let to_right = right.peek().map(|(place, _)| off(place));
            let to_left = left.peek().map(|(place, _)| off(place));
            let (off, there) = match (to_left, to_right) {
                (Some(a), Some(b)) if a < b => (a, left.next()),
                (Some(a), None) => (a, left.next()),
                (_, Some(b)) => (b, right.next()),
                (None, None) => break,
            };
            let least = off.saturating_sub(1) as f64 / FINE;
            if near.len() == count && near.last().is_none_or(|last| least > last.0) {
                break;
            }
            for (id, mark) in there.into_iter().flat_map(|(_, marks)| marks) {
                let across = mark.sourness_g_per_l - sourness;
                let up = mark.sweetness_g_per_100ml - sweetness;
                let away = (across * across + up * up).sqrt();
                // Most are told apart by this alone, before their ids are looked at.
                let is_far = near.len() == count && near.last().is_none_or(|last| away > last.0);
                if is_far || Some(id) == apart {
                    continue;
                }
                let is_nearer = |other: &(f64, &Id, &Mark)| (other.0, other.1) < (away, id);
                let place = near.partition_point(is_nearer);
                near.insert(place, (away, id, mark));
                near.truncate(count);
            }
        }
        near.into_iter().map(|(_, id, mark)| (id, mark)).collect()
    }
}

fn fine(sourness_g_per_l: f64) -> i64 {
    (sourness_g_per_l * FINE).floor() as i64
}

#[cfg(test)]
mod tests {
    use pomace_store::When;
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn the_nearest_are_those_of_all_put_in_order(
            places in prop::collection::vec((0_u8..40, 0_u8..40), 0..60),
            from in (0_u8..40, 0_u8..40),
            count in 0_usize..9,
            gone in 0_usize..60,
        ) {
            let half = |(sour, sweet): (u8, u8)| (f64::from(sour) / 2.0, f64::from(sweet) / 2.0);
            let from = half(from);
            let mut marks = Marks::default();
            let mut all = Vec::new();
            for place in places {
                let (sourness_g_per_l, sweetness_g_per_100ml) = half(place);
                let mark = Mark { sourness_g_per_l, sweetness_g_per_100ml, strength_percent: 20.0 };
                let id = Id::new(&When::now());
                // Moved there from elsewhere.
                marks.put(&id, Mark { sourness_g_per_l: 3.0, ..mark.clone() });
                marks.put(&id, mark.clone());
                all.push((id, mark));
            }
            if gone < all.len() {
                marks.take_out(&all.remove(gone).0);
            }
            let apart = all.pop().map(|(id, _)| id);
            let away = |mark: &Mark| {
                let across = mark.sourness_g_per_l - from.0;
                let up = mark.sweetness_g_per_100ml - from.1;
                (across * across + up * up).sqrt()
            };
            all.sort_by(|a, b| away(&a.1).total_cmp(&away(&b.1)).then_with(|| a.0.cmp(&b.0)));
            all.truncate(count);
            let found = marks.nearest(apart.as_ref(), from, count);
            let wanted: Vec<(&Id, &Mark)> = all.iter().map(|(id, mark)| (id, mark)).collect();
            prop_assert_eq!(found, wanted);
        }
    }
}
