//! The larder: what is on the shelf before a house writes its first line.
//!
//! A catalogue of ingredients ([`ingredients()`]) with their composition in 100 g, of wholes and
//! the parts that they come apart into ([`wholes()`]), and of what usual work yields
//! ([`yields::all()`]). The tables are plain CSV files in `data/`, embedded in the binary and read
//! once; `data/README.md` names their sources and licences.
//!
//! Three rules hold for every number.
//!
//! 1. It carries its source and its [`Basis`]: a label's claim is not a table's mean, and neither
//!    is a guess from memory. A [`Cell`] keeps the three together.
//! 2. What a table does not say stays unsaid. A cell is an `Option`, and only
//!    [`Ingredient::mixture`] fills the gaps, because a balance of matter needs exactly 100 g;
//!    whatever it had to take for granted it tells as a [`Remark`].
//! 3. A house overrides all of it: a reading or a label beats the catalogue.
//!
//! Names are found as people type them. [`find`] takes a name that means one thing, however it is
//! cased, accented, ordered or pluralised; [`search`] ranks what is close and forgives slips;
//! [`nearest`] answers "did you mean". The engine behind them is [`matching`], which knows nothing
//! of ingredients. A book shares its [`matching::letters`], not its grades of closeness: a name of
//! the catalogue may be meant loosely, but in a book `Lime` and `Limes`, or `Whey, cleared` and
//! `Cleared whey`, are two documents of the house and must stay two.
//!
//! ```
//! use pomace_larder::find;
//! use pomace_matter::Substance;
//! let peel = find("Peel, lemon").expect("it is in the table");
//! assert_eq!(peel.id, "lemon_peel");
//! let completed = peel.mixture();
//! assert!((completed.mixture.total().0 - 100.0).abs() < 1e-9);
//! assert!(completed.mixture.grams(Substance::Water) > 75.0);
//! ```
//!
//! | to change | look in |
//! | --- | --- |
//! | how a gap is filled | `complete.rs` |
//! | what a row may hold | `ingredient.rs`, read by `catalogue.rs` |
//! | what counts as the same word | `matching/fold.rs` |
//! | which hit comes first | `matching/index.rs` |

mod allergen;
mod basis;
mod catalogue;
mod complete;
mod diet;
mod form;
mod ingredient;
pub mod matching;
mod names;
mod parts;
mod table;
pub mod yields;

pub use allergen::{Allergen, Carried};
pub use basis::{Basis, Cell};
pub use catalogue::{by_id, ingredients};
pub use complete::{Completed, Remark};
pub use diet::Diet;
pub use form::Form;
pub use ingredient::{Acidity, Ingredient, PhRange, Unit};
pub use names::{Hit, find, nearest, search};
pub use parts::{Part, Whole, part, splits, whole, wholes};
pub use table::{MalformedTable, UnknownWord};

/// Reads every embedded table anew and tells the first fault.
///
/// The tables are part of the binary, so a fault is a mistake of ours; a test calls this, and
/// nothing else needs to.
///
/// # Errors
/// [`MalformedTable`]: which table, line and column, and what was wanted there.
pub fn check() -> Result<(), MalformedTable> {
    catalogue::read()?;
    parts::read()?;
    yields::read()?;
    Ok(())
}
