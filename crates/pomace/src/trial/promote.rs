//! A trial made the document: printed, or written over its file.

use std::fs;
use std::io::{self, Write as _};
use std::path::Path;

use pomace_bench::Bench;
use pomace_book::{Document, DocumentId, names, trial};

use super::{stops, variant_of};
use crate::cli;
use crate::fault::{Answer, Fault, Stop};
use crate::page::{show, width, wrap};

pub(super) fn run(
    asked: &cli::Trial,
    bench: &Bench<'_>,
    id: DocumentId,
    name: &str,
) -> Result<Answer, Stop> {
    let book = bench.book();
    let (Some(document), Some(source)) = (book.document(id), book.source(id)) else {
        return Err(Fault::new("there is nothing to promote", "name a drink or a prep").into());
    };
    let which = which(document, name)?;
    // What cannot be computed is not made the document.
    if let Some(variant) = variant_of(book, id, which) {
        let faults = stops(bench, variant).into_iter();
        let faults: Vec<Fault> = faults
            .map(|f| {
                let message = format!("the trial `{name}` cannot be promoted: {}", f.message);
                Fault::new(message, f.mend.to_string())
            })
            .collect();
        if !faults.is_empty() {
            return Err(Stop::Faults(faults));
        }
    }
    let text = trial::promote(&source.text, document.trials(), which).map_err(|error| {
        Fault::new(
            format!("`{name}` cannot be promoted: {error}"),
            "`pomace check` tells what is wrong with the trials; take out what no longer fits",
        )
    })?;
    if asked.print {
        print(&text)?;
        return Ok(Answer::Done);
    }
    if asked.book.as_deref() == Some("demo") {
        return Err(Fault::new(
            "the demo is built in, so its documents cannot be written over",
            "`--print` shows the new text; or copy the folder `examples/sill-and-ebb` and name that",
        )
        .into());
    }
    let path = Path::new(&source.path);
    write_over(path, &source.text, &text)?;
    let told = format!(
        "{} is now `{name}`: written to {}. What was there before stands in the trial, under `was`.",
        document.name().value,
        path.display()
    );
    show(&wrap(&told, width(), "", ""))?;
    Ok(Answer::Done)
}

fn which(document: &Document, name: &str) -> Result<usize, Stop> {
    let trials = document.trials();
    let found = trials.iter().position(|t| names::same(&t.name, name));
    let Some(found) = found else {
        let all = trials.iter().filter(|t| !t.promoted);
        let all: Vec<&str> = all.map(|t| t.name.as_str()).collect();
        let mend = if all.is_empty() {
            "write one into the document".to_owned()
        } else {
            format!("it has {}", names::either(all))
        };
        return Err(Fault::new(
            format!("`{}` has no trial `{name}`", document.name().value),
            mend,
        )
        .into());
    };
    if trials.get(found).is_some_and(|t| t.promoted) {
        return Err(Fault::new(
            format!("`{name}` was promoted before: the document is so already"),
            "take `promoted` out of the trial if the document was changed back by hand",
        )
        .into());
    }
    Ok(found)
}

/// The text as it would be written, to the byte.
fn print(text: &str) -> io::Result<()> {
    let mut out = io::stdout().lock();
    out.write_all(text.as_bytes())?;
    out.flush()
}

/// Writes a file whole or not at all: beside it first, then in its place.
fn write_over(path: &Path, before: &str, text: &str) -> Result<(), Stop> {
    let refuse = |error: io::Error| {
        Stop::from(Fault::new(
            format!("`{}` cannot be written: {error}", path.display()),
            "the file is as it was; look at who may write it, and at the room on the disk",
        ))
    };
    // A link keeps leading where it leads.
    let path = path.canonicalize().map_err(refuse)?;
    if fs::read(&path).map_err(refuse)? != before.as_bytes() {
        return Err(Fault::new(
            format!("`{}` was changed meanwhile", path.display()),
            "look at what is new in it, and try again",
        )
        .into());
    }
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let beside = path.with_file_name(format!(".{name}.{}.new", std::process::id()));
    let written = write_new(&beside, &path, text).and_then(|()| fs::rename(&beside, &path));
    written.map_err(|error| {
        let _ = fs::remove_file(&beside);
        refuse(error)
    })
}

fn write_new(beside: &Path, like: &Path, text: &str) -> io::Result<()> {
    let mut file = fs::File::create_new(beside)?;
    file.set_permissions(fs::metadata(like)?.permissions())?;
    file.write_all(text.as_bytes())?;
    file.sync_all()
}
