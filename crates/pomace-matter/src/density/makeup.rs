//! What a liquid is made up of, counted once for every figure that asks.

use super::apparent_volume;
use crate::mixture::Mixture;
use crate::scalar::Scalar;
use crate::substance::{Kind, Set, Substance};

/// Sums and shares of a liquid that no temperature changes.
pub(crate) struct Makeup<'a, S> {
    pub liquid: &'a Mixture<S>,
    /// The whole mass, g.
    pub total: S,
    /// Water and ethanol, g.
    pub solvent: S,
    /// All but particles, g.
    pub soluble: S,
    /// Mass share of dissolved solids in what is soluble: all but water, ethanol, gas and particles.
    pub solids: S,
    /// Mass share of strong ions among water and ions.
    pub ions: S,
    /// What its volume loses because its acids are partly neutralised, negative, mL.
    pub electrostriction: S,
}

impl<'a, S: Scalar> Makeup<'a, S> {
    pub(crate) fn of(liquid: &'a Mixture<S>) -> Self {
        let (water, ethanol) = (
            liquid.grams(Substance::Water),
            liquid.grams(Substance::Ethanol),
        );
        let solvent = water + ethanol;
        let dissolved = liquid.sum(Set::DISSOLVED);
        let soluble = solvent + dissolved + liquid.sum(Set::of_kind(Kind::Gas));
        let share = |part: S, whole: S| {
            if whole.value() > 0.0 {
                part / whole
            } else {
                S::zero()
            }
        };
        let of_ions = liquid.sum(Set::IONS);
        let ions = share(of_ions, water + of_ions);
        Self {
            liquid,
            total: soluble + liquid.sum(Set::INSOLUBLE),
            solvent,
            soluble,
            solids: share(dissolved, soluble),
            ions,
            electrostriction: apparent_volume::electrostriction(liquid, ions),
        }
    }
}
