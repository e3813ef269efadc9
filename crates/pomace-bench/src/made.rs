//! What comes of a program that has run.

use pomace_book::Spot;
use pomace_matter::Scalar;

use crate::glass::{self, GlassIce, Minute};
use crate::inputs::Inputs;
use crate::left::Left;
use crate::on_ice::OnIce;
use crate::record::Record;
use crate::stream::Stream;
use crate::texture::Beaten;

/// A prep, made once as written.
#[derive(Clone, Debug, PartialEq)]
pub struct Made<S: Scalar = f64> {
    /// What it keeps.
    pub kept: Stream<S>,
    /// What the steps left behind, less what later steps took of it.
    pub left: Left<S>,
    /// What each step did; nothing in a run whose numbers are moved or carry their slopes.
    pub records: Vec<Record>,
    /// Grams of what each step brought in; what has no known amount is missing.
    pub amounts: Vec<(Spot, S)>,
    /// Density of what is kept at 20 °C, g/mL, if it pours.
    pub grams_per_ml: Option<S>,
}

impl<S: Scalar> Made<S> {
    /// Grams that a step brought in; nothing where it brought nothing, or an unknown amount.
    #[must_use]
    pub fn brought(&self, step: usize) -> S {
        let found = self.amounts.iter().find(|(s, _)| *s == Spot::Step(step));
        found.map_or(S::zero(), |(_, grams)| *grams)
    }
}

/// A drink, mixed once.
#[derive(Clone, Debug)]
pub struct Mixed<S: Scalar = f64> {
    /// What meets the ice, as it meets it; the whole drink where there is none.
    pub before: Stream<S>,
    /// What is in the glass when it is served, without the ice it is poured over.
    pub after: Stream<S>,
    /// Water from ice, g.
    pub melt: S,
    /// Grams of what each line and each step brought in; what has no known amount is missing.
    pub amounts: Vec<(Spot, S)>,
    /// Place of each garnish among those of the document, its grams, and what of it is eaten.
    pub garnish: Vec<(usize, S, Stream<S>)>,
    /// What each step did; nothing in a run whose numbers are moved or carry their slopes.
    pub records: Vec<Record>,
    /// Each time it met ice, in order.
    pub on_ice: Vec<OnIce<S>>,
    /// Ice that waits in the glass.
    pub glass_ice: Option<GlassIce>,
    /// What the glass holds brimful, mL.
    pub glass_ml: Option<f64>,
    /// How air was beaten in, if it was.
    pub beaten: Option<Beaten>,
}

impl<S: Scalar> Mixed<S> {
    /// Grams that came in at a spot, if they are known.
    #[must_use]
    pub fn amount(&self, spot: Spot) -> Option<S> {
        let found = self.amounts.iter().find(|(other, _)| *other == spot);
        found.map(|(_, grams)| *grams)
    }

    /// The drink at some minutes over the ice in its glass; empty without ice, where ice was beaten in,
    /// and where the ice takes it out of the models.
    pub(crate) fn over_time(&self, inputs: &Inputs, at: &[u32]) -> Vec<Minute<S>> {
        let drinkable = self.after.liquid.weight().0 > 0.0 && self.after.ice.value() <= 0.0;
        let minutes = match &self.glass_ice {
            Some(ice) if drinkable => glass::over_time(&self.after, ice, inputs, at),
            _ => return Vec::new(),
        };
        minutes.unwrap_or_default()
    }
}
