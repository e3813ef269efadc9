//! Outside checks and laws of pomace-matter, one binary.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "helpers of tests: a panic is a failed test, and the error tables are printed"
)]

mod chilling;
mod laws;
mod published;
mod reference_tables;
