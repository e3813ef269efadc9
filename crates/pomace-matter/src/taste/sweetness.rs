//! Sweetness as grams of sucrose.

use crate::mixture::Mixture;
use crate::scalar::Scalar;
use crate::substance::Substance;

/// Relative sweetness by weight, sucrose 1, of substances that do not change with strength or
/// warmth. Middles of published ranges (`tests/reference/sweetness.csv`); glycerol from memory.
const fn relative(substance: Substance) -> f64 {
    match substance {
        Substance::Sucrose => 1.0,
        Substance::Lactose => 0.25,
        Substance::Maltose => 0.42,
        Substance::OtherSugars => 0.7,
        Substance::Glycerol | Substance::Polyols => 0.6,
        _ => 0.0,
    }
}

/// Glucose gains on sucrose with strength: (g/L as sucrose, relative sweetness).
/// Source: Cameron (1947), from memory.
const GLUCOSE: [(f64, f64); 3] = [(40.0, 0.60), (100.0, 0.70), (200.0, 0.80)];

/// Fructose is sweeter cold, since warmth turns it into its nearly tasteless rings: (°C, relative
/// sweetness). Source: Tsuzuki (1953), second hand (models.md G1).
const FRUCTOSE: [(f64, f64); 4] = [(5.0, 1.47), (18.0, 1.285), (40.0, 1.00), (60.0, 0.795)];

/// A value along straight lines between points, constant outside.
fn between<S: Scalar>(points: &[(f64, f64)], x: S) -> S {
    let v = x.value();
    for pair in points.windows(2) {
        let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
        if v <= x0 {
            return S::from(y0);
        }
        if v <= x1 {
            let slope = (y1 - y0) / (x1 - x0);
            return x.chain(y0 + slope * (v - x0), slope);
        }
    }
    S::from(points.last().map_or(0.0, |p| p.1))
}

/// Sweetness, g of sucrose in 100 mL, of a liquid of volume `millilitres`, drunk at `t` in °C.
///
/// S = Σ cⱼ rⱼ; glucose's r depends on S itself, solved line by line. ± 15 %, ± 25 % where fructose
/// leads in a cold drink; **unvalidated** for mixtures, and blind to acid, ethanol and cold.
#[must_use]
pub fn sweetness<S: Scalar>(liquid: &Mixture<S>, millilitres: S, t: S) -> S {
    let like_sucrose = liquid.iter().map(|(s, grams)| (grams, relative(s)));
    let fructose = liquid.grams(Substance::Fructose) * between(&FRUCTOSE, t);
    // g/L
    let fixed = (S::linear(like_sucrose) + fructose) / millilitres * 1000.0;
    let glucose = liquid.grams(Substance::Glucose) / millilitres * 1000.0;
    if glucose.value() <= 0.0 {
        return fixed / 10.0;
    }
    // Along each line the sum is a fraction; the highest line that holds its own sum is the answer:
    // past 600 g/L of glucose, where a line would run away, that is the last.
    let [.., last] = GLUCOSE;
    let mut sum = fixed + glucose * last.1;
    for pair in GLUCOSE.windows(2).rev() {
        let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
        if sum.value() >= x1 {
            break;
        }
        let slope = (y1 - y0) / (x1 - x0);
        sum = (fixed + glucose * (y0 - slope * x0)) / (-(glucose * slope) + 1.0);
        if sum.value() < x0 {
            sum = fixed + glucose * y0;
        }
    }
    sum / 10.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Grams;

    #[test]
    fn the_sum_solves_its_own_equation() {
        for sucrose in [0.0, 5.0, 30.0, 90.0, 300.0] {
            for glucose in [
                0.1, 20.0, 39.0, 66.0, 120.0, 199.0, 400.0, 590.0, 610.0, 1200.0,
            ] {
                let litre = Mixture::of(&[
                    (Substance::Sucrose, Grams(sucrose)),
                    (Substance::Glucose, Grams(glucose)),
                ]);
                let sum = 10.0 * sweetness(&litre, 1000.0, 20.0);
                let again = sucrose + glucose * between(&GLUCOSE, sum);
                assert!(
                    (sum - again).abs() < 1e-9 * sum,
                    "{sucrose} {glucose}: {sum} {again}"
                );
            }
        }
    }
}
