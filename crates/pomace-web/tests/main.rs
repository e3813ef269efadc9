//! Tests of the pages from outside: in a real browser, with a server that is a process of its own, and as
//! another device meets them.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests fail loudly"
)]

mod browser;
mod pairing;
mod spoken;
