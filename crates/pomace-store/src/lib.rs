//! The store: where a house keeps its documents, every revision of them, and the rows of what was
//! made.
//!
//! A [`Store`] lies at a [`Place`]: one SQLite file, or one PostgreSQL database, with the same
//! code and the same promises on both.
//!
//! - **Nothing is lost.** A [`Store::save`] adds a [`Revision`]; none is ever changed or taken away,
//!   and triggers in the database see to it that no other program does either. A document that was
//!   removed can be brought back.
//! - **Nobody is overwritten.** A [`Change`] names the revision that it was based on. If somebody
//!   saved since, the answer is [`Outcome::Conflict`] with what they wrote.
//! - **A save that was answered is on disk**, and a save that was not answered may be sent again
//!   under its [`Token`]: it is done once.
//! - **Several documents change together or not at all**: [`Store::save_all`].
//! - **Rows are only added** ([`Store::append`]): lots, readings, ballots. A row is corrected by a
//!   further row that names it.
//!
//! What is found by name, by use or by figure comes from an [`Index`] that the caller hands over
//! with each change; the store itself reads no TOML. It reads no clock either, but for the day of a
//! migration: every [`When`] is the caller's.
//!
//! ```no_run
//! # async fn example() -> Result<(), pomace_store::Error> {
//! use pomace_store::{Change, Id, Index, Outcome, Place, Store, Token, When, Write};
//!
//! let store = Store::open_or_create(&Place::parse("house.pomace")?).await?;
//! let change = Change {
//!     document: Id::new(&When::now()),
//!     based_on: None,
//!     write: Write::Text("drink = \"Second Pressing\"\n".to_owned()),
//!     who: "Ines".to_owned(),
//!     when: When::now(),
//!     why: Some("first try".to_owned()),
//!     index: Index::of("drink", "Second Pressing"),
//! };
//! match store.save(&Token::new(), &change).await? {
//!     Outcome::Saved(stamps) => println!("revision {}", stamps[0].revision),
//!     Outcome::Conflict(theirs) => println!("{} was quicker", theirs[0].stamp.who),
//! }
//! # Ok(())
//! # }
//! ```

mod append;
mod backup;
mod change;
mod check;
mod connect;
mod database;
mod error;
mod id;
mod index;
mod migrate;
mod open;
mod place;
mod read;
mod row;
mod save;
mod store;
mod text;
mod when;

pub use backup::Backup;
pub use change::{Change, Current, Outcome, Revision, Stamp, Summary, Write};
pub use check::Fault;
pub use error::Error;
pub use id::{Id, Token};
pub use index::{Edge, Figure, FigureOf, Index, Use};
pub use place::Place;
pub use row::{Corrected, MadeWith, NewRow, Row, RowsWanted};
pub use store::Store;
pub use when::When;
