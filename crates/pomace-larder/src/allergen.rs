//! The allergens that European law wants named.

use std::fmt;
use std::str::FromStr;

use crate::matching::fold;
use crate::table::UnknownWord;

macro_rules! allergens {
    ($($(#[$doc:meta])* $variant:ident, $name:literal, [$($also:literal),*];)*) => {
        /// One of the 14 classes of Regulation (EU) 1169/2011, Annex II.
        ///
        /// The flags of the catalogue were set from memory of the regulation: they help, they are
        /// not legal advice.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Allergen {
            $($(#[$doc])* $variant,)*
        }

        impl Allergen {
            /// All classes, in the order of the annex.
            pub const ALL: [Self; 14] = [$(Self::$variant,)*];

            /// Its plain name in documents and JSON.
            #[must_use]
            pub const fn as_str(self) -> &'static str {
                match self { $(Self::$variant => $name,)* }
            }

            const fn also(self) -> &'static [&'static str] {
                match self { $(Self::$variant => &[$($also),*],)* }
            }
        }
    };
}

allergens! {
    /// Wheat, rye, barley, oats and their kin.
    Gluten, "cereals containing gluten", ["gluten", "cereals"];
    /// Crab, prawn and their kin.
    Crustaceans, "crustaceans", ["shellfish"];
    /// Eggs of any bird.
    Eggs, "eggs", [];
    /// Fish, isinglass in beer and wine excepted.
    Fish, "fish", [];
    /// Peanuts.
    Peanuts, "peanuts", ["groundnuts"];
    /// Soybeans.
    Soybeans, "soybeans", ["soya", "soy", "soya beans"];
    /// Milk and what is made of it, whey included; whey that was distilled is excepted.
    Milk, "milk", ["dairy", "lactose"];
    /// Tree nuts; nuts that were distilled are excepted.
    Nuts, "nuts", ["tree nuts"];
    /// Celery, root and leaf.
    Celery, "celery", ["celeriac"];
    /// Mustard.
    Mustard, "mustard", [];
    /// Sesame seeds.
    Sesame, "sesame", ["sesame seeds"];
    /// Sulphites from 10 mg in a kilogram or litre, counted as sulphur dioxide.
    Sulphites, "sulphur dioxide and sulphites",
        ["sulphites", "sulfites", "sulphur dioxide", "sulfur dioxide"];
    /// Lupin.
    Lupin, "lupin", [];
    /// Mussels, snails, squid and their kin.
    Molluscs, "molluscs", ["mollusks"];
}

impl fmt::Display for Allergen {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.as_str())
    }
}

impl FromStr for Allergen {
    type Err = UnknownWord;

    fn from_str(word: &str) -> Result<Self, Self::Err> {
        let wanted = fold(word);
        Self::ALL
            .into_iter()
            .find(|class| {
                fold(class.as_str()) == wanted || class.also().iter().any(|a| fold(a) == wanted)
            })
            .ok_or_else(|| UnknownWord::new(word, "a class of Annex II, such as `milk`"))
    }
}

/// An allergen that an ingredient carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Carried {
    /// Its class.
    pub class: Allergen,
    /// Which nut or cereal, where the table says so; the law wants it named.
    pub which: Option<&'static str>,
}

impl Carried {
    /// Reads `nuts (almond)` or `milk`.
    pub(crate) fn read(text: &'static str) -> Result<Self, UnknownWord> {
        let (class, which) = match text.split_once(" (") {
            Some((class, rest)) => (class, Some(rest.trim_end_matches(')'))),
            None => (text, None),
        };
        Ok(Self {
            class: class.parse()?,
            which,
        })
    }
}

impl fmt::Display for Carried {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.which {
            Some(which) => write!(f, "{} ({which})", self.class),
            None => write!(f, "{}", self.class),
        }
    }
}
