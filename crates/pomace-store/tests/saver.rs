//! The program that saves in a loop, run as a process of its own; and what it said.

use std::collections::BTreeMap;
use std::path::Path;
use std::process::{Command, Stdio};

use pomace_store::{Id, RowsWanted, Store};

use crate::ground::sound;

pub(crate) fn saver(place: &Path, saves: u64) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_pomace-store-saver"));
    command.arg(place).arg(saves.to_string());
    command
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    command
}

/// What the store answered: all of it must be in the book.
#[derive(Default)]
pub(crate) struct Said {
    /// The last revision told of each document.
    pub(crate) revisions: BTreeMap<String, u64>,
    pub(crate) rows: Vec<String>,
    pub(crate) saves: u64,
}

impl Said {
    /// Takes the whole lines of an output; a last line without its end was cut off.
    pub(crate) fn listen(&mut self, output: &str) {
        for line in output
            .split_inclusive('\n')
            .filter_map(|line| line.strip_suffix('\n'))
        {
            let mut words = line.split(' ');
            match words.next() {
                Some("open") => {}
                Some("saved") => {
                    self.saves += 1;
                    for word in words {
                        let (document, revision) = word.split_once('/').unwrap();
                        let revision: u64 = revision.parse().unwrap();
                        let before = self.revisions.insert(document.to_owned(), revision);
                        assert!(
                            before.unwrap_or_default() < revision,
                            "{line} after {before:?}"
                        );
                    }
                }
                Some("added") => self.rows.push(words.next().unwrap().to_owned()),
                _ => panic!("the saver said {line:?}"),
            }
        }
    }

    /// Everything that was said is there, as it was said, and the book is sound.
    pub(crate) async fn is_all_in(&mut self, store: &Store) {
        sound(store).await;
        for (document, revision) in &mut self.revisions {
            let id = Id::parse(document).unwrap();
            let history = store.history(&id).await.unwrap();
            assert!(
                history.len() as u64 >= *revision,
                "{document}/{revision} was lost"
            );
            // One more may be there: saved, and killed before it was told.
            assert!(
                history.len() as u64 <= *revision + 1,
                "{document} has {} revisions",
                history.len()
            );
            let text = store.revision(&id, *revision).await.unwrap().unwrap().text;
            assert!(
                text.starts_with(&format!("drink = \"{document}\"\n# {revision}\n")),
                "{text}"
            );
            // From here on the next run goes on.
            *revision = history.len() as u64;
        }
        let rows = store.rows(&RowsWanted::default()).await.unwrap();
        for row in &self.rows {
            assert!(
                rows.iter().any(|there| there.row.id.as_str() == row),
                "row {row} was lost"
            );
        }
    }
}
