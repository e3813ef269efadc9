//! A drink, from parts to glass.

mod asked;
mod goes_in;
mod served;
mod waits;
mod way;

use pomace_bench::doubt::{Doubt, Stage};
use pomace_bench::report::DrinkReport;
use pomace_bench::{Bench, Mixed};
use pomace_book::{DocumentId, DrinkDoc};

use super::{becomes, said};
use crate::number::set;
use crate::page::{BOLD, DIM, rule, signs, wrap};

pub(crate) fn page(
    bench: &Bench<'_>,
    id: DocumentId,
    doc: &DrinkDoc,
    (mixed, report, doubt): (&Mixed, &DrinkReport, &Doubt),
    width: usize,
) -> String {
    let mut page = String::new();
    title(&mut page, bench, doc, width);
    said::unheard(&mut page, bench, id, width);
    goes_in::goes_in(&mut page, bench, id, doc, mixed, width);
    way::parts(&mut page, bench, id, width);
    said::heading(&mut page, "What it becomes");
    let (before, after) = (
        ("before ice", &report.before),
        ("in the glass", &report.after),
    );
    if report.before == report.after {
        becomes::table(&mut page, &[after], width);
    } else {
        becomes::table(&mut page, &[before, after], width);
    }
    if doc.lines.iter().any(|l| l.enters.is_some()) && mixed.melt > 0.0 {
        page.push_str(&format!(
            "{DIM}{}{DIM:#}\n",
            wrap(
                "Before ice is what meets the ice; a line that enters later is in the glass only.",
                width,
                "  ",
                "  "
            )
        ));
    }
    becomes::notes(&mut page, &report.after, width);
    if let Some(ice) = &mixed.glass_ice {
        waits::waits(&mut page, ice, report, width);
    }
    why(&mut page, doc, mixed, width);
    served::served(&mut page, bench, id, doc, (mixed, report), width);
    asked::questions(&mut page, bench, id, width);
    said::cautions(&mut page, bench, id, width);
    said::doubt(&mut page, doubt, Stage::AfterIce, width);
    how_sure(&mut page, mixed, width);
    page
}

fn title(page: &mut String, bench: &Bench<'_>, doc: &DrinkDoc, width: usize) {
    let house = bench.house().name.clone().unwrap_or_default();
    let gap = width
        .saturating_sub(signs(&doc.name) + signs(&house))
        .max(2);
    page.push_str(&format!("\n{BOLD}{}{BOLD:#}", doc.name.value));
    if !house.is_empty() {
        page.push_str(&format!("{}{DIM}{house}{DIM:#}", " ".repeat(gap)));
    }
    page.push('\n');
    page.push_str(&rule(width));
    page.push('\n');
    if let Some(note) = &doc.note {
        page.push_str(&format!("{}\n", wrap(note, width, "", "")));
    }
}

/// What ice and steps did, and what had to be assumed.
fn why(page: &mut String, doc: &DrinkDoc, mixed: &Mixed, width: usize) {
    if mixed.melt <= 0.0 && mixed.records.iter().all(|r| r.remarks.is_empty()) {
        return;
    }
    said::heading(page, "Why");
    if mixed.melt > 0.0 {
        let text = format!(
            "{} g of ice melt into it: melting takes heat from the drink, which cools towards the point where it would begin to freeze, and as far as the step lasts.",
            set(mixed.melt, 1)
        );
        page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
    }
    let verbs = doc.steps.iter().map(|s| s.verb.value);
    let all = mixed
        .records
        .iter()
        .zip(verbs)
        .flat_map(|(record, verb)| record.remarks.iter().map(move |r| (verb, r)));
    said::remarks(page, all, width);
}

fn how_sure(page: &mut String, mixed: &Mixed, width: usize) {
    let mut text = String::from(
        "Density, refraction, freezing and pH are checked against published tables for one substance in water; for spirit and sugar together no independent table was found: unvalidated.",
    );
    if mixed.melt > 0.0 {
        text.push_str(" Final temperature and dilution are unvalidated too: weigh one drink before and after, the difference is the melt.");
    }
    page.push_str(&format!("{DIM}{}{DIM:#}\n", wrap(&text, width, "  ", "  ")));
}
