//! Sourness as what is still protonated.

use crate::acidity::{Ionic, solve};
use crate::range::Outside;
use crate::scalar::Scalar;

/// Protons and acid species that still carry one, mol per kg of water.
///
/// Sourness rises with it, mole for mole alike for all acids (Da Conceição Neta et al. 2007,
/// *J. Food Sci.* 72:S352, abstract). Show it beside titratable acidity: the two rank acids
/// differently, by up to a factor of three.
///
/// # Errors
/// As [`solve`].
pub fn protonated_acids<S: Scalar>(ionic: &Ionic<S>) -> Result<S, Outside> {
    Ok(solve(ionic)?.protonated)
}
