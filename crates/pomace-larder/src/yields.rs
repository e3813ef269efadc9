//! What usual work yields: juice from fruit, liquid held by grounds, losses in filters.
//!
//! These are starting values: the first weigh-in of a house replaces them.
//!
//! | process | quantity |
//! | --- | --- |
//! | `juice` | juice, % of the weight as bought |
//! | `hold-up` | liquid that stays in the drained solid, g for each g |
//! | `extract` | what dissolves, % of the dry dose |
//! | `draw`, `draw half-time`, `cling` | water drawn by dry sugar; minutes to half of it; syrup on the drained solid |
//! | `strain`, `press`, `clarify`, `wash` | losses and what comes through |
//! | `simmer`, `dry`, `freeze`, `reduce`, `cook`, `drain`, `peel`, `zest`, `transfer` | what is left or lost |

use std::collections::HashMap;
use std::sync::LazyLock;

use crate::basis::{Basis, Cell};
use crate::matching::{Index, fold};
use crate::table::{MalformedTable, Row, rows};

const TABLE: &str = "process_yields.csv";
const TEXT: &str = include_str!("../data/process_yields.csv");

/// What a process yields of a material.
#[derive(Clone, Debug, PartialEq)]
pub struct Yield {
    /// The process.
    pub process: &'static str,
    /// The material and other words for it; `any` stands for all.
    pub materials: Vec<&'static str>,
    /// Under what conditions; may be empty.
    pub conditions: &'static str,
    /// What is counted.
    pub quantity: &'static str,
    /// Usual value, in [`Yield::unit`].
    pub value: f64,
    /// Lowest usual value.
    pub low: f64,
    /// Highest usual value.
    pub high: f64,
    /// Unit, with what it is a share of.
    pub unit: &'static str,
    /// How well it is known.
    pub status: Basis,
    /// Where it was taken from.
    pub source: &'static str,
    /// What one should know; may be empty.
    pub notes: &'static str,
}

impl Yield {
    /// The value with basis and source.
    #[must_use]
    pub fn cell(&self) -> Cell {
        Cell {
            value: self.value,
            basis: self.status,
            source: self.source,
        }
    }
}

struct Yields {
    all: Vec<Yield>,
    /// By the folded name of the process.
    by_process: HashMap<String, OfProcess>,
}

/// The yields of one process by their materials.
struct OfProcess {
    index: Index,
    owners: Vec<usize>,
    any: Option<usize>,
}

static YIELDS: LazyLock<Yields> = LazyLock::new(|| {
    let all = read().unwrap_or_default();
    let mut named: HashMap<String, Vec<(&str, usize)>> = HashMap::new();
    for (position, entry) in all.iter().enumerate() {
        let materials = named.entry(fold(entry.process)).or_default();
        materials.extend(entry.materials.iter().map(|material| (*material, position)));
    }
    let by_process = named.into_iter().map(|(process, materials)| {
        let index = Index::new(materials.iter().map(|(material, _)| material));
        let any = index.find("any");
        let owners = materials.into_iter().map(|(_, position)| position);
        let owners = owners.collect();
        (process, OfProcess { index, owners, any })
    });
    Yields {
        by_process: by_process.collect(),
        all,
    }
});

/// Every yield, in the order of the table.
#[must_use]
pub fn all() -> &'static [Yield] {
    &YIELDS.all
}

/// What `process` yields of `material`: the same name, else the closest one that has every word
/// of the material's name in the table, else the entry for any material.
///
/// ```
/// use pomace_larder::yields;
/// let juice = yields::find("juice", "limes").expect("it is in the table");
/// assert_eq!(juice.unit, "% of the weight as bought");
/// ```
#[must_use]
pub fn find(process: &str, material: &str) -> Option<&'static Yield> {
    let of = YIELDS.by_process.get(&fold(process))?;
    let key = of.index.find(material);
    let key = key
        .or_else(|| of.index.within(material).next())
        .or(of.any)?;
    all().get(*of.owners.get(key)?)
}

/// Reads the table.
pub(crate) fn read() -> Result<Vec<Yield>, MalformedTable> {
    rows(TABLE, TEXT)?.iter().map(read_row).collect()
}

fn read_row(row: &Row) -> Result<Yield, MalformedTable> {
    Ok(Yield {
        process: row.some_text("process")?,
        materials: row.texts("material", '|')?,
        conditions: row.text("conditions")?,
        quantity: row.some_text("quantity")?,
        value: row.some_number("value")?,
        low: row.some_number("low")?,
        high: row.some_number("high")?,
        unit: row.some_text("unit")?,
        status: row.word("status")?,
        source: row.some_text("source")?,
        notes: row.text("notes")?,
    })
}
