//! `pomace trial`: small variants of a drink or a prep side by side, and one of them made the document.

mod changes;
mod json;
mod page;
mod promote;
mod table;

use pomace_bench::Bench;
use pomace_bench::difference::{Apart, Named};
use pomace_book::{Book, Document, DocumentId, Finding, Gravity, Trial, trial};

use crate::cli;
use crate::fault::{Answer, Fault, Stop};
use crate::page::{show, width};
use crate::show::{find, stuck};

/// A document with its variants computed.
struct SideBySide<'b> {
    book: &'b Book,
    id: DocumentId,
    document: &'b Document,
    base: Named,
    variants: Vec<Variant<'b>>,
    /// What is to be said of the document, its trials, and what it is made with.
    findings: Vec<Finding>,
}

/// One trial and what came of it.
struct Variant<'b> {
    trial: &'b Trial,
    outcome: Outcome,
}

/// What came of a trial.
enum Outcome {
    /// Its figures.
    Computed(Box<Apart>),
    /// It has become the document.
    Promoted,
    /// No figures; why, in a sentence.
    Stuck(String),
}

/// Answers `pomace trial`.
pub(crate) fn run(asked: &cli::Trial) -> Result<Answer, Stop> {
    let plain = find::book(&asked.name, asked.book.as_deref())?;
    let id = find::document(&Bench::new(&plain), &asked.name)?;
    let Some(document @ (Document::Drink(_) | Document::Prep(_))) = plain.document(id) else {
        return Err(Fault::new(
            format!("`{}` has no trials: only drinks and preps do", asked.name),
            "name a drink or a prep",
        )
        .into());
    };
    if document.trials().is_empty() {
        return Err(Fault::new(
            format!("`{}` has no trials", document.name().value),
            "write one into its document: `[[trial]]` with a `name`, and `[[trial.change]]` with what is new",
        )
        .into());
    }
    let book = plain.with_trials(Some(id));
    let bench = Bench::new(&book);
    if let Some(name) = &asked.promote {
        return promote::run(asked, &bench, id, name);
    }
    let side_by_side = compute(&bench, id, document)?;
    let answer = if asked.json {
        json::json(&side_by_side)
    } else {
        page::page(&side_by_side, width())
    };
    show(&answer)?;
    let is_whole = |variant: &Variant<'_>| !matches!(variant.outcome, Outcome::Stuck(_));
    Ok(if side_by_side.variants.iter().all(is_whole) {
        Answer::Done
    } else {
        Answer::InPart
    })
}

fn compute<'b>(
    bench: &Bench<'b>,
    id: DocumentId,
    document: &'b Document,
) -> Result<SideBySide<'b>, Stop> {
    let book = bench.book();
    let base = bench.named(id).map_err(|error| stuck(bench, id, &error))?;
    let variants = document.trials().iter().enumerate();
    let variants = variants
        .map(|(place, trial)| Variant {
            trial,
            outcome: outcome(bench, id, trial, place),
        })
        .collect();
    Ok(SideBySide {
        book,
        id,
        document,
        base,
        variants,
        findings: findings(bench, id),
    })
}

/// Everything that is said of a document, its variants and what they are made with.
fn findings(bench: &Bench<'_>, id: DocumentId) -> Vec<Finding> {
    let book = bench.book();
    let documents = std::iter::once(id).chain(book.variants(id).map(|(variant, _)| variant));
    let paths: std::collections::HashSet<&str> = documents
        .flat_map(|document| bench.needs(document))
        .filter_map(|needed| Some(book.source(needed)?.path.as_str()))
        .collect();
    let said = bench.findings().iter();
    let said = said.filter(|f| paths.contains(f.place.path.as_str()));
    trial::told(book, said.cloned().collect())
}

fn outcome(bench: &Bench<'_>, id: DocumentId, trial: &Trial, place: usize) -> Outcome {
    if trial.promoted {
        return Outcome::Promoted;
    }
    let Some(variant) = variant_of(bench.book(), id, place) else {
        return Outcome::Stuck("its changes could not be read".to_owned());
    };
    if let Some(stop) = stops(bench, variant).first() {
        return Outcome::Stuck(stop.message.to_string());
    }
    match bench.apart(id, variant) {
        Ok(apart) => Outcome::Computed(Box::new(apart)),
        Err(error) => Outcome::Stuck(error.to_string()),
    }
}

fn variant_of(book: &Book, id: DocumentId, place: usize) -> Option<DocumentId> {
    let mut variants = book.variants(id);
    let found = variants.find(|(_, trial)| *trial == place);
    found.map(|(variant, _)| variant)
}

/// What a variant cannot be computed for.
fn stops<'f>(bench: &'f Bench<'_>, variant: DocumentId) -> Vec<&'f Finding> {
    let Some(source) = bench.book().source(variant) else {
        return Vec::new();
    };
    let own = bench.findings().iter();
    own.filter(|f| f.place.path == source.path && f.gravity == Gravity::Stop)
        .collect()
}
