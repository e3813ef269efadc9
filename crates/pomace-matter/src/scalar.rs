//! Numbers that may carry their slopes.
//!
//! Every formula of this crate is written once, over a [`Scalar`]. With `f64` it gives the value
//! at full speed; with [`Sloped<N>`] it gives the value and its first derivatives along `N`
//! directions (forward differentiation). A relation that has its own analytic slope hands it over
//! with [`Scalar::chain`] or [`Scalar::chain2`], so that a polynomial of fifty terms costs one
//! multiplication per direction, not fifty; the slopes of a solved equation come from
//! [`Scalar::implicit`], never from differencing a solver.

use std::fmt::Debug;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

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

    /// The larger of the two by value: a kink.
    #[must_use]
    fn at_least(self, floor: f64) -> Self {
        if self.value() < floor {
            Self::from(floor)
        } else {
            self
        }
    }

    /// The smaller of the two by value: a kink.
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
}

/// A value and its slopes along `N` directions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sloped<const N: usize> {
    /// The value.
    pub value: f64,
    /// Its first derivatives.
    pub slopes: [f64; N],
}

impl<const N: usize> Sloped<N> {
    /// The variable itself: slope one along `direction`, zero elsewhere.
    ///
    /// A direction past `N` gives a constant.
    #[must_use]
    pub fn variable(value: f64, direction: usize) -> Self {
        let mut slopes = [0.0; N];
        if let Some(slope) = slopes.get_mut(direction) {
            *slope = 1.0;
        }
        Self { value, slopes }
    }

    #[inline(always)]
    fn zip(self, other: Self, value: f64, combine: impl Fn(f64, f64) -> f64) -> Self {
        let mut slopes = [0.0; N];
        for (slope, (a, b)) in slopes.iter_mut().zip(self.slopes.iter().zip(&other.slopes)) {
            *slope = combine(*a, *b);
        }
        Self { value, slopes }
    }
}

impl<const N: usize> Scalar for Sloped<N> {
    #[inline(always)]
    fn value(self) -> f64 {
        self.value
    }
    #[inline(always)]
    fn chain(self, value: f64, slope: f64) -> Self {
        Self {
            value,
            slopes: self.slopes.map(|s| s * slope),
        }
    }
    #[inline(always)]
    fn chain2(self, other: Self, value: f64, slope_self: f64, slope_other: f64) -> Self {
        self.zip(other, value, |a, b| a * slope_self + b * slope_other)
    }
}

impl<const N: usize> Default for Sloped<N> {
    fn default() -> Self {
        Self::from(0.0)
    }
}

impl<const N: usize> From<f64> for Sloped<N> {
    #[inline(always)]
    fn from(value: f64) -> Self {
        Self {
            value,
            slopes: [0.0; N],
        }
    }
}

impl<const N: usize> Neg for Sloped<N> {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        self.chain(-self.value, -1.0)
    }
}

impl<const N: usize> Add for Sloped<N> {
    type Output = Self;
    #[inline(always)]
    fn add(self, other: Self) -> Self {
        self.zip(other, self.value + other.value, |a, b| a + b)
    }
}

impl<const N: usize> Sub for Sloped<N> {
    type Output = Self;
    #[inline(always)]
    fn sub(self, other: Self) -> Self {
        self.zip(other, self.value - other.value, |a, b| a - b)
    }
}

impl<const N: usize> Mul for Sloped<N> {
    type Output = Self;
    #[inline(always)]
    fn mul(self, other: Self) -> Self {
        self.chain2(other, self.value * other.value, other.value, self.value)
    }
}

impl<const N: usize> Div for Sloped<N> {
    type Output = Self;
    #[inline(always)]
    fn div(self, other: Self) -> Self {
        let ratio = self.value / other.value;
        self.chain2(other, ratio, 1.0 / other.value, -ratio / other.value)
    }
}

impl<const N: usize> Add<f64> for Sloped<N> {
    type Output = Self;
    #[inline(always)]
    fn add(self, other: f64) -> Self {
        Self {
            value: self.value + other,
            ..self
        }
    }
}

impl<const N: usize> Sub<f64> for Sloped<N> {
    type Output = Self;
    #[inline(always)]
    fn sub(self, other: f64) -> Self {
        Self {
            value: self.value - other,
            ..self
        }
    }
}

impl<const N: usize> Mul<f64> for Sloped<N> {
    type Output = Self;
    #[inline(always)]
    fn mul(self, other: f64) -> Self {
        self.chain(self.value * other, other)
    }
}

impl<const N: usize> Div<f64> for Sloped<N> {
    type Output = Self;
    #[inline(always)]
    fn div(self, other: f64) -> Self {
        self.chain(self.value / other, 1.0 / other)
    }
}

impl<const N: usize> AddAssign for Sloped<N> {
    #[inline(always)]
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl<const N: usize> SubAssign for Sloped<N> {
    #[inline(always)]
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
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
