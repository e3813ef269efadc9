//! A number that knows where its slopes lie.
//!
//! A number holds its value, a row of slopes in a ledger of the thread and a factor before it: so it is small
//! and copied for nothing, a constant costs nothing, and a function of one number costs one multiplication.
//! Only what joins two numbers or more writes a row. [`tracing`] opens the ledger and closes it again;
//! [`slopes`] reads those of the numbers that are wanted.

use std::cell::RefCell;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use super::Scalar;
use super::ledger::{Ledger, Part, Slopes, Taken};

thread_local! {
    static LEDGER: RefCell<Ledger> = const { RefCell::new(Ledger::new()) };
}

/// A value and where its slopes come from; good only within the [`tracing`] that it came from.
///
/// Equal are numbers of the same value that come from the same.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Traced {
    value: f64,
    from: Part,
}

/// Runs something whose numbers are [`Traced`]. They do not outlive the run: [`slopes`] are to be asked for
/// inside it.
pub fn tracing<R>(run: impl FnOnce() -> R) -> R {
    let outer = LEDGER.with_borrow_mut(Ledger::open);
    let result = run();
    LEDGER.with_borrow_mut(|ledger| ledger.close(outer));
    result
}

/// The slopes of numbers of the present [`tracing`].
pub fn slopes(numbers: impl ExactSizeIterator<Item = Traced>) -> Slopes {
    LEDGER.with_borrow(|ledger| ledger.slopes(numbers.map(|number| number.from)))
}

impl Traced {
    /// Whether nothing moves it.
    #[must_use]
    pub const fn is_constant(self) -> bool {
        !self.from.moves()
    }

    /// So much of where its slopes come from.
    #[inline(always)]
    fn part(self, by: f64) -> Part {
        Part {
            by: self.from.by * by as f32,
            ..self.from
        }
    }
}

impl Scalar for Traced {
    const IS_TRACED: bool = true;

    #[inline(always)]
    fn value(self) -> f64 {
        self.value
    }

    #[inline(always)]
    fn chain(self, value: f64, slope: f64) -> Self {
        Self {
            value,
            from: self.part(slope),
        }
    }

    #[inline]
    fn chain2(self, other: Self, value: f64, slope_self: f64, slope_other: f64) -> Self {
        let (one, two) = (self.part(slope_self), other.part(slope_other));
        let from = match one.alone(two) {
            Some(from) => from,
            None => LEDGER.with_borrow_mut(|ledger| ledger.pair(one, two)),
        };
        Self { value, from }
    }

    fn chain_all(value: f64, numbers: impl Iterator<Item = (Self, f64)> + Clone) -> Self {
        let parts = numbers.map(|(number, by)| number.part(by));
        let from = LEDGER.with_borrow_mut(|ledger| ledger.sum(parts));
        Self { value, from }
    }

    fn linear(numbers: impl Iterator<Item = (Self, f64)> + Clone) -> Self {
        let mut value = 0.0;
        let parts = numbers.map(|(number, by)| {
            value += number.value * by;
            number.part(by)
        });
        let from = LEDGER.with_borrow_mut(|ledger| ledger.sum(parts));
        Self { value, from }
    }

    fn add_times(
        own: &mut [Self],
        others: &[Self],
        times: Self,
        which: impl Iterator<Item = usize>,
    ) {
        LEDGER.with_borrow_mut(|ledger| {
            for place in which {
                let (Some(own), Some(other)) = (own.get_mut(place), others.get(place)) else {
                    continue;
                };
                let parts = [own.from, other.part(times.value), times.part(other.value)];
                *own = Self {
                    value: own.value + other.value * times.value,
                    from: ledger.three(parts),
                };
            }
        });
    }

    fn add_plain(own: &mut [Self], plain: &[f64], times: Self, which: impl Iterator<Item = usize>) {
        LEDGER.with_borrow_mut(|ledger| {
            for place in which {
                let (Some(own), Some(plain)) = (own.get_mut(place), plain.get(place)) else {
                    continue;
                };
                *own = Self {
                    value: own.value + times.value * plain,
                    from: ledger.two([own.from, times.part(*plain)]),
                };
            }
        });
    }

    fn add_part(own: &mut [Self], others: &[Self], part: f64, which: impl Iterator<Item = usize>) {
        LEDGER.with_borrow_mut(|ledger| {
            for place in which {
                let (Some(own), Some(other)) = (own.get_mut(place), others.get(place)) else {
                    continue;
                };
                *own = Self {
                    value: own.value + other.value * part,
                    from: ledger.two([own.from, other.part(part)]),
                };
            }
        });
    }

