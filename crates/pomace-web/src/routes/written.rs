//! A text that a page shows: as it reads, and as it can be written in.

use axum::http::StatusCode;
use pomace_book::edit::Draft;
use pomace_book::{ReadOnce, Source};

use super::fault::Fault;
use crate::change::{self, Asked};
use crate::kitchen::Kept;

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

    /// A text with changes made to it, and why some were not.
    ///
    /// # Errors
    /// The first fault of a text that says not even what it is.
    pub(crate) fn changed(
        kept: &Kept,
        text: String,
        changes: &[Asked],
    ) -> Result<(Self, Vec<String>), Fault> {
        let mut refused = Vec::new();
        let mut draft = Draft::open(&text);
        let mut is_changed = false;
        for asked in changes {
            let made = match &mut draft {
                Ok(draft) => change::apply(draft, &kept.kind, asked),
                Err(error) => Err(error.clone().into()),
            };
            match made {
                Ok(()) => is_changed = true,
                Err(error) => refused.push(error.to_string()),
            }
        }
        let text = match &draft {
            Ok(draft) if is_changed => draft.to_text(),
            _ => text,
        };
        let read = ReadOnce::of(Source::new(&kept.name, text)).map_err(|findings| {
            let first = findings.into_iter().next();
            let (message, mend) = first.map(|f| (f.message, f.mend)).unwrap_or_default();
            Fault::new(StatusCode::UNPROCESSABLE_ENTITY, message, mend)
        })?;
        let draft = draft.ok();
        Ok((Self { read, draft }, refused))
    }
}
