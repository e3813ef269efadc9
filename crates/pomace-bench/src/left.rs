//! What the steps of a program leave behind.

use pomace_matter::Scalar;

use crate::stream::Stream;

/// By-products, each by the step that left it; a step that left nothing has none.
#[derive(Clone, Debug, PartialEq)]
pub struct Left<S: Scalar = f64>(Vec<(usize, Box<Stream<S>>)>);

impl<S: Scalar> Default for Left<S> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<S: Scalar> Left<S> {
    /// What a step left.
    #[must_use]
    pub fn get(&self, step: usize) -> Option<&Stream<S>> {
        let found = self.0.iter().find(|(by, _)| *by == step);
        found.map(|(_, left)| &**left)
    }

    /// Grams that a step left.
    #[must_use]
    pub fn grams(&self, step: usize) -> S {
        self.get(step).map_or(S::zero(), Stream::total)
    }

    /// All of them with their steps, in order.
    pub fn iter(&self) -> impl Iterator<Item = (usize, &Stream<S>)> {
        self.0.iter().map(|(step, left)| (*step, &**left))
    }

    pub(crate) fn push(&mut self, step: usize, left: Box<Stream<S>>) {
        self.0.push((step, left));
    }

    pub(crate) fn get_mut(&mut self, step: usize) -> Option<&mut Stream<S>> {
        let found = self.0.iter_mut().find(|(by, _)| *by == step);
        found.map(|(_, left)| &mut **left)
    }
}

impl<S: Scalar> FromIterator<(usize, Box<Stream<S>>)> for Left<S> {
    fn from_iter<T: IntoIterator<Item = (usize, Box<Stream<S>>)>>(left: T) -> Self {
        Self(left.into_iter().collect())
    }
}
