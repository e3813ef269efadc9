//! Bottles: what fills so many of them, what is left over or short, and what to mind.

use pomace_bench::Bench;
use pomace_bench::remark::PRESSURE_CAUTION;
use pomace_bench::report::{Figures, tidy};
use pomace_bench::scale::Plan;
use pomace_book::{Document, DocumentId, Reading, Verb, parse_amount};
use pomace_matter::Substance;
use pomace_matter::liquid::Property;
use serde_json::{Value, json};

use super::page::number;
use crate::fault::{Fault, Stop};
use crate::number::{positive, set};
use crate::page::wrap;
use crate::show::said::heading;

/// Gas from which something is bottled as carbonated, g/L; no source, our judgement (still water in air
/// holds a thousandth of it).
const CARBONATED: f64 = 0.5;

/// Room above what is carbonated, % of the bottle; common practice, no source.
const HEADSPACE_PERCENT: (f64, f64) = (3.0, 5.0);

/// So many bottles of one size.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bottles {
    pub count: f64,
    /// What goes into one at 20 °C.
    pub millilitres: f64,
}

/// What a plan fills.
pub(super) struct Filled {
    bottles: Bottles,
    /// There is so much at 20 °C.
    there_ml: f64,
    /// One serve before its ice, where it is a drink.
    serve_ml: Option<f64>,
    /// Water that a serve takes up from its ice, mL, and lines that enter later.
    at_the_bar: Option<(f64, Vec<String>)>,
    is_carbonated: bool,
    ferments: bool,
}

/// Reads `12 x 700 mL`.
pub(super) fn read(text: &str) -> Result<Bottles, Stop> {
    let unread = || {
        Fault::new(
            format!("`{text}` does not say how many bottles of which size"),
            "write `12 x 700 mL`",
        )
    };
    let (count, size) = text.split_once(['x', 'X', '×', '*']).ok_or_else(unread)?;
    let count = positive(count).map_err(|_| unread())?;
    if (count - count.round()).abs() > 1e-9 {
        return Err(Fault::new(
            format!("`{count}` is no whole number of bottles"),
            "write `12 x 700 mL`",
        )
        .into());
    }
    let amount = parse_amount(size)
        .map_err(|error| Fault::new(error.what.to_string(), error.mend.to_string()))?;
    match amount.reading {
        Reading::Volume { millilitres } if millilitres > 0.0 => Ok(Bottles { count, millilitres }),
        _ => Err(Fault::new(
            format!("`{}` is no volume of a bottle", size.trim()),
            "write it like `700 mL` or `70 cL`",
        )
        .into()),
    }
}

impl Bottles {
    /// What all of them hold, mL at 20 °C.
    pub(super) fn all(&self) -> f64 {
        self.count * self.millilitres
    }

    /// What a plan puts into them.
    pub(super) fn filled(
        self,
        bench: &Bench<'_>,
        id: DocumentId,
        plan: &Plan,
    ) -> Result<Filled, Stop> {
        let Some(document) = bench.book().document(id) else {
            return Err(no_bottle("it").into());
        };
        let name = &document.name().value;
        let steps = document.steps().iter();
        let ferments = steps.clone().any(|s| s.verb.value == Verb::Ferment);
        let charged = steps.clone().any(|s| s.verb.value == Verb::Charge);
        let (there_ml, serve_ml, at_the_bar, liquid, litre_of) =
            if let Document::Drink(drink) = document {
                let (mixed, report) = bench.report(id).map_err(|_| no_bottle(name))?;
                let serve = report.before.get(Property::Volume).filter(|v| *v > 0.0);
                let serve = serve.ok_or_else(|| no_bottle(name))?;
                let later = drink.lines.iter().filter(|line| line.enters.is_some());
                let later = later.map(|line| line.what.value.clone()).collect();
                let serves = plan.serves.unwrap_or_default();
                (
                    serves * serve,
                    Some(serve),
                    Some((mixed.melt, later)),
                    mixed.before.liquid,
                    serve,
                )
            } else {
                let batch = plan.batches.iter().find(|b| b.id == id);
                let made = &batch.ok_or_else(|| no_bottle(name))?.made;
                let volume = Figures::of(&made.kept).get(Property::Volume);
                let volume = volume.filter(|v| *v > 0.0 && made.grams_per_ml.is_some());
                let volume = volume.ok_or_else(|| no_bottle(name))?;
                (volume, None, None, made.kept.liquid, volume)
            };
        let gas = liquid.grams(Substance::CarbonDioxide) / (litre_of / 1000.0);
        Ok(Filled {
            bottles: self,
            there_ml,
            serve_ml,
            at_the_bar,
            is_carbonated: gas > CARBONATED || charged || ferments,
            ferments,
        })
    }
}

