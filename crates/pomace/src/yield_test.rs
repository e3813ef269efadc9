//! `pomace yield-test`: what the parts of a whole weigh, as shares for its document.

use pomace_bench::report::tidy;
use pomace_bench::yield_test::{Weighing, YieldTest};
use pomace_book::{Reading, names, parse_amount};
use serde_json::{Value, json};

use crate::cli;
use crate::fault::{Answer, Fault, Stop};
use crate::number::set;
use crate::page::{BOLD, DIM, rule, show, signs, width, wrap};

/// Parts may weigh so much more than the whole before it is a slip: water on the scale, wet hands.
const TOO_MUCH_PERCENT: f64 = 2.0;

/// Answers `pomace yield-test`.
pub(crate) fn run(asked: &cli::YieldTest) -> Result<Answer, Stop> {
    let mut faults = Vec::new();
    let mut weighings = Vec::new();
    for (index, text) in asked.weighed.iter().enumerate() {
        match read(text) {
            Ok(weighing) => weighings.push(weighing),
            Err(fault) => faults.push(fault.at(format!("weighing {}", index + 1))),
        }
    }
    if !faults.is_empty() {
        return Err(Stop::Faults(faults));
    }
    let Some(test) = YieldTest::of(&weighings) else {
        return Err(unread("").into());
    };
    let text = if asked.json {
        json(&asked.name, &test)
    } else {
        page(&asked.name, &test, width())
    };
    show(&text)?;
    Ok(Answer::Done)
}

fn unread(text: &str) -> Fault {
    Fault::new(
        format!("`{text}` does not say what the whole and its parts weigh"),
        "write `310 g: flesh 206 g, peel 37 g, core 58 g`, the whole first",
    )
}

/// `310 g: flesh 206 g, peel 37 g, core 58 g`.
fn read(text: &str) -> Result<Weighing, Fault> {
    let (whole, parts) = text.split_once(':').ok_or_else(|| unread(text))?;
    let whole_grams = grams(whole)?;
    let mut weighing = Weighing {
        whole_grams,
        parts: Vec::new(),
    };
    for part in parts
        .split([',', ';'])
        .map(str::trim)
        .filter(|p| !p.is_empty())
    {
        // The amount begins at the first digit, or at a sign that stands before it.
        let digit = part.find(|c: char| c.is_ascii_digit()).unwrap_or(0);
        let (name, amount) = part.split_at(digit);
        let is_signed = name.ends_with(" -") || name.ends_with(" \u{2212}");
        if name.trim().is_empty() || is_signed {
            return Err(unread(part));
        }
        let name = name.trim().trim_end_matches('=').trim();
        if weighing
            .parts
            .iter()
            .any(|(other, _)| names::same(other, name))
        {
            return Err(Fault::new(
                format!("`{name}` stands twice in one weighing"),
                "put the two together, or give each its own name",
            ));
        }
        weighing.parts.push((name.to_owned(), grams(amount)?));
    }
    if weighing.parts.is_empty() {
        return Err(unread(text));
    }
    let sum: f64 = weighing.parts.iter().map(|(_, g)| g).sum();
    if sum > whole_grams * (1.0 + TOO_MUCH_PERCENT / 100.0) {
        return Err(Fault::new(
            format!(
                "the parts weigh {} g, and the whole {} g",
                set(sum, 1),
                set(whole_grams, 1)
            ),
            "weigh again: parts cannot weigh more than what they were cut from",
        ));
    }
    Ok(weighing)
}

fn grams(text: &str) -> Result<f64, Fault> {
    let text = text.trim();
    // A bare number is grams, as on the scale.
    let with_unit = if text.ends_with(|c: char| c.is_ascii_digit()) {
        format!("{text} g")
    } else {
        text.to_owned()
    };
    let amount = parse_amount(&with_unit)
        .map_err(|error| Fault::new(error.what.to_string(), error.mend.to_string()))?;
    match amount.reading {
        Reading::Mass { grams } if grams > 0.0 => Ok(grams),
        _ => Err(Fault::new(
            format!("`{text}` is no weight"),
            "weigh it, and write grams: `206 g`",
        )),
    }
}

fn page(name: &str, test: &YieldTest, width: usize) -> String {
    let wholes = if test.count == 1 {
        "one whole".to_owned()
    } else {
        format!("{} wholes", test.count)
    };
    let mut page = format!(
        "\n{BOLD}{name}{BOLD:#}  {DIM}{wholes}, {} g{DIM:#}\n{}\n",
        set(test.whole_grams, 0),
        rule(width)
    );
    let widest = test.parts.iter().map(|p| signs(&p.name)).max().unwrap_or(0);
    let widest = widest.max(12);
    for part in &test.parts {
        let spread = part.spread_percent.map_or_else(String::new, |s| {
            let (low, high) = part.range_percent;
            format!(
                "  a single one ± {}, from {} to {}",
                set(2.0 * s, 1),
                set(low, 1),
                set(high, 1)
            )
        });
        page.push_str(&format!(
            "  {:widest$}  {BOLD}{:>5}{BOLD:#} %{DIM}{spread}{DIM:#}\n",
            part.name,
            set(part.percent, 1)
        ));
        if part.count < test.count {
            let text = format!("named in {} of {} weighings", part.count, test.count);
            page.push_str(&format!(
                "{DIM}{}{DIM:#}\n",
                wrap(&text, width, "    ", "    ")
            ));
        }
    }
    page.push_str(&format!(
        "  {:widest$}  {BOLD}{:>5}{BOLD:#} %  {DIM}on the board, on the knife, into the air{DIM:#}\n",
        "in no part",
        set(test.lost_percent, 1)
    ));
    if test.count == 1 {
        let text = "One fruit says nothing of the next: weigh three or more.";
        page.push_str(&format!("{}\n", wrap(text, width, "  ", "  ")));
    }
    page.push_str(&format!("\n{DIM}# for its document{DIM:#}\n"));
    for part in &test.parts {
        page.push_str(&format!(
            "[[part]]\nname = \"{}\"\nshare = \"{} %\"\n",
            part.name.replace(['"', '\\'], ""),
            set(part.percent, 1)
        ));
    }
    page
}

fn json(name: &str, test: &YieldTest) -> String {
    let parts: Vec<Value> = test
        .parts
        .iter()
        .map(|part| {
            json!({
                "name": part.name,
                "share_percent": tidy(part.percent),
                "spread_percent": part.spread_percent.map(tidy),
                "least_percent": tidy(part.range_percent.0),
                "most_percent": tidy(part.range_percent.1),
                "weighings": part.count,
            })
        })
        .collect();
    let value = json!({
        "whole": name,
        "weighings": test.count,
        "mass_g": tidy(test.whole_grams),
        "parts": parts,
        "lost_percent": tidy(test.lost_percent),
    });
    format!(
        "{}\n",
        serde_json::to_string_pretty(&value).unwrap_or_default()
    )
}
