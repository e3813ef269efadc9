//! Preps, made in the house or told from outside.

use super::drink::{brief, steps};
use super::faults::Faults;
use super::marks::marks;
use super::table::Table;
use super::trial::{Lists, trials};
use crate::document::scale::{STRENGTH, SUGAR, Scale};
use crate::document::{Instrument, PrepDoc, Told, ToldReading};
use crate::finding::{Gravity, Topic};
use crate::names;
use crate::quantity::cursor::{Cursor, shorten};
use crate::quantity::{Fault, QuantityError, parse_duration, parse_temperature};
use crate::span::Spanned;
use crate::voice::{IN_ITS_FILE, Words};

/// Reads a prep whose name is known.
pub(super) fn read(
    name: Spanned<String>,
    table: &mut Table<'_>,
    faults: &mut Faults<'_>,
) -> PrepDoc {
    let (steps, written) = steps(table, faults);
    let claims = table.texts("claims", faults);
    let brief = brief(table, faults);
    let note = table.text("note", faults);
    let told = table.table("told", faults).map(|table| told(table, faults));
    if !table.has("step") && !table.has("told") {
        faults.add(
            (Topic::Amount, Gravity::Caution),
            name.span,
            "prep",
            Words::of_file(
                "the prep has neither steps nor a `told` table, so there is nothing to compute",
                "the prep has no steps yet, so there is nothing to work out",
            ),
            Words::of_file(
                "add a step: `[[step]]` with ‹do›, ‹what› and ‹amount›; or tell it from outside with `[told]`",
                "add what is weighed first, and how much of it",
            ),
        );
    }
    check_streams(&steps, faults);
    let lists = Lists {
        kind: "prep",
        lines: &[],
        steps: &steps,
        garnish: &[],
        is_whole: steps.len() == written,
    };
    let trials = trials(table, &lists, faults);
    let marks = marks(table, faults);
    PrepDoc {
        name,
        steps,
        claims,
        brief,
        marks,
        trials,
        note,
        told,
    }
}

/// Two streams of one name would make every later ratio doubtful.
fn check_streams(steps: &[crate::document::Step], faults: &mut Faults<'_>) {
    let mut seen: Vec<(String, usize)> = Vec::new();
    for (index, step) in steps.iter().enumerate() {
        let mut here: Vec<String> = Vec::new();
        for name in step.kept_names().chain(&step.by_product) {
            let folded = names::fold(name);
            if here.contains(&folded) {
                continue;
            }
            if let Some((_, first)) = seen.iter().find(|(other, _)| *other == folded) {
                faults.add(
                    (Topic::Name, Gravity::Caution),
                    name.span,
                    &format!("step {}", index + 1),
                    format!(
                        "the name `{}` was given before, in step {}",
                        name.value,
                        first + 1
                    ),
                    "give each stream its own name; later steps take the latest",
                );
            }
            here.push(folded);
        }
        seen.extend(here.into_iter().map(|name| (name, index)));
    }
}

fn told(mut table: Table<'_>, faults: &mut Faults<'_>) -> Told {
    let told = Told {
        base: table.name("base", faults),
        base_amount: table.amount("base_amount", faults),
        solid: table.name("solid", faults),
        solid_amount: table.amount("solid_amount", faults),
        time: table.read("time", faults, parse_duration),
        temperature: table.read("temperature", faults, parse_temperature),
        strength: table.read("strength", faults, |text| STRENGTH.read(text)),
        sugar: table.read("sugar", faults, |text| SUGAR.read(text)),
        readings: readings(&mut table, faults),
        note: table.text("note", faults),
        span: table.span,
    };
    table.finish(faults);
    if told.base.is_none() && !table.has("base") {
        faults.add(
            (Topic::Name, Gravity::Caution),
            table.span,
            &table.at,
            "the told prep has no base, so there is nothing to start from",
            Words::of_file("‹add base = …› with the liquid it was made in", IN_ITS_FILE),
        );
    }
    told
}

/// `readings = ["24 Brix", "pH 3.1"]`, or a table with an instrument for each key.
fn readings(table: &mut Table<'_>, faults: &mut Faults<'_>) -> Vec<Spanned<ToldReading>> {
    if !table.is_table("readings") {
        let texts = table.texts("readings", faults);
        let place = table.key("readings");
        let mut readings = Vec::new();
        for text in texts {
            match one_reading(&text) {
                Ok(reading) => readings.push(Spanned::new(reading, text.span)),
                Err(error) => faults.quantity(error, text.span, &place),
            }
        }
        return readings;
    }
    let Some(mut inner) = table.table("readings", faults) else {
        return Vec::new();
    };
    let mut readings = Vec::new();
    for (key, text) in inner.entries(faults) {
        let place = inner.key(&shorten(&key));
        let Some(instrument) = Instrument::named(&key) else {
            let known: Vec<&str> = Instrument::ALL.iter().map(|one| one.word()).collect();
            faults.add(
                (Topic::Syntax, Gravity::Caution),
                key.span,
                &place,
                format!("`{}` is no reading that is known", shorten(&key)),
                format!("write {}", names::either(known)),
            );
            continue;
        };
        match Scale::of(instrument).read(&text) {
            Ok(value) => {
                let reading = ToldReading {
                    text: text.value,
                    instrument,
                    value,
                };
                readings.push(Spanned::new(reading, text.span));
            }
            Err(error) => faults.quantity(error, text.span, &place),
        }
    }
    readings
}

/// `24 Brix`, `pH 3.1`, `820 g`, `12 % vol`, `1.02 g/mL`, `6 g/L acid`.
fn one_reading(text: &str) -> Result<ToldReading, QuantityError> {
    let cursor = Cursor::new(text)?;
    let named = Instrument::ALL.iter().find(|instrument| {
        (0..8)
            .any(|at| cursor.is_word(at, &[instrument.word(), &format!("°{}", instrument.word())]))
    });
    let read = |instrument: Instrument| {
        let bare = text.replacen(
            instrument.word(),
            "",
            usize::from(instrument == Instrument::Acid),
        );
        let value = Scale::of(instrument).read(&bare)?;
        Ok(ToldReading {
            text: text.to_owned(),
            instrument,
            value,
        })
    };
    if let Some(instrument) = named {
        return read(*instrument);
    }
    [
        Instrument::Strength,
        Instrument::Mass,
        Instrument::Volume,
        Instrument::Density,
    ]
    .into_iter()
    .find_map(|instrument| read(instrument).ok())
    .ok_or_else(|| {
        QuantityError::new(
            Fault::UnknownUnit,
            0,
            format!("`{}` does not say what was read", shorten(text.trim())),
            "write it like `24 Brix`, `pH 3.1`, `820 g`, `12 % vol`, `1.02 g/mL` or `6 g/L acid`",
        )
    })
}
