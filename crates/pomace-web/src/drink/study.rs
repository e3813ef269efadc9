//! What a drink's page needs to know, worked out once for each change.

use pomace_bench::doubt::Doubt;
use pomace_bench::report::{DrinkReport, Figures};
use pomace_bench::rounding::nearest_pours;
use pomace_bench::{Bench, Mixed, RunError};
use pomace_book::{DocumentId, DrinkDoc, Nudged, Reading, Spot, nudge};
use pomace_matter::Mixture;
use pomace_matter::liquid::Property;

use crate::view::said;
use crate::words::Unit;

/// The minutes in the glass that a page shows.
const SHOWN: [u32; 4] = [0, 5, 10, 15];

/// The minute whose figures stand beside those of what is served.
pub(crate) const LATER: u32 = 10;

/// A drink on the bench.
pub(crate) struct Study<'a> {
    pub bench: &'a Bench<'a>,
    pub id: DocumentId,
    pub doc: &'a DrinkDoc,
    pub outcome: Result<Outcome, RunError>,
}

/// A drink that could be mixed.
pub(crate) struct Outcome {
    pub mixed: Mixed,
    /// Its figures, each with its doubt.
    pub report: DrinkReport,
    pub doubt: Doubt,
}

/// Where a drink stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Stand {
    pub sourness_g_per_l: f64,
    pub sweetness_g_per_100ml: f64,
}

impl Stand {
    pub(crate) fn of(figures: &Figures) -> Option<Self> {
        Some(Self {
            sourness_g_per_l: figures.get(Property::TitratableAcidity)?,
            sweetness_g_per_100ml: figures.get(Property::Sweetness)?,
        })
    }
}

/// A line's amount, as it is shown.
pub(crate) struct Shown {
    /// The number, or the whole text where it is not a number and a unit.
    pub value: String,
    /// The unit behind it; may be empty.
    pub unit: String,
    pub steps: Nudged,
    /// The pours that make it up, where it is shown in jiggers: `20 + 2.5 mL`.
    pub pours: Option<String>,
}

impl<'a> Study<'a> {
    pub(crate) fn of(bench: &'a Bench<'a>, id: DocumentId, doc: &'a DrinkDoc) -> Self {
        let outcome = bench.report_at(id, &SHOWN).and_then(|(mixed, mut report)| {
            let doubt = bench.doubt_of_drink(id)?;
            doubt.write(&mut report);
            if !report.over_time.is_empty() {
                bench.doubt_of_minute(id, LATER)?.write(&mut report);
            }
            Ok(Outcome {
                mixed,
                report,
                doubt,
            })
        });
        Self {
            bench,
            id,
            doc,
            outcome,
        }
    }

    /// Grams of a line, if they are known.
    pub(crate) fn grams(&self, spot: Spot) -> Option<f64> {
        self.outcome.as_ref().ok()?.mixed.amount(spot)
    }

    /// Names of the lines that lead nowhere: nothing of them is counted, and nobody knows what they bring.
    pub(crate) fn unknown(&self) -> Vec<String> {
        let findings = said::of(self.bench, self.id);
        let lines = self.doc.lines.iter().enumerate();
        let unknown = lines.filter(|(index, _)| said::leads_nowhere(&findings, "line", *index));
        unknown.map(|(_, line)| line.what.value.clone()).collect()
    }

    /// What a line brings.
    pub(crate) fn brings(&self, spot: Spot) -> Option<Mixture> {
        self.bench.brings(self.id, spot, self.grams(spot)?)
    }

    /// The amounts of all lines, as they are shown.
    pub(crate) fn amounts(&self, unit: Unit) -> Vec<Shown> {
        let lines = self.doc.lines.iter().enumerate();
        let shown = lines.map(|(index, line)| {
            let amount = line.amount.as_ref().map(|amount| &amount.value);
            self.shown(Spot::Line(index), amount, unit)
        });
        shown.collect()
    }