pub(super) fn no_bottle(name: &str) -> Fault {
    Fault::new(
        format!("`{name}` does not pour, or its volume is not known: it fills no bottle"),
        "scale it by weight: `--make \"2 kg\"`",
    )
}

impl Filled {
    /// Whole bottles that are full, as far as there are any to fill.
    fn whole(&self) -> f64 {
        let full = (self.there_ml / self.bottles.millilitres + 1e-6).floor();
        full.min(self.bottles.count)
    }

    /// What stays when they are full; less than nothing where something is wanting.
    fn over_ml(&self) -> f64 {
        let over = self.there_ml - self.bottles.all();
        if over.abs() < 1e-3 { 0.0 } else { over }
    }

    /// What is to be minded.
    fn notes(&self) -> Vec<String> {
        let mut notes = Vec::new();
        if let Some((melt, later)) = &self.at_the_bar {
            if !later.is_empty() {
                notes.push(format!(
                    "{} enters later: it is counted above, and is not in the bottles",
                    later.join(", ")
                ));
            }
            if *melt > 0.05 {
                notes.push(format!(
                    "a serve takes {} mL of water from its ice: none of it is in the bottles, so shake or stir as written, or add it if it is only chilled",
                    set(*melt / 0.9982, 0)
                ));
            }
        }
        if self.is_carbonated {
            let (low, high) = HEADSPACE_PERCENT;
            notes.push(format!(
                "carbonated: choose a bottle that leaves {low:.0} to {high:.0} % of itself as headspace above this (common practice, no source). {PRESSURE_CAUTION}"
            ));
        }
        if self.ferments {
            notes.push(
                "it has fermented and may go on in the bottle, where pressure builds: keep it cold, in pressure bottles, and open one now and then to look".to_owned(),
            );
        }
        notes
    }

    pub(super) fn page(&self, page: &mut String, width: usize) {
        let Bottles { count, millilitres } = self.bottles;
        heading(page, "In bottles");
        let over = self.over_ml();
        let left = match over {
            0.0 => "nothing left over".to_owned(),
            over if over > 0.0 => format!("{} mL left over", set(over, 0)),
            short => format!("{} mL short of all {}", set(-short, 0), number(count)),
        };
        let mut text = format!(
            "{} mL: {} of {} mL full, {left}.",
            set(self.there_ml, 0),
            number(self.whole()),
            number(millilitres)
        );
        if let Some(serve) = self.serve_ml {
            let per = millilitres / serve;
            let whole = (per + 1e-9).floor();
            text.push_str(&format!(
                " A bottle holds {} serves of {} mL before their ice: {} whole ones, {} mL over.",
                set(per, 1),
                set(serve, 1),
                number(whole),
                set(millilitres - whole * serve, 0)
            ));
        }
        page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
        for note in self.notes() {
            let note = note.trim_end_matches('.');
            page.push_str(&format!(
                "{}\n",
                wrap(&format!("Note: {note}."), width, "  ", "  ")
            ));
        }
    }

    pub(super) fn json(&self) -> Value {
        let over = self.over_ml();
        json!({
            "count": self.bottles.count,
            "each_ml": tidy(self.bottles.millilitres),
            "there_ml": tidy(self.there_ml),
            "full": self.whole(),
            "left_over_ml": tidy(over.max(0.0)),
            "short_ml": tidy((-over).max(0.0)),
            "serves_per_bottle": self.serve_ml.map(|serve| tidy(self.bottles.millilitres / serve)),
            "carbonated": self.is_carbonated,
            "notes": self.notes(),
        })
    }
}
