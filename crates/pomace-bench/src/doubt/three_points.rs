//! A source that figures curve along so much that slopes at its value do not tell: taken at three points.

use pomace_matter::scalar::Slopes;

use super::{OfFigure, Run};

/// The mean of something over a normal number is well told by its values at 0 and at so many standard
/// deviations to each side, with a sixth of the weight each (Gauss and Hermite's rule of three points).
pub(super) const NODE: f64 = 1.732_050_807_568_877_2;
const WEIGHT: f64 = 1.0 / 6.0;

/// A run and those with one source moved to both sides, as one: the root of the mean square, over the three, of
/// what every source does to each figure; of the one that is moved, of how far that brought the figure.
pub(super) fn together((mut figures, slopes): Run, ends: &[Run; 2], along: usize) -> Run {
    let mut rows = Vec::with_capacity(figures.len());
    for (place, figure) in figures.iter_mut().enumerate() {
        let [low, high] = ends.each_ref().map(|(_, slopes)| slopes.of(place));
        let [down, up] = ends
            .each_ref()
            .map(|(moved, _)| moved_by(figure, moved.get(place)));
        let row = slopes.of(place).iter().enumerate().map(|(source, slope)| {
            let slope = f64::from(*slope);
            if source == along {
                return (WEIGHT * (down * down + up * up))
                    .sqrt()
                    .copysign(up - down);
            }
            let end = |slopes: &[f32]| slopes.get(source).map_or(slope, |s| f64::from(*s)).powi(2);
            let mean = (1.0 - 2.0 * WEIGHT) * slope * slope + WEIGHT * (end(low) + end(high));
            mean.sqrt().copysign(slope)
        });
        let row: Vec<f64> = row.collect();
        figure.own = row.iter().map(|slope| slope * slope).sum::<f64>().sqrt();
        rows.push(row);
    }
    let is_bent = slopes.is_bent || ends.iter().any(|(_, slopes)| slopes.is_bent);
    (figures, Slopes::new(&rows, is_bent))
}

fn moved_by(figure: &OfFigure, moved: Option<&OfFigure>) -> f64 {
    let both = moved.and_then(|moved| moved.value).zip(figure.value);
    both.map_or(0.0, |(moved, value)| moved - value)
}

#[cfg(test)]
mod tests {
    use pomace_matter::Scalar;

    use super::super::{Doubt, FigureName, Stage, Study};
    use crate::error::RunError;
    use crate::inputs::{Inputs, SourceKey, SourceName};
    use crate::numbers::Named;

    const KEY: SourceKey = SourceKey::Assumed("z");

    /// A formula of two normal numbers: its value, and its slopes along each.
    type Of = fn(f64, f64) -> (f64, f64, f64);
    struct Formula(Of);

    impl Study for Formula {
        fn numbers<S: Scalar>(&self, inputs: &Inputs) -> Result<Named<S>, RunError> {
            let read = |key: SourceKey| -> S {
                inputs.read(0.0, 1.0, key, || SourceName::whole("a number"), "none")
            };
            let (z, other) = (read(KEY), read(SourceKey::Jigger));
            let (value, by_z, by_other) = (self.0)(z.value(), other.value());
            let name = FigureName {
                stage: Stage::Minute(1),
                name: "mass_g",
            };
            Ok(vec![(name, Some(z.chain2(other, value, by_z, by_other)))])
        }

        fn curves_along(&self) -> Option<SourceKey> {
            Some(KEY)
        }
    }

    /// Each of its mean squares is exact to the fourth power of the number.
    #[test]
    fn mean_squares_are_exact() {
        // The mean squares by hand.
        let cases: [(Of, [f64; 2]); 4] = [
            (|z, _| (3.0 * z, 3.0, 0.0), [9.0, 0.0]),
            (|z, _| (z * z, 2.0 * z, 0.0), [3.0, 0.0]),
            (|z, y| (y * z, y, z), [0.0, 1.0]),
            (|z, y| (z + y * (1.0 + z * z), 1.0, 1.0 + z * z), [1.0, 6.0]),
        ];
        for (formula, [along, other]) in cases {
            let doubt = Doubt::of(&Formula(formula)).unwrap();
            let name = doubt.names().next().unwrap();
            let slopes = doubt.slopes(name).unwrap();
            assert!(
                (f64::from(slopes[0]).powi(2) - along).abs() < 1e-5,
                "{slopes:?}"
            );
            assert!(
                (f64::from(slopes[1]).powi(2) - other).abs() < 1e-5,
                "{slopes:?}"
            );
            let own = doubt.of_sources(name).unwrap();
            assert!((own * own - along - other).abs() < 1e-5, "{own}");
        }
    }
}
