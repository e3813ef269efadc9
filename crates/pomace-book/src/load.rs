//! Texts from files and folders; whatever is there, it answers with sources and findings.

use std::fs::{self, File};
use std::io::Read as _;
use std::path::Path;

use crate::document::Source;
use crate::finding::{Finding, Gravity, Place, Topic};
use crate::limits::{BOOK_DOCUMENTS, DOCUMENT_BYTES, FOLDER_DEPTH};

/// What was found under a path.
#[derive(Debug, Default)]
pub(crate) struct Loaded {
    pub sources: Vec<Source>,
    pub findings: Vec<Finding>,
}

/// Reads a file, or the `.toml` files of a folder in the order of their names.
pub(crate) fn sources(path: &Path) -> Loaded {
    let mut loaded = Loaded::default();
    match fs::metadata(path) {
        Err(error) => loaded.refuse(
            path,
            format!("cannot be opened: {error}"),
            "check the path, and that you may read it",
        ),
        Ok(about) if about.is_dir() => {
            loaded.folder(path, Some(0));
            if loaded.sources.is_empty() && loaded.findings.is_empty() {
                loaded.refuse(
                    path,
                    "no document is here",
                    "a document is a file that ends in `.toml`",
                );
            }
        }
        Ok(about) => loaded.file(path, &about),
    }
    loaded
}

/// Reads a file and the other `.toml` files of its folder, not those of folders below.
pub(crate) fn beside(file: &Path) -> Loaded {
    let mut loaded = Loaded::default();
    let folder = file.parent().filter(|p| !p.as_os_str().is_empty());
    loaded.folder(folder.unwrap_or(Path::new(".")), None);
    // Hidden, or of another ending, it is meant all the same.
    let is_it = |path: &str| Path::new(path).file_name() == file.file_name();
    let is_there = loaded.sources.iter().any(|s| is_it(&s.path))
        || loaded.findings.iter().any(|f| is_it(&f.place.path));
    if !is_there {
        let own = sources(file);
        loaded.sources.extend(own.sources);
        loaded.findings.extend(own.findings);
    }
    loaded
}

impl Loaded {
    fn refuse(&mut self, path: &Path, message: impl std::fmt::Display, mend: &str) {
        let path = path.display().to_string();
        self.findings.push(Finding {
            document: path.clone(),
            message: format!("`{path}`: {message}").into(),
            place: Place {
                path,
                line: 1,
                column: 1,
                ..Place::default()
            },
            topic: Topic::Syntax,
            gravity: Gravity::Stop,
            authority: None,
            mend: mend.into(),
        });
    }

    /// Reads a folder; with a depth, those below too.
    fn folder(&mut self, path: &Path, depth: Option<usize>) {
        if depth.is_some_and(|depth| depth > FOLDER_DEPTH) {
            self.refuse(
                path,
                format!("folders lie deeper than {FOLDER_DEPTH} in one another"),
                "move its documents further up",
            );
            return;
        }
        let entries = match fs::read_dir(path) {
            Ok(entries) => entries,
            Err(error) => {
                return self.refuse(
                    path,
                    format!("cannot be opened: {error}"),
                    "check that you may read it",
                );
            }
        };
        let mut paths = Vec::new();
        for entry in entries {
            match entry {
                Ok(entry) => paths.push(entry.path()),
                Err(error) => self.refuse(path, format!("cannot be listed: {error}"), "try again"),
            }
        }
        paths.sort();
        for path in paths {
            if self.sources.len() >= BOOK_DOCUMENTS {
                self.refuse(
                    &path,
                    format!("the folder holds more than {BOOK_DOCUMENTS} documents"),
                    "split the book; the first ones were read",
                );
                return;
            }
            let hidden = path
                .file_name()
                .is_some_and(|name| name.to_string_lossy().starts_with('.'));
            // A link to a folder could lead round in a circle.
            let Ok(about) = fs::symlink_metadata(&path) else {
                continue;
            };
            if hidden {
                continue;
            }
            if about.is_dir() {
                if let Some(depth) = depth {
                    self.folder(&path, Some(depth + 1));
                }
            } else if path
                .extension()
                .is_some_and(|ending| ending.eq_ignore_ascii_case("toml"))
            {
                match fs::metadata(&path) {
                    Ok(about) => self.file(&path, &about),
                    Err(error) => self.refuse(
                        &path,
                        format!("cannot be opened: {error}"),
                        "check that you may read it",
                    ),
                }
            }
        }
    }

    fn file(&mut self, path: &Path, about: &fs::Metadata) {
        if !about.is_file() {
            return self.refuse(path, "is no file", "give a TOML file or a folder of them");
        }
        let too_big =
            |bytes: u64| format!("has {bytes} bytes; the most of one document is {DOCUMENT_BYTES}");
        let mend_size = "a document is one prep, drink or ingredient; split it";
        if about.len() > DOCUMENT_BYTES {
            return self.refuse(path, too_big(about.len()), mend_size);
        }
        let mut bytes = Vec::new();
        let read =
            File::open(path).and_then(|file| file.take(DOCUMENT_BYTES + 1).read_to_end(&mut bytes));
        if let Err(error) = read {
            return self.refuse(
                path,
                format!("cannot be read: {error}"),
                "check that you may read it",
            );
        }
        if bytes.len() as u64 > DOCUMENT_BYTES {
            return self.refuse(path, too_big(bytes.len() as u64), mend_size);
        }
        if bytes.contains(&0) {
            return self.refuse(
                path,
                "is no text: it holds zero bytes",
                "give a TOML text in UTF-8",
            );
        }
        match String::from_utf8(bytes) {
            Ok(text) => self.sources.push(Source {
                path: path.display().to_string(),
                text,
            }),
            Err(error) => {
                let at = error.utf8_error().valid_up_to();
                let line = error
                    .as_bytes()
                    .iter()
                    .take(at)
                    .filter(|byte| **byte == b'\n')
                    .count()
                    + 1;
                self.refuse(
                    path,
                    format!("is no UTF-8 text from byte {at} on, in line {line}"),
                    "save it as UTF-8",
                );
            }
        }
    }
}
