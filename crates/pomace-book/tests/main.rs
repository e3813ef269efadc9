//! Tests of the book from outside: texts in, meanings and findings out.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::float_cmp,
    reason = "helpers of tests fail loudly and print times, and what is written exactly is read exactly"
)]

mod amounts;
mod documents;
mod editing;
mod growth;
mod laws;
mod loading;
mod measures;
mod messages;
mod resolving;
mod trials;
