//! What is said beside the figures: remarks of steps, findings, questions, how sure it all is.

use std::collections::HashSet;

use pomace_bench::Bench;
use pomace_bench::doubt::{Doubt, FigureName, Stage};
use pomace_bench::remark::{Assumption, Remark};
use pomace_bench::shelf::{SIMILAR_MARK, similar_told};
use pomace_bench::stream::Carried;
use pomace_book::{DocumentId, Finding, Gravity, Marks, Trial, Verb};

use crate::number::{align, set, set_short};
use crate::page::{BOLD, DIM, signs, wrap};

/// The findings of a document, and of everything that it is made with.
pub(crate) fn findings<'a>(
    bench: &'a Bench<'_>,
    id: DocumentId,
) -> impl Iterator<Item = &'a Finding> {
    let paths: HashSet<&str> = bench
        .needs(id)
        .into_iter()
        .filter_map(|needed| bench.book().source(needed))
        .map(|source| source.path.as_str())
        .collect();
    bench
        .findings()
        .iter()
        .filter(move |f| paths.contains(f.place.path.as_str()))
}

/// A word ahead of all figures where something in the documents could not be read.
pub(crate) fn unheard(page: &mut String, bench: &Bench<'_>, id: DocumentId, width: usize) {
    let stops = findings(bench, id)
        .filter(|f| f.gravity == Gravity::Stop)
        .count();
    if stops > 0 {
        let text = format!(
            "Not all of it could be read: {stops} to mend, below under \"To look at\". The figures, the allergens too, are without that."
        );
        page.push_str(&format!("\n{BOLD}{}{BOLD:#}\n", wrap(&text, width, "", "")));
    }
}

/// Allergens as a sentence: those surely in it, and those that may be.
pub(crate) fn allergens(sure: &[&str], possible: &[&str]) -> String {
    let labels = possible.join(", ");
    match (sure.is_empty(), possible.is_empty()) {
        (true, true) => "Allergens: none known.".to_owned(),
        (true, false) => format!("Allergens: none known; read the labels for {labels}."),
        (false, true) => format!("Allergens: {}.", sure.join(", ")),
        (false, false) => format!(
            "Allergens: {}; read the labels for {labels}.",
            sure.join(", ")
        ),
    }
}

/// The allergens and warnings that travel with a stream.
pub(crate) fn carried(page: &mut String, carried: &Carried, cautions: &[String], width: usize) {
    let sure: Vec<&str> = carried.allergens.iter().map(|a| a.as_str()).collect();
    let possible: Vec<&str> = carried.maybe().map(|a| a.as_str()).collect();
    let text = allergens(&sure, &possible);
    page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
    for caution in cautions {
        let text = format!("Caution: {caution}.");
        page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
    }
}

/// The house's own marks, if it gave any.
pub(crate) fn marks(page: &mut String, marks: &Marks, width: usize) {
    let given: Vec<String> = marks
        .given()
        .map(|(name, mark)| format!("{name} {}", set_short(mark, 2)))
        .collect();
    if !given.is_empty() {
        let text = format!(
            "The house's own marks, 0 to 5: {}. Nothing here predicts them.",
            given.join(", ")
        );
        page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
    }
}

/// The trials that a document tells of.
pub(crate) fn trials(page: &mut String, trials: &[Trial], width: usize) {
    let names: Vec<&str> = trials
        .iter()
        .filter(|trial| !trial.promoted)
        .map(|trial| trial.name.as_str())
        .collect();
    if !names.is_empty() {
        let text = format!(
            "Trials: {}. `pomace trial` sets them side by side.",
            names.join(", ")
        );
        page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
    }
}

/// A heading.
pub(crate) fn heading(page: &mut String, text: &str) {
    page.push_str(&format!("\n{BOLD}{text}{BOLD:#}\n"));
}

/// What the steps had to say: a table of what was assumed, then the rest as sentences.
pub(crate) fn remarks<'a>(
    page: &mut String,
    remarks: impl Iterator<Item = (Verb, &'a Remark)>,
    width: usize,
) {
    let mut assumed: Vec<(Verb, &Assumption)> = Vec::new();
    let mut said: Vec<String> = Vec::new();
    for (verb, remark) in remarks {
        match remark {
            Remark::Assumed(a) if !assumed.iter().any(|(_, b)| *b == a) => assumed.push((verb, a)),
            Remark::Assumed(_) => {}
            other => {
                let text = format!("{}: {other}.", verb.word());
                if !said.contains(&text) {
                    said.push(text);
                }
            }
        }
    }
    for text in said {
        page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
    }
    assumptions(page, &assumed, width);
}

