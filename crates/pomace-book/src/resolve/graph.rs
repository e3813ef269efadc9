//! What every name of every document leads to.

use std::collections::HashMap;

use super::reference::{Reference, Spot};
use crate::book::DocumentId;

/// What every name of every document leads to, and in which order documents can be computed.
#[derive(Clone, Debug, Default)]
pub struct Graph {
    /// Dependencies first; members of a loop are left out.
    pub order: Vec<DocumentId>,
    pub(super) links: Vec<Links>,
    pub(super) uses: Vec<Vec<DocumentId>>,
    pub(super) used_by: Vec<Vec<DocumentId>>,
}

/// The names of one document.
#[derive(Clone, Debug, Default)]
pub(super) struct Links {
    pub lines: Vec<Option<Reference>>,
    pub steps: Vec<Option<Reference>>,
    pub garnish: Vec<Option<Reference>>,
    pub parts: Vec<Option<Reference>>,
    pub shares: HashMap<Spot, Reference>,
    pub fats: HashMap<usize, Reference>,
    pub like: Option<Reference>,
    pub told_base: Option<Reference>,
    pub told_solid: Option<Reference>,
}

impl Links {
    /// Every reference of the document.
    pub(super) fn all(&self) -> impl Iterator<Item = &Reference> {
        [&self.lines, &self.steps, &self.garnish, &self.parts]
            .into_iter()
            .flatten()
            .flatten()
            .chain(self.shares.values())
            .chain(self.fats.values())
            .chain(&self.like)
            .chain(&self.told_base)
            .chain(&self.told_solid)
    }
}

impl Graph {
    fn links(&self, id: DocumentId) -> Option<&Links> {
        self.links.get(id.0)
    }

    /// What a line of a drink names.
    #[must_use]
    pub fn line(&self, id: DocumentId, line: usize) -> Option<&Reference> {
        self.links(id)?.lines.get(line)?.as_ref()
    }

    /// What a step names in its `what`.
    #[must_use]
    pub fn step(&self, id: DocumentId, step: usize) -> Option<&Reference> {
        self.links(id)?.steps.get(step)?.as_ref()
    }

    /// What a garnish names.
    #[must_use]
    pub fn garnish(&self, id: DocumentId, garnish: usize) -> Option<&Reference> {
        self.links(id)?.garnish.get(garnish)?.as_ref()
    }

    /// What the share written there is a share of; `None` where it does not say.
    #[must_use]
    pub fn share_of(&self, id: DocumentId, spot: Spot) -> Option<&Reference> {
        self.links(id)?.shares.get(&spot)
    }

    /// The fat of a wash.
    #[must_use]
    pub fn fat(&self, id: DocumentId, step: usize) -> Option<&Reference> {
        self.links(id)?.fats.get(&step)
    }

    /// What an ingredient starts from.
    #[must_use]
    pub fn like(&self, id: DocumentId) -> Option<&Reference> {
        self.links(id)?.like.as_ref()
    }

    /// What a part of an ingredient starts from.
    #[must_use]
    pub fn part_like(&self, id: DocumentId, part: usize) -> Option<&Reference> {
        self.links(id)?.parts.get(part)?.as_ref()
    }

    /// The base of a prep told from outside.
    #[must_use]
    pub fn told_base(&self, id: DocumentId) -> Option<&Reference> {
        self.links(id)?.told_base.as_ref()
    }

    /// The solid of a prep told from outside.
    #[must_use]
    pub fn told_solid(&self, id: DocumentId) -> Option<&Reference> {
        self.links(id)?.told_solid.as_ref()
    }

    /// Documents that this one needs, each once.
    #[must_use]
    pub fn uses(&self, id: DocumentId) -> &[DocumentId] {
        self.uses.get(id.0).map_or(&[], Vec::as_slice)
    }

    /// Documents that need this one, each once.
    #[must_use]
    pub fn used_by(&self, id: DocumentId) -> &[DocumentId] {
        self.used_by.get(id.0).map_or(&[], Vec::as_slice)
    }
}
