//! Speed of the bench: the drinks of the demo with all their preps, and a book compiled.

use std::hint::black_box;
use std::sync::Arc;

use mimalloc::MiMalloc;
use pomace_bench::{Bench, Memo};
use pomace_book::{Book, Source, demo};

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

const DRINKS: [&str; 5] = [
    "Ebb",
    "Frost Line",
    "Second Pressing",
    "Slack Water",
    "Weir",
];

/// The demo with another amount of the first line of one drink.
fn changed(name: &str, millilitres: f64) -> Book {
    let own = format!("drink = \"{name}\"");
    let mut book = Book::new();
    for (file, text) in demo::DOCUMENTS {
        let mut is_first = text.lines().any(|line| line == own);
        let lines = text.lines().map(|line| {
            if line.starts_with("amount") && std::mem::take(&mut is_first) {
                return format!("amount = \"{millilitres} mL\"\n");
            }
            format!("{line}\n")
        });
        book.add(Source::new(
            format!("demo/{file}"),
            lines.collect::<String>(),
        ));
    }
    book
}

/// The doubt of every figure: each drink of the demo with all its preps, compiled before, nothing kept.
#[divan::bench(args = DRINKS)]
fn every_doubt_of(bencher: divan::Bencher<'_, '_>, name: &str) {
    let book = demo::book();
    let Some(id) = book.by_name(name) else {
        return;
    };
    bencher
        .with_inputs(|| Bench::new(&book))
        .bench_local_refs(|bench| bench.doubt_of_drink(black_box(id)));
}

/// The same after its first line was changed to an amount that it never had, preps kept from before.
#[divan::bench(args = DRINKS)]
fn every_doubt_after_one_change_of(bencher: divan::Bencher<'_, '_>, name: &str) {
    let book = demo::book();
    let Some(id) = book.by_name(name) else {
        return;
    };
    let memo = Arc::new(Memo::default());
    let _ = Bench::with_memo(&book, &memo).doubt_of_drink(id);
    let books: Vec<Book> = (0..500)
        .map(|place| changed(name, 30.0 + f64::from(place) / 50.0))
        .collect();
    let mut next = books.iter().cycle();
    bencher
        .with_inputs(|| next.next().map(|book| Bench::with_memo(book, &memo)))
        .bench_local_refs(|bench| {
            let bench = bench.as_ref()?;
            bench.doubt_of_drink(black_box(id)).ok()
        });
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
