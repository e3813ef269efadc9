//! What is in the hand: how many serves it gives, what runs out first, what is left.

use pomace_bench::Bench;
use pomace_bench::report::tidy;
use pomace_bench::scale::{Plan, Wanted};
use pomace_book::{Amount, Document, DocumentId, Reading, names, parse_amount};
use serde_json::{Value, json};

use super::page::name_of;
use crate::fault::{Fault, Stop};
use crate::number::set;
use crate::page::{BOLD, DIM, rule, signs, wrap};

/// So much of something.
pub(super) struct Hand {
    /// As it was typed.
    text: String,
    amount: Amount,
    what: String,
}

/// What one document makes of it.
pub(super) struct Found {
    id: DocumentId,
    /// Serves of a drink, or batches of a prep as written.
    times: f64,
    /// What is used up: the name of the part or of the thing itself.
    runs_out: String,
    /// What is left of the other parts, g.
    left: Vec<(String, f64)>,
}

/// Reads `260 g of quince / peel` or `8 quince`.
pub(super) fn read(text: &str) -> Result<Hand, Stop> {
    let of = text.split_once(" of ").map(|(a, b)| (a.trim(), b.trim()));
    let counted = || {
        let (count, what) = text.trim().split_once(' ')?;
        Some((count, what.trim()))
    };
    let Some((amount, what)) = of.or_else(counted).filter(|(_, what)| !what.is_empty()) else {
        return Err(unread(text).into());
    };
    let amount = match parse_amount(amount) {
        Ok(amount) => amount,
        // A bare count: `8 quince`.
        Err(_) => parse_amount(&format!("{amount} fruit")).map_err(|_| unread(text))?,
    };
    let known = matches!(
        amount.reading,
        Reading::Mass { .. } | Reading::Volume { .. } | Reading::Count { .. }
    );
    if !known {
        return Err(unread(text).into());
    }
    Ok(Hand {
        text: text.trim().to_owned(),
        what: what.to_owned(),
        amount,
    })
}

fn unread(text: &str) -> Fault {
    Fault::new(
        format!("`{text}` does not say how much of what"),
        "write `260 g of quince / peel`, `1 L of whey` or `8 quince`",
    )
}

impl Hand {
    /// The same under the name that the shelf has for it.
    pub(super) fn on_the_shelf(mut self, bench: &Bench<'_>) -> Self {
        let is_there = |name: &str| bench.shelf().iter().any(|i| names::same(&i.name, name));
        if !is_there(&self.what)
            && let Some(bought) = pomace_larder::find(&self.what)
            && is_there(bought.name)
        {
            bought.name.clone_into(&mut self.what);
        }
        self
    }

    /// Its grams, by the density or the weight of one piece on the shelf.
    fn grams(&self, bench: &Bench<'_>) -> Result<f64, Stop> {
        let item = || {
            let mut shelf = bench.shelf().iter();
            shelf.find(|i| names::same(&i.name, &self.what))
        };
        if let Some(noun) = item().and_then(|i| i.other_pieces(&self.amount.reading, &self.what)) {
            return Err(Fault::new(
                format!("what a `{noun}` of `{}` weighs is not known", self.what),
                "weigh it: `260 g of …`",
            )
            .into());
        }
        let made = || {
            let id = bench.book().by_name(&self.what)?;
            bench.prep(id).ok()?.grams_per_ml
        };
        let grams = match self.amount.reading {
            Reading::Mass { grams } => Some(grams),
            Reading::Volume { millilitres } => item()
                .and_then(|i| i.grams_per_ml)
                .or_else(made)
                .map(|density| millilitres * density),
            Reading::Count { count, .. } => item()
                .and_then(|i| i.piece_grams)
                .map(|piece| count * piece),
            _ => None,
        };
        grams.filter(|g| *g > 0.0).ok_or_else(|| {
            Fault::new(
                format!(
                    "how much `{}` of `{}` weighs is not known",
                    self.amount.text, self.what
                ),
                "weigh it: `260 g of …`",
            )
            .into()
        })
    }
}

/// Every document that uses it, or the one that is named.
pub(super) fn serves(
    bench: &Bench<'_>,
    named: Option<DocumentId>,
    hand: &Hand,
) -> Result<Vec<Found>, Stop> {
    let grams = hand.grams(bench)?;
    let wanted: Vec<DocumentId> = match named {
        Some(id) => vec![id],
        None => bench
            .book()
            .documents()
            .filter(|(_, d)| matches!(d, Document::Drink(_)))
            .map(|(id, _)| id)
            .collect(),
    };
    let found: Vec<Found> = wanted
        .into_iter()
        .filter_map(|id| one(bench, id, &hand.what, grams))
        .collect();
    if found.is_empty() {
        let users = match named {
            Some(id) => format!("`{}` does not use `{}`", name_of(bench, id), hand.what),
            None => format!("no drink of the book uses `{}`", hand.what),
        };
        let all = bench.shelf().iter().map(|i| &*i.name);
        let near = names::nearest(&hand.what, all, 3);
        let mend = if near.is_empty() {
            "name it as the book does".to_owned()
        } else {
            format!("did you mean {}?", names::either(near))
        };
        return Err(Fault::new(users, mend).into());
    }
    Ok(found)
}

