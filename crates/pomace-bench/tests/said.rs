//! What is said beside the figures: pieces that are no fruit, heat that no pan reaches, cautions on totals.

use pomace_bench::remark::Remark;
use pomace_bench::{Bench, RunError};
use pomace_book::Gravity;

/// A slice is no fruit, a fruit is a fruit, and a house that knows its slices may count them.
#[test]
fn pieces_of_another_kind_are_refused() {
    let drink = |what: &str, amount: &str| {
        format!(
            "drink = \"D\"\n[[line]]\nwhat = \"{what}\"\namount = \"{amount}\"\n[[line]]\nwhat = \"water\"\namount = \"100 g\"\n"
        )
    };
    let house = "ingredient = \"our lemon\"\nlike = \"lemon\"\nunit = \"1 slice = 8 g\"\n";
    let stops = |what: &str, amount: &str| -> Vec<(String, String)> {
        let text = drink(what, amount);
        let book = super::book(&[&text, house]);
        let found = Bench::new(&book).check().into_iter();
        let stops = found.filter(|f| f.gravity == Gravity::Stop);
        stops
            .map(|f| (f.message.to_string(), f.mend.to_string()))
            .collect()
    };
    for (what, amount) in [
        ("banana", "2 bananas"),
        ("banana", "half a banana"),
        ("banana", "1 fruit"),
        ("banana", "1 piece"),
        ("raspberry", "6 berries"),
        ("raspberry", "6 raspberries"),
        ("our lemon", "2 slices"),
    ] {
        let found = stops(what, amount);
        assert!(found.is_empty(), "{amount} of {what}: {found:?}");
    }
    for (what, amount) in [
        ("banana", "1 slice"),
        ("banana", "1 to 2 wedges"),
        ("our lemon", "1 wedge"),
    ] {
        let found = stops(what, amount);
        let [(message, mend)] = found.as_slice() else {
            panic!("{amount} of {what}: {found:?}")
        };
        assert!(
            message.to_string().contains("only the weight of one"),
            "{message}"
        );
        assert!(mend.to_string().contains("unit = \"1 "), "{mend}");
    }
}

/// Boiling points, from memory: water 100 °C, a syrup of two parts of sugar 104 °C, vodka of 40 % near 83 °C.
#[test]
fn an_open_pan_gets_no_hotter_than_it_boils() {
    let boils = |lines: &str, celsius: &str| {
        let text =
            format!("prep = \"P\"\n{lines}[[step]]\ndo = \"heat\"\ntemperature = \"{celsius}\"\n");
        let made = super::make(&[&text], "P");
        let remarks = made.records.iter().flat_map(|r| &r.remarks);
        remarks
            .filter_map(|r| match r {
                Remark::AboveBoiling { boils, .. } => Some(*boils),
                _ => None,
            })
            .next()
    };
    let add = |what: &str, amount: &str| {
        format!("[[step]]\ndo = \"add\"\nwhat = \"{what}\"\namount = \"{amount}\"\n")
    };
    let water = add("water", "1 kg");
    assert_eq!(boils(&water, "99 C"), None);
    assert!((boils(&water, "130 C").unwrap() - 100.0).abs() < 0.5);
    let syrup = add("water", "500 g") + &add("sugar", "1 kg");
    assert_eq!(boils(&syrup, "103 C"), None);
    let hot = boils(&syrup, "130 C").unwrap();
    assert!((hot - 104.0).abs() < 2.0, "{hot}");
    let vodka = boils(&add("vodka, 40 %", "1 kg"), "95 C").unwrap();
    assert!((vodka - 83.0).abs() < 1.5, "{vodka}");
}

#[test]
fn gas_wants_a_liquid() {
    let text = "prep = \"P\"\n[[step]]\ndo = \"weigh\"\nwhat = \"sugar\"\namount = \"100 g\"\n[[step]]\ndo = \"charge\"\n";
    let book = super::book(&[text]);
    let bench = Bench::new(&book);
    let error = bench.prep(book.by_name("P").unwrap()).unwrap_err();
    assert_eq!(error, RunError::NothingToCharge { step: 1 });
    let check = bench.check();
    assert!(
        check[0].message.to_string().contains("nothing here pours"),
        "{check:?}"
    );
    assert_eq!(check[0].place.key, "step 2");
}

/// Totals send the reader to whoever may say how much is too much.
#[test]
fn totals_carry_their_caution() {
    let guidance = |lines: &str| {
        let text = format!("drink = \"D\"\n{lines}");
        let book = super::book(&[&text]);
        let (_, report) = Bench::new(&book)
            .report(book.by_name("D").unwrap())
            .unwrap();
        report.per_serve.guidance(report.after.volume.value)
    };
    let line =
        |what: &str, amount: &str| format!("[[line]]\nwhat = \"{what}\"\namount = \"{amount}\"\n");
    assert!(guidance(&line("apple juice", "100 mL")).is_empty());
    let strong = guidance(&line("gin, 43 %", "50 mL"));
    assert_eq!(strong.len(), 1);
    assert!(strong[0].contains("local health guidance") && strong[0].contains("local law"));
    let both = guidance(&(line("gin, 43 %", "50 mL") + &line("espresso", "30 mL")));
    assert_eq!(both.len(), 2, "{both:?}");
    assert!(both[1].contains("hides how much was drunk"), "{both:?}");
    assert!(both[1].contains("150 mg in a litre"), "{both:?}");
}
