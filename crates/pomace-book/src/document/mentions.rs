//! The names in a document that may lead to other documents.

use super::{Document, Garnish, Line, Step, Told};
use crate::quantity::Amount;
use crate::span::Spanned;

impl Document {
    /// Every name that may lead to another document, as written: what comes in, what something is a share
    /// of, what it is like. Words after a comma and parts after a `/` are still in them.
    #[must_use]
    pub fn mentions(&self) -> Vec<&str> {
        let mut names = Vec::new();
        for step in self.steps() {
            step_names(step, &mut names);
        }
        match self {
            Self::Drink(drink) => {
                for line in &drink.lines {
                    line_names(line, &mut names);
                }
                for garnish in &drink.garnish {
                    garnish_names(garnish, &mut names);
                }
            }
            Self::Prep(prep) => {
                if let Some(told) = &prep.told {
                    told_names(told, &mut names);
                }
            }
            Self::Ingredient(ingredient) => {
                let parts = ingredient.parts.iter().map(|part| &part.based_on);
                let like = std::iter::once(&ingredient.based_on).chain(parts);
                names.extend(like.flatten().map(|name| name.value.as_str()));
            }
            Self::House(_) => {}
        }
        names
    }
}

fn put<'d>(
    what: Option<&'d Spanned<String>>,
    amount: Option<&'d Spanned<Amount>>,
    names: &mut Vec<&'d str>,
) {
    names.extend(what.map(|name| name.value.as_str()));
    names.extend(amount.and_then(|amount| amount.value.reading.share_of()));
}

fn line_names<'d>(line: &'d Line, names: &mut Vec<&'d str>) {
    put(Some(&line.what), line.amount.as_ref(), names);
}

fn step_names<'d>(step: &'d Step, names: &mut Vec<&'d str>) {
    put(step.what.as_ref(), step.amount.as_ref(), names);
    put(step.fat.as_ref(), None, names);
}

fn garnish_names<'d>(garnish: &'d Garnish, names: &mut Vec<&'d str>) {
    put(garnish.what.as_ref(), garnish.amount.as_ref(), names);
}

fn told_names<'d>(told: &'d Told, names: &mut Vec<&'d str>) {
    put(told.base.as_ref(), told.base_amount.as_ref(), names);
    put(told.solid.as_ref(), told.solid_amount.as_ref(), names);
}
