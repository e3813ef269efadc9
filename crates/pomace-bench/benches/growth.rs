//! How time and memory grow with the book. Prints the rows of `docs/benchmarks.md`, and draws
//! `docs/growth.svg` from what it measured.
//!
//! A book is parsed before; then it is compiled, every prep made and every drink mixed.

#![expect(clippy::print_stdout, reason = "a measurement is printed")]

use std::fmt::Write as _;
use std::hint::black_box;
use std::path::Path;
use std::time::Instant;

use pomace_bench::Bench;
use pomace_book::Book;

mod generated;

use generated::generated;

/// Drinks of a book; a fifth as many preps come with them.
const SIZES: [usize; 5] = [100, 300, 1_000, 3_000, 10_000];
/// Times that each book is run.
const RUNS: usize = 41;

/// What was measured of one book, ms.
struct Measured {
    drinks: usize,
    least: f64,
    median: f64,
    most: f64,
}

fn main() {
    // Only `cargo bench` asks for a measurement; `cargo test` looks whether this compiles.
    if !std::env::args().any(|argument| argument == "--bench") {
        return;
    }
    let mut all = Vec::new();
    for drinks in SIZES {
        let book = generated(drinks);
        let mut times: Vec<f64> = (0..RUNS).map(|_| run(&book)).collect();
        times.sort_by(f64::total_cmp);
        let at = |place: usize| times.get(place).copied().unwrap_or(f64::NAN);
        let measured = Measured {
            drinks,
            least: at(0),
            median: at(RUNS / 2),
            most: at(RUNS - 1),
        };
        println!(
            "| {} preps, {drinks} drinks | {:.3} ms ({:.3} – {:.3}) |",
            drinks / 5,
            measured.median,
            measured.least,
            measured.most
        );
        all.push(measured);
    }
    // The largest came last, so the peak is its own.
    match peak_megabytes() {
        Some(peak) => println!(
            "| peak memory with its {} drinks | {peak:.0} MB |",
            SIZES[4]
        ),
        None => println!("peak memory is not told by this system"),
    }
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/growth.svg");
    match std::fs::write(&path, drawn(&all)) {
        Ok(()) => println!("drawn: docs/growth.svg"),
        Err(error) => println!("docs/growth.svg cannot be written: {error}"),
    }
}

/// Milliseconds of one run.
fn run(book: &Book) -> f64 {
    let start = Instant::now();
    let bench = Bench::new(black_box(book));
    let drinks = book.documents().filter_map(|(id, _)| bench.drink(id).ok());
    black_box(drinks.map(|mixed| mixed.after.celsius).sum::<f64>());
    start.elapsed().as_secs_f64() * 1000.0
}

/// The most memory that this process ever held, in units of 1,000,000 bytes (Linux: `VmHWM`).
fn peak_megabytes() -> Option<f64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status
        .lines()
        .find_map(|line| line.strip_prefix("VmHWM:"))?;
    let kibibytes: f64 = line.trim().strip_suffix("kB")?.trim().parse().ok()?;
    Some(kibibytes * 1024.0 / 1e6)
}

const WIDTH: f64 = 640.0;
const HEIGHT: f64 = 400.0;
/// Room for the words beside the axes: left, right, top, bottom.
const ROOM: [f64; 4] = [80.0, 90.0, 30.0, 60.0];

/// Both axes by powers of ten, with the least and the most of the runs as whiskers, and a dashed line for
/// what is in proportion to the book.
fn drawn(all: &[Measured]) -> String {
    let decade = |value: f64, up: bool| {
        let power = value.log10();
        if up { power.ceil() } else { power.floor() }
    };
    let drinks = |m: &Measured| m.drinks as f64;
    let (low_x, high_x) = (
        all.iter().map(drinks).fold(f64::INFINITY, f64::min).log10(),
        all.iter().map(drinks).fold(0.0, f64::max).log10(),
    );
    let low_y = decade(
        all.iter().map(|m| m.least).fold(f64::INFINITY, f64::min),
        false,
    );
    let high_y = decade(all.iter().map(|m| m.most).fold(0.0, f64::max), true);
    let [left, right, top, bottom] = ROOM;
    let x = |value: f64| left + (value.log10() - low_x) / (high_x - low_x) * (WIDTH - left - right);
    let y = |value: f64| {
        HEIGHT - bottom - (value.log10() - low_y) / (high_y - low_y) * (HEIGHT - top - bottom)
    };
    let mut svg = String::new();
    let mut put = |text: std::fmt::Arguments<'_>| {
        let _ = svg.write_fmt(text);
        svg.push('\n');
    };
    put(format_args!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {HEIGHT}\" role=\"img\" font-family=\"sans-serif\" font-size=\"13\" fill=\"#222\">"
    ));
    put(format_args!(
        "<title>Time to compile and mix a book, against its drinks</title>"
    ));
    put(format_args!(
        "<rect width=\"{WIDTH}\" height=\"{HEIGHT}\" fill=\"#fff\"/>"
    ));
    let mut tick = low_y;
    while tick <= high_y {
        let (value, at) = (10f64.powf(tick), y(10f64.powf(tick)));
        put(format_args!(
            "<path d=\"M{left} {at:.1}H{:.1}\" stroke=\"#ccc\"/><text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"end\">{value}</text>",
            WIDTH - right,
            left - 8.0,
            at + 4.0
        ));
        tick += 1.0;
    }
    for measured in all {
        let at = x(drinks(measured));
        put(format_args!(
            "<text x=\"{at:.1}\" y=\"{:.1}\" text-anchor=\"middle\">{}</text>",
            HEIGHT - bottom + 20.0,
            measured.drinks
        ));
    }
    if let [.., last] = all {
        let in_proportion = |of: f64| last.median * of / drinks(last);
        let (from, to) = (10f64.powf(low_x), 10f64.powf(high_x));
        put(format_args!(
            "<path d=\"M{:.1} {:.1}L{:.1} {:.1}\" stroke=\"#888\" stroke-dasharray=\"5 4\"/>",
            x(from),
            y(in_proportion(from)),
            x(to),
            y(in_proportion(to))
        ));
    }
    for measured in all {
        let at = x(drinks(measured));
        put(format_args!(
            "<path d=\"M{at:.1} {:.1}V{:.1}\" stroke=\"#222\"/><circle cx=\"{at:.1}\" cy=\"{:.1}\" r=\"4\"/><text x=\"{:.1}\" y=\"{:.1}\">{} ms</text>",
            y(measured.least),
            y(measured.most),
            y(measured.median),
            at + 10.0,
            y(measured.median) + 14.0,
            short(measured.median)
        ));
    }
    put(format_args!(
        "<text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"middle\">drinks in the book (a fifth as many preps)</text>",
        0.5 * (left + WIDTH - right),
        HEIGHT - 14.0
    ));
    put(format_args!(
        "<text transform=\"translate(20 {:.1}) rotate(-90)\" text-anchor=\"middle\">ms: compiled, all preps made, all drinks mixed</text>",
        0.5 * (top + HEIGHT - bottom)
    ));
    put(format_args!(
        "<text x=\"{:.1}\" y=\"{:.1}\" fill=\"#555\">dashed: in proportion to the largest; whiskers: least and most of {RUNS} runs</text>",
        left,
        top - 12.0
    ));
    put(format_args!("</svg>"));
    svg
}

/// Three digits.
fn short(value: f64) -> String {
    let rounded: f64 = format!("{value:.2e}").parse().unwrap_or(value);
    rounded.to_string()
}
