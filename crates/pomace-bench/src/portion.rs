//! So much of where something comes from.

use std::sync::Arc;

use pomace_matter::Scalar;

use crate::made::Made;
use crate::stream::Stream;

/// So many grams of some matter.
pub(crate) struct Portion<S: Scalar> {
    pub matter: Matter<S>,
    /// How many times all there is of the matter.
    pub times: S,
    pub grams: S,
}

/// What there is of something.
pub(crate) enum Matter<S: Scalar> {
    /// Of its own; on the heap, since it is handed from hand to hand.
    Own(Box<Stream<S>>),
    /// What a prep keeps.
    Kept(Arc<Made<S>>),
}

impl<S: Scalar> Matter<S> {
    pub(crate) fn stream(&self) -> &Stream<S> {
        match self {
            Self::Own(stream) => stream,
            Self::Kept(made) => &made.kept,
        }
    }
}

impl<S: Scalar> Portion<S> {
    /// The matter that it is so many times of.
    pub(crate) fn of(&self) -> &Stream<S> {
        self.matter.stream()
    }
}
