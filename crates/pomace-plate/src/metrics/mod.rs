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

    /// Widths of the letters of ASCII, which are nearly all there are.
    fn plain(self) -> &'static [u16; ASCII] {
        const BRYGADA: [u16; ASCII] = plain(&table::BRYGADA);
        const BRYGADA_ITALIC: [u16; ASCII] = plain(&table::BRYGADA_ITALIC);
        const YSABEAU: [u16; ASCII] = plain(&table::YSABEAU);
        match self {
            Self::Brygada => &BRYGADA,
            Self::BrygadaItalic => &BRYGADA_ITALIC,
            Self::Ysabeau => &YSABEAU,
        }
    }

    fn thousandths(self, letter: char) -> u16 {
        let plain = self.plain().get(letter as usize);
        if let Some(width) = plain.copied().filter(|width| *width > 0) {
            return width;
        }
        let table = self.table();
        let find = |letter: char| {
            let code = u16::try_from(u32::from(letter)).ok()?;
            let at = table.binary_search_by_key(&code, |row| row.0).ok()?;
            table.get(at).map(|row| row.1)
        };
        find(letter).or_else(|| find('M')).unwrap_or(1000)
    }
}

const ASCII: usize = 128;

/// The rows of a table that are of ASCII, by their codes; nothing where there is none.
const fn plain(table: &[(u16, u16)]) -> [u16; ASCII] {
    let mut widths = [0; ASCII];
    let mut row = 0;
    while row < table.len() && (table[row].0 as usize) < ASCII {
        widths[table[row].0 as usize] = table[row].1;
        row += 1;
    }
    widths
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
            for (code, wide) in face.table() {
                let letter = char::from_u32(u32::from(*code)).unwrap();
                assert_eq!(face.thousandths(letter), *wide, "{letter}");
            }
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
