//! # pomace-matter
//!
//! What a liquid is, from what is in it. A [`Mixture`] is grams of each [`Substance`]; everything
//! else is computed from it:
//!
//! | question | room |
//! |---|---|
//! | how dense, how much room, how strong | [`density`] |
//! | what a refractometer shows | [`refraction`] |
//! | what is in it, from density and refraction | [`readings`] |
//! | how much its water is bound, where it freezes | [`activity`] |
//! | its heat, and that of ice | [`heat`] |
//! | what ice does to it | [`ice`] |
//! | what boils off | [`vapour`] |
//! | how much gas dissolves, what a closed vessel comes to | [`gas`] |
//! | pH and titratable acidity | [`acidity`] |
//! | how sweet | [`taste`] |
//! | energy | [`energy`] |
//! | how much will dissolve | [`saturation`] |
//! | all of these at once | [`liquid`] |
//!
//! Formulas are written over [`scalar::Scalar`], so that each gives its value, or its value with
//! exact derivatives. Units are in the types at the edges ([`units`]) and in the words of each
//! function inside. A value past a model's range is an error or a stated note, never a silent
//! number ([`range`]).
//!
//! The equations come from `models.md` of the design, with the constants mended as `fits/RESULTS.md`
//! tells; the outside checks stand in `tests/reference/`.

pub mod acidity;
pub mod activity;
pub mod density;
pub mod energy;
pub mod gas;
pub mod heat;
pub mod ice;
pub mod liquid;
pub mod mixture;
pub mod range;
pub mod readings;
pub mod refraction;
pub mod saturation;
pub mod scalar;
pub mod substance;
pub mod taste;
pub mod units;
pub mod vapour;

pub use mixture::Mixture;
pub use range::Outside;
pub use scalar::{Scalar, Sloped, Traced};
pub use substance::Substance;
