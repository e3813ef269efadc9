//! Laws that hold for any text.

use pomace_book::edit::{Draft, Path};
use pomace_book::quantity::{parse_pressure, parse_sugar_used, parse_target};
use pomace_book::{
    Book, Duration, Glass, Ice, Price, Reading, SmallMeasure, Source, UnitWeight, Words, parse,
    parse_amount, parse_duration, parse_share, parse_temperature, resolve,
};
use proptest::prelude::*;

/// Texts that are nearly amounts: pieces of them in any order.
fn nearly() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        "[0-9]{1,4}([.,][0-9]{1,3})?",
        "[0-9] [0-9]/[0-9]",
        proptest::sample::select(vec![
            "g", "mL", "oz", "fl", "cup", "dash", "dashes", "pinch", "%", "of", "to", "-", "–",
            ":", ",", ".", "half", "a", "one", "four", "½", "limes", "peel", "the", "x", "×",
            "from", "taste", "about", "between", "and", "kg", "/", "per", "(", ")", "dozen",
            "quarters", "pint", "shot", "all", "min", "C", "F", "bar", "EUR", "=", "dry", "mm",
            "cubes", "at", "frosted", "\u{a0}", "'", "°", "+", "..", "…", "level", "lb",
        ])
        .prop_map(str::to_owned),
    ];
    let gap = proptest::sample::select(vec!["", " ", " ", "  "]);
    proptest::collection::vec((piece, gap), 0..9)
        .prop_map(|pieces| pieces.into_iter().map(|(piece, gap)| piece + gap).collect())
}

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        (1_u32..2000).prop_map(f64::from),
        (40_u32..200_000).prop_map(|number| f64::from(number) / 1000.0),
        0.04..500.0_f64,
    ]
}

fn single() -> impl Strategy<Value = Reading> {
    let noun = proptest::sample::select(vec!["limes", "egg whites", "strips of leather", "sprigs"]);
    let of = proptest::option::of(proptest::sample::select(vec![
        "peel",
        "whey, cleared",
        "quince / peel",
    ]));
    prop_oneof![
        number().prop_map(|grams| Reading::Mass { grams }),
        number().prop_map(|millilitres| Reading::Volume { millilitres }),
        number().prop_map(|count| Reading::Ounces { count }),
        (0..3_usize, number()).prop_map(|(at, count)| SmallMeasure::ALL[at].times(count)),
        (number(), noun).prop_map(|(count, noun)| Reading::Count {
            count: (count * 4.0).ceil() / 4.0,
            noun: Some(noun.to_owned())
        }),
        (1_u32..13).prop_map(|count| Reading::Count {
            count: f64::from(count),
            noun: None
        }),
        (1_u32..40, 2_u32..16)
            .prop_filter("a whole", |(top, bottom)| top % bottom != 0)
            .prop_map(|(top, bottom)| Reading::Count {
                count: f64::from(top) / f64::from(bottom),
                noun: None
            }),
        (0.001..10.0_f64, of).prop_map(|(fraction, of)| Reading::Share {
            fraction,
            of: of.map(str::to_owned)
        }),
    ]
}

fn reading() -> impl Strategy<Value = Reading> {
    let range = (0.1..10.0_f64, 1.01..5.0_f64, 0..4_u8).prop_map(|(low, times, kind)| {
        let of = |value: f64| match kind {
            0 => Reading::Mass { grams: value },
            1 => Reading::Volume { millilitres: value },
            2 => Reading::Count {
                count: value,
                noun: Some("limes".to_owned()),
            },
            _ => Reading::Share {
                fraction: value,
                of: Some("peel".to_owned()),
            },
        };
        Reading::Between {
            low: Box::new(of(low)),
            high: Box::new(of(low * times)),
        }
    });
    let plain = prop_oneof![4 => single(), 1 => range];
    prop_oneof![
        4 => plain.clone(),
        1 => proptest::option::of(plain).prop_map(|from| Reading::ToTaste { from: from.map(Box::new) }),
    ]
}

