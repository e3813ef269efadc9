//! Any text may be a measure: no reader panics, every error helps, and what is read can be
//! written and read again.
#![no_main]

use libfuzzer_sys::fuzz_target;
use pomace_book::quantity::{parse_pressure, parse_sugar_used, parse_target};
use pomace_book::{
    Glass, Ice, Price, Reading, UnitWeight, parse_amount, parse_duration, parse_share,
    parse_temperature,
};

fuzz_target!(|text: &str| {
    let mut errors = Vec::new();
    match parse_amount(text) {
        Ok(amount) if !matches!(amount.reading, Reading::Question { .. }) => {
            let written = amount.reading.to_string();
            let again = parse_amount(&written).map(|again| again.reading);
            assert_eq!(
                again.as_ref(),
                Ok(&amount.reading),
                "`{text}` → `{written}`"
            );
        }
        Ok(_) => {}
        Err(error) => errors.push(error),
    }
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
        assert!(
            !error.what.is_empty() && !error.mend.is_empty(),
            "{error:?}"
        );
        assert!(error.offset <= text.len(), "{error:?}");
    }
});
