//! Laws of the drawings, one binary.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests: a panic is a failed test"
)]

mod drawing;
mod fields;
mod flows;
mod labels;
mod laws;
mod palette;
mod snapshots;
mod specimen;
mod style;
