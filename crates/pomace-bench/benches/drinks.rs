//! Speed of the bench: the lead drink with all its preps, and a book compiled.

use std::hint::black_box;

use mimalloc::MiMalloc;
use pomace_bench::Bench;
use pomace_book::demo;

mod generated;

use generated::generated;

/// As the program has it.
#[global_allocator]
static GLOBAL: MiMalloc = MiMalloc;

fn main() {
    divan::main();
}

/// Parsed and compiled before; every prep made and the drink mixed anew each time.
#[divan::bench]
fn lead_drink_with_its_preps(bencher: divan::Bencher<'_, '_>) {
    let book = demo::book();
    let bench = Bench::new(&book);
    let Some(id) = book.by_name("Second Pressing") else {
        return;
    };
    bencher.bench_local(|| bench.mix::<f64>(black_box(id)));
}

/// The same with every figure of its report.
#[divan::bench]
fn lead_drink_with_all_figures(bencher: divan::Bencher<'_, '_>) {
    let book = demo::book();
    let bench = Bench::new(&book);
    let Some(id) = book.by_name("Second Pressing") else {
        return;
    };
    bencher.bench_local(|| bench.report(black_box(id)));
}

#[divan::bench]
fn read_the_demo_book() -> usize {
    demo::book().len()
}

#[divan::bench]
fn compile_the_demo_book(bencher: divan::Bencher<'_, '_>) {
    let book = demo::book();
    bencher.bench_local(|| Bench::new(black_box(&book)).findings().len());
}

/// The doubt of every figure: each drink of the demo with all its preps, run once with traced numbers.
#[divan::bench(args = ["Ebb", "Frost Line", "Second Pressing", "Slack Water", "Weir"])]
fn every_doubt_of(bencher: divan::Bencher<'_, '_>, name: &str) {
    let book = demo::book();
    let bench = Bench::new(&book);
    let Some(id) = book.by_name(name) else {
        return;
    };
    bencher.bench_local(|| bench.doubt_of_drink(black_box(id)));
}

/// A book of `N` drinks and a fifth as many preps, parsed before: compiled, every prep made, every drink
/// mixed.
#[divan::bench(consts = [100, 1000, 10_000], sample_count = 10)]
fn a_book_of<const N: usize>(bencher: divan::Bencher<'_, '_>) {
    let book = generated(N);
    bencher.bench_local(|| {
        let bench = Bench::new(black_box(&book));
        let drinks = book.documents().filter_map(|(id, _)| bench.drink(id).ok());
        drinks.map(|mixed| mixed.after.celsius).sum::<f64>()
    });
}
