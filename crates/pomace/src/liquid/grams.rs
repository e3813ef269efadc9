//! `water=60 g, ethanol=24 g`: grams of substances as people type them.
//!
//! Each item is a name and an amount in either order, with or without `=`; items may be parted by
//! `,`, `;` or spaces. Nothing is guessed: all that is doubtful is reported, and all at once.

use std::ops::Range;

use pomace_book::names::fold;
use pomace_matter::range::MASS;
use pomace_matter::units::Grams;
use pomace_matter::{Mixture, Substance};

use super::names;
use crate::fault::Fault;
use crate::number::{self, NumberFault};
use crate::page::shorten;
use crate::quote::Quote;

/// Bytes of the text; a list of all substances has less than a thousand.
const MOST: usize = 10_000;

/// Reads what is in a liquid.
///
/// # Errors
/// Every fault of the text.
pub(super) fn read(text: &str) -> Result<Mixture, Vec<Fault>> {
    let text = &text.replace(['\n', '\r', '\t'], " ");
    if text.len() > MOST {
        return Err(vec![Fault::new(
            format!("the list has {} bytes; the most is {MOST}", text.len()),
            "each substance belongs in it once; a table goes in with `--csv FILE`",
        )]);
    }
    let mut reader = Reader {
        text,
        tokens: tokens(text),
        at: 0,
        faults: Vec::new(),
    };
    let mut found: Vec<(Substance, f64)> = Vec::new();
    while reader.at < reader.tokens.len() {
        let Some((substance, grams, place)) = reader.item() else {
            continue;
        };
        if let Some((_, before)) = found.iter().find(|(other, _)| *other == substance) {
            let message = format!("`{substance}` is there twice; before, it was {before} g");
            reader.fault(
                message,
                "write it once, with the sum if both belong in it",
                place,
            );
        }
        found.push((substance, grams));
    }
    if found.is_empty() && reader.faults.is_empty() {
        return Err(vec![Fault::new(
            "nothing is said of what is in the liquid",
            "write the grams of each substance: `water=60 g, sucrose=10 g`",
        )]);
    }
    if !reader.faults.is_empty() {
        return Err(reader.faults);
    }
    let parts: Vec<_> = found
        .into_iter()
        .map(|(one, grams)| (one, Grams(grams)))
        .collect();
    Ok(Mixture::of(&parts))
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Word,
    Number,
    Equals,
    Separator,
    Stray,
}

type Token = (Kind, Range<usize>);

fn tokens(text: &str) -> Vec<Token> {
    let mut tokens = Vec::new();
    let mut at = 0;
    while let Some(rest) = text.get(at..).filter(|rest| !rest.is_empty()) {
        let sign = rest.chars().next().unwrap_or(' ');
        let number = number::length(rest);
        let (kind, length) = if number > 0 {
            (Kind::Number, number)
        } else if sign.is_alphabetic() || sign == '%' || sign == '°' {
            (Kind::Word, word_length(rest))
        } else {
            let kind = match sign {
                '=' | ':' => Kind::Equals,
                ',' | ';' => Kind::Separator,
                _ => Kind::Stray,
            };
            (kind, sign.len_utf8())
        };
        if !sign.is_whitespace() {
            tokens.push((kind, at..at + length));
        }
        at += length;
    }
    tokens
}

/// Letters, and `_`, `-` and digits between them: `other_acids`, `co2`.
fn word_length(text: &str) -> usize {
    let inside =
        |sign: char| sign.is_alphanumeric() || matches!(sign, '_' | '-' | '%' | '°' | '\'' | '’');
    text.find(|sign| !inside(sign)).unwrap_or(text.len())
}

struct Reader<'t> {
    text: &'t str,
    tokens: Vec<Token>,
    at: usize,
    faults: Vec<Fault>,
}

/// What stands where an amount should.
#[derive(Clone, Copy)]
enum Amount {
    Grams(f64),
    /// Reported already.
    Faulty,
    Missing,
}

