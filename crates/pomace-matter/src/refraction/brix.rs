//! The refractometer: the sucrose solution that would bend light as much.

use crate::density::sucrose_water;
use crate::range::{Outside, READ_BRIX};
use crate::scalar::{Scalar, Sloped};
use crate::units::Brix;

use super::{index_from, specific};

/// Refractive index of sucrose in water at 20 °C, `q` the mass fraction (to 0.85).
///
/// Within 0.00001 of the ICUMSA (1974) scale (`fits/RESULTS.md`, section 1).
#[must_use]
pub fn sucrose_index<S: Scalar>(q: S) -> S {
    let rho = sucrose_water::density(q, S::from(20.0));
    let refraction = (-q + 1.0) * specific::ethanol_water(S::zero()) + q * specific::sucrose(q);
    index_from(rho * refraction / 1000.0)
}

/// What a refractometer graduated in sucrose shows for a liquid of refractive index `n` at 20 °C.
///
/// It is the mass share of sugar only where sucrose is all there is: ethanol, acid and salt bend
/// light too.
///
/// # Errors
/// [`Outside`] for an index beyond that of 85 °Bx or below that of −1 °Bx.
pub fn from_index<S: Scalar>(n: S) -> Result<Brix<S>, Outside> {
    let wanted = n.value();
    let mut q = (wanted - 1.333) / 0.2;
    let mut slope = 0.2;
    for _ in 0..50 {
        let index = sucrose_index(Sloped::<1>::variable(q.clamp(-0.02, 0.9), 0));
        slope = index.slopes[0];
        let step = (wanted - index.value) / slope;
        q = (q + step).clamp(-0.02, 0.9);
        if step.abs() < 1e-14 {
            break;
        }
    }
    READ_BRIX.check(q * 100.0)?;
    if (sucrose_index(q) - wanted).abs() > 1e-10 {
        return Err(READ_BRIX.not_found());
    }
    Ok(Brix(n.chain(q * 100.0, 100.0 / slope)))
}
