//! The pages as a browser meets them, one binary.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests: a panic is a failed test"
)]

mod pairing;