    fn scale(own: &mut [Self], factor: Self, which: impl Iterator<Item = usize>) {
        LEDGER.with_borrow_mut(|ledger| {
            for place in which {
                let Some(own) = own.get_mut(place) else {
                    continue;
                };
                let parts = [own.part(factor.value), factor.part(own.value)];
                *own = Self {
                    value: own.value * factor.value,
                    from: ledger.two(parts),
                };
            }
        });
    }

    fn varying(value: f64, direction: usize, slope: f64) -> Self {
        let from = LEDGER.with_borrow_mut(|ledger| ledger.direction(direction));
        Self { value, from }.chain(value, slope)
    }

    fn take_up(slopes: &Slopes, directions: &[usize]) -> Taken {
        LEDGER.with_borrow_mut(|ledger| ledger.take_up(slopes, directions))
    }

    fn taken(value: f64, of: Taken, index: usize) -> Self {
        let from = of.part(index);
        Self { value, from }
    }

    fn bend() {
        LEDGER.with_borrow_mut(Ledger::bend);
    }

    fn kink(self) {
        if !self.is_constant() {
            LEDGER.with_borrow_mut(|ledger| ledger.kink(self.value, self.from));
        }
    }
}

impl From<f64> for Traced {
    #[inline(always)]
    fn from(value: f64) -> Self {
        Self {
            value,
            ..Self::default()
        }
    }
}

impl Neg for Traced {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        self.chain(-self.value, -1.0)
    }
}

impl Add for Traced {
    type Output = Self;
    #[inline(always)]
    fn add(self, other: Self) -> Self {
        self.chain2(other, self.value + other.value, 1.0, 1.0)
    }
}

impl Sub for Traced {
    type Output = Self;
    #[inline(always)]
    fn sub(self, other: Self) -> Self {
        self.chain2(other, self.value - other.value, 1.0, -1.0)
    }
}

impl Mul for Traced {
    type Output = Self;
    #[inline(always)]
    fn mul(self, other: Self) -> Self {
        self.chain2(other, self.value * other.value, other.value, self.value)
    }
}

impl Div for Traced {
    type Output = Self;
    #[inline(always)]
    fn div(self, other: Self) -> Self {
        let ratio = self.value / other.value;
        self.chain2(other, ratio, 1.0 / other.value, -ratio / other.value)
    }
}

impl Add<f64> for Traced {
    type Output = Self;
    #[inline(always)]
    fn add(self, other: f64) -> Self {
        self.chain(self.value + other, 1.0)
    }
}

impl Sub<f64> for Traced {
    type Output = Self;
    #[inline(always)]
    fn sub(self, other: f64) -> Self {
        self.chain(self.value - other, 1.0)
    }
}

impl Mul<f64> for Traced {
    type Output = Self;
    #[inline(always)]
    fn mul(self, other: f64) -> Self {
        self.chain(self.value * other, other)
    }
}

impl Div<f64> for Traced {
    type Output = Self;
    #[inline(always)]
    fn div(self, other: f64) -> Self {
        self.chain(self.value / other, 1.0 / other)
    }
}

impl AddAssign for Traced {
    #[inline(always)]
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl SubAssign for Traced {
    #[inline(always)]
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
}

#[cfg(test)]
mod tests {
    use super::super::Sloped;
    use super::*;

    fn formula<S: Scalar>(x: [S; 3]) -> S {
        let [a, b, c] = x;
        let sum = S::linear([(a, 2.0), (b, -1.0), (c, 0.5)].into_iter());
        (a * b / c + sum.ln() - c.squared() * 0.3).exp().sqrt() / (a + 1.5) + a * 2.0
    }

    #[test]
    fn slopes_are_those_of_fixed_directions_however_far_apart() {
        let at = [2.0, 0.7, 1.3];
        let fixed = formula([0, 1, 2].map(|d| Sloped::<3>::variable(at[d], d)));
        for directions in [[0, 1, 2], [5, 8, 100], [4000, 3, 17]] {
            tracing(|| {
                let numbers = [0, 1, 2].map(|d| Traced::varying(at[d], directions[d], 1.0));
                let number = formula(numbers);
                assert!((number.value() - fixed.value).abs() < 1e-12);
                let found = slopes([numbers[1], number].into_iter());
                let mut expected = vec![0.0; found.of(1).len()];
                for (direction, slope) in directions.into_iter().zip(fixed.slopes) {
                    expected[direction] = slope;
                }
                for (found, expected) in found.of(1).iter().zip(&expected) {
                    assert!((f64::from(*found) - expected).abs() < 1e-6);
                }
                let norm = fixed.slopes.iter().map(|s| s * s).sum::<f64>().sqrt();
                assert!((found.deviation(1) - norm).abs() < 1e-6 * norm);
                assert_eq!(
                    found.of(0).iter().position(|s| *s > 0.999),
                    Some(directions[1])
                );
                assert!((found.deviation(0) - 1.0).abs() < 1e-9);
                assert!(!found.is_bent);
            });
        }
    }

