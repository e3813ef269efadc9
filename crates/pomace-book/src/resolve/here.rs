//! Names that live inside one document: streams, by-products, what steps bring in, lines. Each is
//! folded once, so that a name is looked up and not searched for.

use std::cell::OnceCell;
use std::collections::{HashMap, HashSet};

use super::reference::Reference;
use crate::document::{Garnish, Line, Step};
use crate::names::{NameIndex, fold};

/// `the peel` may be called `the peel` or `peel`.
pub(super) fn with_and_without_article(of: &str) -> impl Iterator<Item = String> {
    let bare = of
        .get(..4)
        .filter(|the| the.eq_ignore_ascii_case("the "))
        .and_then(|_| of.get(4..));
    std::iter::once(of).chain(bare).map(fold)
}

/// What a thing may be called, folded: by its whole name, or by its part's.
fn called(what: &str) -> impl Iterator<Item = String> {
    let part = what.rsplit_once('/').map(|(_, part)| fold(part));
    std::iter::once(fold(what)).chain(part)
}

/// Whether `of` means a thing that has this name, if any, and is called by this word: by its whole
/// name, its part's, or what stands before its description.
pub(super) fn called_at_all(of: &str, name: Option<&str>, word: &str) -> bool {
    with_and_without_article(of).any(|of| {
        let head = name.and_then(|name| name.split_once(','));
        let head = head.map(|(head, _)| fold(head));
        of == word
            || name
                .into_iter()
                .flat_map(called)
                .chain(head)
                .any(|name| name == of)
    })
}

/// What steps have named and brought in; of one name the latest.
#[derive(Debug, Default)]
pub(super) struct Passed {
    streams: HashMap<String, Reference>,
    added: HashMap<String, usize>,
}

impl Passed {
    fn all(steps: &[Step]) -> Self {
        let mut passed = Self::default();
        for (index, step) in steps.iter().enumerate() {
            passed.pass(index, step);
        }
        passed
    }

    fn pass(&mut self, index: usize, step: &Step) {
        if let Some(left) = &step.by_product {
            self.streams.insert(fold(left), Reference::Left(index));
        }
        for kept in step.kept_names() {
            self.streams.insert(fold(kept), Reference::Stream(index));
        }
        for name in step.what.iter().flat_map(|what| called(what)) {
            self.added.insert(name, index);
        }
    }

    /// The stream or by-product of this name.
    pub(super) fn stream(&self, folded: &str) -> Option<Reference> {
        self.streams.get(folded).cloned()
    }

    /// The same, or what a step brought in under it.
    pub(super) fn matter(&self, folded: &str) -> Option<Reference> {
        let added = || self.added.get(folded).copied().map(Reference::Added);
        self.stream(folded).or_else(added)
    }
}

/// The names of one document.
#[derive(Debug, Default)]
pub(super) struct Here<'d> {
    steps: &'d [Step],
    lines: &'d [Line],
    garnish: &'d [Garnish],
    /// What lies behind the step that is looked at.
    pub earlier: Passed,
    whole: OnceCell<Passed>,
    exact_lines: HashMap<String, usize>,
    /// Of each name the first line, and the next.
    called_lines: HashMap<String, (usize, Option<usize>)>,
    garnishes: HashSet<String>,
    given: OnceCell<(HashMap<String, &'d str>, NameIndex<'d>)>,
    near_steps: OnceCell<NameIndex<'d>>,
    near_lines: OnceCell<NameIndex<'d>>,
    near_carriers: OnceCell<NameIndex<'d>>,
}

impl<'d> Here<'d> {
    pub(super) fn of(steps: &'d [Step], lines: &'d [Line], garnish: &'d [Garnish]) -> Self {
        let mut here = Self {
            steps,
            lines,
            garnish,
            ..Self::default()
        };
        for (index, line) in lines.iter().enumerate() {
            here.exact_lines.entry(fold(&line.what)).or_insert(index);
            for name in called(&line.what) {
                let (first, next) = here.called_lines.entry(name).or_insert((index, None));
                if *first != index {
                    next.get_or_insert(index);
                }
            }
        }
        for what in garnish.iter().filter_map(|one| one.what.as_ref()) {
            let head = what.rsplit_once(',').map(|(head, _)| fold(head));
            here.garnishes
                .extend(std::iter::once(fold(what)).chain(head));
        }
        here
    }