/// A document with comments and odd layout in every place that allows them.
fn layout() -> impl Strategy<Value = String> {
    let comment = proptest::sample::select(vec!["", " # why", "\t#", "   # ünïcode ½"]);
    let blank = proptest::sample::select(vec!["", "\n", "# between\n", "\n\n  # far\n", "\t\n"]);
    let amount = nearly().prop_map(|text| text.replace(['\\', '"'], ""));
    let line = (amount, comment.clone(), blank.clone(), "[ \t]{0,3}").prop_map(
        |(amount, comment, blank, indent)| {
            format!("{blank}[[line]]{comment}\n{indent}what = 'honey'{comment}\n{blank}{indent}amount   =\"{amount}\"{comment}\n")
        },
    );
    (
        proptest::collection::vec(line, 0..6),
        comment,
        blank,
        any::<bool>(),
    )
        .prop_map(|(lines, comment, blank, windows)| {
            let text = format!("{blank}drink = \"D\"{comment}\n{}{blank}", lines.concat());
            if windows {
                text.replace('\n', "\r\n")
            } else {
                text
            }
        })
}

/// Lines of TOML, whole and broken, in any order.
fn lines() -> impl Strategy<Value = String> {
    let line = proptest::sample::select(vec![
        "drink = \"D\"",
        "\u{feff}drink = 'D'",
        "[[line]]",
        "[ [line] ]",
        "[line]",
        "[line.a]",
        "[[line.a]]",
        "line = []",
        "line = [{ what = \"honey\" }]",
        "line.what = \"honey\"",
        "what = \"honey\" # why",
        "\"what\" = 'honey'",
        "\"wh\\u0061t\" = 'honey'",
        "what = \"\"\"a\nb\"\"\"",
        "amount = 4_0.5",
        "amount = 0x1F",
        "amount = 92233720368547758080",
        "amount = 1e400",
        "amount = -inf",
        "amount = 1979-05-27",
        "amount = [1, [2, { b = 3 }]]",
        "amount = { b = 1, b.c = 2 }",
        "told = { base = \"x\" }",
        "told.base = \"y\"",
        "[told]",
        "[told.solid]",
        "base = true",
        "base = tru",
        "base = \"no end",
        "base =",
        "= 3",
        "]",
        "",
    ]);
    proptest::collection::vec(line, 0..7).prop_map(|lines| lines.join("\n"))
}

/// None of the readers may panic, and every error must help.
fn read_everything(text: &str) -> Result<(), TestCaseError> {
    let mut errors = Vec::new();
    errors.extend(parse_amount(text).err());
    errors.extend(parse_duration(text).err());
    errors.extend(parse_temperature(text).err());
    errors.extend(parse_share(text).err());
    errors.extend(parse_target(text).err());
    errors.extend(parse_sugar_used(text).err());
    errors.extend(parse_pressure(text).err());
    errors.extend(Ice::parse(text).err());
    errors.extend(Glass::parse(text).err());
    errors.extend(Price::parse(text).err());
    errors.extend(UnitWeight::parse(text).err());
    for error in errors {
        prop_assert!(
            !error.what.is_empty() && !error.mend.is_empty(),
            "{error:?}"
        );
        prop_assert!(error.offset <= text.len(), "{error:?}");
        is_fit_for_a_page(&error.what, text)?;
        is_fit_for_a_page(&error.mend, text)?;
    }
    Ok(())
}

