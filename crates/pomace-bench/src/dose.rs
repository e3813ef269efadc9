//! How much: an amount as written, ready to become grams.

use std::sync::Arc;

use pomace_book::Reading;
use pomace_larder::Form;
use pomace_matter::Scalar;

use crate::house::House;
use crate::inputs::{Inputs, SourceKey, SourceName};

/// US fluid ounce, mL, and avoirdupois ounce, g (both by definition).
const FLUID_OUNCE: f64 = 29.5735295625;
const OUNCE: f64 = 28.349523125;

/// What a share is a share of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum ShareOf {
    /// All that is in the vessel.
    Vessel,
    /// What a step named: what it brought in, or else what was in the vessel after it.
    Named(usize),
    /// What a step brought in.
    Brought(usize),
    /// What a step left behind.
    Left(usize),
    /// A line of the drink.
    Line(usize),
}

/// An amount, before it is known of what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Measure {
    Grams(f64),
    Millilitres(f64),
    Ounces(f64),
    Pieces(f64),
    Share(f64, ShareOf),
}

/// An amount with what there is to say about it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Dose {
    pub measure: Measure,
    /// Lowest and highest, in the unit of the measure, where a range was written.
    pub range: Option<(f64, f64)>,
    pub in_question: bool,
    pub to_taste: bool,
}

/// What the measure of an amount is applied to.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stuff<S> {
    pub form: Form,
    pub grams_per_ml: Option<S>,
    pub piece_grams: Option<f64>,
}

/// Why an amount cannot become grams.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Unmeasured {
    /// A volume of something whose density is not known.
    NoDensity,
    /// Pieces of something whose weight is not known.
    NoPieceWeight,
}

impl Dose {
    /// From a reading; `choice` picks among the readings of a question. `None` where no amount is
    /// fixed.
    pub(crate) fn of(
        reading: &Reading,
        of: Option<ShareOf>,
        house: &House,
        choice: usize,
    ) -> Option<Self> {
        let plain = |measure| {
            Some(Self {
                measure,
                range: None,
                in_question: false,
                to_taste: false,
            })
        };
        match reading {
            Reading::Mass { grams } => plain(Measure::Grams(*grams)),
            Reading::Volume { millilitres } => plain(Measure::Millilitres(*millilitres)),
            Reading::Measure {
                measure,
                count,
                millilitres,
                low,
                high,
            } => Some(match house.small_measure(*measure, *count) {
                Some(ml) => Self {
                    measure: Measure::Millilitres(ml),
                    range: None,
                    in_question: false,
                    to_taste: false,
                },
                None => Self {
                    measure: Measure::Millilitres(*millilitres),
                    range: Some((*low, *high)),
                    in_question: false,
                    to_taste: false,
                },
            }),
            Reading::Ounces { count } => plain(Measure::Ounces(*count)),
            Reading::Count { count, .. } => plain(Measure::Pieces(*count)),
            Reading::Share { fraction, .. } => {
                plain(Measure::Share(*fraction, of.unwrap_or(ShareOf::Vessel)))
            }
            Reading::Between { low, high } => {
                let (low, high) = (
                    Self::of(low, of, house, choice)?,
                    Self::of(high, of, house, choice)?,
                );
                low.middle_with(high)
            }
            Reading::ToTaste { from } => {
                let dose = Self::of(from.as_deref()?, of, house, choice)?;
                Some(Self {
                    to_taste: true,
                    ..dose
                })
            }
            Reading::Question { readings, .. } => {
                let dose = Self::of(readings.get(choice).or(readings.first())?, of, house, 0)?;
                Some(Self {
                    in_question: true,
                    ..dose
                })
            }
        }
    }

    fn middle_with(self, high: Self) -> Option<Self> {
        use Measure as M;
        let (a, b) = (self.number(), high.number());
        let middle = 0.5 * (a + b);
        let measure = match (self.measure, high.measure) {
            (M::Grams(_), M::Grams(_)) => M::Grams(middle),
            (M::Millilitres(_), M::Millilitres(_)) => M::Millilitres(middle),
            (M::Ounces(_), M::Ounces(_)) => M::Ounces(middle),
            (M::Pieces(_), M::Pieces(_)) => M::Pieces(middle),
            (M::Share(_, x), M::Share(_, y)) if x == y => M::Share(middle, x),
            _ => return None,
        };
        Some(Self {
            measure,
            range: Some((a, b)),
            ..self
        })
    }

    /// So many times as much; a share stays what it is.
    pub(crate) fn times(self, factor: f64) -> Self {
        use Measure as M;
        let measure = match self.measure {
            M::Grams(x) => M::Grams(x * factor),
            M::Millilitres(x) => M::Millilitres(x * factor),
            M::Ounces(x) => M::Ounces(x * factor),
            M::Pieces(x) => M::Pieces(x * factor),
            share @ M::Share(..) => {
                return Self {
                    measure: share,
                    ..self
                };
            }
        };
        Self {
            measure,
            range: self.range.map(|(a, b)| (a * factor, b * factor)),
            ..self
        }
    }

    /// The number of the measure, in its unit.
    pub(crate) fn number(&self) -> f64 {
        match self.measure {
            Measure::Grams(x)
            | Measure::Millilitres(x)
            | Measure::Ounces(x)
            | Measure::Pieces(x)
            | Measure::Share(x, _) => x,
        }
    }

    /// Grams of `stuff`, read with the doubt of how it is measured; `whole` gives the mass that a
    /// share is a share of.
    pub(crate) fn grams<S: Scalar>(
        &self,
        stuff: &Stuff<S>,
        inputs: &Inputs,
        pour: SourceKey,
        name: &Arc<str>,
        whole: impl FnOnce(ShareOf) -> S,
    ) -> Result<S, Unmeasured> {
        let density = || stuff.grams_per_ml.ok_or(Unmeasured::NoDensity);
        // A range says more of its doubt than any habit.
        let told = self
            .range
            .map(|(low, high)| 0.25 * (high - low) / self.number().abs().max(1e-12));
        let read = |value: f64, usual: f64, reading: &'static str| -> S {
            let deviation = told.unwrap_or(usual) * value.abs();
            inputs.read(
                value,
                deviation,
                pour,
                || SourceName::of("how much", name, ""),
                reading,
            )
        };
        let poured = |ml: f64| -> S {
            let scale: S = if told.is_none() {
                let name = || SourceName::whole("the scale of the jiggers");
                inputs.read(
                    1.0,
                    JIGGER,
                    SourceKey::Jigger,
                    name,
                    "water from the jigger on a scale",
                )
            } else {
                S::from(1.0)
            };
            read(ml, POUR, "the pour on a scale") * scale
        };
        Ok(match self.measure {
            Measure::Grams(grams) => read(grams, 0.0, "a scale"),
            Measure::Millilitres(ml) => poured(ml) * density()?,
            Measure::Ounces(count) if stuff.form.pours() => {
                poured(count * FLUID_OUNCE) * density()?
            }
            Measure::Ounces(count) => read(count * OUNCE, 0.0, "a scale"),
            Measure::Pieces(count) => {
                let piece = stuff.piece_grams.ok_or(Unmeasured::NoPieceWeight)?;
                read(count * piece, PIECE, "the pieces on a scale")
            }
            Measure::Share(share, of) => whole(of) * read(share, 0.0, "a scale"),
        })
    }
}

/// One standard deviation of a jigger's mark, of one pour into it, and of a piece of fruit, as a share;
/// common practice, no source (5 to 10 % a pour at two standard deviations and more).
const JIGGER: f64 = 0.015;
const POUR: f64 = 0.025;
const PIECE: f64 = 0.12;
