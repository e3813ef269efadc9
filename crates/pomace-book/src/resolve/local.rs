//! Names that live inside one document: streams, by-products, lines.

use super::reference::Reference;
use crate::document::{Line, Step};
use crate::names::same;

/// `the peel` may be called `the peel` or `peel`.
pub(super) fn with_and_without_article(of: &str) -> impl Iterator<Item = &str> {
    let bare = of
        .get(..4)
        .filter(|the| the.eq_ignore_ascii_case("the "))
        .and_then(|_| of.get(4..));
    std::iter::once(of).chain(bare)
}

/// Whether a thing is called so: by its whole name, or by its part's.
pub(super) fn is_called(what: &str, name: &str) -> bool {
    same(what, name)
        || what
            .rsplit_once('/')
            .is_some_and(|(_, part)| same(part, name))
}

pub(super) fn line_called(lines: &[Line], name: &str) -> Option<usize> {
    let exact = lines.iter().position(|line| same(&line.what, name));
    exact.or_else(|| lines.iter().position(|line| is_called(&line.what, name)))
}

/// The step that brought in something of this name, the latest first.
pub(super) fn added(steps: &[Step], name: &str) -> Option<usize> {
    steps
        .iter()
        .rposition(|step| step.what.as_ref().is_some_and(|what| is_called(what, name)))
}

/// The stream or by-product of this name, the latest first.
pub(super) fn stream(steps: &[Step], name: &str) -> Option<Reference> {
    steps.iter().enumerate().rev().find_map(|(index, step)| {
        if step.kept_names().any(|kept| same(kept, name)) {
            return Some(Reference::Stream(index));
        }
        let left = step
            .by_product
            .as_ref()
            .is_some_and(|left| same(left, name));
        left.then_some(Reference::Left(index))
    })
}

/// Names that the steps give.
pub(super) fn local_names(steps: &[Step]) -> Vec<&str> {
    let names = steps
        .iter()
        .flat_map(|step| step.kept_names().chain(&step.by_product));
    names.map(|name| name.as_str()).collect()
}
