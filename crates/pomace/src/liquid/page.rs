//! A liquid on a page: what goes in, what it is, what must be said beside it.

use pomace_matter::Substance;
use pomace_matter::liquid::Property;
use pomace_matter::substance::Set;

use super::{Liquid, notes};
use crate::number::{align, set, set_short};
use crate::page::{BOLD, DIM, rule, signs, wrap};

/// Figures that belong together.
const GROUPS: [&[Property]; 5] = [
    &[Property::Density, Property::Volume, Property::Strength],
    &[
        Property::SolubleSolids,
        Property::RefractometerBrix,
        Property::Sugar,
        Property::Sweetness,
    ],
    &[Property::Acid, Property::TitratableAcidity, Property::Ph],
    &[Property::WaterActivity, Property::FreezingPoint],
    &[Property::Energy],
];

const INDENT: &str = "  ";

/// A label, its number and its unit.
struct Row {
    label: String,
    number: String,
    unit: &'static str,
    aside: String,
}

/// The page.
pub(super) fn page(liquid: &Liquid, width: usize) -> String {
    let mut page = String::from("\n");
    let title = format!(
        "{} g at {} °C",
        set_short(liquid.contents.total().0, 7),
        set_short(liquid.celsius, 6)
    );
    page.push_str(&format!("{INDENT}{BOLD}{title}{BOLD:#}\n"));

    let contents = contents(liquid);
    let figures: Vec<Vec<Row>> = GROUPS.iter().map(|group| rows(liquid, group)).collect();
    let all = || std::iter::once(&contents).chain(&figures).flatten();
    let label_width = all().map(|row| signs(&row.label)).max().unwrap_or(0);
    // One column of numbers for the whole page, so that the eye runs down one line.
    let numbers: Vec<String> = all().map(|row| row.number.clone()).collect();
    let mut numbers = align(&numbers).into_iter();
    let number_width = numbers.as_slice().first().map_or(0, |number| signs(number));
    let unit_width = all()
        .map(|row| signs(row.unit) + signs(&row.aside))
        .max()
        .unwrap_or(0);
    let full = label_width + 3 + number_width + 2 + unit_width;
    let narrow = full + signs(INDENT) > width;
    let line = full.min(width - signs(INDENT));

    for group in std::iter::once(&contents).chain(&figures) {
        page.push_str(&format!("{INDENT}{}\n", rule(line)));
        for row in group {
            let number = numbers.next().unwrap_or_default();
            page.push_str(&row.set(&number, label_width, narrow));
        }
    }
    page.push_str(&format!("{INDENT}{}\n", rule(line)));
    for sentence in notes::sentences(&liquid.figures.notes) {
        page.push_str(&wrap(&sentence, width, INDENT, INDENT));
        page.push('\n');
    }
    page.push_str(&wrap(how_sure(liquid), width, INDENT, INDENT));
    page.push_str("\n\n");
    page
}

impl Row {
    fn set(&self, number: &str, label_width: usize, narrow: bool) -> String {
        let unit = format!("{}{}", self.unit, self.aside);
        let value = format!("{BOLD}{number}{BOLD:#}  {DIM}{unit}{DIM:#}");
        let value = if unit.is_empty() {
            format!("{BOLD}{}{BOLD:#}", number.trim_end())
        } else {
            value
        };
        if narrow {
            return format!("{INDENT}{}\n{INDENT}  {value}\n", self.label);
        }
        let gap = " ".repeat(label_width - signs(&self.label) + 3);
        format!("{INDENT}{}{gap}{value}\n", self.label)
    }
}

fn contents(liquid: &Liquid) -> Vec<Row> {
    let total = liquid.contents.total().0;
    let there = liquid.contents.iter().filter(|(_, grams)| *grams > 0.0);
    there
        .map(|(substance, grams)| {
            let share = grams / total * 100.0;
            let share = if share < 0.05 {
                "< 0.1".to_owned()
            } else {
                set(share, 1)
            };
            Row {
                label: substance.label().to_owned(),
                number: set_short(grams, 7),
                unit: "g",
                aside: format!("{share:>9} %"),
            }
        })
        .collect()
}

fn rows(liquid: &Liquid, group: &[Property]) -> Vec<Row> {
    let row = |property: &Property| {
        let value = liquid.figures.get(*property);
        Row {
            label: property.label().to_owned(),
            number: value.map_or_else(|| "—".to_owned(), |value| set(value, property.decimals())),
            unit: if value.is_some() { property.unit() } else { "" },
            aside: String::new(),
        }
    };
    group.iter().map(row).collect()
}

/// One sentence on how far the figures can be trusted.
fn how_sure(liquid: &Liquid) -> &'static str {
    let strong = liquid.contents.grams(Substance::Ethanol) > 0.0;
    let solids = liquid.contents.sum(Set::SOLUBLE.without(Set::SOLVENTS));
    if strong && solids > 0.0 {
        "How sure: each model is checked by itself, but mixtures of ethanol and dissolved solids \
         have no independent check: unvalidated. See docs/accuracy.md."
    } else {
        "How sure: docs/accuracy.md tells what each model was checked against, and how closely."
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_figure_is_on_the_page_once() {
        let mut shown: Vec<Property> = GROUPS.concat();
        shown.sort();
        assert_eq!(shown, Property::ALL);
    }
}