fn assumptions(page: &mut String, assumed: &[(Verb, &Assumption)], width: usize) {
    if assumed.is_empty() {
        return;
    }
    let short = |v: f64| set_short(v, 3);
    let verbs = assumed
        .iter()
        .map(|(v, _)| signs(v.word()))
        .max()
        .unwrap_or(0);
    let whats = assumed
        .iter()
        .map(|(_, a)| signs(a.what))
        .max()
        .unwrap_or(0);
    let values = align(
        &assumed
            .iter()
            .map(|(_, a)| short(a.value))
            .collect::<Vec<_>>(),
    );
    page.push_str(&format!(
        "  {DIM}Nobody said, so these are assumed (usual range):{DIM:#}\n"
    ));
    for ((verb, a), value) in assumed.iter().zip(&values) {
        let range = if a.high > a.low {
            format!(" ({} to {})", short(a.low), short(a.high))
        } else {
            String::new()
        };
        let told = format!("{}{range}", a.unit);
        // What does not fit beside its name stands below it.
        let room = verbs + whats + signs(value) + 7;
        let (between, value) = if room + signs(&told) > width {
            (format!("\n{}", " ".repeat(verbs + 6)), value.trim())
        } else {
            let gap = whats.saturating_sub(signs(a.what)) + 2;
            (" ".repeat(gap), value.as_str())
        };
        page.push_str(&format!(
            "  {DIM}{:verbs$}{DIM:#}  {}{between}{BOLD}{value}{BOLD:#} {DIM}{told}{DIM:#}\n",
            verb.word(),
            a.what,
        ));
    }
    let mut sources: Vec<&str> = assumed
        .iter()
        .map(|(_, a)| match a.source {
            "common practice" => "common practice, no source",
            source => source,
        })
        .collect();
    sources.sort_unstable();
    sources.dedup();
    let text = format!("Sources: {}.", sources.join("; "));
    page.push_str(&format!("{DIM}{}{DIM:#}\n", wrap(&text, width, "  ", "  ")));
}

/// Findings that a reader of the figures must know of.
pub(crate) fn cautions(page: &mut String, bench: &Bench<'_>, id: DocumentId, width: usize) {
    let mut found = findings(bench, id)
        .filter(|f| f.gravity > Gravity::Note)
        .peekable();
    if found.peek().is_none() {
        return;
    }
    heading(page, "To look at");
    for finding in found {
        let own = bench.book().document(id).map(|d| d.name().value.as_str());
        let whose = if own == Some(finding.document.as_str()) {
            String::new()
        } else {
            format!("{}, ", finding.document)
        };
        let place = format!("{whose}{}", finding.place.key);
        let place = match place.trim_end_matches(", ") {
            "" => String::new(),
            place => format!("{place}: "),
        };
        page.push_str(&wrap(
            &format!("{place}{}", finding.message),
            width,
            "  ",
            "  ",
        ));
        page.push('\n');
        page.push_str(&format!(
            "{DIM}{}{DIM:#}\n",
            wrap(&finding.mend.to_string(), width, "    → ", "      ")
        ));
    }
}

/// Figures whose doubt is told on every page: their name in JSON, and in words.
const TOLD: &[(&str, &str)] = &[
    ("abv_percent", "strength"),
    ("sugar_g_per_100ml", "sugar"),
    ("titratable_acidity_citric_g_per_l", "acidity"),
    ("ph", "pH"),
    ("temperature_celsius", "temperature"),
];

/// Where the doubt comes from, and the reading that would settle most of it.
pub(crate) fn doubt(page: &mut String, doubt: &Doubt, stage: Stage, width: usize) {
    let mut rows = Vec::new();
    let mut readings: Vec<(&str, f64)> = Vec::new();
    for (name, label) in TOLD {
        let largest = doubt.largest(FigureName { stage, name }, 3);
        if largest.is_empty() {
            continue;
        }
        for share in largest.iter().filter(|s| !s.is_model) {
            match readings.iter_mut().find(|(r, _)| *r == share.reading) {
                Some((_, sum)) => *sum += share.share,
                None => readings.push((share.reading, share.share)),
            }
        }
        let shares: Vec<String> = largest
            .iter()
            .map(|s| format!("{} {} %", s.name, set(100.0 * s.share, 0)))
            .collect();
        rows.push((*label, shares.join(", ")));
    }
    heading(page, "How sure");
    if rows.is_empty() {
        return;
    }
    let marked = rows.iter().any(|(_, shares)| shares.contains(SIMILAR_MARK));
    let text = "± is two standard deviations; what most of each comes from:";
    page.push_str(&format!("{DIM}{}{DIM:#}\n", wrap(text, width, "  ", "  ")));
    for (label, shares) in rows {
        let lead = format!("  {label:11}  ");
        page.push_str(&format!(
            "{}\n",
            wrap(&shares, width, &lead, &" ".repeat(15))
        ));
    }
    if marked {
        similar(page, width);
    }
    let most = readings.iter().max_by(|a, b| a.1.total_cmp(&b.1));
    if let Some((reading, _)) = most {
        let text = format!("The reading that would settle most: {reading}.");
        page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
    }
}

/// What it means that something is only similar.
pub(crate) fn similar(page: &mut String, width: usize) {
    let told = wrap(&similar_told(), width, "  ", "  ");
    page.push_str(&format!("{DIM}{told}{DIM:#}\n"));
}
