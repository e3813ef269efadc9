//! How much will dissolve.

use crate::scalar::polynomial;
use crate::substance::Substance;

/// Solubility in water, grams of substance in 100 g of saturated solution, in powers of °C; low and
/// high end of the temperatures it holds for.
const fn curve(substance: Substance) -> Option<(&'static [f64], f64, f64)> {
    match substance {
        // Vavrinecz, from memory; within 0.3 of printed tables at 0…100 °C (models.md G9).
        Substance::Sucrose => Some((&[64.397, 0.07251, 0.0020569, -9.035e-6], -14.0, 100.0)),
        // Through printed table values (models.md G9).
        Substance::Lactose => Some((&[10.6, 0.2069, 0.003624, 0.0], 0.0, 40.0)),
        // From memory, ± 2: 54.0, 59.6, 64.4, 68.8 at 10, 20, 30, 40 °C.
        Substance::Citric => Some((&[47.6, 0.68, -0.004, 0.0], 0.0, 40.0)),
        _ => None,
    }
}

/// Saturated solution in water alone, mass % of the substance in substance and water, `t` in °C;
/// `None` where no curve is known or the temperature lies outside it.
///
/// Ethanol lowers it: above 15 %vol a syrup may crystallise well below this figure.
#[must_use]
pub fn saturated_percent(substance: Substance, t: f64) -> Option<f64> {
    let (coefficients, low, high) = curve(substance)?;
    (t >= low && t <= high).then(|| polynomial(coefficients, t).0)
}
