//! Sweet and sour as sums: what chemistry can say of taste, and no more.
//!
//! Cold, ethanol, bubbles and bitterness change what a tongue makes of these sums; none of that is
//! modelled.

mod sourness;
mod sweetness;

pub use sourness::protonated_acids;
pub use sweetness::sweetness;
