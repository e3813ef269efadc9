//! The preps that a drink stands on, each by its steps in one line.

use pomace_bench::Bench;
use pomace_book::{Document, DocumentId, PrepDoc, Reference};

use crate::number::set;
use crate::page::wrap;
use crate::show::said;

/// The preps that the drink stands on, each by its steps in one line, the deepest first.
pub(super) fn parts(page: &mut String, bench: &Bench<'_>, id: DocumentId, width: usize) {
    let preps: Vec<DocumentId> = bench
        .needs(id)
        .into_iter()
        .filter(|needed| matches!(bench.book().document(*needed), Some(Document::Prep(_))))
        .collect();
    if preps.is_empty() {
        return;
    }
    said::heading(page, "From parts to glass");
    for prep in preps {
        let Some(Document::Prep(doc)) = bench.book().document(prep) else {
            continue;
        };
        let Ok(made) = bench.prep(prep) else {
            continue;
        };
        let way = way(bench, prep, doc, &made);
        page.push_str(&format!(
            "{}\n",
            wrap(&format!("{}: {way}", doc.name.value), width, "  ", "    ")
        ));
    }
}

/// `weigh 240 g quince / peel → add 336 g cider vinegar → steep 30 h → … : 678 g, and 137 g pressed peel`
fn way(bench: &Bench<'_>, id: DocumentId, doc: &PrepDoc, made: &pomace_bench::Made) -> String {
    let mut steps = Vec::new();
    for (index, step) in doc.steps.iter().enumerate() {
        if step.verb.value == pomace_book::Verb::Store {
            continue;
        }
        let brought = made.brought(index);
        let what = step
            .what
            .as_ref()
            .map(|w| w.value.as_str())
            .unwrap_or_default();
        let from = match bench.graph().step(id, index) {
            Some(Reference::ByProduct { prep, .. }) => bench
                .book()
                .document(*prep)
                .map_or_else(String::new, |d| format!(" (left by {})", d.name().value)),
            _ => String::new(),
        };
        let time = step
            .time
            .as_ref()
            .map(|t| format!(" {}", t.value))
            .unwrap_or_default();
        steps.push(if brought > 0.0 {
            format!("{} {} g {what}{from}", step.verb.value, set(brought, 0))
        } else {
            format!("{}{time}", step.verb.value)
        });
    }
    let mut way = format!(
        "{} → {} g kept",
        steps.join(" → "),
        set(made.kept.total(), 0)
    );
    for (index, step) in doc.steps.iter().enumerate() {
        let left = made.left.grams(index);
        if left > 0.05 {
            let name = step
                .by_product
                .as_ref()
                .map_or("left behind", |b| b.value.as_str());
            way.push_str(&format!(", {} g {name}", set(left, 0)));
        }
    }
    way
}