    /// Sums and products of lists, some of whose numbers are constant, some of one source, some of which cancel.
    fn lists<S: Scalar>([a, b, c]: [S; 3]) -> Vec<S> {
        let fixed = S::from(4.0);
        let (twice, half) = (a * 2.0, a * 0.5);
        let mut own = [a, b, fixed, a + b, a, S::zero(), twice - half * 4.0, c];
        let others = [b, b, c, fixed, a, a * c, c, -c];
        S::add_times(&mut own, &others, c, 0..7);
        S::add_times(&mut own, &others, fixed, [2, 4, 7].into_iter());
        S::add_part(&mut own, &others, -1.0, [1, 3, 6].into_iter());
        S::scale(&mut own, b, 0..6);
        S::scale(&mut own, fixed, [3, 7].into_iter());
        S::add_plain(&mut own, &[2.0, 0.5, 3.0, 0.0], c, 0..4);
        S::add_part(&mut own, &[a], 1.0, 0..1);
        own.to_vec()
    }

    fn assert_alike(found: &Slopes, place: usize, expected: &Sloped<3>, directions: [usize; 3]) {
        let row = found.of(place);
        for (direction, slope) in directions.into_iter().zip(expected.slopes) {
            let own = row.get(direction).copied().unwrap_or_default();
            assert!(
                (f64::from(own) - slope).abs() < 1e-5 * (1.0 + slope.abs()),
                "{place}"
            );
        }
    }

    #[test]
    fn lists_have_the_slopes_of_their_numbers() {
        let at = [2.0, 0.7, 1.3];
        let fixed = lists([0, 1, 2].map(|d| Sloped::<3>::variable(at[d], d)));
        for directions in [[0, 1, 2], [5, 40, 17]] {
            tracing(|| {
                let numbers = [0, 1, 2].map(|d| Traced::varying(at[d], directions[d], 1.0));
                let own = lists(numbers);
                let found = slopes(own.iter().copied());
                for (place, (own, fixed)) in own.iter().zip(&fixed).enumerate() {
                    assert!((own.value - fixed.value).abs() < 1e-12, "{place}");
                    assert_alike(&found, place, fixed, directions);
                }
            });
        }
    }

    #[test]
    fn slopes_are_taken_up_in_another_run() {
        let at = [2.0, 0.7, 1.3];
        let fixed = lists([0, 1, 2].map(|d| Sloped::<3>::variable(at[d], d)));
        let told = tracing(|| {
            let own = lists([0, 1, 2].map(|d| Traced::varying(at[d], d, 1.0)));
            slopes(own.into_iter())
        });
        tracing(|| {
            let before = Traced::varying(1.0, 3, 1.0);
            let directions = [20, 0, 7];
            let taken = Traced::take_up(&told, &directions);
            let own = fixed.iter().enumerate();
            let own = own.map(|(place, f)| Traced::taken(f.value, taken, place) * 1.0);
            let own: Vec<Traced> = own.chain([before]).collect();
            let found = slopes(own.iter().copied());
            for (place, fixed) in fixed.iter().enumerate() {
                assert_alike(&found, place, fixed, directions);
                assert!(found.of(place)[3].abs() < 1e-9);
            }
            assert!((found.of(fixed.len())[3] - 1.0).abs() < 1e-9);
        });
    }

    #[test]
    fn one_run_within_another_leaves_its_numbers_alone() {
        tracing(|| {
            let a = Traced::varying(1.0, 0, 0.5) * Traced::varying(2.0, 9, 0.25);
            let inner = tracing(|| formula([Traced::varying(2.0, 1, 1.0); 3]).value());
            assert!(inner.is_finite());
            let b = a + Traced::varying(3.0, 1, 4.0);
            let found = slopes([b, Traced::from(3.0)].into_iter());
            assert_eq!(found.of(0)[..2], [1.0, 4.0]);
            assert!((found.of(0)[9] - 0.25).abs() < 1e-6);
            assert!(found.deviation(1) < 1e-12);
        });
    }

    #[test]
    fn a_kink_is_met_when_near() {
        let near = |value: f64| {
            tracing(|| {
                let number = Traced::varying(value, 3, 1.0).lesser(Traced::from(0.0));
                slopes([number].into_iter()).is_bent
            })
        };
        assert!(near(2.0) && near(-2.0) && near(0.0));
        assert!(!near(3.0) && !near(-3.0));
    }
}
