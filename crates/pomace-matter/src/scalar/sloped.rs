//! A number with its slopes along a fixed, small number of directions.

use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use super::Scalar;

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
    #[inline(always)]
    fn chain_all(value: f64, numbers: impl Iterator<Item = (Self, f64)> + Clone) -> Self {
        let mut slopes = [0.0; N];
        for (number, by) in numbers {
            for (sum, slope) in slopes.iter_mut().zip(&number.slopes) {
                *sum += slope * by;
            }
        }
        Self { value, slopes }
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
