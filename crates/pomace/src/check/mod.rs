//! `pomace check`: what is wrong in documents, and how to mend it.

mod page;

use std::fs;
use std::path::Path;

use pomace_bench::Bench;
use pomace_book::{Book, Finding, Gravity, trial};
use serde::Serialize;

use crate::cli;
use crate::fault::{Answer, Fault, Stop};
use crate::page::{shorten, show, width};

/// Reads the documents, and shows every finding.
pub(crate) fn run(asked: &cli::Check) -> Result<Answer, Stop> {
    let path = &asked.path;
    if let Err(error) = fs::metadata(path) {
        let shown = shorten(&path.display().to_string(), 200);
        return Err(Stop::from(Fault::new(
            format!("`{shown}` cannot be opened: {error}"),
            "give the path of a TOML file, or of a folder of them",
        )));
    }
    // One file leans on its neighbours, and is judged alone.
    let (book, only) = if path.is_file() {
        (Book::beside(path), path.canonicalize().ok())
    } else {
        (Book::load(path), None)
    };
    let mut findings = findings(&book);
    if let Some(only) = &only {
        findings.retain(|f| Path::new(&f.place.path).canonicalize().ok().as_ref() == Some(only));
    }
    findings.sort_by(|one, other| order(one).cmp(&order(other)));
    if asked.json {
        show(&json(&findings)?)?;
    } else {
        let count = if only.is_some() { 1 } else { book.len() };
        show(&page::page(&book, &findings, count, width()))?;
    }
    let stop = findings
        .iter()
        .any(|finding| finding.gravity == Gravity::Stop);
    Ok(if stop { Answer::No } else { Answer::Done })
}

/// Everything that can be said against a book, whoever says it. A room that judges documents adds
/// its findings here, and nowhere else.
fn findings(book: &Book) -> Vec<Finding> {
    if book.documents().all(|(_, d)| d.trials().is_empty()) {
        return Bench::new(book).check();
    }
    let book = book.with_trials(None);
    trial::told(&book, Bench::new(&book).check())
}

/// By document, then by place.
fn order(finding: &Finding) -> impl Ord + '_ {
    let place = &finding.place;
    (
        &finding.document,
        &place.path,
        place.line,
        place.column,
        finding.topic,
        &finding.message,
    )
}

/// The answer as others rely on it.
#[derive(Serialize)]
struct Report<'f> {
    findings: &'f [Finding],
}

fn json(findings: &[Finding]) -> Result<String, Stop> {
    let text = serde_json::to_string_pretty(&Report { findings })
        .map_err(|error| Stop::Output(error.into()))?;
    Ok(text + "\n")
}
