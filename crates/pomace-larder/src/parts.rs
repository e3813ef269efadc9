//! What a whole comes apart into.

use std::sync::LazyLock;

use crate::basis::{Basis, Cell};
use crate::catalogue::by_id;
use crate::ingredient::Ingredient;
use crate::matching::{Index, words};
use crate::table::{MalformedTable, Row, rows};

const TABLE: &str = "parts.csv";
const TEXT: &str = include_str!("../data/parts.csv");

/// One way to take a whole apart.
#[derive(Clone, Debug, PartialEq)]
pub struct Whole {
    /// What is taken apart.
    pub name: &'static str,
    /// Other words for it.
    pub synonyms: Vec<&'static str>,
    /// How: `knife`, `juiced`, `pressed` … ; `detail` parts it finer than the knife does.
    pub split: &'static str,
    /// What the shares are shares of.
    pub share_of: &'static str,
    /// Whether the parts are all there is, so that their shares sum to 100.
    pub complete: bool,
    /// The parts.
    pub parts: Vec<Part>,
}

/// A part of a whole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Its name.
    pub name: &'static str,
    /// Its share, %.
    pub share_percent: f64,
    /// Lowest usual share, %.
    pub low: f64,
    /// Highest usual share, %.
    pub high: f64,
    /// Water in it, %, where known.
    pub moisture_percent: Option<f64>,
    /// Whether it is counted in the sum of 100.
    pub counted: bool,
    /// Id of the ingredient that it is, where the catalogue has it.
    pub ingredient: Option<&'static str>,
    /// How well the share is known.
    pub basis: Basis,
    /// Where it was taken from.
    pub source: &'static str,
    /// What one should know; may be empty.
    pub notes: &'static str,
}

impl Part {
    /// Its share with basis and source, %.
    #[must_use]
    pub fn share(&self) -> Cell {
        Cell {
            value: self.share_percent,
            basis: self.basis,
            source: self.source,
        }
    }

    /// The ingredient that it is, where the catalogue has it.
    #[must_use]
    pub fn as_ingredient(&self) -> Option<&'static Ingredient> {
        self.ingredient.and_then(by_id)
    }
}

impl Whole {
    /// The part of that name, forgiving: `skin` finds `peel`, `peel` finds `peel and seeds`.
    #[must_use]
    pub fn part(&self, name: &str) -> Option<&Part> {
        self.exact_part(name).or_else(|| self.loose_part(name))
    }

    fn exact_part(&self, name: &str) -> Option<&Part> {
        let wanted = words(name);
        self.parts.iter().find(|part| words(part.name) == wanted)
    }

    fn loose_part(&self, name: &str) -> Option<&Part> {
        let wanted = words(name);
        if wanted.is_empty() {
            return None;
        }
        let holds = |part: &Part, alike: bool| {
            let has = words(part.name);
            wanted.iter().all(|word| {
                has.contains(word)
                    || (alike
                        && OUTSIDES.contains(&word.as_str())
                        && has.iter().any(|other| OUTSIDES.contains(&other.as_str())))
            })
        };
        self.parts
            .iter()
            .find(|part| holds(part, false))
            .or_else(|| self.parts.iter().find(|part| holds(part, true)))
    }
}

/// Words for the outside of a fruit, as good as the same.
const OUTSIDES: [&str; 5] = ["peel", "skin", "rind", "shell", "paring"];

struct Wholes {
    all: Vec<Whole>,
    index: Index,
    owners: Vec<usize>,
}

static WHOLES: LazyLock<Wholes> = LazyLock::new(|| {
    let all = read().unwrap_or_default();
    let mut keys = Vec::new();
    let mut owners = Vec::new();
    for (position, whole) in all.iter().enumerate() {
        for key in std::iter::once(&whole.name).chain(&whole.synonyms) {
            keys.push(*key);
            owners.push(position);
        }
    }
    Wholes {
        index: Index::new(keys),
        all,
        owners,
    }
});

/// Every whole, once for each way to take it apart, in the order of the table.
#[must_use]
pub fn wholes() -> &'static [Whole] {
    &WHOLES.all
}

/// The whole of that name, by its usual split: the first of the table.
#[must_use]
pub fn whole(name: &str) -> Option<&'static Whole> {
    WHOLES
        .index
        .find(name)
        .and_then(|key| wholes().get(*WHOLES.owners.get(key)?))
}

/// Every way to take apart the whole of that name.
pub fn splits(name: &str) -> impl Iterator<Item = &'static Whole> {
    let known = whole(name).map(|whole| whole.name);
    wholes()
        .iter()
        .filter(move |whole| Some(whole.name) == known)
}

/// A part of a whole, in whichever split has it: the exact name first, then a forgiving look.
#[must_use]
pub fn part(whole: &str, part: &str) -> Option<(&'static Whole, &'static Part)> {
    splits(whole)
        .find_map(|whole| Some((whole, whole.exact_part(part)?)))
        .or_else(|| splits(whole).find_map(|whole| Some((whole, whole.loose_part(part)?))))
}

/// Reads the table.
pub(crate) fn read() -> Result<Vec<Whole>, MalformedTable> {
    let mut all: Vec<Whole> = Vec::new();
    for row in &rows(TABLE, TEXT)? {
        let (name, split) = (row.some_text("whole")?, row.some_text("split")?);
        let part = read_part(row)?;
        let synonyms = row.texts("synonyms", '|')?;
        match all
            .iter_mut()
            .find(|whole| whole.name == name && whole.split == split)
        {
            Some(whole) => {
                whole.complete |= part.counted;
                whole.parts.push(part);
            }
            None => all.push(Whole {
                name,
                synonyms,
                split,
                share_of: row.some_text("share_of")?,
                complete: part.counted,
                parts: vec![part],
            }),
        }
    }
    Ok(all)
}

fn read_part(row: &Row) -> Result<Part, MalformedTable> {
    let counted = match row.text("complete")? {
        "yes" => true,
        "no" => false,
        other => return Err(row.fault("complete", other, "yes or no")),
    };
    let ingredient = row.text("ingredient")?;
    Ok(Part {
        name: row.some_text("part")?,
        share_percent: row.some_number("share_percent")?,
        low: row.some_number("low")?,
        high: row.some_number("high")?,
        moisture_percent: row.number("moisture_percent")?,
        counted,
        ingredient: (!ingredient.is_empty()).then_some(ingredient),
        basis: row.word("basis")?,
        source: row.some_text("source")?,
        notes: row.text("notes")?,
    })
}
