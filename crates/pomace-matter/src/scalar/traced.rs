//! A number with its slopes along many directions, of which it follows a few.
//!
//! Slopes lie in a ledger of the thread, in blocks of eight directions; a number holds where its own
//! begin, which run of blocks they are, and a factor common to all of them. So a number is small and copied for
//! nothing, a constant costs nothing, a function of one number costs one multiplication, and only what
//! joins two numbers writes slopes. [`tracing`] opens the ledger and closes it again.

use std::cell::RefCell;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use super::Scalar;

/// Directions in a block.
const BLOCK: usize = 8;

/// Slopes need no more digits than this: they tell doubt, not values.
type Block = [f32; BLOCK];

/// How many standard deviations from a kink count as near it, where each direction is one of them.
const NEAR: f64 = 2.5;

thread_local! {
    static LEDGER: RefCell<Ledger> = const { RefCell::new(Ledger { blocks: Vec::new(), bent: false }) };
}

struct Ledger {
    blocks: Vec<Block>,
    /// Whether a kink was met nearby.
    bent: bool,
}

/// A value and its slopes; good only within the [`tracing`] that it came from.
#[derive(Clone, Copy, Debug, Default)]
pub struct Traced {
    value: f64,
    /// What its slopes are multiplied by.
    factor: f64,
    /// Where its first block lies in the ledger.
    at: u32,
    /// The directions of that block, in blocks from the first direction of all.
    first: u16,
    /// How many blocks; none of a constant.
    count: u16,
}

/// Runs something whose numbers are [`Traced`]; also tells whether any of them came near a kink.
///
/// Numbers do not outlive the run: take what is wanted of them by [`Traced::each_slope`] inside it.
pub fn tracing<R>(run: impl FnOnce() -> R) -> (R, bool) {
    let (from, was_bent) = LEDGER.with_borrow_mut(|ledger| {
        (
            ledger.blocks.len(),
            std::mem::replace(&mut ledger.bent, false),
        )
    });
    let result = run();
    let bent = LEDGER.with_borrow_mut(|ledger| {
        ledger.blocks.truncate(from);
        std::mem::replace(&mut ledger.bent, was_bent)
    });
    (result, bent)
}

impl Traced {
    /// Every slope that is written down, with its direction.
    pub fn each_slope(self, mut visit: impl FnMut(usize, f64)) {
        LEDGER.with_borrow(|ledger| {
            let first = usize::from(self.first) * BLOCK;
            let slopes = ledger.of(self).iter().flatten();
            for (direction, slope) in slopes.enumerate() {
                visit(first + direction, f64::from(*slope) * self.factor);
            }
        });
    }

    /// Root of the sum of the squares of all slopes: a standard deviation, where each direction is one.
    #[must_use]
    pub fn deviation(self) -> f64 {
        let mut squares = 0.0;
        self.each_slope(|_, slope| squares += slope * slope);
        squares.sqrt()
    }

    /// The blocks that two numbers have together: the first, and the one after the last.
    const fn together((first, end): (u16, u16), other: Self) -> (u16, u16) {
        let (other_first, other_end) = (other.first, other.first + other.count);
        (
            if first < other_first {
                first
            } else {
                other_first
            },
            if end > other_end { end } else { other_end },
        )
    }

    const fn is_constant(self) -> bool {
        self.count == 0
    }
}

impl Ledger {
    fn of(&self, number: Traced) -> &[Block] {
        let at = number.at as usize;
        let own = self.blocks.get(at..at + usize::from(number.count));
        own.unwrap_or_default()
    }

    /// Writes the sum of numbers, each times its own, over the blocks from `first` to before `end`.
    #[inline]
    fn write(
        &mut self,
        value: f64,
        (first, end): (u16, u16),
        numbers: impl Iterator<Item = (Traced, f64)>,
    ) -> Traced {
        let at = self.blocks.len();
        self.blocks
            .resize(at + usize::from(end - first), [0.0; BLOCK]);
        let (old, new) = self.blocks.split_at_mut(at);
        for (number, by) in numbers {
            let by = (number.factor * by) as f32;
            let own = number.at as usize;
            let (Some(own), Some(new)) = (
                old.get(own..own + usize::from(number.count)),
                new.get_mut(usize::from(number.first.saturating_sub(first))..),
            ) else {
                continue;
            };
            for (sum, block) in new.iter_mut().zip(own) {
                for (sum, slope) in sum.iter_mut().zip(block) {
                    *sum += slope * by;
                }
            }
        }
        Traced {
            value,
            factor: 1.0,
            at: at as u32,
            first,
            count: end - first,
        }
    }
}

impl Scalar for Traced {
    #[inline(always)]
    fn value(self) -> f64 {
        self.value
    }

