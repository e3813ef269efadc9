//! Laws and outcomes of the bench, one binary.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "helpers of tests: a panic is a failed test"
)]

mod demo;
mod documented;
mod doubt;
mod doubtful;
mod extraction;
mod laws;
mod said;
mod scale;
mod steps;
mod trials;

use pomace_bench::{Bench, Made, Mixed};
use pomace_book::{Book, Source};

/// A book of texts.
fn book(texts: &[&str]) -> Book {
    let mut book = Book::new();
    for (index, text) in texts.iter().enumerate() {
        book.add(Source::new(format!("{index}.toml"), *text));
    }
    book
}

fn make(texts: &[&str], name: &str) -> Made {
    let book = book(texts);
    let bench = Bench::new(&book);
    let stops: Vec<_> = bench
        .findings()
        .iter()
        .filter(|f| f.gravity == pomace_book::Gravity::Stop)
        .collect();
    assert!(stops.is_empty(), "{stops:?}");
    bench.make(book.by_name(name).unwrap()).unwrap()
}

fn mix(texts: &[&str], name: &str) -> Mixed {
    let book = book(texts);
    let bench = Bench::new(&book);
    bench.mix(book.by_name(name).unwrap()).unwrap()
}
