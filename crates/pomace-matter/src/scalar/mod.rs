//! Numbers that may carry their slopes.
//!
//! Every formula of this crate is written once, over a [`Scalar`]. With `f64` it gives the value
//! at full speed; with [`Sloped<N>`] it gives the value and its first derivatives along `N`
//! directions (forward differentiation), with [`Traced`] those along any number of directions, of which
//! each number follows a few. A relation that has its own analytic slope hands it over
//! with [`Scalar::chain`] or [`Scalar::chain2`], so that a polynomial of fifty terms costs one
//! multiplication per direction, not fifty; the slopes of a solved equation come from
//! [`Scalar::implicit`], never from differencing a solver.

mod ledger;
mod sloped;
mod traced;

use std::fmt::Debug;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

pub use ledger::{Slopes, Taken};
pub use sloped::Sloped;
pub use traced::{Traced, slopes, tracing};

/// A real number, possibly with derivatives.
pub trait Scalar:
    Copy
    + Debug
    + Default
    + PartialEq
    + From<f64>
    + Neg<Output = Self>
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Add<f64, Output = Self>
    + Sub<f64, Output = Self>
    + Mul<f64, Output = Self>
    + Div<f64, Output = Self>
    + AddAssign
    + SubAssign
    + Send
    + Sync
    + 'static
{
    /// The number itself, without slopes.
    fn value(self) -> f64;

    /// `f(self)`, given `f` and its slope at `self.value()`.
    #[must_use]
    fn chain(self, value: f64, slope: f64) -> Self;

    /// `f(self, other)`, given `f` and its two partial slopes.
    #[must_use]
    fn chain2(self, other: Self, value: f64, slope_self: f64, slope_other: f64) -> Self;

    /// `f(x₁, x₂, …)`, given `f` and with each number its partial slope.
    #[must_use]
    fn chain_all(value: f64, numbers: impl Iterator<Item = (Self, f64)> + Clone) -> Self;

    /// Whether numbers of this type have slopes at all; where not, nobody need find any.
    const HAS_SLOPES: bool = true;

    /// Whether every step that joins two numbers is written down, so that few steps are better than many.
    const IS_TRACED: bool = false;

    /// Sum of numbers, each times its weight.
    #[must_use]
    #[inline(always)]
    fn linear(numbers: impl Iterator<Item = (Self, f64)> + Clone) -> Self {
        let value = numbers
            .clone()
            .map(|(number, by)| number.value() * by)
            .sum();
        Self::chain_all(value, numbers)
    }

    /// Adds to some numbers so many times others; `which` are places that both slices have.
    fn add_times(
        own: &mut [Self],
        others: &[Self],
        times: Self,
        which: impl Iterator<Item = usize>,
    ) {
        for place in which {
            if let (Some(own), Some(other)) = (own.get_mut(place), others.get(place)) {
                *own += *other * times;
            }
        }
    }

    /// Adds to some numbers so many times plain ones; `which` as for [`Scalar::add_times`].
    fn add_plain(own: &mut [Self], plain: &[f64], times: Self, which: impl Iterator<Item = usize>) {
        for place in which {
            if let (Some(own), Some(plain)) = (own.get_mut(place), plain.get(place)) {
                *own += times * *plain;
            }
        }
    }

    /// Adds to some numbers so much of others; `which` as for [`Scalar::add_times`].
    fn add_part(own: &mut [Self], others: &[Self], part: f64, which: impl Iterator<Item = usize>) {
        for place in which {
            if let (Some(own), Some(other)) = (own.get_mut(place), others.get(place)) {
                *own += *other * part;
            }
        }
    }

    /// Multiplies some numbers; `which` are places that the slice has.
    fn scale(own: &mut [Self], factor: Self, which: impl Iterator<Item = usize>) {
        for place in which {
            if let Some(own) = own.get_mut(place) {
                *own = *own * factor;
            }
        }
    }

    /// A number that moves by `slope` along one direction. Types without such a direction take it as a
    /// constant.
    #[must_use]
    fn varying(value: f64, _direction: usize, _slope: f64) -> Self {
        Self::from(value)
    }

    /// Takes up the slopes that another run told, along the directions that its own are here: what
    /// [`Scalar::taken`] speaks of. Types without such directions take up nothing.
    #[must_use]
    fn take_up(_slopes: &Slopes, _directions: &[usize]) -> Taken {
        Taken::default()
    }

    /// A number that moves as the number of that index did in the other run; of this run, and of no index past
    /// its last number.
    #[must_use]
    fn taken(value: f64, _of: Taken, _index: usize) -> Self {
        Self::from(value)
    }

    /// Says that a formula took another course near a [`Scalar::kink`] of another run.
    fn bend() {}

    /// Says that a formula takes another course where this number passes zero: a kink that slopes do not
    /// see.
    fn kink(self) {}

    /// The root `x` of `F(x, q) = 0`, where `residual` is `F` at the converged root with the root
    /// held constant, and `slope` is the partial slope of `F` in `x`.
    #[must_use]
    fn implicit(root: f64, residual: Self, slope: f64) -> Self {
        residual.chain(root, -1.0 / slope)
    }

    /// Natural logarithm.
    #[must_use]
    fn ln(self) -> Self {
        let x = self.value();
        self.chain(x.ln(), 1.0 / x)
    }

    /// Exponential.
    #[must_use]
    fn exp(self) -> Self {
        let e = self.value().exp();
        self.chain(e, e)
    }

    /// Square root; its slope at zero is taken as zero, where the formulas of this crate multiply
    /// it by something that vanishes too.
    #[must_use]
    fn sqrt(self) -> Self {
        let root = self.value().sqrt();
        self.chain(root, if root > 0.0 { 0.5 / root } else { 0.0 })
    }

    /// The square.
    #[must_use]
    fn squared(self) -> Self {
        self * self
    }

    /// The lesser of two by value; a kink where they meet.
    #[must_use]
    fn lesser(self, other: Self) -> Self {
        (self - other).kink();
        if self.value() > other.value() {
            other
        } else {
            self
        }
    }

    /// The greater of two by value; a kink where they meet.
    #[must_use]
    fn greater(self, other: Self) -> Self {
        (self - other).kink();
        if self.value() < other.value() {
            other
        } else {
            self
        }
    }

    /// Never below a floor. For the ends of a model, which it meets gently: no [`Scalar::kink`].
    #[must_use]
    fn at_least(self, floor: f64) -> Self {
        if self.value() < floor {
            Self::from(floor)
        } else {
            self
        }
    }

    /// Never above a ceiling; as [`Scalar::at_least`].
    #[must_use]
    fn at_most(self, ceiling: f64) -> Self {
        if self.value() > ceiling {
            Self::from(ceiling)
        } else {
            self
        }
    }

    /// Zero.
    #[must_use]
    fn zero() -> Self {
        Self::from(0.0)
    }
}

