//! The book: documents as people write them, checked and joined into a graph.
//!
//! A house writes its preps, drinks and ingredients as TOML texts ([`Source`]). [`parse`] turns
//! one text into a [`Document`] and into every fault it has, each a [`Finding`] with place,
//! message and mend. A [`Book`] holds many documents; [`resolve()`] finds what each name in them
//! leads to and gives the [`Graph`] in whose order they can be computed. [`mod@edit`] changes one
//! value of a text and leaves the rest, comments too, as it was. [`trial`] writes the variants that a
//! document tells of, and makes one of them the document.
//!
//! Quantities ([`quantity`]) stay what the person wrote: "2 dashes" keeps its range, "1,500 g"
//! keeps both its meanings, and nothing is guessed.

pub mod book;
pub mod demo;
pub mod document;
pub mod edit;
pub mod finding;
pub mod limits;
mod load;
pub mod names;
pub mod quantity;
mod read;
pub mod resolve;
pub mod span;
pub mod trial;
pub mod verb;
pub mod voice;
mod words;

pub use book::{Book, DocumentId, ReadOnce, Variant};
pub use document::{
    Brief, Document, DrinkDoc, Garnish, Glass, HouseDoc, Ice, IceShape, IngredientDoc, Instrument,
    Line, Marks, Parsed, PartDoc, PrepDoc, Price, Range, Setting, Source, Step, Told, ToldAcid,
    ToldReading, ToldValue, Trial, TrialAddition, TrialChange, TrialList, UnitWeight,
};
pub use finding::{Finding, Gravity, Place, Topic};
pub use pomace_larder::Form;
pub use quantity::{
    Amount, Duration, Nudged, Pressure, QuantityError, Reading, SmallMeasure, SugarUsed, Target,
    nudge, parse_amount, parse_duration, parse_share, parse_temperature,
};
pub use read::parse;
pub use resolve::{Graph, Reference, Spot, resolve};
pub use span::{Span, Spanned};
pub use verb::{ClarifyBy, DrawWith, FermentKind, GarnishAction, Gas, Sense, Verb};
pub use voice::Words;
