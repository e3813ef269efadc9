//! Which book, and which document in it.

use std::path::Path;

use pomace_bench::Bench;
use pomace_book::{Book, DocumentId, demo, names};

use crate::cli::Show;
use crate::fault::{Fault, Stop};

/// The book that is meant: `--book`, or the folder of the file that was named.
pub(crate) fn book(asked: &Show) -> Result<Book, Stop> {
    match asked.book.as_deref() {
        Some("demo") => Ok(demo::book()),
        Some(path) => load(Path::new(path)),
        None => {
            let path = Path::new(&asked.name);
            if path.is_file() {
                // A document leans on its neighbours.
                let folder = path.parent().filter(|p| !p.as_os_str().is_empty());
                return load(folder.unwrap_or(Path::new(".")));
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
            .map(|f| Fault::new(f.message.clone(), f.mend.clone()).at(f.place.path.clone()))
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

/// The document that is meant: by name, or by the path of its file.
pub(crate) fn document(bench: &Bench<'_>, asked: &Show) -> Result<DocumentId, Stop> {
    let book = bench.book();
    if let Some(id) = book.by_name(&asked.name) {
        return Ok(id);
    }
    let wanted = Path::new(&asked.name).file_name();
    let by_path = book.documents().map(|(id, _)| id).find(|id| {
        wanted.is_some()
            && book.source(*id).is_some_and(|s| {
                Path::new(&s.path).file_name() == wanted && s.path.ends_with(".toml")
            })
            && asked.name.ends_with(".toml")
    });
    if let Some(id) = by_path {
        return Ok(id);
    }
    let all = book.documents().map(|(_, d)| d.name().value.as_str());
    let near = names::nearest(&asked.name, all, 3);
    let mend = if near.is_empty() {
        let some: Vec<&str> = book
            .documents()
            .map(|(_, d)| d.name().value.as_str())
            .take(12)
            .collect();
        format!("it holds {}", names::either(some))
    } else {
        format!("did you mean {}?", names::either(near))
    };
    Err(Fault::new(format!("the book has no `{}`", asked.name), mend).into())
}
