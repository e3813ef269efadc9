//! Why a document has no result.

use pomace_book::Words;
use pomace_book::voice::IN_ITS_FILE;
use pomace_matter::Outside;

/// Why a document has no result.
#[derive(Clone, Debug, PartialEq)]
pub enum RunError {
    /// The document is neither a prep nor a drink, or is caught in a loop of names.
    Nothing,
    /// A step took the liquid out of what the models cover.
    Outside {
        /// Index of the step.
        step: usize,
        /// What was left.
        outside: Outside,
    },
    /// A volume of something that has no known density.
    NoDensity {
        /// Where.
        place: Place,
        /// What.
        name: String,
    },
    /// Pieces of something whose weight is not known.
    NoPieceWeight {
        /// Where.
        place: Place,
        /// What.
        name: String,
    },
    /// More of a by-product than its step leaves.
    MoreThanLeft {
        /// Where.
        place: Place,
        /// What is wanted, g.
        wanted_grams: f64,
        /// What is there, g.
        there_grams: f64,
    },
    /// A share of what is in the vessel, which is empty.
    ShareOfNothing {
        /// Where.
        place: Place,
    },
    /// A by-product of which nothing is left.
    NothingLeft {
        /// Where.
        place: Place,
        /// What.
        name: String,
    },
    /// Something that this document is made with has no result itself.
    Needs(String),
    /// A prep that does not come to what is wanted of it at any size.
    DoesNotScale(String),
    /// Jiggers are asked for, and the house names none.
    NoMeasures,
    /// Gas is to be dissolved where nothing pours.
    NothingToCharge {
        /// Index of the step.
        step: usize,
    },
    /// A step wants a liquid, and there is none.
    NoLiquid {
        /// Index of the step.
        step: usize,
    },
}

impl RunError {
    /// Where it happened, if at one place.
    #[must_use]
    pub fn place(&self) -> Option<Place> {
        match self {
            Self::Outside { step, .. }
            | Self::NoLiquid { step }
            | Self::NothingToCharge { step } => Some(Place::Step(*step)),
            Self::NoDensity { place, .. }
            | Self::NoPieceWeight { place, .. }
            | Self::ShareOfNothing { place }
            | Self::NothingLeft { place, .. }
            | Self::MoreThanLeft { place, .. } => Some(*place),
            Self::Nothing | Self::NoMeasures | Self::Needs(_) | Self::DoesNotScale(_) => None,
        }
    }

    /// What is wrong, and how to mend it.
    #[must_use]
    pub fn told(&self) -> (Words, Words) {
        match self {
            Self::Nothing => (
                "there is nothing to compute here".into(),
                "give it lines or steps, and no loop of names".into(),
            ),
            Self::Outside { outside, .. } => (
                format!("after this step {outside}").into(),
                "look at the amounts that go in: the models do not reach so far".into(),
            ),
            Self::NoDensity { name, .. } => (
                format!("`{name}` is measured by volume, and its density is not known").into(),
                "weigh it, or write ‹density = 1.05 g/mL› in its ingredient".into(),
            ),
            Self::NoPieceWeight { name, .. } => (
                format!("`{name}` is counted, and the weight of one is not known").into(),
                Words::of_file(
                    "weigh it, or write `unit = \"1 = 240 g\"` in its ingredient",
                    "weigh it, and write grams",
                ),
            ),
            Self::MoreThanLeft {
                wanted_grams,
                there_grams,
                ..
            } => (
                format!(
                    "{wanted_grams:.1} g are wanted of what a step leaves, and it leaves {there_grams:.1} g"
                ).into(),
                "take less, or make the step larger".into(),
            ),
            Self::ShareOfNothing { .. } => (
                "this is a share, and nothing is there yet that it could be a share of".into(),
                "write `50 % of …` with a name of this document, or an amount in g or mL"
                    .into(),
            ),
            Self::NothingLeft { name, .. } => (
                format!("nothing is left of `{name}`").into(),
                "look at the step that leaves it, and at what took it before".into(),
            ),
            Self::NoMeasures => (
                "the house names no jiggers".into(),
                Words::of_file(
                    "write `measures = [\"20 mL\", \"40 mL\"]` in the house's document",
                    IN_ITS_FILE,
                ),
            ),
            Self::DoesNotScale(name) => (
                format!("`{name}` does not come to what is wanted of it, at any size").into(),
                "look at what its first step brings in, and at what it keeps".into(),
            ),
            Self::NothingToCharge { .. } => (
                "nothing here pours: pieces and dry solids lie outside what gas dissolves in"
                    .into(),
                "add the liquid before this step, or press or strain it off the pieces first"
                    .into(),
            ),
            Self::NoLiquid { .. } => (
                "there is no liquid here that could meet ice".into(),
                "let a line enter at this step or before it".into(),
            ),
            Self::Needs(name) => (
                format!("`{name}`, which it is made with, gives no figures").into(),
                format!("mend `{name}` first").into(),
            ),
        }
    }
}

impl std::fmt::Display for RunError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if let Some(place) = self.place() {
            write!(f, "{place}: ")?;
        }
        let (message, mend) = self.told();
        write!(f, "{message}; {mend}")
    }
}

impl std::error::Error for RunError {}

/// Where in a document something was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// A line of a drink.
    Line(usize),
    /// A step.
    Step(usize),
    /// A garnish.
    Garnish(usize),
}

impl std::fmt::Display for Place {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Line(i) => write!(f, "line {}", i + 1),
            Self::Step(i) => write!(f, "step {}", i + 1),
            Self::Garnish(i) => write!(f, "garnish {}", i + 1),
        }
    }
}
