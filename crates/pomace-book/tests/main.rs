//! Tests of the book from outside: texts in, meanings and findings out.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::float_cmp,
    reason = "helpers of tests fail loudly, and what is written exactly is read exactly"
)]

mod amounts;
mod documents;
mod editing;
mod laws;
mod loading;
mod measures;
mod messages;
mod resolving;
