//! Changes to a text that leave everything else as it was, comments and layout too.
//!
//! ```
//! use pomace_book::edit::{Draft, Path};
//!
//! let text = "drink = \"Try\"\n\n[[line]]\nwhat = \"honey\"\namount = \"10 g\" # tasted\n";
//! let mut draft = Draft::open(text)?;
//! draft.set(&Path::item("line", 0, "amount"), "12 g")?;
//! assert_eq!(draft.to_text(), text.replace("10 g", "12 g"));
//! # Ok::<(), pomace_book::edit::EditError>(())
//! ```

mod contents;
mod draft;
mod error;
mod layout;
mod path;

/// A text as TOML writes it, in its quotes.
///
/// ```
/// assert_eq!(pomace_book::edit::quoted("a \"b\""), "'a \"b\"'");
/// ```
#[must_use]
pub fn quoted(text: &str) -> String {
    toml_edit::Value::from(text).to_string()
}

pub use contents::{Contents, Told};
pub use draft::Draft;
pub use error::EditError;
pub use path::Path;
