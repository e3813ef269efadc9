//! Rounding: a drink in the measures that are in the hand, and what that does to it.

use pomace_book::{DocumentId, Spot};

use crate::bench::Bench;
use crate::compile::{Change, To};
use crate::error::RunError;
use crate::program::Origin;
use crate::report::DrinkReport;

/// What is poured or weighed with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tool {
    /// A scale that shows whole grams.
    Grams,
    /// A measuring glass with marks for every millilitre.
    Millilitres,
    /// The jiggers of the house, up to three of them for one line.
    Jiggers,
}

/// A line, met as nearly as the tool can.
#[derive(Clone, Debug, PartialEq)]
pub struct RoundedLine {
    /// Which line.
    pub spot: Spot,
    /// As it is written, in the unit of the tool.
    pub told: f64,
    /// The pours, in the unit of the tool; their sum is what goes in. A line that the tool cannot
    /// measure is weighed, in grams.
    pub pours: Vec<f64>,
    /// Whether it is in grams.
    pub is_weighed: bool,
}

impl RoundedLine {
    /// What goes in, in the unit of the tool.
    #[must_use]
    pub fn sum(&self) -> f64 {
        self.pours.iter().sum()
    }
}

/// A drink as written and as rounded.
#[derive(Clone, Debug)]
pub struct Rounded {
    /// The lines.
    pub lines: Vec<RoundedLine>,
    /// The drink as it is written.
    pub told: DrinkReport,
    /// The drink as it is rounded.
    pub rounded: DrinkReport,
}

impl Bench<'_> {
    /// A drink by what is in the hand.
    ///
    /// # Errors
    /// As [`Bench::mix`]; [`RunError::NoMeasures`] where the house names no jiggers.
    pub fn rounded(&self, id: DocumentId, tool: Tool) -> Result<Rounded, RunError> {
        let measures = self.house().measures();
        if tool == Tool::Jiggers && measures.is_empty() {
            return Err(RunError::NoMeasures);
        }
        let (mixed, told) = self.report(id)?;
        let mut lines = Vec::new();
        let mut changes = Vec::new();
        for (spot, grams) in &mixed.amounts {
            let density = if tool == Tool::Grams {
                None
            } else {
                self.grams_per_ml(id, *spot)
            };
            let told = density.map_or(*grams, |d| grams / d);
            let pours = match (density, tool) {
                (Some(_), Tool::Jiggers) => nearest_pours(told, measures),
                // Less than a whole one is weighed or poured to a tenth.
                _ if told < 10.0 => vec![(10.0 * told).round() / 10.0],
                _ => vec![told.round()],
            };
            let line = RoundedLine {
                spot: *spot,
                told,
                pours,
                is_weighed: density.is_none(),
            };
            if told > 0.0 {
                changes.push(Change {
                    document: id,
                    spot: *spot,
                    to: To::Factor(line.sum() / told),
                });
            }
            lines.push(line);
        }
        let (_, rounded) = self.with(&changes).report(id)?;
        Ok(Rounded {
            lines,
            told,
            rounded,
        })
    }

    /// Density at 20 °C of what a line pours, g/mL; `None` of what does not.
    #[must_use]
    pub fn grams_per_ml(&self, id: DocumentId, spot: Spot) -> Option<f64> {
        let program = self.program(id)?;
        let intake = program.intakes.iter().find(|i| i.spot == spot)?;
        match intake.origin {
            Origin::Shelf(index) => {
                let item = self.shelf().get(index)?;
                item.grams_per_ml.filter(|_| item.form.pours())
            }
            Origin::Made(prep) => self.prep(prep).ok()?.grams_per_ml,
            Origin::Left(..) | Origin::OwnLeft(_) => None,
        }
    }
}

/// Up to three measures whose sum comes nearest, as few of them as do, the larger first; more of the largest
/// for what three do not hold. All in mL; none where there are no measures.
#[must_use]
pub fn nearest_pours(told: f64, measures: &[f64]) -> Vec<f64> {
    if measures.is_empty() {
        return Vec::new();
    }
    let mut best: (f64, Vec<f64>) = (f64::INFINITY, Vec::new());
    let mut offer = |pours: &[f64]| {
        let off = (pours.iter().sum::<f64>() - told).abs();
        // One pour more is worth a twentieth of the line.
        let cost = off + 0.05 * told * (pours.len() as f64 - 1.0);
        if cost < best.0 - 1e-9 {
            best = (cost, pours.to_vec());
        }
    };
    // More than three of the largest: as many of it as go in, and the nearest for the rest.
    let largest = measures.iter().copied().fold(0.0, f64::max);
    if told > 3.0 * largest {
        let count = (told / largest).floor();
        let mut pours = vec![largest; count as usize];
        let rest = told - count * largest;
        let least = measures.iter().copied().fold(f64::INFINITY, f64::min);
        if rest > 0.5 * least {
            pours.extend(nearest_pours(rest, measures));
        }
        return pours;
    }
    let mut sorted = measures.to_vec();
    sorted.sort_by(|a, b| b.total_cmp(a));
    for (i, a) in sorted.iter().enumerate() {
        offer(&[*a]);
        for (j, b) in sorted.iter().enumerate().skip(i) {
            offer(&[*a, *b]);
            for c in sorted.iter().skip(j) {
                offer(&[*a, *b, *c]);
            }
        }
    }
    best.1
}

#[cfg(test)]
mod tests {
    use super::nearest_pours;

    const HOUSE: [f64; 6] = [5.0, 10.0, 20.0, 25.0, 40.0, 50.0];

    #[test]
    fn pours_by_hand() {
        assert_eq!(nearest_pours(40.0, &HOUSE), [40.0]);
        assert_eq!(nearest_pours(35.0, &HOUSE), [25.0, 10.0]);
        assert_eq!(nearest_pours(22.0, &HOUSE), [20.0]);
        assert_eq!(nearest_pours(60.0, &HOUSE), [50.0, 10.0]);
        // A half of the smallest is still one pour, and the page says what it does.
        assert_eq!(nearest_pours(2.0, &HOUSE), [5.0]);
        let many = nearest_pours(1000.0, &HOUSE);
        assert!((many.iter().sum::<f64>() - 1000.0).abs() < 5.0);
    }
}
