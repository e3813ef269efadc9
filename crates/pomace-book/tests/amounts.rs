//! Amounts as people write them, each beside what it must mean.

use pomace_book::Reading::{Between, Count, Mass, Ounces, Question, Share, ToTaste, Volume};
use pomace_book::quantity::Fault;
use pomace_book::{Reading, SmallMeasure, parse_amount};

/// 1/128 of 231 cubic inches, and 1/160 of 4.54609 L.
const US: f64 = 29.5735295625;
const IMPERIAL: f64 = 28.4130625;

fn g(grams: f64) -> Reading {
    Mass { grams }
}
fn ml(millilitres: f64) -> Reading {
    Volume { millilitres }
}
fn oz(count: f64) -> Reading {
    Ounces { count }
}
fn bare(count: f64) -> Reading {
    Count { count, noun: None }
}
fn pieces(count: f64, noun: &str) -> Reading {
    Count {
        count,
        noun: Some(noun.to_owned()),
    }
}
fn share(fraction: f64) -> Reading {
    Share { fraction, of: None }
}
fn share_of(fraction: f64, of: &str) -> Reading {
    Share {
        fraction,
        of: Some(of.to_owned()),
    }
}
fn from_to(low: Reading, high: Reading) -> Reading {
    Between {
        low: Box::new(low),
        high: Box::new(high),
    }
}
fn taste(from: Reading) -> Reading {
    ToTaste {
        from: Some(Box::new(from)),
    }
}

/// Equal but for the last bits of a multiplication.
fn alike(one: &Reading, other: &Reading) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() <= 1e-12 * a.abs().max(b.abs());
    match (one, other) {
        (Mass { grams: a }, Mass { grams: b }) => near(*a, *b),
        (Volume { millilitres: a }, Volume { millilitres: b }) => near(*a, *b),
        (Ounces { count: a }, Ounces { count: b }) => near(*a, *b),
        (Count { count: a, noun: x }, Count { count: b, noun: y }) => near(*a, *b) && x == y,
        (Share { fraction: a, of: x }, Share { fraction: b, of: y }) => near(*a, *b) && x == y,
        (Between { low: a, high: b }, Between { low: c, high: d }) => alike(a, c) && alike(b, d),
        (ToTaste { from: Some(a) }, ToTaste { from: Some(b) }) => alike(a, b),
        (one, other) => one == other,
    }
}

