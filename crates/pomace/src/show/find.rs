//! Which book, and which document in it.

use std::path::Path;

use pomace_bench::Bench;
use pomace_book::{Book, Document, DocumentId, demo, names};

use crate::fault::{Fault, Stop};

/// The book that is meant: `--book`, or the folder of the file that was named.
pub(crate) fn book(name: &str, book: Option<&str>) -> Result<Book, Stop> {
    match book {
        Some("demo") => Ok(demo::book()),
        Some(path) => load(Path::new(path)),
        None => {
            let path = Path::new(name);
            if path.is_file() {
                return Ok(Book::beside(path));
            }
            Err(Fault::new(
                "there is no book to look in",
                "name one: `--book FOLDER`, `--book demo`, or give the path of a TOML file instead of a name",
            )
            .into())
        }
    }
}

fn load(path: &Path) -> Result<Book, Stop> {
    if !path.exists() {
        return Err(Fault::new(
            format!("there is no `{}`", path.display()),
            "give the path of a TOML file or of a folder of them, or `demo`",
        )
        .into());
    }
    let book = Book::load(path);
    if book.is_empty() {
        let faults: Vec<Fault> = book
            .findings()
            .iter()
            .map(|f| Fault::new(f.message.to_string(), f.mend.to_string()).at(f.place.path.clone()))
            .collect();
        if faults.is_empty() {
            return Err(Fault::new(
                format!("no document could be read in `{}`", path.display()),
                "a document is a TOML file that begins with `drink = \"…\"`, `prep = \"…\"` or `ingredient = \"…\"`",
            )
            .into());
        }
        return Err(Stop::Faults(faults));
    }
    Ok(book)
}

/// The document that is meant: a file by its path, or else by name, or by the end of its path.
pub(crate) fn document(bench: &Bench<'_>, name: &str) -> Result<DocumentId, Stop> {
    let book = bench.book();
    let path = Path::new(name);
    if path.is_file() {
        return at_path(book, path);
    }
    if let Some(id) = book.by_name(name) {
        return Ok(id);
    }
    let ends_so: Vec<DocumentId> = book
        .documents()
        .map(|(id, _)| id)
        .filter(|id| {
            book.source(*id)
                .is_some_and(|s| Path::new(&s.path).ends_with(path))
        })
        .collect();
    if let [only] = ends_so.as_slice() {
        return Ok(*only);
    }
    let all = book.documents().map(|(_, d)| d.name().value.as_str());
    let near = names::nearest(name, all, 3);
    let mend = if near.is_empty() {
        let some: Vec<&str> = book
            .documents()
            .filter(|(_, d)| !matches!(d, Document::House(_)))
            .map(|(_, d)| d.name().value.as_str())
            .take(12)
            .collect();
        format!("it holds {}", names::either(some))
    } else {
        format!("did you mean {}?", names::either(near))
    };
    Err(Fault::new(format!("the book has no `{name}`"), mend).into())
}

/// The document of a file, or the faults that kept it out of the book.
fn at_path(book: &Book, path: &Path) -> Result<DocumentId, Stop> {
    let whole = |path: &Path| path.canonicalize().ok();
    let wanted = whole(path);
    let is_it = |other: &str| wanted.is_some() && whole(Path::new(other)) == wanted;
    let found = book
        .documents()
        .map(|(id, _)| id)
        .find(|id| book.source(*id).is_some_and(|s| is_it(&s.path)));
    if let Some(id) = found {
        return Ok(id);
    }
    let faults: Vec<Fault> = book
        .findings()
        .iter()
        .filter(|f| is_it(&f.place.path))
        .map(|f| {
            Fault::new(f.message.to_string(), f.mend.to_string()).at(format!(
                "{}:{}:{}",
                f.place.path, f.place.line, f.place.column
            ))
        })
        .collect();
    if faults.is_empty() {
        return Err(Fault::new(
            format!("the book does not hold `{}`", path.display()),
            "give `--book` the folder that it lies in, and let its name end in `.toml`",
        )
        .into());
    }
    Err(Stop::Faults(faults))
}
