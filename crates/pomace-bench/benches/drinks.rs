//! Speed of the bench: the lead drink with all its preps, and a book compiled.

use std::hint::black_box;

use pomace_bench::Bench;
use pomace_book::demo;

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

/// The same with slopes along `N` directions.
#[divan::bench(consts = [4, 8, 16, 24, 32])]
fn lead_drink_with_slopes<const N: usize>(bencher: divan::Bencher<'_, '_>) {
    let book = demo::book();
    let bench = Bench::new(&book);
    let Some(id) = book.by_name("Second Pressing") else {
        return;
    };
    bencher.bench_local(|| bench.mix::<pomace_matter::Sloped<N>>(black_box(id)));
}
