//! Ranges that somebody remembers, to be held against: faint, and never a verdict.
//!
//! From memory, after a published table of the structure of drinks in the glass (*Liquid Intelligence*,
//! 2014); nobody has checked them against the book. Sugar stands for sweetness. In the units of the pages,
//! since they are read there.

/// A range of a kind of drinks, in the glass.
pub(crate) struct Known {
    pub of: &'static str,
    pub sourness: &'static str,
    pub sweetness: &'static str,
}

pub(crate) const KNOWN: [Known; 5] = [
    Known {
        of: "built on a large block",
        sourness: "0 to 0.5 g in 1 L",
        sweetness: "7 to 8.2 g in 100 mL",
    },
    Known {
        of: "stirred",
        sourness: "1 to 1.4 g in 1 L",
        sweetness: "3.7 to 5.6 g in 100 mL",
    },
    Known {
        of: "shaken and sour",
        sourness: "7.6 to 9.4 g in 1 L",
        sweetness: "5 to 8.9 g in 100 mL",
    },
    Known {
        of: "shaken with egg white",
        sourness: "4.9 to 6.8 g in 1 L",
        sweetness: "6.7 to 9 g in 100 mL",
    },
    Known {
        of: "charged",
        sourness: "3.8 to 5.1 g in 1 L",
        sweetness: "5 to 7.5 g in 100 mL",
    },
];

#[cfg(test)]
mod tests {
    use pomace_matter::liquid::Property;

    use super::KNOWN;
    use crate::words::unit_of;

    /// Each is read as a range by the book, so that it can be edited like one that was written.
    #[test]
    fn each_is_read_by_the_book() {
        for known in &KNOWN {
            let text = format!(
                "drink = \"D\"\n[range]\nof = \"{}\"\nsourness = \"{}\"\nsweetness = \"{}\"\n[[line]]\nwhat = \"water\"\namount = \"1 g\"\n",
                known.of, known.sourness, known.sweetness
            );
            let parsed = pomace_book::parse(&pomace_book::Source::new("d", text));
            assert!(parsed.findings.is_empty(), "{:?}", parsed.findings);
            let Some(pomace_book::Document::Drink(drink)) = parsed.document else {
                panic!("no drink");
            };
            let range = drink.range.unwrap();
            for (written, property) in [
                (known.sourness, Property::TitratableAcidity),
                (known.sweetness, Property::Sweetness),
            ] {
                assert!(written.ends_with(unit_of(property)), "{written}");
            }
            for told in [range.sourness, range.sweetness] {
                assert!(
                    matches!(told.unwrap().value, pomace_book::ToldValue::Between(a, b) if a < b)
                );
            }
        }
    }
}
