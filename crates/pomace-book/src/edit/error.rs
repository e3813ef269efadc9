//! Why a text could not be changed.

use crate::limits::LIST_ITEMS;
use crate::voice::Words;

/// Why a text could not be changed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum EditError {
    /// The text is no TOML as it stands.
    #[error("the document cannot be changed before it can be read: {message}")]
    Unreadable {
        /// The first fault.
        message: Words,
        /// How to mend it.
        mend: Words,
    },
    /// There is nothing at the place.
    #[error("there is no `{place}` in the document")]
    Missing {
        /// The place.
        place: String,
    },
    /// Something else stands at the place.
    #[error("`{place}` is not a single value")]
    NotAValue {
        /// The place.
        place: String,
    },
    /// The list is as long as it may be.
    #[error("`{list}` has {LIST_ITEMS} items already, which is the most")]
    Full {
        /// The list.
        list: String,
    },
}
