//! Yield test: what the parts of a whole weigh, over one fruit or several.

use pomace_book::names;

/// One whole taken apart.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighing {
    /// The whole before, g.
    pub whole_grams: f64,
    /// Each part: its name and grams.
    pub parts: Vec<(String, f64)>,
}

/// A part over all weighings.
#[derive(Clone, Debug, PartialEq)]
pub struct PartShare {
    /// Its name.
    pub name: String,
    /// All of it over all of the wholes, %: what a crate of them gives.
    pub percent: f64,
    /// Standard deviation of a single whole, %; from two weighings on.
    pub spread_percent: Option<f64>,
    /// Least and most of a single whole, %.
    pub range_percent: (f64, f64),
    /// How many weighings named it.
    pub count: usize,
}

/// What a yield test comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct YieldTest {
    /// How many wholes.
    pub count: usize,
    /// All wholes, g.
    pub whole_grams: f64,
    /// The parts, the heaviest first.
    pub parts: Vec<PartShare>,
    /// What is in no part: drips, peelings on the knife, water into the air, %. Below zero the parts
    /// weigh more than the wholes.
    pub lost_percent: f64,
}

impl YieldTest {
    /// Over weighings; a part that a weighing does not name counts as none of it there.
    ///
    /// `None` without a weighing, or with a whole that weighs nothing.
    #[must_use]
    pub fn of(weighings: &[Weighing]) -> Option<Self> {
        let whole_grams: f64 = weighings.iter().map(|w| w.whole_grams).sum();
        if weighings.is_empty() || weighings.iter().any(|w| w.whole_grams <= 0.0) {
            return None;
        }
        let mut named: Vec<&str> = Vec::new();
        for (name, _) in weighings.iter().flat_map(|w| &w.parts) {
            if !named.iter().any(|n| names::same(n, name)) {
                named.push(name);
            }
        }
        let mut parts: Vec<PartShare> = named
            .into_iter()
            .map(|name| share(name, weighings, whole_grams))
            .collect();
        parts.sort_by(|a, b| b.percent.total_cmp(&a.percent));
        let lost_percent = 100.0 - parts.iter().map(|p| p.percent).sum::<f64>();
        Some(Self {
            count: weighings.len(),
            whole_grams,
            parts,
            lost_percent,
        })
    }
}

fn share(name: &str, weighings: &[Weighing], whole_grams: f64) -> PartShare {
    let of = |w: &Weighing| -> f64 {
        let same = w.parts.iter().filter(|(n, _)| names::same(n, name));
        same.map(|(_, grams)| grams).sum()
    };
    let each: Vec<f64> = weighings
        .iter()
        .map(|w| 100.0 * of(w) / w.whole_grams)
        .collect();
    let n = each.len() as f64;
    let mean = each.iter().sum::<f64>() / n;
    let squares: f64 = each.iter().map(|x| (x - mean).powi(2)).sum();
    let is_named = |w: &&Weighing| w.parts.iter().any(|(other, _)| names::same(other, name));
    PartShare {
        name: name.to_owned(),
        percent: 100.0 * weighings.iter().map(of).sum::<f64>() / whole_grams,
        spread_percent: (each.len() > 1).then(|| (squares / (n - 1.0)).sqrt()),
        range_percent: (
            each.iter().copied().fold(f64::INFINITY, f64::min),
            each.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        ),
        count: weighings.iter().filter(is_named).count(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn weighing(whole_grams: f64, parts: &[(&str, f64)]) -> Weighing {
        Weighing {
            whole_grams,
            parts: parts.iter().map(|(n, g)| ((*n).to_owned(), *g)).collect(),
        }
    }

    /// By hand: 206 + 190 g of flesh of 300 + 300 g is 66 %; 68.67 and 63.33 % spread by 3.77.
    #[test]
    fn two_fruit_by_hand() {
        let test = YieldTest::of(&[
            weighing(300.0, &[("flesh", 206.0), ("Peel", 40.0), ("core", 48.0)]),
            weighing(300.0, &[("flesh", 190.0), ("peel", 50.0), ("core", 54.0)]),
        ])
        .unwrap();
        let flesh = &test.parts[0];
        assert_eq!((flesh.name.as_str(), flesh.count), ("flesh", 2));
        assert!((flesh.percent - 66.0).abs() < 1e-9);
        assert!((flesh.spread_percent.unwrap() - 3.771).abs() < 0.001);
        assert!((flesh.range_percent.0 - 63.333).abs() < 0.001);
        assert_eq!(test.parts.len(), 3);
        assert!((test.lost_percent - 2.0).abs() < 1e-9);
    }

    #[test]
    fn nothing_weighed_is_nothing() {
        assert_eq!(YieldTest::of(&[]), None);
        assert_eq!(YieldTest::of(&[weighing(0.0, &[("peel", 1.0)])]), None);
        let one = YieldTest::of(&[weighing(10.0, &[("peel", 1.0)])]).unwrap();
        assert_eq!(one.parts[0].spread_percent, None);
    }
}
