//! The substances that a drink is made of.

use std::fmt;

macro_rules! substances {
    ($($(#[$doc:meta])* $variant:ident, $name:literal, $molar:expr, $kind:ident;)*) => {
        /// A substance, or a group of substances that is counted as one.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[repr(u8)]
        pub enum Substance {
            $($(#[$doc])* $variant,)*
        }

        impl Substance {
            /// All of them, in the order of the tables.
            pub const ALL: [Self; Self::COUNT] = [$(Self::$variant,)*];
            /// How many there are.
            pub const COUNT: usize = [$(stringify!($variant),)*].len();

            /// Its name in tables, documents and JSON.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name,)* }
            }

            /// Molar mass in g/mol; for a group, of the substance that stands for it.
            #[must_use]
            pub const fn molar_mass(self) -> f64 {
                match self { $(Self::$variant => $molar,)* }
            }

            /// What sort of substance it is.
            #[must_use]
            pub const fn kind(self) -> Kind {
                match self { $(Self::$variant => Kind::$kind,)* }
            }
        }
    };
}

/// The sort of a substance: what it does in a liquid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Water and ethanol.
    Solvent,
    /// Mono- and disaccharides.
    Sugar,
    /// Glycerol and sugar alcohols.
    Polyol,
    /// Weak acids.
    Acid,
    /// Strong ions.
    Ion,
    /// What stays as particles or pieces: fibre, starch, fat.
    Insoluble,
    /// Dissolved, but with too few molecules to move water activity: protein and unnamed matter.
    Colloid,
    /// Dissolved in traces, or unnamed minerals.
    Trace,
    /// Dissolved gas.
    Gas,
}

/// A set of substances.
///
/// ```
/// use pomace_matter::{Substance, substance::Set};
/// assert!(Set::SOLUBLE.has(Substance::Water) && !Set::SOLUBLE.has(Substance::Fat));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Set(pub(crate) u32);

impl Set {
    /// All of them.
    pub const ALL: Self = Self(u32::MAX);
    /// Water and ethanol.
    pub const SOLVENTS: Self = Self::of_kind(Kind::Solvent);
    /// Sugars.
    pub const SUGARS: Self = Self::of_kind(Kind::Sugar);
    /// Weak acids.
    pub const ACIDS: Self = Self::of_kind(Kind::Acid);
    /// Strong ions.
    pub const IONS: Self = Self::of_kind(Kind::Ion);
    /// What stays as particles or pieces.
    pub const INSOLUBLE: Self = Self::of_kind(Kind::Insoluble);
    /// What can be part of a solution, solvents and gas with it.
    pub const SOLUBLE: Self = Self::ALL.without(Self::INSOLUBLE);
    /// What is dissolved, but for gas.
    pub const DISSOLVED: Self = Self::SOLUBLE
        .without(Self::SOLVENTS)
        .without(Self::of_kind(Kind::Gas));

    /// The substances of a kind.
    #[must_use]
    pub const fn of_kind(kind: Kind) -> Self {
        let mut bits = 0;
        let mut index = 0;
        while index < Substance::COUNT {
            if Substance::ALL[index].kind() as u8 == kind as u8 {
                bits |= 1 << index;
            }
            index += 1;
        }
        Self(bits)
    }

    /// One substance alone.
    #[must_use]
    pub const fn of(substance: Substance) -> Self {
        Self(1 << substance as u32)
    }

    /// Those that are in one or in the other.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Those that are not in the other.
    #[must_use]
    pub const fn without(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }

    /// Whether a substance is in it.
    #[must_use]
    pub const fn has(self, substance: Substance) -> bool {
        self.0 & (1 << substance as u32) != 0
    }
}

// Molar masses: IUPAC standard atomic weights (abridged), summed here.
substances! {
    /// Water.
    Water, "water", 18.0153, Solvent;
    /// Ethanol.
    Ethanol, "ethanol", 46.068, Solvent;
    /// Sucrose.
    Sucrose, "sucrose", 342.297, Sugar;
    /// Glucose, anhydrous.
    Glucose, "glucose", 180.156, Sugar;
    /// Fructose.
    Fructose, "fructose", 180.156, Sugar;
    /// Lactose, anhydrous.
    Lactose, "lactose", 342.297, Sugar;
    /// Maltose, anhydrous.
    Maltose, "maltose", 342.297, Sugar;
    /// Sugars not named; counted as glucose.
    OtherSugars, "other_sugars", 180.156, Sugar;
    /// Glycerol.
    Glycerol, "glycerol", 92.094, Polyol;
    /// Sugar alcohols; counted as mannitol or sorbitol.
    Polyols, "polyols", 182.172, Polyol;
    /// Starch and dextrins, as they are in a liquid.
    Starch, "starch", 162.141, Colloid;
    /// Dietary fibre.
    Fibre, "fibre", 162.141, Insoluble;
    /// Protein.
    Protein, "protein", 20000.0, Colloid;
    /// Fat.
    Fat, "fat", 880.0, Insoluble;
    /// Minerals that are not named one by one; counted as potassium carbonate.
    Ash, "ash", 69.1, Trace;
    /// Citric acid, anhydrous.
    Citric, "citric", 192.124, Acid;
    /// Malic acid.
    Malic, "malic", 134.088, Acid;
    /// Lactic acid.
    Lactic, "lactic", 90.078, Acid;
    /// Tartaric acid.
    Tartaric, "tartaric", 150.087, Acid;
    /// Acetic acid.
    Acetic, "acetic", 60.052, Acid;
    /// Phosphoric acid.
    Phosphoric, "phosphoric", 97.994, Acid;
    /// Ascorbic acid.
    Ascorbic, "ascorbic", 176.124, Acid;
    /// Acids not named; counted as malic acid.
    OtherAcids, "other_acids", 134.088, Acid;
    /// Sodium ion.
    Sodium, "sodium", 22.990, Ion;
    /// Potassium ion.
    Potassium, "potassium", 39.098, Ion;
    /// Calcium ion.
    Calcium, "calcium", 40.078, Ion;
    /// Magnesium ion.
    Magnesium, "magnesium", 24.305, Ion;
    /// Chloride ion.
    Chloride, "chloride", 35.45, Ion;
    /// Caffeine.
    Caffeine, "caffeine", 194.19, Trace;
    /// Dissolved carbon dioxide.
    CarbonDioxide, "carbon_dioxide", 44.009, Gas;
    /// What a table leaves unnamed: pectin, tannin, oils, oligosaccharides.
    Other, "other", 5000.0, Colloid;
}

impl Substance {
    /// The substance of that name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|s| s.name() == name)
    }

    /// Its name for people.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::OtherSugars => "other sugars",
            Self::OtherAcids => "other acids",
            Self::CarbonDioxide => "carbon dioxide",
            Self::Citric => "citric acid",
            Self::Malic => "malic acid",
            Self::Lactic => "lactic acid",
            Self::Tartaric => "tartaric acid",
            Self::Acetic => "acetic acid",
            Self::Phosphoric => "phosphoric acid",
            Self::Ascorbic => "ascorbic acid",
            _ => self.name(),
        }
    }

    /// Charge number of a strong ion; zero for everything else.
    #[must_use]
    pub const fn charge(self) -> f64 {
        match self {
            Self::Sodium | Self::Potassium => 1.0,
            Self::Calcium | Self::Magnesium => 2.0,
            Self::Chloride => -1.0,
            _ => 0.0,
        }
    }

    /// Whether it can dissolve in water at all.
    #[must_use]
    pub const fn is_soluble(self) -> bool {
        !matches!(self.kind(), Kind::Insoluble)
    }
}

impl fmt::Display for Substance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}
