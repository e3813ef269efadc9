//! Amounts that can be read in two ways.

use pomace_bench::report::DrinkReport;
use pomace_bench::{Bench, Question};
use pomace_book::DocumentId;
use pomace_matter::liquid::Property;

use crate::number::set;
use crate::page::wrap;
use crate::show::said;

/// What each reading makes of the drink.
pub(super) fn questions(page: &mut String, bench: &Bench<'_>, id: DocumentId, width: usize) {
    let questions = bench.questions(id);
    if questions.is_empty() {
        return;
    }
    said::heading(page, "Which is meant?");
    for question in &questions {
        page.push_str(&format!(
            "{}\n",
            wrap(
                &format!("`{}`: {}", question.text, question.why),
                width,
                "  ",
                "  "
            )
        ));
        for (index, reading) in answers(bench, id, question).into_iter().enumerate() {
            page.push_str(&format!(
                "{}\n",
                wrap(&reading, width, &format!("    {} ", index + 1), "      ")
            ));
        }
    }
}

fn answers(bench: &Bench<'_>, id: DocumentId, question: &Question) -> Vec<String> {
    (0..question.readings.len())
        .map(|reading| {
            let said = question
                .readings
                .get(reading)
                .map(ToString::to_string)
                .unwrap_or_default();
            match bench.answered(question, reading).report(id) {
                Ok((_, report)) => format!(
                    "{said}: {} mL in the glass, {} %vol, sugar {} and acid {} g/100 mL",
                    report
                        .after
                        .volume
                        .value
                        .map_or_else(|| "?".into(), |v| set(v, 0)),
                    figure(&report, Property::Strength, 1),
                    figure(&report, Property::Sugar, 1),
                    figure(&report, Property::Acid, 2),
                ),
                Err(error) => format!("{said}: no figures ({error})"),
            }
        })
        .collect()
}

fn figure(report: &DrinkReport, property: Property, decimals: usize) -> String {
    report
        .after
        .get(property)
        .map_or_else(|| "?".to_owned(), |v| set(v, decimals))
}
