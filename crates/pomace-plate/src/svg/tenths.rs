//! Lengths as they are written: to a tenth of a pixel, without a needless zero.

use crate::digits;

/// A length in tenths of a pixel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Tenths(i64);

impl Tenths {
    /// The nearest; a length that no screen has is held at the largest there is.
    pub(super) fn of(pixels: f64) -> Self {
        Self((pixels * 10.0).round() as i64)
    }

    pub(super) fn write(self, out: &mut String) {
        if self.0 < 0 {
            out.push('-');
        }
        let size = self.0.unsigned_abs();
        digits::whole(out, size / 10);
        if !size.is_multiple_of(10) {
            out.push('.');
            digits::whole(out, size % 10);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_written_as_short_as_they_are() {
        for (pixels, wanted) in [
            (0.0, "0"),
            (-0.04, "0"),
            (0.05, "0.1"),
            (-0.05, "-0.1"),
            (9.96, "10"),
            (-358.0, "-358"),
            (1234.56, "1234.6"),
        ] {
            let mut out = String::new();
            Tenths::of(pixels).write(&mut out);
            assert_eq!(out, wanted, "{pixels}");
        }
    }
}