    #[inline(always)]
    fn chain(self, value: f64, slope: f64) -> Self {
        Self {
            value,
            factor: self.factor * slope,
            ..self
        }
    }

    #[inline]
    fn chain2(self, other: Self, value: f64, slope_self: f64, slope_other: f64) -> Self {
        if other.is_constant() || slope_other == 0.0 {
            return self.chain(value, slope_self);
        }
        if self.is_constant() || slope_self == 0.0 {
            return other.chain(value, slope_other);
        }
        if self.at == other.at {
            let factor = self.factor * slope_self + other.factor * slope_other;
            return Self {
                value,
                factor,
                ..self
            };
        }
        let span = Self::together((self.first, self.first + self.count), other);
        let both = [(self, slope_self), (other, slope_other)];
        LEDGER.with_borrow_mut(|ledger| ledger.write(value, span, both.into_iter()))
    }

    fn chain_all(value: f64, numbers: impl Iterator<Item = (Self, f64)> + Clone) -> Self {
        let numbers = numbers.filter(|(number, by)| !number.is_constant() && *by != 0.0);
        let span = numbers.clone().fold((u16::MAX, 0), |span, (number, _)| {
            Self::together(span, number)
        });
        if span.1 == 0 {
            return Self::from(value);
        }
        LEDGER.with_borrow_mut(|ledger| ledger.write(value, span, numbers))
    }

    fn varying(value: f64, direction: usize, slope: f64) -> Self {
        let Ok(first) = u16::try_from(direction / BLOCK) else {
            return Self::from(value);
        };
        let mut block = [0.0; BLOCK];
        if let Some(own) = block.get_mut(direction % BLOCK) {
            *own = 1.0;
        }
        let at = LEDGER.with_borrow_mut(|ledger| {
            ledger.blocks.push(block);
            ledger.blocks.len() - 1
        });
        Self {
            value,
            factor: slope,
            at: at as u32,
            first,
            count: 1,
        }
    }

    fn kink(self) {
        if self.is_constant() || self.factor == 0.0 {
            return;
        }
        if self.value.abs() < NEAR * self.deviation() {
            LEDGER.with_borrow_mut(|ledger| ledger.bent = true);
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

/// Equal in value and in every slope.
impl PartialEq for Traced {
    fn eq(&self, other: &Self) -> bool {
        let apart = self.chain2(*other, 0.0, 1.0, -1.0);
        self.value == other.value && apart.deviation() == 0.0
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

    fn slopes(number: Traced, count: usize) -> Vec<f64> {
        let mut slopes = vec![0.0; count];
        number.each_slope(|direction, slope| {
            if let Some(own) = slopes.get_mut(direction) {
                *own = slope;
            } else {
                assert!(slope == 0.0, "{direction}: {slope}");
            }
        });
        slopes
    }

    #[test]
    fn slopes_are_those_of_fixed_directions_however_far_apart() {
        let at = [2.0, 0.7, 1.3];
        let fixed = formula([0, 1, 2].map(|d| Sloped::<3>::variable(at[d], d)));
        for directions in [[0, 1, 2], [5, 8, 100], [4000, 3, 17]] {
            let ((), bent) = tracing(|| {
                let number = formula([0, 1, 2].map(|d| Traced::varying(at[d], directions[d], 1.0)));
                assert!((number.value() - fixed.value).abs() < 1e-12);
                let found = slopes(number, 4001);
                for (direction, expected) in directions.into_iter().zip(fixed.slopes) {
                    assert!((found[direction] - expected).abs() < 1e-6, "{direction}");
                }
            });
            assert!(!bent);
        }
    }

    #[test]
    fn one_run_within_another_leaves_its_numbers_alone() {
        let ((), _) = tracing(|| {
            let a = Traced::varying(1.0, 0, 0.5) * Traced::varying(2.0, 9, 0.25);
            let (inner, _) = tracing(|| formula([Traced::varying(2.0, 1, 1.0); 3]).value());
            assert!(inner.is_finite());
            let b = a + Traced::varying(3.0, 1, 4.0);
            assert_eq!(slopes(b, 16)[..2], [1.0, 4.0]);
            assert!((slopes(b, 16)[9] - 0.25).abs() < 1e-6);
        });
    }

    #[test]
    fn a_kink_is_met_when_near() {
        let near = |value: f64| {
            let (_, bent) = tracing(|| {
                Traced::varying(value, 3, 1.0)
                    .lesser(Traced::from(0.0))
                    .value()
            });
            bent
        };
        assert!(near(2.0) && near(-2.0) && near(0.0));
        assert!(!near(3.0) && !near(-3.0));
    }
}