    /// An amount in the unit that is wanted, with what plus and minus lead to.
    fn shown(&self, spot: Spot, amount: Option<&pomace_book::Amount>, unit: Unit) -> Shown {
        let measures = self.bench.house().measures();
        let in_unit = self.in_unit(spot, unit);
        let is_as_written = in_unit.is_none();
        let reading = match in_unit {
            Some(reading) => reading,
            None => match amount {
                Some(amount) => amount.reading.clone(),
                None => {
                    return Shown {
                        value: String::new(),
                        unit: String::new(),
                        steps: Nudged::default(),
                        pours: None,
                    };
                }
            },
        };
        let text = match amount {
            Some(amount) if is_as_written => amount.text.trim().to_owned(),
            _ => reading.to_string(),
        };
        let wanted = unit;
        let (value, unit) = parted(&text, &reading);
        let pours = match (&reading, wanted) {
            (Reading::Volume { millilitres }, Unit::Jiggers) => pours(*millilitres, measures),
            _ => None,
        };
        Shown {
            value,
            unit,
            steps: nudge(&reading, measures),
            pours,
        }
    }

    /// The amount of a line in grams or millilitres, as near as a scale or a measuring glass shows it.
    fn in_unit(&self, spot: Spot, unit: Unit) -> Option<Reading> {
        let grams = self.grams(spot).filter(|grams| *grams > 0.0)?;
        let tenths = |value: f64| (value * 10.0).round() / 10.0;
        match unit {
            Unit::Written => None,
            Unit::Grams => Some(Reading::Mass {
                grams: tenths(grams),
            }),
            Unit::Millilitres => {
                let density = self.bench.grams_per_ml(self.id, spot)?;
                Some(Reading::Volume {
                    millilitres: tenths(grams / density),
                })
            }
            // A house without jiggers pours as it is written.
            Unit::Jiggers if self.bench.house().measures().is_empty() => None,
            Unit::Jiggers => {
                let density = self.bench.grams_per_ml(self.id, spot)?;
                let poured = nearest_pours(grams / density, self.bench.house().measures());
                Some(Reading::Volume {
                    millilitres: poured.iter().sum(),
                })
            }
        }
    }

    /// The drink as served, with so many times as much of one line.
    pub(crate) fn with(&self, spot: Spot, times: f64) -> Option<Figures> {
        let mixed = self.bench.drink_with(self.id, spot, times).ok()?;
        Some(Figures::of(&mixed.after))
    }
}

/// The pours of the house's jiggers that come nearest: `20 + 2.5 mL`, `9 × 60 mL`.
pub(crate) fn pours(millilitres: f64, measures: &[f64]) -> Option<String> {
    let poured = nearest_pours(millilitres, measures);
    let poured: Vec<String> = poured.iter().map(ToString::to_string).collect();
    let shown: Vec<String> = poured
        .chunk_by(|one, next| one == next)
        .map(|same| match same {
            [one] => one.clone(),
            [one, ..] => format!("{} × {one}", same.len()),
            [] => String::new(),
        })
        .collect();
    (!shown.is_empty()).then(|| format!("{} mL", shown.join(" + ")))
}

/// A text as number and unit, where it is that.
fn parted(text: &str, reading: &Reading) -> (String, String) {
    let is_plain = matches!(
        reading,
        Reading::Mass { .. }
            | Reading::Volume { .. }
            | Reading::Measure { .. }
            | Reading::Ounces { .. }
    );
    let end = text
        .find(|sign: char| {
            let is_fraction = matches!(sign, '½' | '¼' | '¾' | '⅓' | '⅔');
            !(sign.is_ascii_digit() || is_fraction || matches!(sign, '.' | ',' | '/' | ' '))
        })
        .unwrap_or(text.len());
    let (value, unit) = text.split_at(end);
    if is_plain && !value.trim().is_empty() {
        (value.trim().to_owned(), unit.trim().to_owned())
    } else {
        (text.to_owned(), String::new())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_part_where_they_are_a_number_and_a_unit() {
        for (text, value, unit) in [
            ("40 mL", "40", "mL"),
            ("22.5mL", "22.5", "mL"),
            ("2 dashes", "2", "dashes"),
            ("1 ½ oz", "1 ½", "oz"),
            ("35 % of peel", "35 % of peel", ""),
            ("to taste, from 1 g", "to taste, from 1 g", ""),
        ] {
            let reading = pomace_book::parse_amount(text).unwrap().reading;
            assert_eq!(
                parted(text, &reading),
                (value.to_owned(), unit.to_owned()),
                "{text}"
            );
        }
    }
}
