//! One ingredient of the catalogue.

use pomace_matter::Substance;

use crate::allergen::Carried;
use crate::basis::{Basis, Cell};
use crate::complete::{Completed, complete};
use crate::diet::Diet;
use crate::form::Form;

/// What is bought or received, in 100 g of its edible part unless the name says whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Ingredient {
    /// Short name for documents: lower case, underscores.
    pub id: &'static str,
    /// Name for people.
    pub name: &'static str,
    /// Group on the shelf: `fruit`, `juice`, `spirit` …
    pub category: &'static str,
    /// In what shape it comes.
    pub form: Form,
    /// Other words for it.
    pub synonyms: Vec<&'static str>,
    pub(crate) cells: [Option<Cell>; Substance::COUNT],
    /// Sugars that are known only as a sum, beside the named ones, g.
    pub sugars_unsplit: Option<Cell>,
    /// Theobromine, g; in [`Ingredient::mixture`] part of the unnamed rest.
    pub theobromine: Option<Cell>,
    /// Carbohydrate by difference as the table prints it, g: includes fibre and, but for
    /// vinegars, acids. For checks of energy only.
    pub carbohydrate_by_difference: Option<Cell>,
    /// Energy as the table prints it, kcal; a label needs the EU factors instead.
    pub energy_kcal: Option<Cell>,
    /// Usual range of pH.
    pub ph: Option<PhRange>,
    /// Titratable acidity.
    pub acidity: Option<Acidity>,
    /// Density at 20 °C, g/mL.
    pub density_g_per_ml: Option<Cell>,
    /// Share of the weight as bought that is not eaten, %.
    pub refuse_percent: Option<Cell>,
    /// What one piece weighs.
    pub unit: Option<Unit>,
    /// Allergens that it surely holds.
    pub allergens: Vec<Carried>,
    /// Allergens that some makers' hold: read the label.
    pub allergens_possible: Vec<Carried>,
    /// Whether it suits vegans.
    pub vegan: Diet,
    /// Whether it suits vegetarians.
    pub vegetarian: Diet,
    /// Basis of the cells that do not say otherwise.
    pub basis: Basis,
    /// Source of the cells that do not say otherwise.
    pub source: &'static str,
    /// Number of the food in that source, or its DOI; may be empty.
    pub source_id: &'static str,
    /// What one should know; may be empty.
    pub notes: &'static str,
}

/// Lowest and highest usual pH, at 25 °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PhRange {
    /// Lowest.
    pub low: f64,
    /// Highest.
    pub high: f64,
    /// How well it is known.
    pub basis: Basis,
    /// Where it was taken from.
    pub source: &'static str,
}

/// Titratable acidity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Acidity {
    /// Grams in 100 g, counted as that acid.
    pub percent: Cell,
    /// The acid that it is counted as.
    pub counted_as: Substance,
}

/// What one piece weighs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unit {
    /// What a piece is called.
    pub name: &'static str,
    /// Weight of what is eaten of it, g.
    pub edible_g: f64,
    /// Weight as bought, with what is thrown away, g.
    pub as_bought_g: Option<f64>,
    /// Where it was taken from.
    pub source: &'static str,
}

impl Ingredient {
    /// Grams of a substance in 100 g, if the table knows it.
    ///
    /// Minerals and caffeine are in grams too. Ash is all minerals as the table prints it, named
    /// ions included; other sugars are galactose, without [`Ingredient::sugars_unsplit`].
    #[must_use]
    pub fn cell(&self, substance: Substance) -> Option<Cell> {
        self.cells[substance as usize]
    }

    /// Every substance that the table knows, with its cell.
    pub fn cells(&self) -> impl Iterator<Item = (Substance, Cell)> + '_ {
        Substance::ALL
            .into_iter()
            .zip(self.cells)
            .filter_map(|(s, cell)| Some((s, cell?)))
    }

    /// Every number of the row that has a basis and source of its own.
    pub fn all_cells(&self) -> impl Iterator<Item = Cell> + '_ {
        self.cells().map(|(_, cell)| cell).chain(
            [
                self.sugars_unsplit,
                self.theobromine,
                self.carbohydrate_by_difference,
                self.energy_kcal,
                self.density_g_per_ml,
                self.refuse_percent,
                self.acidity.map(|acidity| acidity.percent),
            ]
            .into_iter()
            .flatten(),
        )
    }

    /// 100 g less everything that the table names, g: large where pectin, starch, oils or tannin
    /// are unnamed, a little below zero where the pieces come from several tables.
    ///
    /// Ions count with ash; caffeine, theobromine and gas are traces that do not count.
    #[must_use]
    pub fn unaccounted(&self) -> f64 {
        let named: f64 = self
            .cells()
            .filter(|(substance, _)| is_mass(*substance))
            .map(|(_, cell)| cell.value)
            .sum();
        100.0 - named - self.sugars_unsplit.map_or(0.0, |cell| cell.value)
    }

    /// The ingredient as exactly 100 g of matter, and what had to be taken for granted.
    ///
    /// Rules, in this order:
    ///
    /// 1. Named substances as the table has them; a missing one is zero. Unsplit sugars join
    ///    `other_sugars`, where galactose is already. Invert sugar of which only the sum is known
    ///    is there too: it is not split into halves.
    /// 2. Sodium, potassium, calcium and magnesium from their columns. Chloride from its column;
    ///    where that is empty and sodium exceeds 100 mg in 100 g, as much chloride as balances the
    ///    sodium mole by mole (added salt; assumed). All of these are taken off `ash`, never below
    ///    zero.
    /// 3. Caffeine and dissolved gas, which tables leave out of the sum.
    /// 4. What is left to 100 g is water, if the table has no water but at least three of protein,
    ///    fat, ash and carbohydrate and the ingredient is not dry (assumed); otherwise it is
    ///    carbohydrate as far as the table knows it by difference, and `other` beyond: pectin, oils,
    ///    tannin, theobromine.
    /// 5. A sum over 100 g is scaled down to 100.
    #[must_use]
    pub fn mixture(&self) -> Completed {
        complete(self)
    }
}

/// Whether a substance counts in the sum of a composition table.
pub(crate) fn is_mass(substance: Substance) -> bool {
    use pomace_matter::substance::Kind;
    !matches!(substance.kind(), Kind::Ion | Kind::Gas) && substance != Substance::Caffeine
}
