//! What sets two documents apart: their figures under the same sources of doubt, one less the other.
//!
//! Two variants share nearly everything that is doubtful: the same juice, the same ice, the same jiggers.
//! So both are run with numbers that carry how they move with every source, and only what does not cancel is
//! left as the doubt of the difference. Each pour is its own. What the models are off by is common to both, and not counted.

use pomace_book::DocumentId;
use pomace_larder::Basis;
use pomace_matter::Scalar;
use pomace_matter::liquid::Property;

use crate::bench::{Bench, Whole};
use crate::doubt::{Doubt, FigureName, HasFigures, Stage, Study};
use crate::error::RunError;
use crate::inputs::Inputs;
use crate::numbers::Named as List;
use crate::report::{DrinkReport, Figure, Figures};

/// Sweetness over acidity, g of sucrose's sweetness to a g of acid as citric: what a trade calls balance.
pub const SWEET_TO_SOUR: &str = "sweet_to_sour";

/// What is left of slopes that cancel is their rounding, where it is a smaller share of a figure than this.
const SLOPE_DIGITS: f64 = 1e-7;

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
    /// A figure by its stage and name.
    #[must_use]
    pub fn get(&self, stage: Stage, name: &str) -> Option<Figure> {
        let is_it = |(n, _): &&(FigureName, Figure)| n.stage == stage && n.name == name;
        self.0.iter().find(is_it).map(|(_, figure)| *figure)
    }
}

/// A document and how it differs from another.
#[derive(Clone, Debug, PartialEq)]
pub struct Apart {
    /// Its own figures with their doubt.
    pub figures: Named,
    /// Its figures less those of the base, with the doubt of the difference.
    pub less_base: Named,
}

/// The numbers of a document with its balance, and with a base those less the base's, both under the same
/// inputs.
struct Balanced<'b, 'a> {
    whole: Whole<'b, 'a>,
    base: Option<Whole<'b, 'a>>,
}

impl Study for Balanced<'_, '_> {
    fn numbers<S: Scalar>(&self, inputs: &Inputs) -> Result<List<S>, RunError> {
        let mut own = balanced(self.whole.numbers(inputs)?);
        let Some(base) = &self.base else {
            return Ok(own);
        };
        let base = balanced::<S>(base.numbers(inputs)?);
        for (name, number) in &mut own {
            let other = base.iter().find(|(other, _)| other == name);
            let other = other.and_then(|(_, other)| *other);
            *number = number.zip(other).map(|(number, other)| number - other);
        }
        Ok(own)
    }
}

/// The same with the balance of what is served or kept as the last.
fn balanced<S: Scalar>(mut list: List<S>) -> List<S> {
    let is_drink = list.iter().any(|(name, _)| name.stage == Stage::AfterIce);
    let stage = if is_drink {
        Stage::AfterIce
    } else {
        Stage::Kept
    };
    let number = |property: Property| {
        let name = property.name();
        let found = list.iter().find(|(n, _)| *n == FigureName { stage, name });
        found.and_then(|(_, number)| *number)
    };
    let sour = number(Property::TitratableAcidity).filter(|grams| grams.value() > 0.1);
    // g/100 mL over g/L.
    let ratio = number(Property::Sweetness).zip(sour);
    let ratio = ratio.map(|(sweet, sour)| sweet * 10.0 / sour);
    let name = SWEET_TO_SOUR;
    list.push((FigureName { stage, name }, ratio));
    list
}

impl Bench<'_> {
    /// All figures of a drink or a prep, each with its doubt.
    ///
    /// # Errors
    /// As [`Bench::mix`] and [`Bench::prep`].
    pub fn named(&self, id: DocumentId) -> Result<Named, RunError> {
        let whole = Whole { bench: self, id };
        let mut figures = self.values(&Balanced { whole, base: None }, id)?;
        let whole = Whole { bench: self, id };
        let doubt = Doubt::of(&Balanced { whole, base: None })?;
        doubt.write(&mut figures);
        for (name, figure) in &mut figures.0 {
            if name.name == SWEET_TO_SOUR
                && let (Some(value), Some(off)) = (figure.value, figure.plus_minus)
            {
                figure.plus_minus = Some(off.hypot(2.0 * SWEETNESS_OFF * value));
            }
        }
        Ok(figures)
    }

    /// The figures of a variant beside those of its base.
    ///
    /// # Errors
    /// As [`Bench::named`].
    pub fn apart(&self, base: DocumentId, variant: DocumentId) -> Result<Apart, RunError> {
        let of = |id| Whole { bench: self, id };
        let both = Balanced {
            whole: of(variant),
            base: Some(of(base)),
        };
        let mut less_base = self.values(&both, variant)?;
        let doubt = Doubt::of(&both)?;
        let figures = self.named(variant)?;
        for ((name, figure), (_, own)) in less_base.0.iter_mut().zip(&figures.0) {
            let left = doubt.of_sources(*name).map(|one| 2.0 * one);
            let size = own.value.unwrap_or(0.0).abs() + own.plus_minus.unwrap_or(0.0);
            let is_rounding = |left: &f64| *left < size * SLOPE_DIGITS;
            figure.plus_minus = left.map(|left| if is_rounding(&left) { 0.0 } else { left });
        }
        Ok(Apart { figures, less_base })
    }

    /// The values of a study, each with the basis that its document's own figure has.
    fn values(&self, study: &impl Study, id: DocumentId) -> Result<Named, RunError> {
        let mut bases: Vec<(FigureName, Basis)> = Vec::new();
        let mut note = |name: FigureName, figure: &mut Figure| bases.push((name, figure.basis));
        if self.program(id).is_some_and(|program| program.is_drink) {
            DrinkReport::at(&self.drink(id)?, Vec::new(), &[]).each(&mut note);
        } else {
            Figures::of(&self.prep(id)?.kept).each(&mut note);
        }
        let weakest = bases.iter().map(|(_, basis)| *basis).max();
        let figures = study.numbers::<f64>(&Inputs::values())?;
        let figures = figures.into_iter().map(|(name, value)| {
            let own = bases.iter().find(|(other, _)| *other == name);
            let basis = own.map(|(_, basis)| *basis).or(weakest);
            (name, Figure::new(value, basis.unwrap_or(Basis::Assumed)))
        });
        Ok(Named(figures.collect()))
    }
}
