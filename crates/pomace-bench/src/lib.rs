//! # pomace-bench
//!
//! Where documents become matter. A book is compiled once ([`Bench::new`]): names are looked up,
//! amounts read, defaults chosen. Then a prep can be made ([`Bench::make`]) and a drink mixed
//! ([`Bench::mix`]) as often as wanted; both are pure arithmetic over [`stream::Stream`]s, in which
//! every gram is accounted for at every step ([`record::Record`]).
//!
//! The arithmetic is generic over [`pomace_matter::Scalar`]: with `f64` it gives values, with
//! numbers that carry slopes it gives how a result moves with what goes in.
//!
//! | to find | look in |
//! |---|---|
//! | what one gram of an ingredient is | [`shelf`] |
//! | how an amount becomes grams | `dose` |
//! | what a step does to matter | `steps/` |
//! | which gram came from where, and where it ended | [`flow`] |
//! | how sure a figure is | [`doubt`] |
//! | what is kept from one version of a book to the next | [`Memo`] |
//! | what sets two variants apart | [`difference`] |
//! | what was assumed | [`remark`] |
//! | what is said of the result | [`report`] |
//! | how much of everything so many serves take | [`scale`] |
//! | a serve by the measures in the hand | [`rounding`] |
//! | what the parts of a whole weigh | [`yield_test`] |

mod bench;
mod compile;
pub mod difference;
mod dose;
pub mod doubt;
mod error;
mod finding;
pub mod flow;
pub mod glass;
pub mod house;
mod inputs;
mod left;
mod made;
mod memo;
mod numbers;
pub mod on_ice;
mod pieces;
mod portion;
mod program;
pub mod record;
pub mod remark;
pub mod report;
pub mod rounding;
mod run;
pub mod scale;
pub mod shelf;
mod steps;
pub mod stream;
pub mod texture;
mod vessel;
mod with_slopes;
pub mod yield_test;

pub use bench::{Bench, Question};
pub use compile::{Change, To};
pub use error::{Place, RunError};
pub use inputs::{Source, SourceKey};
pub use left::Left;
pub use made::{Made, Mixed};
pub use memo::Memo;
pub use stream::Stream;
