//! An ingredient: what it is made of, and where that is known from.

use pomace_bench::Bench;
use pomace_bench::report::Figures;
use pomace_bench::shelf::Item;
use pomace_book::{Document, DocumentId, ToldValue};

use super::{becomes, said};
use crate::number::{align, set};
use crate::page::{BOLD, DIM, rule, wrap};

pub(crate) fn page(bench: &Bench<'_>, id: DocumentId, item: Option<&Item>, width: usize) -> String {
    let Some(Document::Ingredient(doc)) = bench.book().document(id) else {
        return String::new();
    };
    let mut page = format!("\n{BOLD}{}{BOLD:#}\n{}\n", doc.name.value, rule(width));
    let Some(item) = item else { return page };
    page.push_str(&format!(
        "{DIM}{}{DIM:#}\n",
        wrap(&format!("from {}", item.source), width, "", "")
    ));
    said::heading(&mut page, "In 100 g");
    let (names, grams): (Vec<String>, Vec<String>) = item
        .gram
        .matter()
        .iter()
        .filter(|(_, grams)| *grams >= 5e-5)
        .map(|(substance, grams)| (substance.name().replace('_', " "), set(100.0 * grams, 2)))
        .unzip();
    for (name, grams) in names.iter().zip(align(&grams)) {
        page.push_str(&format!(
            "  {name:16} {BOLD}{grams:>7}{BOLD:#} {DIM}g{DIM:#}\n"
        ));
    }
    said::carried(&mut page, &item.gram.carried, &item.cautions, width);
    if let Some(grams) = item.piece_grams {
        page.push_str(&format!("  One piece weighs {} g.\n", set(grams, 0)));
    }
    if !doc.parts.is_empty() {
        said::heading(&mut page, "Comes apart into");
        for part in &doc.parts {
            let share = match part.share.as_ref().map(|s| s.value) {
                Some(ToldValue::Exactly(v)) => format!("{} %", set(v, 0)),
                Some(ToldValue::Between(low, high)) => {
                    format!("{}–{} %", set(low, 0), set(high, 0))
                }
                _ => "?".to_owned(),
            };
            page.push_str(&format!(
                "  {:14} {BOLD}{share:>7}{BOLD:#}\n",
                part.name.value
            ));
            for caution in &part.cautions {
                page.push_str(&format!(
                    "{}\n",
                    wrap(
                        &format!("Caution: {}.", caution.value),
                        width,
                        "    ",
                        "    "
                    )
                ));
            }
        }
    }
    if item.form.pours() {
        said::heading(&mut page, "What it is");
        let mut stream = item.gram.clone();
        stream.liquid = stream.liquid * 100.0;
        let figures = Figures::of(&stream);
        becomes::table(&mut page, &[("", &figures)], width);
    }
    if !item.remarks.is_empty() {
        said::heading(&mut page, "Taken for granted");
        for remark in &item.remarks {
            page.push_str(&format!("{}\n", wrap(remark, width, "  ", "  ")));
        }
    }
    said::cautions(&mut page, bench, id, width);
    page
}