impl Reader<'_> {
    fn peek(&self) -> Option<Kind> {
        self.tokens.get(self.at).map(|(kind, _)| *kind)
    }

    fn word(&self) -> Option<&str> {
        let (kind, place) = self.tokens.get(self.at)?;
        (*kind == Kind::Word).then(|| self.slice(place))
    }

    fn slice(&self, place: &Range<usize>) -> &str {
        self.text.get(place.clone()).unwrap_or("")
    }

    fn fault(&mut self, message: impl Into<String>, mend: impl Into<String>, place: Range<usize>) {
        let quote = Quote::of_words(self.text, place);
        self.faults.push(Fault::new(message, mend).shown(quote));
    }

    /// From the start of token `from` to the end of the token before the present one.
    fn since(&self, from: usize) -> Range<usize> {
        let start = self
            .tokens
            .get(from)
            .map_or(self.text.len(), |(_, place)| place.start);
        let last = self
            .at
            .checked_sub(1)
            .and_then(|last| self.tokens.get(last));
        start..last.map_or(start, |(_, place)| place.end).max(start)
    }

    /// One substance with its grams; `None` for a separator, and where faults were reported.
    fn item(&mut self) -> Option<(Substance, f64, Range<usize>)> {
        let from = self.at;
        match self.peek()? {
            Kind::Separator => {
                self.at += 1;
                None
            }
            Kind::Number => {
                let amount = self.amount();
                let name_from = self.at;
                let Some(name) = self.name() else {
                    let place = self.since(from);
                    let shown = self.slice(&place).to_owned();
                    if !matches!(amount, Amount::Faulty) {
                        let message = format!("`{shown}` does not say of what");
                        self.fault(
                            message,
                            format!("write `water={shown}`, if water is meant"),
                            place,
                        );
                    }
                    return None;
                };
                let name_place = self.since(name_from);
                self.join(&name, name_place, amount, self.since(from))
            }
            Kind::Word => {
                let name = self.name()?;
                let name_place = self.since(from);
                let equals = self.peek() == Some(Kind::Equals);
                self.at += usize::from(equals);
                let amount = if equals {
                    self.told_amount()
                } else {
                    self.amount()
                };
                self.join(&name, name_place, amount, self.since(from))
            }
            Kind::Equals | Kind::Stray => {
                self.at += 1;
                let place = self.since(from);
                let message = format!("`{}` stands where a name should", self.slice(&place));
                self.fault(message, "write a name and its grams: `water=60 g`", place);
                self.skip_to_separator();
                None
            }
        }
    }

    fn join(
        &mut self,
        name: &str,
        name_place: Range<usize>,
        amount: Amount,
        place: Range<usize>,
    ) -> Option<(Substance, f64, Range<usize>)> {
        let substance = names::substance(name);
        let shown = shorten(name, 40);
        if substance.is_none() {
            let message = format!("`{shown}` is no substance that is known here");
            self.fault(message, names::mend(name), name_place.clone());
        }
        match amount {
            Amount::Grams(grams) => Some((substance?, grams, place)),
            Amount::Faulty => None,
            Amount::Missing => {
                if substance.is_some() {
                    let mend = format!("write its grams: `{shown}=10 g`");
                    self.fault(format!("`{shown}` has no amount"), mend, name_place);
                }
                None
            }
        }
    }

    /// Words up to the next sign or number.
    fn name(&mut self) -> Option<String> {
        let mut words = Vec::new();
        while let Some(word) = self.word() {
            words.push(word.to_owned());
            self.at += 1;
        }
        (!words.is_empty()).then(|| words.join(" "))
    }

    /// What stands behind `=`: a number, or anything up to the next separator, which is then
    /// reported as no number.
    fn told_amount(&mut self) -> Amount {
        if self.peek() == Some(Kind::Number) {
            return self.amount();
        }
        let from = self.at;
        self.skip_to_separator();
        let place = self.since(from);
        if place.is_empty() {
            return Amount::Missing;
        }
        let message = format!(
            "`{}` is no number of grams",
            shorten(self.slice(&place), 40)
        );
        self.fault(
            message,
            "write a number: `60 g`, `800 mg` or `1.2 kg`",
            place,
        );
        Amount::Faulty
    }

    fn skip_to_separator(&mut self) {
        while self.peek().is_some_and(|kind| kind != Kind::Separator) {
            self.at += 1;
        }
    }

    /// A number with its unit.
    fn amount(&mut self) -> Amount {
        let from = self.at;
        let Some((Kind::Number, place)) = self.tokens.get(from).cloned() else {
            return Amount::Missing;
        };
        self.at += 1;
        let number = number::read(self.slice(&place));
        let factor = self.unit();
        let place = self.since(from);
        let shown = shorten(self.slice(&place), 40);
        let (message, mend) = match (number, factor) {
            (_, Err(unit)) => (
                format!("`{unit}` is no unit of mass that is known here"),
                "weigh it: grams (`g`), `mg` or `kg`".to_owned(),
            ),
            (Ok(number), Ok(_)) if number < 0.0 => (
                format!("`{shown}` is less than nothing"),
                "write how much there is; 0 or more".to_owned(),
            ),
            (Ok(number), Ok(factor)) if number * factor <= MASS.high => {
                return Amount::Grams(number * factor);
            }
            (Ok(_), Ok(_)) => (
                format!("`{shown}` is too large"),
                "check the number".to_owned(),
            ),
            (Err(fault), Ok(_)) => {
                let mend = match &fault {
                    NumberFault::TwoMeanings { small, large, .. } => {
                        format!("write `{small}` or `{large}`")
                    }
                    _ => "write a number such as `60` or `12.5`".to_owned(),
                };
                (fault.to_string(), mend)
            }
        };
        self.fault(message, mend, place);
        Amount::Faulty
    }

    /// The grams of the unit that stands here, 1 where none does; the word, where it is a unit of
    /// something else.
    fn unit(&mut self) -> Result<f64, String> {
        const OTHERS: [&str; 16] = [
            "ml", "cl", "dl", "l", "litre", "litres", "liter", "liters", "oz", "lb", "tsp", "tbsp",
            "dash", "dashes", "cup", "cups",
        ];
        let Some(word) = self.word().map(str::to_owned) else {
            return Ok(1.0);
        };
        let factor = match fold(&word).as_str() {
            "g" | "gram" | "grams" | "gramme" | "grammes" => 1.0,
            // `Mg` would be a million grams, and `MG` is a slip: only case tells them apart.
            "mg" if !word.starts_with('M') => 0.001,
            "mg" => {
                self.at += 1;
                return Err(word);
            }
            "milligram" | "milligrams" => 0.001,
            "kg" | "kilo" | "kilos" | "kilogram" | "kilograms" => 1000.0,
            other if OTHERS.contains(&other) || other.starts_with(['%', '°']) => {
                self.at += 1;
                return Err(word);
            }
            _ => return Ok(1.0),
        };
        self.at += 1;
        Ok(factor)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(text: &str) -> Vec<(&'static str, f64)> {
        let mixture = read(text).unwrap();
        let there = mixture.iter().filter(|(_, grams)| *grams > 0.0);
        there.map(|(one, grams)| (one.name(), grams)).collect()
    }

    fn messages(text: &str) -> Vec<String> {
        read(text)
            .unwrap_err()
            .into_iter()
            .map(|fault| fault.message.to_string())
            .collect()
    }

    #[test]
    fn every_way_of_writing_means_the_same() {
        for text in [
            "water=60 g, ethanol=24 g, other_acids=1.5 g",
            "water=60,ethanol=24,other_acids=1.5",
            "water 60 g ethanol 24 g other acids 1.5 g",
            "60 g water; 24 g ethanol; 1,5 g other acids",
            "60 water 24 ethanol 1.5 other acids",
            "WATER: 60g\tEthanol: 0.024 kg\nOther-Acids: 1500 mg",
            " , water = 60.0 g ;; ethanol=24., other acids=1,50 g,",
        ] {
            let text = text.replace("24.,", "24,");
            assert_eq!(
                parts(&text),
                [("water", 60.0), ("ethanol", 24.0), ("other_acids", 1.5)],
                "{text}"
            );
        }
    }

    #[test]
    fn all_faults_are_told_at_once() {
        assert_eq!(
            messages("watr=60 g, ethanol=-4 g, sucrose=nan, citric=5 ml, malic=1,500 g, lactic"),
            [
                "`watr` is no substance that is known here",
                "`-4 g` is less than nothing",
                "`nan` is no number of grams",
                "`ml` is no unit of mass that is known here",
                "`1,500` may mean 1.500 or 1500",
                "`lactic` has no amount",
            ]
        );
    }

    #[test]
    fn what_is_no_list_is_refused() {
        for text in [
            "",
            " , ; ",
            "60",
            "60 g",
            "water",
            "water=",
            "=60",
            "water=inf",
            "water=1e999",
            "water=60, water=5",
            "water=60 60",
            "water==60",
            "water=60 % ",
            "{water:60}",
            "water=1.2.3",
            "water=60 Mg",
            "👍",
            "water\u{0}=60",
            "water=٣",
        ] {
            assert!(read(text).is_err(), "{text}");
        }
        assert!(read(&"water=1,".repeat(2000)).is_err());
    }

    #[test]
    fn the_mark_stands_under_the_fault() {
        let faults = read("water=60 g, etanol=24 g").unwrap_err();
        let fault = faults.first().unwrap();
        assert_eq!(fault.mend, "write `ethanol`, if that is meant");
        let Some(crate::fault::Where::Shown(quote)) = &fault.place else {
            panic!("no place")
        };
        assert_eq!((quote.start, quote.length), (12, 6));
    }
}
