//! Laws that hold for every document, tried on random ones.

use pomace_bench::Bench;
use pomace_bench::record::Record;
use pomace_matter::{Mixture, Sloped, Substance};
use proptest::prelude::*;

use super::book;

const STUFF: &[&str] = &[
    "water",
    "sugar",
    "honey",
    "lemon juice",
    "cider vinegar",
    "gin, 47 %",
    "lemon peel",
    "citric acid",
    "salt",
    "whey",
    "apple juice",
    "black tea leaf",
    "sparkling water",
    "egg white",
    "ginger root",
];

/// A step that brings something in, or works on what is there.
fn step() -> impl Strategy<Value = String> {
    let grams = 0.1..900.0_f64;
    prop_oneof![
        (0..STUFF.len(), grams.clone()).prop_map(|(i, g)| format!(
            "do = \"add\"\nwhat = \"{}\"\namount = \"{g:.2} g\"",
            STUFF[i]
        )),
        (0..STUFF.len(), grams).prop_map(|(i, g)| format!(
            "do = \"dissolve\"\nwhat = \"{}\"\namount = \"{g:.2} g\"",
            STUFF[i]
        )),
        (1..400_u32).prop_map(|h| format!("do = \"steep\"\ntime = \"{h} min\"")),
        (1..400_u32).prop_map(|h| format!("do = \"draw\"\ntime = \"{h} min\"")),
        Just("do = \"strain\"\nthrough = \"fine sieve\"".to_owned()),
        Just("do = \"strain\"\nthrough = \"paper filter\"".to_owned()),
        Just("do = \"press\"\nthrough = \"cloth\"".to_owned()),
        (1..80_u32).prop_map(|p| format!("do = \"simmer\"\nloss = \"{p} %\"")),
        Just("do = \"clarify\"\nby = \"milk\"".to_owned()),
        Just("do = \"clarify\"\nby = \"settling\"".to_owned()),
        (5..40_u32).prop_map(|p| format!("do = \"dry\"\nto_moisture = \"{p} %\"")),
        Just("do = \"rest\"\ntime = \"1 h\"".to_owned()),
        (5..95_u32).prop_map(|p| format!(
            "do = \"ferment\"\nkind = \"alcoholic\"\nsugar_used = \"{p} %\""
        )),
        Just("do = \"ferment\"\nkind = \"lactic\"".to_owned()),
        Just("do = \"ferment\"\nkind = \"acetic\"\nsugar_used = \"80 %\"".to_owned()),
        (1..30_u32).prop_map(|t| format!("do = \"freeze\"\ntemperature = \"-{t} C\"")),
        Just("do = \"thaw\"".to_owned()),
        Just("do = \"toast\"".to_owned()),
        Just("do = \"torch\"".to_owned()),
        Just("do = \"blend\"".to_owned()),
        Just("do = \"juice\"".to_owned()),
        Just("do = \"wash\"\nfat = \"butter\"\namount = \"40 g\"".to_owned()),
        (1..6_u32).prop_map(|p| format!("do = \"charge\"\ngas = \"co2\"\npressure = \"{p} bar\"")),
        Just("do = \"heat\"\ntemperature = \"80 C\"".to_owned()),
    ]
}

pub(super) fn prep() -> impl Strategy<Value = String> {
    (0..STUFF.len(), proptest::collection::vec(step(), 1..9)).prop_map(|(first, steps)| {
        let mut text = format!(
            "prep = \"P\"\n\n[[step]]\ndo = \"weigh\"\nwhat = \"{}\"\namount = \"300 g\"\n",
            STUFF[first]
        );
        for step in steps {
            text.push_str(&format!("\n[[step]]\n{step}\n"));
        }
        text
    })
}

/// A drink of a few lines, over ice or not.
pub(super) fn drink() -> impl Strategy<Value = String> {
    let line = (0..STUFF.len(), 1..80_u32)
        .prop_map(|(i, g)| format!("[[line]]\nwhat = \"{}\"\namount = \"{g} g\"\n", STUFF[i]));
    let verb = prop_oneof![Just("shake"), Just("stir"), Just("build")];
    (proptest::collection::vec(line, 1..6), verb, 1..60_u32, proptest::bool::ANY).prop_map(
        |(lines, verb, seconds, pour)| {
            let base = "[[line]]\nwhat = \"water\"\namount = \"20 g\"\n";
            let pour = if pour { "[[step]]\ndo = \"pour\"\nthrough = \"fine sieve\"\n" } else { "" };
            format!("drink = \"D\"\n{base}{}\n[[step]]\ndo = \"{verb}\"\ntime = \"{seconds} s\"\n{pour}", lines.concat())
        },
    )
}

