//! How wide words are, from the fonts that the pages serve.
//!
//! Kerning is left out, so a word may be narrower than said by a pixel or two. Letters that the fonts
//! lack come from another font of the reader's; they are taken as wide as a capital `M`, which is
//! rather too much than too little.

mod table;

/// A font of the pages.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Face {
    /// Brygada 1918, upright.
    Brygada,
    /// Brygada 1918, italic.
    BrygadaItalic,
    /// Ysabeau Office, medium.
    Ysabeau,
}

impl Face {
    fn table(self) -> &'static [(u16, u16)] {
        match self {
            Self::Brygada => &table::BRYGADA,
            Self::BrygadaItalic => &table::BRYGADA_ITALIC,
            Self::Ysabeau => &table::YSABEAU,
        }
    }

    fn thousandths(self, letter: char) -> u16 {
        let table = self.table();
        let find = |letter: char| {
            let code = u16::try_from(u32::from(letter)).ok()?;
            let at = table.binary_search_by_key(&code, |row| row.0).ok()?;
            table.get(at).map(|row| row.1)
        };
        find(letter).or_else(|| find('M')).unwrap_or(1000)
    }
}

/// Width of words at a type size of one.
#[must_use]
pub fn width(face: Face, words: &str) -> f64 {
    words
        .chars()
        .map(|letter| f64::from(face.thousandths(letter)) / 1000.0)
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tables_are_in_order_and_letters_have_widths() {
        for face in [Face::Brygada, Face::BrygadaItalic, Face::Ysabeau] {
            assert!(face.table().is_sorted_by(|a, b| a.0 < b.0));
            assert!(width(face, "i") < width(face, "m"));
            assert!(
                (width(face, "1") - width(face, "8")).abs() < 1e-9,
                "figures of equal width"
            );
            assert!(
                (width(face, "é") - width(face, "e")).abs() < 0.06,
                "accents cost no room"
            );
            for letter in "½¼¾−×±°·…–—‘’“”ŁłŠšőğ".chars() {
                let code = u16::try_from(u32::from(letter)).unwrap();
                assert!(
                    face.table().iter().any(|row| row.0 == code),
                    "{letter} in {face:?}"
                );
            }
            assert!((width(face, "猫") - width(face, "M")).abs() < 1e-9);
        }
    }
}
