//! Digits of whole numbers: half of a page is numbers, and the general writer of numbers is slow at it.

/// Writes a whole number.
pub(crate) fn whole(out: &mut String, number: u64) {
    if number >= 10 {
        whole(out, number / 10);
    }
    out.push(char::from(b'0' + (number % 10) as u8));
}

/// Writes so many digits of a whole number, with zeros in front.
pub(crate) fn padded(out: &mut String, number: u64, digits: usize) {
    if digits > 0 {
        padded(out, number / 10, digits - 1);
        out.push(char::from(b'0' + (number % 10) as u8));
    }
}

/// Writes a whole number with its thousands parted by commas.
pub(crate) fn parted(out: &mut String, number: u64) {
    if number >= 1000 {
        parted(out, number / 1000);
        out.push(',');
        padded(out, number % 1000, 3);
    } else {
        whole(out, number);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_are_written_in_their_order() {
        let mut out = String::new();
        for number in [0, 7, 999, 1000, 1_020_304] {
            parted(&mut out, number);
            out.push(' ');
        }
        padded(&mut out, 45, 4);
        assert_eq!(out, "0 7 999 1,000 1,020,304 0045");
    }
}