    /// A step is done: what it names lies behind from now on.
    pub(super) fn pass(&mut self, index: usize, step: &Step) {
        self.earlier.pass(index, step);
    }

    /// All steps, those to come as well.
    pub(super) fn whole(&self) -> &Passed {
        self.whole.get_or_init(|| Passed::all(self.steps))
    }

    /// The line of this name, whole names before parts.
    pub(super) fn line(&self, folded: &str) -> Option<usize> {
        let called = || self.called_lines.get(folded).map(|(first, _)| *first);
        self.exact_lines.get(folded).copied().or_else(called)
    }

    /// The first line of this name, other than `own`.
    pub(super) fn line_but(&self, folded: &str, own: Option<usize>) -> Option<usize> {
        let (first, next) = *self.called_lines.get(folded)?;
        if Some(first) == own {
            next
        } else {
            Some(first)
        }
    }

    /// Whether a line, a garnish or a step has this name.
    pub(super) fn holds(&self, folded: &str) -> bool {
        self.line(folded).is_some()
            || self.garnishes.contains(folded)
            || self.whole().matter(folded).is_some()
    }

    /// The name that some step gives, as it is written first.
    pub(super) fn given(&self, folded: &str) -> Option<&'d str> {
        self.all_given().0.get(folded).copied()
    }

    /// Names that the steps give.
    pub(super) fn near_given(&self) -> &NameIndex<'d> {
        &self.all_given().1
    }

    fn all_given(&self) -> &(HashMap<String, &'d str>, NameIndex<'d>) {
        self.given.get_or_init(|| {
            let mut first = HashMap::new();
            for name in self.given_names() {
                first.entry(fold(name)).or_insert(name);
            }
            (first, NameIndex::new(self.given_names()))
        })
    }

    /// Names that a share in a step may be of.
    pub(super) fn near_steps(&self) -> &NameIndex<'d> {
        self.near_steps
            .get_or_init(|| NameIndex::new(self.names_for_steps(self.steps.len())))
    }

    /// Names that a share in a line may be of.
    pub(super) fn near_lines(&self) -> &NameIndex<'d> {
        self.near_lines
            .get_or_init(|| NameIndex::new(self.line_names().map(|(_, name)| name)))
    }

    /// Names that may carry a brief.
    pub(super) fn near_carriers(&self) -> &NameIndex<'d> {
        self.near_carriers.get_or_init(|| {
            let lines = self.line_names().map(|(_, name)| name);
            let garnish = self.garnish.iter().filter_map(|one| one.what.as_ref());
            let garnish = garnish.map(|what| what.as_str());
            NameIndex::new(lines.chain(garnish).chain(whats(self.steps)))
        })
    }

    fn given_names(&self) -> impl Iterator<Item = &'d str> {
        let names = self
            .steps
            .iter()
            .flat_map(|step| step.kept_names().chain(&step.by_product));
        names.map(|name| name.as_str())
    }

    /// What there is to take a share of at a step.
    pub(super) fn names_for_steps(&self, step: usize) -> impl Iterator<Item = &'d str> {
        let earlier = self.steps.get(..step).unwrap_or(&[]);
        let lines = self.line_names().map(|(_, name)| name);
        self.given_names().chain(whats(earlier)).chain(lines)
    }

    pub(super) fn line_names(&self) -> impl Iterator<Item = (usize, &'d str)> {
        self.lines
            .iter()
            .enumerate()
            .map(|(index, line)| (index, line.what.as_str()))
    }
}

fn whats(steps: &[Step]) -> impl Iterator<Item = &str> {
    let whats = steps.iter().filter_map(|step| step.what.as_ref());
    whats.map(|what| what.as_str())
}