#[test]
fn amounts_that_mean_one_thing() {
    let table: Vec<(&str, Reading)> = vec![
        // metric
        ("40 mL", ml(40.0)),
        ("40ml", ml(40.0)),
        ("40 ML", ml(40.0)),
        ("40 ml.", ml(40.0)),
        ("4 cL", ml(40.0)),
        ("0.4 dl", ml(40.0)),
        ("70cl", ml(700.0)),
        ("1 L", ml(1000.0)),
        ("1.5 litres", ml(1500.0)),
        ("30 cc", ml(30.0)),
        ("22.5 mL", ml(22.5)),
        ("22,5 mL", ml(22.5)),
        ("240 g", g(240.0)),
        ("240 grams", g(240.0)),
        ("1.2 kg", g(1200.0)),
        ("2 kilos", g(2000.0)),
        ("350 mg", g(0.35)),
        ("500 µg", g(0.0005)),
        ("1 L 200 mL", ml(1200.0)),
        ("1 kg 200 g", g(1200.0)),
        ("2 x 30 mL", ml(60.0)),
        ("3 × 12 g", g(36.0)),
        // thousands and decimals that can mean only one
        ("0,5 g", g(0.5)),
        (".5 g", g(0.5)),
        ("0.125 g", g(0.125)),
        ("0,125 g", g(0.125)),
        ("1,50 g", g(1.5)),
        ("1.2500 g", g(1.25)),
        ("1 500 g", g(1500.0)),
        ("1\u{a0}500 g", g(1500.0)),
        ("12\u{2009}500,5 g", g(12_500.5)),
        ("1'500 g", g(1500.0)),
        ("1,234.5 g", g(1234.5)),
        ("1.234,5 g", g(1234.5)),
        ("1,500 kg", g(1500.0)),
        ("1.125 oz", oz(1.125)),
        // fractions and words
        ("½ oz", oz(0.5)),
        ("1 ½ oz", oz(1.5)),
        ("1½ oz", oz(1.5)),
        ("1/2 oz", oz(0.5)),
        ("1 1/2 oz", oz(1.5)),
        ("1-1/2 oz", oz(1.5)),
        ("1⁄3 oz", oz(1.0 / 3.0)),
        ("half an ounce", oz(0.5)),
        ("three quarters of an ounce", oz(0.75)),
        ("one and a half oz", oz(1.5)),
        ("two ounces", oz(2.0)),
        ("2-oz", oz(2.0)),
        // US and imperial
        ("1.5 oz", oz(1.5)),
        ("1 fl oz", ml(US)),
        ("1 fl. oz.", ml(US)),
        ("2 fluid ounces", ml(2.0 * US)),
        ("1 US fl oz", ml(US)),
        ("1 imp fl oz", ml(IMPERIAL)),
        ("1 imperial fluid ounce", ml(IMPERIAL)),
        ("1 oz by weight", g(28.349523125)),
        ("1 lb", g(453.59237)),
        ("1 lb 4 oz", g(566.9904625)),
        ("1 tsp", ml(5.0)),
        ("2 teaspoons", ml(10.0)),
        ("1 level tbsp", ml(15.0)),
        ("1 Tablespoon", ml(15.0)),
        ("1 Australian tablespoon", ml(20.0)),
        ("1 US cup", ml(8.0 * US)),
        ("1 metric cup", ml(250.0)),
        ("1 US pint", ml(16.0 * US)),
        ("1 imp pint", ml(20.0 * IMPERIAL)),
        ("1 US gallon", ml(128.0 * US)),
        ("1 UK gill", ml(5.0 * IMPERIAL)),
        ("1 jigger", ml(1.5 * US)),
        ("1 pony", ml(US)),
        // small measures
        ("2 dashes", SmallMeasure::Dash.times(2.0)),
        ("a dash", SmallMeasure::Dash.times(1.0)),
        ("3 drops", SmallMeasure::Drop.times(3.0)),
        ("1 barspoon", SmallMeasure::Barspoon.times(1.0)),
        ("1 bar spoon", SmallMeasure::Barspoon.times(1.0)),
        ("a pinch", from_to(g(0.2), g(0.5))),
        // pieces
        ("3 limes", pieces(3.0, "limes")),
        ("one strip", pieces(1.0, "strip")),
        ("2 egg whites", pieces(2.0, "egg whites")),
        ("half a lime", pieces(0.5, "lime")),
        ("a dozen eggs", pieces(12.0, "eggs")),
        ("half a dozen eggs", pieces(6.0, "eggs")),
        ("2 x limes", pieces(2.0, "limes")),
        ("3 sprigs rosemary", pieces(3.0, "sprigs rosemary")),
        ("2 large limes", pieces(2.0, "large limes")),
        ("3 shoots", pieces(3.0, "shoots")),
        ("2", bare(2.0)),
        ("1/2", bare(0.5)),
        ("twelve", bare(12.0)),
        // shares
        ("140 % of peel", share_of(1.4, "peel")),
        ("140% of peel", share_of(1.4, "peel")),
        ("35 %", share(0.35)),
        ("35 per cent of the peel", share_of(0.35, "the peel")),
        ("1:5 of vinegar", share_of(0.2, "vinegar")),
        ("1:5", share(0.2)),
        ("2 : 1 of water", share_of(2.0, "water")),
        ("1 to 4 of peel", share_of(0.25, "peel")),
        ("half of peel", share_of(0.5, "peel")),
        ("half the peel", share_of(0.5, "the peel")),
        ("1/3 of whey, cleared", share_of(1.0 / 3.0, "whey, cleared")),
        ("all of peel", share_of(1.0, "peel")),
        ("all", share(1.0)),
        ("20 g/kg of juice", share_of(0.02, "juice")),
        ("5 g per 100 g of juice", share_of(0.05, "juice")),
        ("33.333 % of peel", share_of(0.33333, "peel")),
        // ranges
        ("30-45 mL", from_to(ml(30.0), ml(45.0))),
        ("30–45 mL", from_to(ml(30.0), ml(45.0))),
        ("30 mL - 45 mL", from_to(ml(30.0), ml(45.0))),
        ("1 to 4 g", from_to(g(1.0), g(4.0))),
        ("1 g to 4 g", from_to(g(1.0), g(4.0))),
        ("between 1 and 4 g", from_to(g(1.0), g(4.0))),
        ("500 g to 1 kg", from_to(g(500.0), g(1000.0))),
        (
            "2-3 limes",
            from_to(pieces(2.0, "limes"), pieces(3.0, "limes")),
        ),
        (
            "2 or 3 limes",
            from_to(pieces(2.0, "limes"), pieces(3.0, "limes")),
        ),
        (
            "one to four limes",
            from_to(pieces(1.0, "limes"), pieces(4.0, "limes")),
        ),
        ("2-3", from_to(bare(2.0), bare(3.0))),
        (
            "10-20 % of peel",
            from_to(share_of(0.1, "peel"), share_of(0.2, "peel")),
        ),
        (
            "1:10 to 1:5 of oil",
            from_to(share_of(0.1, "oil"), share_of(0.2, "oil")),
        ),
        (
            "1:5 to 1:10 of oil",
            from_to(share_of(0.1, "oil"), share_of(0.2, "oil")),
        ),
        ("3-3 g", g(3.0)),
        // to taste
        ("to taste", ToTaste { from: None }),
        ("to taste, from 1 g", taste(g(1.0))),
        ("to taste from 5 mL", taste(ml(5.0))),
        ("to taste, from 1 to 4 g", taste(from_to(g(1.0), g(4.0)))),
    ];
    assert!(table.len() >= 120, "{}", table.len());
    for (text, meaning) in table {
        let amount = parse_amount(text).unwrap_or_else(|error| panic!("`{text}`: {error}"));
        assert!(
            alike(&amount.reading, &meaning),
            "`{text}` is {:?}",
            amount.reading
        );
        assert_eq!(amount.text, text);
    }
}