/// Whoever reads a page sees no file: neither its marks nor its keys, but what was typed.
fn is_fit_for_a_page(words: &Words, typed: &str) -> Result<(), TestCaseError> {
    let said = words.on_page(|_| Some("a field"));
    prop_assert!(!said.contains('`'), "{said}");
    for sign in ["‹", "›", "TOML", " = \"", "[["] {
        prop_assert!(!said.contains(sign) || typed.contains(sign), "{said}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 2000,
        failure_persistence: Some(Box::new(proptest::test_runner::FileFailurePersistence::Direct("tests/laws.seeds"))),
        ..ProptestConfig::default()
    })]

    #[test]
    fn a_reading_written_and_read_is_the_same(reading in reading()) {
        let text = reading.to_string();
        let again = parse_amount(&text).map_err(|error| TestCaseError::fail(format!("`{text}`: {error}")))?;
        prop_assert_eq!(again.reading, reading, "`{}`", text);
    }

    #[test]
    fn what_is_read_can_be_written_and_read_again(text in nearly()) {
        if let Ok(amount) = parse_amount(&text)
            && !matches!(amount.reading, Reading::Question { .. })
        {
            let written = amount.reading.to_string();
            let again = parse_amount(&written).map_err(|error| TestCaseError::fail(format!("`{text}` → `{written}`: {error}")))?;
            prop_assert_eq!(again.reading, amount.reading, "`{}` → `{}`", text, written);
        }
    }

    #[test]
    fn any_text_is_read_without_harm(text in any::<String>()) {
        read_everything(&text)?;
    }

    #[test]
    fn nearly_measures_are_read_without_harm(text in nearly()) {
        read_everything(&text)?;
    }

    #[test]
    fn times_written_and_read_are_the_same(seconds in prop_oneof![(1_u32..10_000_000).prop_map(f64::from), 0.01..1e7_f64]) {
        let text = Duration(seconds).to_string();
        prop_assert_eq!(parse_duration(&text).map_err(|error| TestCaseError::fail(format!("`{text}`: {error}")))?, Duration(seconds));
    }

    #[test]
    fn any_text_may_be_a_document(text in "(drink|prep|ingredient|house)? ?=? ?\"?[a-z\\[\\]{}=.,\"'#\n \\\\]{0,60}") {
        let parsed = parse(&Source::new("t", text.clone()));
        for finding in &parsed.findings {
            prop_assert!(!finding.message.is_empty() && !finding.mend.is_empty());
            prop_assert!(finding.place.span.start <= text.len());
            is_fit_for_a_page(&finding.message, "")?;
            is_fit_for_a_page(&finding.mend, "")?;
        }
        prop_assert!(parsed.document.is_some() || !parsed.findings.is_empty());
    }

    /// One library reads and another one edits: they must agree on what is TOML.
    #[test]
    fn what_can_be_read_can_be_changed(text in lines()) {
        let findings = parse(&Source::new("t", text.clone())).findings;
        for finding in &findings {
            is_fit_for_a_page(&finding.message, "")?;
            is_fit_for_a_page(&finding.mend, "")?;
        }
        let refused = findings.iter().find(|finding| finding.message.to_string().contains("is no TOML"));
        let draft = Draft::open(&text).map(|draft| draft.to_text()).map_err(|error| error.to_string());
        prop_assert_eq!(draft.is_err(), refused.is_some(), "{:?} {:?}", draft, refused);
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 300,
        failure_persistence: Some(Box::new(proptest::test_runner::FileFailurePersistence::Direct("tests/laws.seeds"))),
        ..ProptestConfig::default()
    })]

    #[test]
    fn read_and_written_is_the_text_itself(text in layout()) {
        let source = Source::new("t", text.clone());
        let parsed = parse(&source);
        let draft = Draft::open(&text).map_err(|error| TestCaseError::fail(error.to_string()))?;
        prop_assert_eq!(draft.to_text(), text);
        prop_assert_eq!(parse(&Source::new("t", draft.to_text())), parsed);
    }

    #[test]
    fn one_edit_changes_one_value(text in layout(), pick in any::<proptest::sample::Index>()) {
        let lines = text.matches("[[line]]").count();
        if lines == 0 {
            return Ok(());
        }
        let at = Path::item("line", pick.index(lines), "amount");
        let mut draft = Draft::open(&text).map_err(|error| TestCaseError::fail(error.to_string()))?;
        let before = draft.get(&at).unwrap_or_default();
        draft.set(&at, "12.5 g").map_err(|error| TestCaseError::fail(error.to_string()))?;
        prop_assert_eq!(text.matches('#').count(), draft.to_text().matches('#').count());
        draft.set(&at, &before).map_err(|error| TestCaseError::fail(error.to_string()))?;
        prop_assert_eq!(draft.to_text(), text);
    }

    #[test]
    fn any_book_is_resolved(edges in proptest::collection::vec((0..12_usize, 0..14_usize), 0..30)) {
        let mut book = Book::new();
        for name in 0..12 {
            let steps: String = edges
                .iter()
                .filter(|(from, _)| *from == name)
                .map(|(_, to)| format!("[[step]]\ndo = \"add\"\nwhat = \"p{to}\"\namount = \"1 g\"\n"))
                .collect();
            book.add(Source::new("t", format!("prep = \"p{name}\"\nstep = []\n").replace(if steps.is_empty() { "" } else { "step = []\n" }, "") + &steps));
        }
        let (graph, _) = resolve(&book);
        for (at, id) in graph.order.iter().enumerate() {
            for used in graph.uses(*id) {
                let before = graph.order.iter().position(|other| other == used);
                prop_assert!(before.is_none_or(|before| before < at));
                prop_assert!(graph.used_by(*used).contains(id));
            }
        }
    }
}
