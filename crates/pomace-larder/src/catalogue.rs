//! The table of ingredients.

use std::collections::HashMap;
use std::sync::LazyLock;

use pomace_matter::Substance;

use crate::allergen::Carried;
use crate::basis::{Basis, Cell};
use crate::ingredient::{Acidity, Ingredient, PhRange, Unit};
use crate::table::{MalformedTable, Row, rows};

const TABLE: &str = "composition.csv";
const TEXT: &str = include_str!("../data/composition.csv");

static INGREDIENTS: LazyLock<Vec<Ingredient>> = LazyLock::new(|| read().unwrap_or_default());

static BY_ID: LazyLock<HashMap<&str, usize>> = LazyLock::new(|| {
    let mut places = HashMap::new();
    for (position, ingredient) in ingredients().iter().enumerate() {
        places.entry(ingredient.id).or_insert(position);
    }
    places
});

/// Every ingredient, in the order of the table.
#[must_use]
pub fn ingredients() -> &'static [Ingredient] {
    &INGREDIENTS
}

/// The ingredient of that id, as documents store it.
#[must_use]
pub fn by_id(id: &str) -> Option<&'static Ingredient> {
    ingredients().get(*BY_ID.get(id)?)
}

/// Reads the table.
pub(crate) fn read() -> Result<Vec<Ingredient>, MalformedTable> {
    rows(TABLE, TEXT)?.iter().map(ingredient).collect()
}

fn ingredient(row: &Row) -> Result<Ingredient, MalformedTable> {
    let cells = Cells::of(row)?;
    let ph = match (row.number("ph_low")?, row.number("ph_high")?) {
        (Some(low), Some(high)) => Some(PhRange {
            low,
            high,
            basis: row.word("ph_basis")?,
            source: row.some_text("ph_source")?,
        }),
        _ => None,
    };
    let unit = match row.number("unit_edible_g")? {
        Some(edible_g) => Some(Unit {
            name: row.some_text("unit_name")?,
            edible_g,
            as_bought_g: row.number("unit_as_bought_g")?,
            source: row.some_text("unit_source")?,
        }),
        None => None,
    };
    let refuse_percent = match row.number("refuse_percent")? {
        Some(value) => Some(Cell {
            value,
            basis: Basis::Typical,
            source: row.some_text("refuse_source")?,
        }),
        None => None,
    };
    let ingredient = Ingredient {
        id: row.some_text("id")?,
        name: row.some_text("name")?,
        category: row.some_text("category")?,
        form: row.word("form")?,
        synonyms: row.texts("synonyms", '|')?,
        cells: substances(row, &cells)?,
        sugars_unsplit: cells.read(row, "sugars_unsplit", 1.0)?,
        theobromine: cells.read(row, "theobromine_mg", 0.001)?,
        carbohydrate_by_difference: cells.read(row, "carbohydrate_by_difference", 1.0)?,
        energy_kcal: cells.read(row, "energy_kcal", 1.0)?,
        ph,
        acidity: acidity(row)?,
        density_g_per_ml: row.cell("density_g_per_ml", "density_basis", "density_source")?,
        refuse_percent,
        unit,
        allergens: carried(row, "allergens")?,
        allergens_possible: carried(row, "allergens_possible")?,
        vegan: row.word("vegan")?,
        vegetarian: row.word("vegetarian")?,
        basis: row.word("basis")?,
        source: row.some_text("source")?,
        source_id: row.text("source_id")?,
        notes: row.text("notes")?,
    };
    Ok(ingredient)
}

fn substances(
    row: &Row,
    cells: &Cells,
) -> Result<[Option<Cell>; Substance::COUNT], MalformedTable> {
    let mut found = [None; Substance::COUNT];
    for substance in Substance::ALL {
        found[substance as usize] = match substance {
            // What a table leaves unnamed is not in the table.
            Substance::Other => None,
            Substance::Sodium => cells.read(row, "sodium_mg", 0.001)?,
            Substance::Potassium => cells.read(row, "potassium_mg", 0.001)?,
            Substance::Calcium => cells.read(row, "calcium_mg", 0.001)?,
            Substance::Magnesium => cells.read(row, "magnesium_mg", 0.001)?,
            Substance::Chloride => cells.read(row, "chloride_mg", 0.001)?,
            Substance::Caffeine => cells.read(row, "caffeine_mg", 0.001)?,
            named => cells.read(row, named.name(), 1.0)?,
        };
    }
    Ok(found)
}

fn acidity(row: &Row) -> Result<Option<Acidity>, MalformedTable> {
    let Some(percent) = row.cell("acidity_percent", "acidity_basis", "acidity_source")? else {
        return Ok(None);
    };
    let acid = row.text("acidity_as")?;
    let counted_as = Substance::named(acid)
        .ok_or_else(|| row.fault("acidity_as", acid, "the name of an acid"))?;
    Ok(Some(Acidity {
        percent,
        counted_as,
    }))
}

fn carried(row: &Row, column: &str) -> Result<Vec<Carried>, MalformedTable> {
    row.texts(column, ';')?
        .into_iter()
        .map(|text| Carried::read(text).map_err(|e| row.fault(column, text, e.wanted)))
        .collect()
}

/// Basis and source of the cells of one row.
///
/// The row's own hold for all but the columns named in `cell_sources`, whose entries read
/// `citric malic = assumed: from memory` and are parted by ` | `.
struct Cells {
    basis: Basis,
    source: &'static str,
    own: Vec<(&'static str, Basis, &'static str)>,
}

impl Cells {
    fn of(row: &Row) -> Result<Self, MalformedTable> {
        let mut own = Vec::new();
        for entry in row.texts("cell_sources", '|')? {
            let fault = || row.fault("cell_sources", entry, "`columns = basis: source`");
            let (columns, rest) = entry.split_once(" = ").ok_or_else(fault)?;
            let (basis, source) = rest.split_once(": ").ok_or_else(fault)?;
            let basis = basis.parse().map_err(|_| fault())?;
            for column in columns.split_whitespace() {
                own.push((column, basis, source));
            }
        }
        Ok(Self {
            basis: row.word("basis")?,
            source: row.some_text("source")?,
            own,
        })
    }

    fn read(&self, row: &Row, column: &str, scale: f64) -> Result<Option<Cell>, MalformedTable> {
        let Some(value) = row.number(column)? else {
            return Ok(None);
        };
        let (basis, source) = self
            .own
            .iter()
            .find(|(name, ..)| *name == column)
            .map_or((self.basis, self.source), |(_, basis, source)| {
                (*basis, *source)
            });
        Ok(Some(Cell {
            value: value * scale,
            basis,
            source,
        }))
    }
}
