//! Sweetness as a sum: what chemistry can say of taste, and no more. Sourness is left to titratable
//! acidity and pH ([`crate::acidity`]).
//!
//! Cold, ethanol, bubbles and bitterness change what a tongue makes of this sum; none of that is
//! modelled.

mod sweetness;

pub use sweetness::sweetness;
