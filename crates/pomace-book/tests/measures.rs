//! Times, temperatures, shares, ends and pressures as people write them.

use pomace_book::quantity::{Fault, parse_pressure, parse_sugar_used, parse_target};
use pomace_book::{SugarUsed, Target, parse_duration, parse_share, parse_temperature};

#[test]
fn times() {
    for (text, seconds) in [
        ("9 s", 9.0),
        ("9s", 9.0),
        ("90 sec", 90.0),
        ("12 min", 720.0),
        ("30 h", 108_000.0),
        ("1 h 30 min", 5400.0),
        ("1 hour and 30 minutes", 5400.0),
        ("1h30min", 5400.0),
        ("2 days", 172_800.0),
        ("half an hour", 1800.0),
        ("one and a half hours", 5400.0),
        ("1.5 h", 5400.0),
        ("1,5 h", 5400.0),
        ("3 weeks", 1_814_400.0),
        ("a minute", 60.0),
    ] {
        let duration = parse_duration(text).unwrap_or_else(|error| panic!("`{text}`: {error}"));
        assert!(
            (duration.seconds() - seconds).abs() < 1e-9,
            "{text}: {duration:?}"
        );
    }
    for (text, fault) in [
        ("", Fault::Empty),
        ("overnight", Fault::Vague),
        ("until thick", Fault::Vague),
        ("30", Fault::NoUnit),
        ("30 m", Fault::UnknownUnit),
        ("30 minuts", Fault::UnknownUnit),
        ("12-15 s", Fault::Several),
        ("12 s to 15 s", Fault::Several),
        ("30 min 1 h", Fault::Several),
        ("1 min 2 min", Fault::Several),
        ("0 s", Fault::OutOfRange),
        ("-5 s", Fault::OutOfRange),
        ("11 years", Fault::OutOfRange),
        ("1,500 h", Fault::BadNumber),
        ("9 s hard", Fault::Leftover),
        ("soon", Fault::NoNumber),
    ] {
        let error = parse_duration(text).unwrap_err();
        assert_eq!(error.fault, fault, "`{text}`: {error}");
        assert!(!error.mend.is_empty(), "{text}");
    }
    assert_eq!(parse_duration("90 min").unwrap().to_string(), "1 h 30 min");
    assert_eq!(parse_duration("0.5 s").unwrap().to_string(), "0.5 s");
}

#[test]
fn temperatures() {
    for (text, celsius) in [
        ("18 C", 18.0),
        ("18C", 18.0),
        ("18 °C", 18.0),
        ("18 degrees C", 18.0),
        ("-18 C", -18.0),
        ("−18 °C", -18.0),
        ("minus 18 C", -18.0),
        ("64.4 F", 18.0),
        ("0 C", 0.0),
        ("62,5 C", 62.5),
    ] {
        let read = parse_temperature(text).unwrap_or_else(|error| panic!("`{text}`: {error}"));
        assert!((read - celsius).abs() < 1e-9, "{text}: {read}");
    }
    for (text, fault) in [
        ("", Fault::Empty),
        ("18", Fault::NoUnit),
        ("18 K", Fault::UnknownUnit),
        ("room temperature", Fault::Vague),
        ("fridge", Fault::Vague),
        ("18-20 C", Fault::Several),
        ("18 C to 20 C", Fault::Several),
        ("-400 C", Fault::OutOfRange),
        ("9000 C", Fault::OutOfRange),
        ("cosy", Fault::NoNumber),
    ] {
        let error = parse_temperature(text).unwrap_err();
        assert_eq!(error.fault, fault, "`{text}`: {error}");
        assert!(!error.mend.is_empty(), "{text}");
    }
}

#[test]
fn shares() {
    for (text, share) in [
        ("12 %", 0.12),
        ("12%", 0.12),
        ("12,5 %", 0.125),
        ("12 percent", 0.12),
        ("half", 0.5),
        ("1/3", 1.0 / 3.0),
        ("none", 0.0),
        ("all", 1.0),
        ("0 %", 0.0),
        ("100 %", 1.0),
    ] {
        let read = parse_share(text).unwrap_or_else(|error| panic!("`{text}`: {error}"));
        assert!((read - share).abs() < 1e-12, "{text}: {read}");
    }
    for text in [
        "",
        "12",
        "0.12",
        "120 %",
        "-1 %",
        "some",
        "10-12 %",
        "12 % of it",
    ] {
        let error = parse_share(text).unwrap_err();
        assert!(!error.mend.is_empty(), "{text}");
    }
    assert_eq!(
        parse_share("0.12").unwrap_err().mend.to_string(),
        "write `12 %`, if that is meant"
    );
}

#[test]
fn ends_of_a_step() {
    assert_eq!(parse_target("300 g"), Ok(Target::ToGrams(300.0)));
    assert_eq!(parse_target("1.5 L"), Ok(Target::ToMillilitres(1500.0)));
    assert_eq!(parse_target("65 Brix"), Ok(Target::ToBrix(65.0)));
    assert_eq!(parse_target("half"), Ok(Target::LossShare(0.5)));
    assert_eq!(
        parse_target("70 %").map(|target| matches!(target, Target::LossShare(_))),
        Ok(true)
    );
    for text in ["", "1,500 g", "3 limes", "165 Brix", "1 pint", "thick"] {
        assert!(!parse_target(text).unwrap_err().mend.is_empty(), "{text}");
    }
    assert_eq!(parse_sugar_used("30 g"), Ok(SugarUsed::Grams(30.0)));
    assert_eq!(parse_sugar_used("60 %"), Ok(SugarUsed::Share(0.6)));
    assert!(parse_sugar_used("3 mL").is_err());
}

#[test]
fn pressures() {
    for (text, bar) in [("2.5 bar", 2.5), ("250 kPa", 2.5), ("36 psi", 2.482_112_52)] {
        let pressure = parse_pressure(text).unwrap();
        assert!((pressure.bar() - bar).abs() < 1e-9, "{text}");
    }
    for text in [
        "",
        "2.5",
        "-1 bar",
        "0 bar",
        "900 bar",
        "2.5 bar of gas",
        "high",
    ] {
        assert!(!parse_pressure(text).unwrap_err().mend.is_empty(), "{text}");
    }
}
