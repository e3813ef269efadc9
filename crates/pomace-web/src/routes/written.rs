//! A text that a page shows: as it reads, and as it can be written in.

use axum::http::StatusCode;
use pomace_book::edit::Draft;
use pomace_book::{ReadOnce, Source};

use pomace_store::Id;

use super::fault::Fault;
use super::naming;
use crate::app::App;
use crate::change::{self, Asked};
use crate::kitchen::Kept;
use crate::voice;
use crate::whole;

/// The text of a document; perhaps not the one that is kept.
pub(crate) struct Written {
    pub read: ReadOnce,
    /// The same with the keys that nobody could read.
    pub draft: Option<Draft>,
}

impl Written {
    /// As it is kept.
    pub(crate) fn kept(read: &ReadOnce) -> Self {
        Self {
            draft: Draft::open(&read.source().text).ok(),
            read: read.clone(),
        }
    }

    /// A text with changes made to it, and why some were not; all or none, where the text would not read
    /// as a whole with them.
    ///
    /// # Errors
    /// The first fault of a text that says not even what it is.
    pub(crate) fn changed(
        app: &App,
        id: &Id,
        kept: &Kept,
        text: String,
        changes: &[Asked],
    ) -> Result<(Self, Vec<String>), Fault> {
        let mut refused = Vec::new();
        let mut draft = Draft::open(&text);
        let mut is_changed = false;
        for asked in changes {
            if let Some(taken) = naming::taken(app, id, &kept.kind, asked) {
                refused.push(taken);
                continue;
            }
            let made = match &mut draft {
                Ok(draft) => change::apply(draft, &kept.kind, asked),
                Err(error) => Err(error.clone().into()),
            };
            match made {
                Ok(()) => is_changed = true,
                Err(error) => refused.push(error.to_string()),
            }
        }
        let changed = match &draft {
            Ok(draft) if is_changed => draft.to_text(),
            _ => text.clone(),
        };
        let written = Self {
            read: read(kept, changed)?,
            draft: draft.ok(),
        };
        let why = whole::refusal(&text, &written.read, written.draft.as_ref(), changes);
        let Some(why) = why else {
            return Ok((written, refused));
        };
        refused.push(why);
        Ok((Self::kept(&read(kept, text)?), refused))
    }
}

fn read(kept: &Kept, text: String) -> Result<ReadOnce, Fault> {
    ReadOnce::of(Source::new(&kept.name, text)).map_err(|findings| {
        let (message, mend) = findings.first().map(voice::finding).unwrap_or_default();
        Fault::new(StatusCode::UNPROCESSABLE_ENTITY, message, mend)
    })
}
