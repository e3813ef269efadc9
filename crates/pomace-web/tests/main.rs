//! Tests of the pages in a real browser, with a server that is a process of its own.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "helpers of tests fail loudly and print what they counted"
)]

mod browser;
