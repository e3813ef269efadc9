//! Steps that people count in: 1, 2, 5 and their tens; and ranges that do not jump.

/// Tops that a range may have, within a decade.
const RUNGS: [f64; 9] = [1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0];

/// Smallest rung that is not below the value; 0.01 for what is no number or nothing, and a hundred
/// thousand at most.
#[must_use]
pub fn rung(value: f64) -> f64 {
    if !value.is_finite() || value <= 0.01 {
        return 0.01;
    }
    let value = value.min(1e5);
    let decade = 10.0_f64.powf(value.log10().floor());
    RUNGS
        .iter()
        .map(|rung| rung * decade)
        .find(|rung| *rung >= value * (1.0 - 1e-9))
        .unwrap_or(decade * 10.0)
}

/// Top of a range from zero that holds the value with some air above it.
///
/// A range that was `kept` from the last drawing stays, so that small changes do not move everything:
/// while the value fits in and fills at least 45 % of it.
#[must_use]
pub fn ceiling(needed: f64, least: f64, kept: Option<f64>) -> f64 {
    let needed = if needed.is_finite() {
        needed.max(0.0)
    } else {
        0.0
    };
    let fits = |top: &f64| top.is_finite() && needed <= top * 0.99 && needed >= top * 0.45;
    kept.filter(fits)
        .map_or_else(|| rung(needed * 1.08).max(least), |top| top.max(least))
}

/// A step of 1, 2 or 5 times a power of ten, such that about so many fit into the span.
#[must_use]
pub fn step(span: f64, about: f64) -> f64 {
    if !span.is_finite() || span <= 0.0 {
        return 1.0;
    }
    let rough = span / about.max(1.0);
    let decade = 10.0_f64.powf(rough.log10().floor());
    let times = rough / decade;
    decade
        * if times < 1.5 {
            1.0
        } else if times < 3.5 {
            2.0
        } else if times < 7.5 {
            5.0
        } else {
            10.0
        }
}

/// Decimals that a step needs when it is written.
pub(crate) fn places(step: f64) -> usize {
    [1.0, 0.1, 0.01]
        .iter()
        .position(|unit| (step / unit - (step / unit).round()).abs() < 1e-6)
        .unwrap_or(3)
}

/// A straight scale: values to pixels.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Scale {
    /// Values at the two ends.
    pub(crate) values: (f64, f64),
    /// Pixels at the two ends.
    pub(crate) pixels: (f64, f64),
}

impl Scale {
    pub(crate) fn at(self, value: f64) -> f64 {
        let share = (value - self.values.0) / (self.values.1 - self.values.0);
        self.pixels.0 + share * (self.pixels.1 - self.pixels.0)
    }

    /// Pixels for one unit, always positive.
    pub(crate) fn unit(self) -> f64 {
        ((self.pixels.1 - self.pixels.0) / (self.values.1 - self.values.0)).abs()
    }

    /// Multiples of the step within the range.
    pub(crate) fn ticks(self, step: f64) -> Vec<f64> {
        let first = (self.values.0 / step - 1e-6).ceil();
        let count = ((self.values.1 / step + 1e-6).floor() - first).clamp(0.0, 200.0);
        (0..=count as u32)
            .map(|index| (first + f64::from(index)) * step)
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_ones_twos_and_fives() {
        for (span, about, wanted) in [(10.0, 5.0, 2.0), (48.0, 10.0, 5.0), (0.3, 3.0, 0.1)] {
            assert!((step(span, about) - wanted).abs() < 1e-12, "{span} {about}");
        }
        assert_eq!((places(2.0), places(0.5), places(0.02)), (0, 1, 2));
    }

    #[test]
    fn a_range_stays_while_what_it_shows_fits() {
        assert!((ceiling(9.3, 4.0, None) - 15.0).abs() < 1e-9);
        assert!((ceiling(9.2, 4.0, None) - 10.0).abs() < 1e-9);
        assert!((ceiling(9.3, 4.0, Some(10.0)) - 10.0).abs() < 1e-9);
        assert!((ceiling(3.0, 4.0, Some(10.0)) - 4.0).abs() < 1e-9);
        assert!((ceiling(f64::NAN, 4.0, None) - 4.0).abs() < 1e-9);
    }
}
