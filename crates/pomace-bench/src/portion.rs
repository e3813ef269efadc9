//! So much of where something comes from.

use std::sync::Arc;

use pomace_matter::Scalar;
use pomace_matter::heat::HeatCarriers;

use crate::made::Made;
use crate::shelf::ItemRead;
use crate::stream::{Carried, Stream};

/// So many grams of some matter.
pub(crate) struct Portion<'a, S: Scalar> {
    pub matter: Matter<'a, S>,
    /// How many times all there is of the matter.
    pub times: S,
    pub grams: S,
}

/// What there is of something.
pub(crate) enum Matter<'a, S: Scalar> {
    /// A gram of an ingredient.
    Item(ItemRead<'a, S>),
    /// What a step left; on the heap, since it is handed from hand to hand.
    Left(Box<Stream<S>>),
    /// What a prep keeps.
    Kept(Arc<Made<S>>),
}

impl<S: Scalar> Matter<'_, S> {
    /// All there is, g.
    pub(crate) fn total(&self) -> S {
        match self {
            // A gram of the shelf is a gram, whatever is in it.
            Self::Item(read) => S::from(read.gram().weight()),
            Self::Left(stream) => stream.total(),
            Self::Kept(made) => made.kept.total(),
        }
    }

    /// What travels along.
    pub(crate) fn carried(&self) -> &Carried {
        match self {
            Self::Item(read) => &read.gram().carried,
            Self::Left(stream) => &stream.carried,
            Self::Kept(made) => &made.kept.carried,
        }
    }
}

impl<S: Scalar> Portion<'_, S> {
    /// Its temperature, °C.
    pub(crate) fn celsius(&self) -> S {
        match &self.matter {
            Matter::Item(read) => S::from(read.gram().celsius),
            Matter::Left(stream) => stream.celsius,
            Matter::Kept(made) => made.kept.celsius,
        }
    }

    /// What holds its heat: the liquid, and all else but ice.
    pub(crate) fn heat_carriers(&self) -> [HeatCarriers<S>; 2] {
        let carriers = match &self.matter {
            Matter::Item(read) => return read.heat_carriers(self.times),
            Matter::Left(stream) => stream.heat_carriers(),
            Matter::Kept(made) => made.kept.heat_carriers(),
        };
        carriers.map(|carriers| carriers.times(self.times))
    }

    /// Adds it to a stream without looking at the temperature.
    pub(crate) fn put_into(&self, stream: &mut Stream<S>) {
        match &self.matter {
            Matter::Item(read) => read.put_into(stream, self.times),
            Matter::Left(matter) => stream.put_times(matter, self.times),
            Matter::Kept(made) => stream.put_times(&made.kept, self.times),
        }
    }

    /// By itself.
    pub(crate) fn to_stream(&self) -> Stream<S> {
        let mut stream = Stream::default();
        self.put_into(&mut stream);
        stream.celsius = self.celsius();
        stream
    }
}
