//! What sets two documents apart: their figures under the same sources of doubt, one less the other.
//!
//! Two variants share nearly everything that is doubtful: the same juice, the same ice, the same jiggers.
//! So both are run together with each source moved, and only what does not cancel is left as the doubt of
//! the difference. Each pour is its own. What the models are off by is common to both, and not counted.

use pomace_book::DocumentId;
use pomace_larder::Basis;
use pomace_matter::liquid::Property;

use crate::bench::Bench;
use crate::doubt::{Doubt, FigureName, HasFigures};
use crate::error::RunError;
use crate::inputs::Inputs;
use crate::report::{DrinkReport, Figure, Figures};

/// Sweetness over acidity, g of sucrose's sweetness to a g of acid as citric: what a trade calls balance.
pub const SWEET_TO_SOUR: &str = "sweet_to_sour";

/// Half of what tables of sweetness differ by, as a share (`docs/accuracy.md`).
const SWEETNESS_OFF: f64 = 0.1;

/// Figures by name, always in the same order.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Named(pub Vec<(FigureName, Figure)>);

impl HasFigures for Named {
    fn each(&mut self, visit: &mut dyn FnMut(FigureName, &mut Figure)) {
        for (name, figure) in &mut self.0 {
            visit(*name, figure);
        }
    }
}

impl Named {
    /// All figures of a report, and the balance of what is served or kept.
    fn of(mut report: impl HasFigures, stage: &'static str, served: &Figures) -> Self {
        let mut named = Vec::new();
        report.each(&mut |name, figure| named.push((name, *figure)));
        let name = SWEET_TO_SOUR;
        named.push((FigureName { stage, name }, sweet_to_sour(served)));
        Self(named)
    }

    fn of_drink(report: DrinkReport) -> Self {
        let served = report.after.clone();
        Self::of(report, "after_ice", &served)
    }

    fn of_prep(kept: Figures) -> Self {
        let served = kept.clone();
        Self::of(kept, "kept", &served)
    }

    /// A figure by its stage and name.
    #[must_use]
    pub fn get(&self, stage: &str, name: &str) -> Option<Figure> {
        let is_it = |(n, _): &&(FigureName, Figure)| n.stage == stage && n.name == name;
        self.0.iter().find(is_it).map(|(_, figure)| *figure)
    }

    /// These less those of a base; where one of both is not known, neither is the difference.
    fn less(mut self, base: &Self) -> Self {
        for (name, figure) in &mut self.0 {
            let base = base.get(name.stage, name.name);
            let both = figure.value.zip(base.and_then(|b| b.value));
            *figure = Figure::new(
                both.map(|(value, base)| value - base),
                figure.basis.max(base.map_or(Basis::Assumed, |b| b.basis)),
            );
        }
        self
    }
}

fn sweet_to_sour(figures: &Figures) -> Figure {
    let basis = figures.mass.basis;
    let sweet = figures.get(Property::Sweetness);
    let sour = figures
        .get(Property::TitratableAcidity)
        .filter(|g| *g > 0.1);
    // g/100 mL over g/L.
    let ratio = sweet.zip(sour).map(|(sweet, sour)| 10.0 * sweet / sour);
    Figure::new(ratio, basis)
}

/// A document and how it differs from another.
#[derive(Clone, Debug, PartialEq)]
pub struct Apart {
    /// Its own figures with their doubt.
    pub figures: Named,
    /// Its figures less those of the base, with the doubt of the difference.
    pub less_base: Named,
}

impl Bench<'_> {
    /// All figures of a drink or a prep, each with its doubt.
    ///
    /// # Errors
    /// As [`Bench::mix`] and [`Bench::prep`].
    pub fn named(&self, id: DocumentId) -> Result<Named, RunError> {
        let is_drink = self.program(id).is_some_and(|program| program.is_drink);
        // The same doubt as is told wherever the document is shown.
        let mut figures = if is_drink {
            let mixed = self.drink(id)?;
            let mut report = DrinkReport::as_served(&mixed, Vec::new());
            self.doubt_of_drink(id)?.write(&mut report);
            Named::of_drink(report)
        } else {
            let mut kept = Figures::of(&self.prep(id)?.kept);
            self.doubt_of_prep(id)?.write(&mut kept);
            Named::of_prep(kept)
        };
        let doubt = Doubt::of(|inputs| self.named_under(id, inputs))?;
        for (name, figure) in &mut figures.0 {
            if name.name == SWEET_TO_SOUR
                && let (Some(value), Some(own)) = (figure.value, doubt.of_sources(*name))
            {
                figure.plus_minus = Some(2.0 * own.hypot(SWEETNESS_OFF * value));
            }
        }
        Ok(figures)
    }

    /// The figures of a variant beside those of its base.
    ///
    /// # Errors
    /// As [`Bench::named`].
    pub fn apart(&self, base: DocumentId, variant: DocumentId) -> Result<Apart, RunError> {
        let both = |inputs: &Inputs| {
            let variant = self.named_under(variant, inputs)?;
            Ok(variant.less(&self.named_under(base, inputs)?))
        };
        let doubt = Doubt::of(both)?;
        let mut less_base = both(&Inputs::values())?;
        for (name, figure) in &mut less_base.0 {
            figure.plus_minus = doubt.of_sources(*name).map(|one| 2.0 * one);
        }
        Ok(Apart {
            figures: self.named(variant)?,
            less_base,
        })
    }

    fn named_under(&self, id: DocumentId, inputs: &Inputs) -> Result<Named, RunError> {
        if self.program(id).is_some_and(|program| program.is_drink) {
            let mixed = self.anew(inputs, id, |r| r.drink(id))?;
            return Ok(Named::of_drink(DrinkReport::as_served(&mixed, Vec::new())));
        }
        let made = self.anew(inputs, id, |r| r.prep(id))?;
        Ok(Named::of_prep(Figures::of(&made.kept)))
    }
}
