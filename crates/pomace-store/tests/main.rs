//! Tests of the store from outside: the same stories on both databases, and a SQLite file that is
//! killed, traced, filled up and taken away.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "helpers of tests fail loudly and print what they counted"
)]

mod ground;
mod saver;
mod server;

mod backups;
mod crashes;
mod crowds;
mod durable;
mod killed;
mod laws;
mod opening;
mod places;
mod refusals;
mod rows;
mod soundness;
mod story;
mod together;