#[test]
fn about_is_kept() {
    for text in ["about 30 mL", "~30 mL", "approx. 30 mL", "ca. 30 mL"] {
        let amount = parse_amount(text).unwrap();
        assert!(amount.about, "{text}");
        assert_eq!(amount.reading, ml(30.0));
    }
    assert!(!parse_amount("30 mL").unwrap().about);
}

#[test]
fn amounts_that_are_asked_about_with_both_results() {
    let table: Vec<(&str, Vec<Reading>)> = vec![
        ("1,500 g", vec![g(1500.0), g(1.5)]),
        ("1.500 g", vec![g(1.5), g(1500.0)]),
        ("12,345 mL", vec![ml(12_345.0), ml(12.345)]),
        ("1,500 oz", vec![oz(1500.0), oz(1.5)]),
        (
            "one to four",
            vec![share(0.25), from_to(bare(1.0), bare(4.0))],
        ),
        ("1 to 4", vec![share(0.25), from_to(bare(1.0), bare(4.0))]),
        ("30", vec![ml(30.0), g(30.0), bare(30.0)]),
        ("7.5", vec![ml(7.5), g(7.5)]),
        (
            "30-45",
            vec![
                from_to(ml(30.0), ml(45.0)),
                from_to(g(30.0), g(45.0)),
                from_to(bare(30.0), bare(45.0)),
            ],
        ),
        ("1 cup", vec![ml(8.0 * US), ml(250.0)]),
        ("1 pint", vec![ml(16.0 * US), ml(20.0 * IMPERIAL)]),
        ("1 quart", vec![ml(32.0 * US), ml(40.0 * IMPERIAL)]),
        ("1 gallon", vec![ml(128.0 * US), ml(160.0 * IMPERIAL)]),
        ("1 gill", vec![ml(5.0 * IMPERIAL), ml(4.0 * US)]),
        ("a shot", vec![ml(1.5 * US), ml(30.0), ml(25.0)]),
        ("5 gr", vec![g(5.0), g(5.0 * 0.06479891)]),
        (
            "1-2 pints",
            vec![
                from_to(ml(16.0 * US), ml(32.0 * US)),
                from_to(ml(20.0 * IMPERIAL), ml(40.0 * IMPERIAL)),
            ],
        ),
        (
            "1,500-2,000 g",
            vec![from_to(g(1500.0), g(2000.0)), from_to(g(1.5), g(2.0))],
        ),
        (
            "to taste, from 1,500 g",
            vec![taste(g(1500.0)), taste(g(1.5))],
        ),
    ];
    for (text, meanings) in table {
        match parse_amount(text).map(|amount| amount.reading) {
            Ok(Question { why, readings }) => {
                assert!(!why.is_empty(), "{text}");
                assert_eq!(readings.len(), meanings.len(), "`{text}` is {readings:?}");
                for (reading, meaning) in readings.iter().zip(&meanings) {
                    assert!(alike(reading, meaning), "`{text}` is {readings:?}");
                }
            }
            other => panic!("`{text}` is {other:?}"),
        }
    }
}