/// Grams of everything in a plan that stands for the thing in the hand: itself, or parts of a whole.
/// With each the share of the whole that it is.
fn uses(bench: &Bench<'_>, plan: &Plan, what: &str) -> Vec<(String, f64, f64)> {
    if let Some(grams) = plan.grams_of(bench, what) {
        return vec![(what.to_owned(), grams, 1.0)];
    }
    let part = |name: &str| {
        let item = bench.shelf().iter().find(|i| *i.name == *name)?;
        let (whole, percent) = item.part_of.as_ref()?;
        names::same(whole, what).then_some(percent / 100.0)
    };
    plan.shelf
        .iter()
        .filter_map(|(name, grams)| Some((name.clone(), *grams, part(name)?)))
        .collect()
}

fn one(bench: &Bench<'_>, id: DocumentId, what: &str, grams: f64) -> Option<Found> {
    let is_drink = matches!(bench.book().document(id), Some(Document::Drink(_)));
    let sized = |times: f64| {
        let wanted = if is_drink {
            Wanted::Serves(times)
        } else {
            Wanted::Batches(times)
        };
        bench.scale(id, wanted).ok()
    };
    let mut times = 1.0;
    let mut plan = sized(times)?;
    // Fixed losses bend the proportion a little.
    for _ in 0..40 {
        let most = uses(bench, &plan, what)
            .iter()
            .map(|(_, used, share)| used / (grams * share))
            .fold(0.0, f64::max);
        if most <= 0.0 {
            return None;
        }
        if (most - 1.0).abs() < 1e-9 {
            break;
        }
        times /= most;
        plan = sized(times)?;
    }
    let mut parts = uses(bench, &plan, what);
    parts.sort_by(|a, b| (b.1 / b.2).total_cmp(&(a.1 / a.2)));
    let runs_out = parts.first()?.0.clone();
    let left = parts
        .iter()
        .skip(1)
        .map(|(name, used, share)| (name.clone(), grams * share - used))
        .collect();
    Some(Found {
        id,
        times,
        runs_out,
        left,
    })
}

pub(super) fn page(bench: &Bench<'_>, hand: &Hand, found: &[Found], width: usize) -> String {
    let mut page = format!("\n{BOLD}{}{BOLD:#}\n{}\n", hand.text, rule(width));
    let widest = found
        .iter()
        .map(|f| signs(name_of(bench, f.id)))
        .max()
        .unwrap_or(0);
    for one in found {
        let is_drink = matches!(bench.book().document(one.id), Some(Document::Drink(_)));
        let (count, unit) = if is_drink {
            // Half a serve is none; a hair under a whole one is rounding.
            (set((one.times + 1e-6).floor(), 0), "serves")
        } else {
            (set(one.times, 2), "times as written")
        };
        page.push_str(&format!(
            "  {:widest$}  {BOLD}{count:>6}{BOLD:#} {DIM}{unit}{DIM:#}\n",
            name_of(bench, one.id)
        ));
        if !names::same(&one.runs_out, &hand.what) {
            let mut text = format!("{} runs out first", one.runs_out);
            for (name, grams) in &one.left {
                text.push_str(&format!("; {} g of {name} are left", set(*grams, 0)));
            }
            let text = wrap(&format!("{text}."), width, "    ", "    ");
            page.push_str(&format!("{DIM}{text}{DIM:#}\n"));
        }
    }
    if found.len() > 1 {
        let text = "Each as if all of it went there.";
        page.push_str(&format!("{DIM}{}{DIM:#}\n", wrap(text, width, "  ", "  ")));
    }
    page
}

pub(super) fn json(bench: &Bench<'_>, hand: &Hand, found: &[Found]) -> String {
    let rows: Vec<Value> = found
        .iter()
        .map(|one| {
            let is_drink = matches!(bench.book().document(one.id), Some(Document::Drink(_)));
            let left: Vec<Value> = one
                .left
                .iter()
                .map(|(name, grams)| json!({ "what": name, "mass_g": tidy(*grams) }))
                .collect();
            json!({
                "name": name_of(bench, one.id),
                "kind": if is_drink { "drink" } else { "prep" },
                "times": tidy(one.times),
                "runs_out": one.runs_out,
                "left": left,
            })
        })
        .collect();
    let value = json!({ "hand": hand.text, "what": hand.what, "gives": rows });
    format!(
        "{}\n",
        serde_json::to_string_pretty(&value).unwrap_or_default()
    )
}
