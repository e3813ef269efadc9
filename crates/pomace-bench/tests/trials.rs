//! Variants on the bench: promotion changes no figure, and the doubt of a difference is that of draws.

use pomace_bench::Bench;
use pomace_bench::doubt::{FigureName, HasFigures as _, Moves, Stage};
use pomace_book::trial::promote;
use pomace_book::{Book, Source, demo};

/// The demo with one document's text in the place of its own.
fn with(name: &str, text: &str) -> Book {
    let mut book = Book::new();
    for (file, own) in demo::DOCUMENTS {
        let text = if *file == name { text } else { own };
        book.add(Source::new(*file, text));
    }
    book
}

/// What is promoted has the figures that the variant had, to the last bit.
#[test]
fn promotion_changes_no_figure() {
    let plain = demo::book();
    let book = plain.with_trials(None);
    let bench = Bench::new(&book);
    let mut seen = 0;
    for (id, document) in plain.documents() {
        for (variant, place) in book.variants(id).collect::<Vec<_>>() {
            let source = plain.source(id).unwrap();
            let text = promote(&source.text, document.trials(), place).unwrap();
            let file = source.path.trim_start_matches("demo/");
            let promoted = with(file, &text);
            let again = Bench::new(&promoted);
            let id = promoted.by_name(document.name()).unwrap();
            assert_eq!(bench.named(variant).unwrap(), again.named(id).unwrap());
            seen += 1;
        }
    }
    assert!(seen >= 4, "{seen}");
}

/// Two that are alike do not differ, and the doubt of that is of their own pours alone.
#[test]
fn what_is_the_same_does_not_differ() {
    let weighed = "drink = \"D\"\n[[line]]\nwhat = \"apple juice\"\namount = \"60 g\"\n[[line]]\nwhat = \"lemon juice\"\namount = \"20 g\"\n[[step]]\ndo = \"shake\"\n[[trial]]\nname = \"t\"\n[[trial.change]]\nline = 1\namount = \"0.06 kg\"\n";
    let plain = super::book(&[weighed]);
    let book = plain.with_trials(None);
    let bench = Bench::new(&book);
    let base = book.by_name("D").unwrap();
    let (variant, _) = book.variants(base).next().unwrap();
    let apart = bench.apart(base, variant).unwrap();
    for (name, figure) in &apart.less_base.0 {
        assert!(
            figure.value.is_none_or(|v| v.abs() < 1e-9),
            "{name}: {figure:?}"
        );
        // All is weighed: nothing is left of the doubt of juice and ice.
        assert!(
            figure.plus_minus.is_none_or(|d| d < 1e-9),
            "{name}: {figure:?}"
        );
    }
    let sugar = apart
        .figures
        .get(Stage::AfterIce, "sugar_g_per_100ml")
        .unwrap();
    assert!(sugar.plus_minus.unwrap() > 0.1, "{sugar:?}");
}

/// Both mixed two thousand times with the same draws of all sources: 95 of 100 differences lie within
/// the doubt that is told.
#[test]
fn the_doubt_of_a_difference_is_that_of_draws() {
    let plain = demo::book();
    let book = plain.with_trials(None);
    let bench = Bench::new(&book);
    let base = book.by_name("Second Pressing").unwrap();
    let (variant, _) = book.variants(base).next().unwrap();
    let apart = bench.apart(base, variant).unwrap();
    let mut keys: Vec<_> = Vec::new();
    for id in [base, variant] {
        for source in bench.doubt_of_drink(id).unwrap().sources() {
            if !keys.contains(&source.key) {
                keys.push(source.key);
            }
        }
    }
    let mut state = 7_u64;
    let mut uniform = || {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        (state >> 11) as f64 / (1_u64 << 53) as f64
    };
    // Twelve uniform numbers less six: a normal one, near enough.
    let mut normal = || (0..12).map(|_| uniform()).sum::<f64>() - 6.0;
    let value = |id, moves: &Moves, wanted: FigureName| {
        let mut found = None;
        let mut report = bench.mix_moved(id, moves.clone(), &[]).unwrap();
        report.each(&mut |name, figure| {
            if name == wanted {
                found = figure.value;
            }
        });
        found.unwrap()
    };
    let names = [
        "abv_percent",
        "sugar_g_per_100ml",
        "ph",
        "titratable_acidity_citric_g_per_l",
    ];
    let mut inside = [0_u32; 4];
    let draws = 2000;
    for _ in 0..draws {
        let moves: Moves = keys.iter().map(|key| (*key, normal())).collect();
        for (name, inside) in names.iter().zip(&mut inside) {
            let wanted = FigureName {
                stage: Stage::AfterIce,
                name,
            };
            let less = value(variant, &moves, wanted) - value(base, &moves, wanted);
            let told = apart.less_base.get(Stage::AfterIce, name).unwrap();
            let off = (less - told.value.unwrap()).abs();
            *inside += u32::from(off <= told.plus_minus.unwrap());
        }
    }
    for (name, inside) in names.iter().zip(inside) {
        let percent = 100.0 * f64::from(inside) / f64::from(draws);
        println!("{name}: {percent} % of draws inside");
        assert!((92.5..98.0).contains(&percent), "{name}: {percent}");
    }
}