#[test]
fn amounts_that_are_none_say_how_to_mend_them() {
    let table = [
        ("", Fault::Empty),
        ("  \t ", Fault::Empty),
        ("nan g", Fault::NoNumber),
        ("inf mL", Fault::NoNumber),
        ("mL", Fault::NoNumber),
        ("0 g", Fault::OutOfRange),
        ("0 mL", Fault::OutOfRange),
        ("-3 g", Fault::OutOfRange),
        ("−3 g", Fault::OutOfRange),
        ("2000 kg", Fault::OutOfRange),
        ("1001 L", Fault::OutOfRange),
        ("0.00001 g", Fault::OutOfRange),
        ("1:0 of peel", Fault::OutOfRange),
        ("99999999999999999999999999999999 g", Fault::OutOfRange),
        ("1.2.3 g", Fault::BadNumber),
        ("1,50,00 g", Fault::BadNumber),
        ("1/0 oz", Fault::BadNumber),
        ("4 to 1 g", Fault::BadNumber),
        ("30 m", Fault::UnknownUnit),
        ("30 mll", Fault::UnknownUnit),
        ("5 T", Fault::UnknownUnit),
        ("5 t", Fault::UnknownUnit),
        ("3 dashs", Fault::UnknownUnit),
        ("2 barspon", Fault::UnknownUnit),
        ("2 tablespon", Fault::UnknownUnit),
        ("18 °C", Fault::UnknownUnit),
        ("5 €", Fault::UnknownUnit),
        ("1 part", Fault::Relative),
        ("2 parts", Fault::Relative),
        ("20 g/L of juice", Fault::Relative),
        ("a splash", Fault::Vague),
        ("top", Fault::Vague),
        ("top up", Fault::Vague),
        ("to top", Fault::Vague),
        ("to fill the glass", Fault::Vague),
        ("a few leaves", Fault::Vague),
        ("a couple", Fault::Vague),
        ("some", Fault::Vague),
        ("2 heaped tsp", Fault::Vague),
        ("2 splashes", Fault::Vague),
        ("2 × 3 lots", Fault::Vague),
        ("1 to 2 splashes", Fault::Vague),
        ("45 mL (1.5 oz)", Fault::Several),
        ("30 mL + 1 dash", Fault::Several),
        ("30 mL plus 1 dash", Fault::Several),
        ("30 mL / 1 oz", Fault::Several),
        ("1 g to 4 mL", Fault::Several),
        ("1:2:3", Fault::Several),
        ("5 g of peel", Fault::Leftover),
        ("5 g chopped", Fault::Leftover),
        ("35 % of", Fault::Leftover),
        ("to taste, please", Fault::Leftover),
    ];
    for (text, fault) in table {
        match parse_amount(text) {
            Err(error) => {
                assert_eq!(error.fault, fault, "`{text}`: {error}");
                assert!(!error.mend.is_empty() && !error.what.is_empty(), "`{text}`");
                assert!(error.offset <= text.len(), "`{text}`");
                assert!(
                    !error.what.to_string().ends_with('.')
                        && !error.mend.to_string().ends_with('.'),
                    "`{text}`"
                );
            }
            Ok(amount) => panic!("`{text}` is {:?}", amount.reading),
        }
    }
    assert_eq!(
        parse_amount(&"9".repeat(500)).unwrap_err().fault,
        Fault::TooLong
    );
}

