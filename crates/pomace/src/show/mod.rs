//! `pomace show`: a drink from parts to glass, a prep step by step, an ingredient as it is.

mod becomes;
mod drink;
pub(crate) mod find;
mod ingredient;
mod json;
mod prep;
pub(crate) mod said;
mod why;

use pomace_bench::Bench;
use pomace_bench::doubt::Doubt;
use pomace_bench::report::Figures;
use pomace_book::Document;

use crate::cli::Show;
use crate::fault::{Answer, Fault, Stop};
use crate::page;

/// Answers `pomace show`.
pub(crate) fn run(asked: &Show) -> Result<Answer, Stop> {
    let book = find::book(&asked.name, asked.book.as_deref())?;
    let bench = Bench::new(&book);
    let id = find::document(&bench, &asked.name)?;
    let width = page::width();
    let answer = match book.document(id) {
        Some(Document::Drink(doc)) => {
            let (mixed, mut report) = bench
                .report(id)
                .map_err(|error| stuck(&bench, id, &error))?;
            let doubt = bench
                .doubt_of_drink(id)
                .map_err(|error| stuck(&bench, id, &error))?;
            doubt.write(&mut report);
            let minutes: Vec<u32> = report.over_time.iter().map(|(minute, _)| *minute).collect();
            // The first is the moment at which it is served.
            let mut later = Vec::new();
            for minute in minutes.into_iter().filter(|minute| *minute > 0) {
                let doubt = bench.doubt_of_minute(id, minute);
                let doubt = doubt.map_err(|error| stuck(&bench, id, &error))?;
                doubt.write(&mut report);
                later.push(doubt);
            }
            if let Some(figure) = &asked.why {
                let doubts: Vec<&Doubt> = std::iter::once(&doubt).chain(&later).collect();
                why::page(&bench, id, &mut report, &doubts, figure, width)?
            } else if asked.json {
                json::drink(&bench, id, doc, &mixed, &report)
            } else {
                drink::page(&bench, id, doc, (&mixed, &report, &doubt), width)
            }
        }
        Some(Document::Prep(doc)) => {
            let made = bench.prep(id).map_err(|error| stuck(&bench, id, &error))?;
            let doubt = bench
                .doubt_of_prep(id)
                .map_err(|error| stuck(&bench, id, &error))?;
            let mut figures = Figures::of(&made.kept);
            doubt.write(&mut figures);
            if let Some(figure) = &asked.why {
                why::page(&bench, id, &mut figures, &[&doubt], figure, width)?
            } else if asked.json {
                json::prep(&bench, id, doc, &made, &figures)
            } else {
                prep::page(&bench, id, doc, (&made, &figures, &doubt), width)
            }
        }
        Some(Document::Ingredient(_)) => {
            let item = bench.ingredient(id);
            if asked.json {
                json::ingredient(&bench, id, item)
            } else {
                ingredient::page(&bench, id, item, width)
            }
        }
        Some(Document::House(doc)) => return Err(Stop::from(nothing_to_show(&doc.name))),
        None => return Err(Stop::from(nothing_to_show(&asked.name))),
    };
    page::show(&answer)?;
    Ok(Answer::Done)
}

fn nothing_to_show(name: &str) -> Fault {
    Fault::new(
        format!("there is nothing to compute in `{name}`"),
        "name a drink, a prep or an ingredient",
    )
}

/// A document that gives no result: what stopped it, with the faults that were found in it.
pub(crate) fn stuck(
    bench: &Bench<'_>,
    id: pomace_book::DocumentId,
    error: &pomace_bench::RunError,
) -> Stop {
    let name = bench
        .book()
        .document(id)
        .map_or_else(String::new, |d| d.name().value.clone());
    let mut faults: Vec<Fault> = said::findings(bench, id)
        .filter(|f| f.gravity == pomace_book::Gravity::Stop)
        .map(|f| {
            Fault::new(f.message.to_string(), f.mend.to_string()).at(format!(
                "{}:{}:{}",
                f.place.path, f.place.line, f.place.column
            ))
        })
        .collect();
    let (message, mend) = error.told();
    faults.push(Fault::new(
        format!("`{name}` gives no figures: {message}"),
        mend.to_string(),
    ));
    Stop::Faults(faults)
}
