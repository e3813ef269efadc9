//! A prep, step by step.

use pomace_bench::doubt::{Doubt, Stage};
use pomace_bench::report::Figures;
use pomace_bench::{Bench, Made};
use pomace_book::{DocumentId, PrepDoc};
use pomace_matter::Substance;

use super::{becomes, said};
use crate::number::set;
use crate::page::{BOLD, DIM, rule, signs, wrap};

pub(crate) fn page(
    bench: &Bench<'_>,
    id: DocumentId,
    doc: &PrepDoc,
    (made, figures, doubt): (&Made, &Figures, &Doubt),
    width: usize,
) -> String {
    let mut page = format!("\n{BOLD}{}{BOLD:#}\n{}\n", doc.name.value, rule(width));
    if let Some(note) = &doc.note {
        page.push_str(&format!("{}\n", wrap(note, width, "", "")));
    }
    said::unheard(&mut page, bench, id, width);
    said::heading(&mut page, "Steps");
    let mut rows = Vec::new();
    for (index, (step, record)) in doc.steps.iter().zip(&made.records).enumerate() {
        let brought = made.brought(index);
        let mut text = step.verb.value.to_string();
        if brought > 0.0 {
            text.push_str(&format!(" {} g", set(brought, 1)));
        }
        if let Some(what) = &step.what {
            text.push_str(&format!(" {}", what.value));
        }
        for told in [
            step.time.as_ref().map(|t| t.value.to_string()),
            step.temperature
                .as_ref()
                .map(|t| format!("{} °C", set(t.value, 0))),
            step.through
                .as_ref()
                .map(|t| format!("through {}", t.value)),
        ]
        .into_iter()
        .flatten()
        {
            text.push_str(&format!(", {told}"));
        }
        rows.push((
            text,
            record.after,
            record.left,
            step.by_product.as_ref().map(|b| b.value.clone()),
        ));
    }
    let widest = rows
        .iter()
        .map(|(t, ..)| signs(t))
        .max()
        .unwrap_or(0)
        .min(width.saturating_sub(30))
        .max(20);
    page.push_str(&format!(
        "{DIM}     {:widest$}  {:>9}{DIM:#}\n",
        "", "then, g"
    ));
    for (index, (text, after, left, name)) in rows.iter().enumerate() {
        let text = crate::page::shorten(text, widest);
        page.push_str(&format!(
            "  {:>2} {text:widest$}  {BOLD}{:>9}{BOLD:#}",
            index + 1,
            set(*after, 1)
        ));
        if *left > 0.05 {
            let (grams, name) = (set(*left, 1), name.as_deref().unwrap_or("left"));
            // What has no room beside the step stands below it.
            let used = 5 + widest + 11 + 4 + signs(&grams) + 1 + signs(name);
            let lead = if used > width { "\n       " } else { "  " };
            page.push_str(&format!("{lead}{DIM}+{DIM:#} {grams} {DIM}{name}{DIM:#}"));
        }
        page.push('\n');
    }
    said::heading(&mut page, "What it is");
    becomes::table(&mut page, &[("", figures)], width);
    if made.kept.liquid.is_empty() {
        let total = made.kept.total();
        let water = made.kept.matter().grams(Substance::Water) + made.kept.ice;
        let text = format!(
            "Nothing of it pours: {} g, of it {} % water.",
            set(total, 1),
            set(100.0 * water / total.max(1e-9), 0)
        );
        page.push_str(&format!("{}\n", wrap(&text, width, "  ", "  ")));
    }
    becomes::notes(&mut page, figures, width);
    let cautions = bench.cautions(&made.kept);
    said::carried(&mut page, &made.kept.carried, &cautions, width);
    said::marks(&mut page, &doc.marks, width);
    said::trials(&mut page, &doc.trials, width);
    let verbs = doc.steps.iter().map(|s| s.verb.value);
    let mut all = made
        .records
        .iter()
        .zip(verbs)
        .flat_map(|(record, verb)| record.remarks.iter().map(move |r| (verb, r)))
        .peekable();
    if all.peek().is_some() {
        said::heading(&mut page, "Why");
        said::remarks(&mut page, all, width);
    }
    said::cautions(&mut page, bench, id, width);
    said::doubt(&mut page, doubt, Stage::Kept, width);
    page
}