#[test]
fn small_measures_keep_their_range() {
    let Ok(amount) = parse_amount("2 dashes") else {
        panic!()
    };
    let Reading::Measure {
        millilitres,
        low,
        high,
        ..
    } = amount.reading
    else {
        panic!()
    };
    assert!(
        (millilitres - 1.6).abs() < 1e-12
            && (low - 1.2).abs() < 1e-12
            && (high - 1.84).abs() < 1e-12
    );
}

#[test]
fn messages_stand_beside_their_amounts() {
    let said = |text: &str| {
        let error = parse_amount(text).unwrap_err();
        format!("{} → {}", error.what, error.mend)
    };
    insta::assert_snapshot!(said("30 m"), @"`m` is no unit → write `mL`, if that is meant: `30 mL`");
    insta::assert_snapshot!(said("3 dashs"), @"`dashs` is no unit → write `dashes`, if that is meant: `3 dashes`");
    insta::assert_snapshot!(said("0 g"), @"`0 g` is nothing → write an amount above zero, or leave it out");
    insta::assert_snapshot!(said("2 parts"), @"`2 parts` says how much only beside other amounts → write a share of another line, such as `50 % of aquavit`, or an amount such as `40 mL`");
    insta::assert_snapshot!(said("a splash"), @"`splash` is no measure that two people pour alike → measure it once and write it, such as `5 mL`; or `to taste, from 5 mL`");
    insta::assert_snapshot!(said("45 mL (1.5 oz)"), @"there is a second amount here: `(1.5 oz)` → keep one amount; if both go in, give each its own line or step");
}

/// Found by fuzzing: a range is written with its noun twice, and a third has many digits; what is read
/// must be short enough to be written and read again.
#[test]
fn long_names_are_refused_before_they_cannot_be_written() {
    let noun = "i".repeat(130);
    for text in [
        format!("one to four {noun}"),
        format!("3 {noun}"),
        format!("1/3 of {}", "n".repeat(185)),
        format!("10 % of {}", "n".repeat(150)),
    ] {
        let error = pomace_book::parse_amount(&text).unwrap_err();
        assert_eq!(error.fault, pomace_book::quantity::Fault::TooLong, "{text}");
    }
    for text in [
        format!("one to four {}", "i".repeat(60)),
        format!("1/3 of {}", "n".repeat(120)),
    ] {
        let read = pomace_book::parse_amount(&text).unwrap();
        let written = read.reading.to_string();
        let again = pomace_book::parse_amount(&written).map(|again| again.reading);
        assert_eq!(again, Ok(read.reading), "{text}: {written}");
    }
}

/// A dozen that is left behind would be read again as a number. (Found by fuzzing.)
#[test]
fn dozens_are_all_counted() {
    for (text, count) in [
        ("a dozen eggs", 12.0),
        ("half a dozen  dozen eggs", 72.0),
        ("one and a half dozen eggs", 18.0),
        ("three quarters dozen eggs", 9.0),
    ] {
        let reading = parse_amount(text).unwrap().reading;
        let Reading::Count { count: read, .. } = &reading else {
            panic!("{text}: {reading:?}");
        };
        assert!((read - count).abs() < 1e-9, "{text}: {read}");
        let written = reading.to_string();
        assert_eq!(
            parse_amount(&written).unwrap().reading,
            reading,
            "{text} → {written}"
        );
    }
}
