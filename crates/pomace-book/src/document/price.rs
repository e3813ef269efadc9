//! Prices and weights of a piece: `24 EUR / 700 mL`, `1 fruit = 240 g`.

use crate::quantity::cursor::{Cursor, shorten};
use crate::quantity::{Fault, QuantityError, Reading, parse_amount};

/// `24 EUR / 700 mL`.
#[derive(Clone, Debug, PartialEq)]
pub struct Price {
    /// As written.
    pub text: String,
    /// How much money.
    pub money: f64,
    /// Three letters, upper case.
    pub currency: String,
    /// For how much; the pack if absent.
    pub per: Option<Reading>,
}

/// `1 fruit = 240 g`.
#[derive(Clone, Debug, PartialEq)]
pub struct UnitWeight {
    /// As written.
    pub text: String,
    /// What one is called; `None` for `240 g` alone.
    pub noun: Option<String>,
    /// Grams of one.
    pub grams: f64,
}

const PRICE_MEND: &str = "write it like `24 EUR / 700 mL` or `3.20 EUR / kg`";

impl Price {
    /// Reads a price.
    ///
    /// # Errors
    /// Where money, currency or quantity cannot be read.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let mut cursor = Cursor::new(text)?;
        let shown = shorten(text.trim());
        let before = take_currency(&mut cursor)?;
        let start = cursor.offset();
        let Some(number) = cursor.take_number() else {
            return Err(QuantityError::new(
                Fault::NoNumber,
                start,
                format!("there is no money in `{shown}`"),
                PRICE_MEND,
            ));
        };
        let currency = match before {
            Some(currency) => currency,
            None => take_currency(&mut cursor)?.ok_or_else(|| {
                QuantityError::new(
                    Fault::NoUnit,
                    cursor.offset(),
                    format!("`{shown}` does not say which money"),
                    PRICE_MEND,
                )
            })?,
        };
        // Money of three decimals is petrol's; `1,500` is a thousand and a half.
        let money = number
            .other
            .map_or(number.value, |other| number.value.max(other));
        if !(0.0..=1e7).contains(&money) {
            return Err(QuantityError::new(
                Fault::OutOfRange,
                start,
                format!("`{shown}` is no price"),
                PRICE_MEND,
            ));
        }
        let per = per(&mut cursor)?;
        Ok(Self {
            text: text.to_owned(),
            money,
            currency,
            per,
        })
    }
}

/// `/ 700 mL`, `per kg`, up to the end.
fn per(cursor: &mut Cursor<'_>) -> Result<Option<Reading>, QuantityError> {
    if !cursor.take_sign(&['/']) && !cursor.take_word(&["per", "for", "a", "each"]) {
        cursor.finish(PRICE_MEND)?;
        return Ok(None);
    }
    let start = cursor.offset();
    let rest = cursor.rest();
    let one = if cursor.is_number(0) {
        rest.to_owned()
    } else {
        format!("1 {rest}")
    };
    let lead = one.len() - rest.len();
    let amount = parse_amount(&one).map_err(|error| QuantityError {
        offset: error.offset.saturating_sub(lead) + start,
        ..error
    })?;
    match amount.reading {
        Reading::Question { why, .. } => Err(QuantityError::new(
            Fault::BadNumber,
            start,
            format!(
                "`{}` can be read in more than one way: {why}",
                shorten(rest)
            ),
            PRICE_MEND,
        )),
        Reading::Share { .. } | Reading::ToTaste { .. } | Reading::Between { .. } => {
            Err(QuantityError::new(
                Fault::UnknownUnit,
                start,
                format!("`{}` is not what is bought", shorten(rest)),
                PRICE_MEND,
            ))
        }
        reading => Ok(Some(reading)),
    }
}

fn take_currency(cursor: &mut Cursor<'_>) -> Result<Option<String>, QuantityError> {
    let Some(word) = cursor.word(0) else {
        return Ok(None);
    };
    let currency = match word {
        "€" => "EUR",
        "£" => "GBP",
        "$" => {
            return Err(QuantityError::new(
                Fault::UnknownUnit,
                cursor.offset(),
                "`$` is the money of many countries",
                "write the three letters of the currency, such as `24 USD / 750 mL`",
            ));
        }
        word if word.len() == 3 && word.chars().all(|letter| letter.is_ascii_alphabetic()) => word,
        _ => return Ok(None),
    };
    cursor.skip(1);
    Ok(Some(currency.to_ascii_uppercase()))
}

impl UnitWeight {
    /// Reads what a piece weighs.
    ///
    /// # Errors
    /// Where no weight of a piece is written.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        const MEND: &str = "write it like `1 fruit = 240 g`";
        let wrong = |offset, what: String| QuantityError::new(Fault::Leftover, offset, what, MEND);
        let (piece, weight, offset) = match text.split_once('=') {
            Some((piece, weight)) => (Some(piece), weight, piece.len() + 1),
            None => (None, text, 0),
        };
        let grams = match parse_amount(weight) {
            Ok(amount) => match amount.reading {
                Reading::Mass { grams } => grams,
                _ => {
                    return Err(wrong(
                        offset,
                        format!("`{}` is no weight", shorten(weight.trim())),
                    ));
                }
            },
            Err(error) => {
                return Err(QuantityError {
                    offset: error.offset + offset,
                    ..error
                });
            }
        };
        let (count, noun) = match piece.map(parse_amount).transpose()? {
            None => (1.0, None),
            Some(amount) => match amount.reading {
                Reading::Count { count, noun } => (count, noun),
                _ => {
                    return Err(wrong(
                        0,
                        format!("`{}` is no number of pieces", shorten(amount.text.trim())),
                    ));
                }
            },
        };
        Ok(Self {
            text: text.to_owned(),
            noun,
            grams: grams / count,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prices_as_they_are_written() {
        let price = Price::parse("24 EUR / 700 mL").unwrap();
        assert_eq!((price.money, price.currency.as_str()), (24.0, "EUR"));
        assert_eq!(price.per, Some(Reading::Volume { millilitres: 700.0 }));
        let price = Price::parse("€3.20 per kg").unwrap();
        assert_eq!((price.money, price.currency.as_str()), (3.2, "EUR"));
        assert_eq!(price.per, Some(Reading::Mass { grams: 1000.0 }));
        assert_eq!(Price::parse("gbp 3").unwrap().per, None);
        for text in [
            "",
            "24",
            "$24",
            "EUR",
            "24 EUR / 700",
            "24 EUR / to taste",
            "-3 EUR",
        ] {
            assert!(!Price::parse(text).unwrap_err().mend.is_empty(), "{text}");
        }
    }

    #[test]
    fn weights_of_a_piece() {
        let unit = UnitWeight::parse("1 fruit = 240 g").unwrap();
        assert_eq!((unit.noun.as_deref(), unit.grams), (Some("fruit"), 240.0));
        let unit = UnitWeight::parse("12 leaves = 3 g").unwrap();
        assert_eq!((unit.noun.as_deref(), unit.grams), (Some("leaves"), 0.25));
        assert_eq!(UnitWeight::parse("33 g").unwrap().noun, None);
        for text in ["", "= 3 g", "1 fruit =", "1 fruit = 3 mL", "1 g = 3 g"] {
            assert!(
                !UnitWeight::parse(text).unwrap_err().mend.is_empty(),
                "{text}"
            );
        }
    }
}