/// A formula of a few numbers, whose own slopes are found where it is used: see [`joined`].
pub trait Formula<const N: usize> {
    /// The formula itself.
    fn at<S: Scalar>(&self, numbers: [S; N]) -> S;
}

/// A formula worked out along its own few numbers, then joined to what they come from at once: cheaper than
/// along every direction at each of its steps. No kink inside it is seen.
#[inline]
pub fn joined<S: Scalar, const N: usize>(formula: &impl Formula<N>, numbers: [S; N]) -> S {
    if !S::IS_TRACED {
        return formula.at(numbers);
    }
    let mut own = [Sloped::<N>::default(); N];
    for (place, (own, number)) in own.iter_mut().zip(numbers).enumerate() {
        *own = Sloped::variable(number.value(), place);
    }
    let found = formula.at(own);
    S::chain_all(found.value, numbers.into_iter().zip(found.slopes))
}

impl Scalar for f64 {
    #[inline(always)]
    fn value(self) -> f64 {
        self
    }
    #[inline(always)]
    fn chain(self, value: f64, _slope: f64) -> Self {
        value
    }
    #[inline(always)]
    fn chain2(self, _other: Self, value: f64, _slope_self: f64, _slope_other: f64) -> Self {
        value
    }
    #[inline(always)]
    fn chain_all(value: f64, _numbers: impl Iterator<Item = (Self, f64)> + Clone) -> Self {
        value
    }
    const HAS_SLOPES: bool = false;
}

/// A polynomial and its slope by Horner's rule, lowest power first.
#[inline(always)]
#[must_use]
pub fn polynomial(coefficients: &[f64], x: f64) -> (f64, f64) {
    let (mut value, mut slope) = (0.0, 0.0);
    for c in coefficients.iter().rev() {
        slope = slope * x + value;
        value = value * x + c;
    }
    (value, slope)
}