fn assert_closed(records: &[Record]) -> Result<(), TestCaseError> {
    for (index, record) in records.iter().enumerate() {
        let size = record.before + record.added;
        prop_assert!(
            record.gap().abs() <= 1e-9 * size.max(1.0),
            "step {}: {:?}",
            index + 1,
            record
        );
        prop_assert!(
            record.after >= -1e-9 && record.left >= -1e-9,
            "step {}: {:?}",
            index + 1,
            record
        );
    }
    Ok(())
}

fn no_negative(mixture: &Mixture) -> bool {
    mixture.iter().all(|(_, g)| g >= -1e-9)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, failure_persistence: Some(Box::new(
        proptest::test_runner::FileFailurePersistence::WithSource("regressions"))), ..ProptestConfig::default() })]

    #[test]
    fn preps_close_at_every_step(text in prep()) {
        let book = book(&[&text]);
        let bench = Bench::new(&book);
        let id = book.by_name("P").unwrap();
        let made = match bench.make::<f64>(id) {
            Ok(made) => made,
            // Charging spirit, or what has no liquid, lies outside the models.
            Err(error) => {
                prop_assert!(error.to_string().contains("outside"), "{}", error);
                return Ok(());
            }
        };
        assert_closed(&made.records)?;
        for stream in made.left.iter().map(|(_, left)| left).chain([&made.kept]) {
            prop_assert!(no_negative(&stream.liquid) && no_negative(&stream.pieces) && no_negative(&stream.crystals));
        }
        // Every gram, those from air and cylinder too, is somewhere.
        let brought: f64 = made.records.iter().map(|r| r.added).sum();
        let left: f64 = made.left.iter().map(|(_, left)| left.total()).sum();
        let lost: f64 = made.records.iter().flat_map(|r| &r.lost).map(|(_, g)| g).sum();
        prop_assert!((brought - left - lost - made.kept.total()).abs() < 1e-9 * brought);
    }

    #[test]
    fn drinks_close_at_every_step(text in drink()) {
        let book = book(&[&text]);
        let bench = Bench::new(&book);
        match bench.mix::<f64>(book.by_name("D").unwrap()) {
            Ok(mixed) => {
                assert_closed(&mixed.records)?;
                prop_assert!(no_negative(&mixed.after.liquid));
                prop_assert!(mixed.after.ice.abs() < 1e-12);
                // Lines and ice are in the glass, left in the sieve, or lost.
                let lines: f64 = mixed.amounts.iter().map(|(_, g)| g).sum();
                let brought: f64 = mixed.records.iter().map(|r| r.added).sum();
                let left: f64 = mixed.records.iter().map(|r| r.left).sum();
                let lost: f64 = mixed.records.iter().flat_map(|r| &r.lost).map(|(_, g)| g).sum();
                prop_assert!(lines > 0.0 && lines <= brought * (1.0 + 1e-12));
                prop_assert!((brought - left - lost - mixed.after.total()).abs() < 1e-9 * brought);
            }
            Err(error) => prop_assert!(error.to_string().contains("outside"), "{error}"),
        }
    }

    /// The same numbers with slopes have the same values.
    #[test]
    fn slopes_do_not_change_values(text in prep()) {
        let book = book(&[&text]);
        let bench = Bench::new(&book);
        let id = book.by_name("P").unwrap();
        let (Ok(plain), Ok(sloped)) = (bench.make::<f64>(id), bench.make::<Sloped<3>>(id)) else {
            return Ok(());
        };
        let (a, b) = (plain.kept.matter(), sloped.kept.matter().values());
        for (substance, grams) in a.iter() {
            prop_assert!((grams - b.grams(substance)).abs() <= 1e-9 * grams.abs().max(1.0), "{substance}");
        }
    }

    /// Preps in ratios only, without fixed losses, scale as they stand.
    #[test]
    fn ratios_scale_linearly(grams in 10.0..2000.0_f64, factor in 0.1..20.0_f64, sugar in 10..200_u32, acid in 1..30_u32) {
        let text = |g: f64| format!(
            "prep = \"P\"\n[[step]]\ndo = \"weigh\"\nwhat = \"lemon peel\"\namount = \"{g} g\"\nas = \"peel\"\n\
             [[step]]\ndo = \"add\"\nwhat = \"water\"\namount = \"200 % of peel\"\n\
             [[step]]\ndo = \"steep\"\ntime = \"3 h\"\n\
             [[step]]\ndo = \"dissolve\"\nwhat = \"sugar\"\namount = \"{sugar} % of peel\"\n\
             [[step]]\ndo = \"dissolve\"\nwhat = \"citric acid\"\namount = \"{acid} % of peel\"\n");
        let (one, many) = (text(grams), text(grams * factor));
        let one = super::make(&[&one], "P").kept.matter();
        let many = super::make(&[&many], "P").kept.matter();
        for (substance, g) in one.iter() {
            prop_assert!((g * factor - many.grams(substance)).abs() <= 1e-9 * (g * factor).max(1e-3), "{substance}");
        }
    }

    /// The order of lines that enter together does not matter.
    #[test]
    fn combining_commutes(a in 5..60_u32, b in 5..60_u32, c in 5..60_u32) {
        let lines = [
            format!("[[line]]\nwhat = \"gin, 47 %\"\namount = \"{a} mL\"\n"),
            format!("[[line]]\nwhat = \"lemon juice\"\namount = \"{b} mL\"\n"),
            format!("[[line]]\nwhat = \"honey\"\namount = \"{c} g\"\n"),
        ];
        let steps = "[[step]]\ndo = \"shake\"\ntime = \"12 s\"\n[[step]]\ndo = \"pour\"\nthrough = \"fine sieve\"\n";
        let text = |order: [usize; 3]| format!(
            "drink = \"D\"\n{}{}{}{steps}", lines[order[0]], lines[order[1]], lines[order[2]]);
        let one = super::mix(&[&text([0, 1, 2])], "D").after;
        for order in [[1, 0, 2], [2, 1, 0], [1, 2, 0]] {
            let other = super::mix(&[&text(order)], "D").after;
            prop_assert!((one.celsius - other.celsius).abs() < 1e-6, "{} {}", one.celsius, other.celsius);
            for (substance, g) in one.liquid.iter() {
                prop_assert!((g - other.liquid.grams(substance)).abs() < 1e-6, "{substance}");
            }
        }
    }

    /// Figures move continuously with an amount.
    #[test]
    fn a_little_more_changes_little(ml in 5.0..60.0_f64) {
        let text = |ml: f64| format!(
            "drink = \"D\"\n[[line]]\nwhat = \"gin, 47 %\"\namount = \"{ml} mL\"\n[[line]]\nwhat = \"lemon juice\"\n\
             amount = \"25 mL\"\n[[step]]\ndo = \"shake\"\ntime = \"12 s\"\nice = \"200 g cubes\"\n");
        let (a, b) = (super::mix(&[&text(ml)], "D"), super::mix(&[&text(ml + 1e-5)], "D"));
        prop_assert!((a.after.celsius - b.after.celsius).abs() < 1e-4);
        prop_assert!((a.melt - b.melt).abs() < 1e-4);
    }
}

/// A line of nothing is as if it were not there.
#[test]
fn a_line_of_almost_nothing() {
    let base = "drink = \"D\"\n[[line]]\nwhat = \"gin, 47 %\"\namount = \"40 mL\"\n";
    let shake = "[[step]]\ndo = \"shake\"\ntime = \"12 s\"\n";
    let extra = "[[line]]\nwhat = \"honey\"\namount = \"0.001 g\"\n";
    let one = super::mix(&[&format!("{base}{shake}")], "D");
    let other = super::mix(&[&format!("{base}{extra}{shake}")], "D");
    assert!((one.after.celsius - other.after.celsius).abs() < 1e-3);
    assert!(
        (one.after.liquid.grams(Substance::Ethanol) - other.after.liquid.grams(Substance::Ethanol))
            .abs()
            < 1e-9
    );
}
