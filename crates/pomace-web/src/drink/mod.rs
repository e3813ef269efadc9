//! The drink's page: what it is worked out from, and its parts, one file for each.

mod allergens;
mod asked;
mod brief;
mod figures;
mod garnish;
pub(crate) mod glass;
pub(crate) mod ice;
pub(crate) mod lines;
pub(crate) mod plate;
mod pushes;
mod range;
pub(crate) mod steps;
pub(crate) mod study;

use pomace_book::edit::Draft;
use pomace_plate::field::{self, Ranges};

use crate::kitchen::Mark;
use crate::view::plate::Widths;
use crate::view::{Doc, Part, title};
use study::{Stand, Study};

/// What a page of a drink is asked to show.
pub(crate) struct Page<'a> {
    pub doc: Doc<'a>,
    /// Its text, for what is written there and could not be read.
    pub draft: Option<&'a Draft>,
    pub widths: Widths,
    /// As served before the last change.
    pub was: Option<Stand>,
    /// Scales of the field so far.
    pub kept: Option<Ranges>,
    /// Drinks of the house around it.
    pub house: Vec<(String, Mark)>,
    /// Addresses of the documents that lines lead to.
    pub links: Vec<Option<String>>,
}

/// The parts, and where the drink stands now, for the next change.
pub(crate) struct Shown {
    pub parts: Vec<Part>,
    pub stand: Option<Stand>,
    pub ranges: Ranges,
}

pub(crate) fn show(study: &Study<'_>, page: Page<'_>) -> Shown {
    let amounts = study.amounts(page.doc.unit);
    let pushes = pushes::of(study, &amounts);
    let stands = pushes.iter().enumerate();
    let stands: Vec<(usize, Stand)> = stands
        .filter_map(|(line, push)| Some((line, push.as_ref()?.stand)))
        .collect();
    let field = plate::field(study, &stands, page.house, page.was, page.kept);
    let ranges = field::ranges(&field);
    let parts = vec![
        Part::new(
            "title",
            title(
                &page.doc,
                &study.doc.name,
                study.doc.note.as_ref().map_or("", |note| &note.value),
            ),
        ),
        Part::new("plate", plate::part(study, &field, page.widths)),
        Part::new("range", range::part(study, &page.doc, page.draft)),
        Part::new("ice", ice::part(study, page.widths)),
        Part::new("figures", figures::part(study, page.widths)),
        Part::new(
            "lines",
            lines::part(study, &page.doc, page.draft, amounts, &pushes, &page.links),
        ),
        Part::new("asked", asked::part(study, &page.doc, page.widths)),
        Part::new("steps", steps::part(study, &page.doc, page.draft)),
        Part::new("garnish", garnish::part(study, &page.doc, page.draft)),
        Part::new("brief", brief::part(study, &page.doc)),
        Part::new("allergens", allergens::part(study)),
    ];
    let outcome = study.outcome.as_ref().ok();
    Shown {
        parts,
        stand: outcome.and_then(|outcome| Stand::of(&outcome.report.after)),
        ranges,
    }
}
