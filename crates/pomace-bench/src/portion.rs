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

/// Matter that is there as a stream, or an ingredient yet to be poured.
enum Form<'m, 'a, S: Scalar> {
    Item(&'m ItemRead<'a, S>),
    Stream(&'m Stream<S>),
}

impl<'a, S: Scalar> Matter<'a, S> {
    fn form(&self) -> Form<'_, 'a, S> {
        match self {
            Self::Item(read) => Form::Item(read),
            Self::Left(stream) => Form::Stream(stream),
            Self::Kept(made) => Form::Stream(&made.kept),
        }
    }

    /// All there is, g.
    pub(crate) fn total(&self) -> S {
        match self.form() {
            // A gram of the shelf is a gram, whatever is in it.
            Form::Item(read) => S::from(read.gram().weight()),
            Form::Stream(stream) => stream.total(),
        }
    }

    /// What travels along.
    pub(crate) fn carried(&self) -> &Carried {
        match self.form() {
            Form::Item(read) => &read.gram().carried,
            Form::Stream(stream) => &stream.carried,
        }
    }
}

impl<S: Scalar> Portion<'_, S> {
    /// Its temperature, °C.
    pub(crate) fn celsius(&self) -> S {
        match self.matter.form() {
            Form::Item(read) => S::from(read.gram().celsius),
            Form::Stream(stream) => stream.celsius,
        }
    }

    /// What holds its heat: the liquid, and all else but ice.
    pub(crate) fn heat_carriers(&self) -> [HeatCarriers<S>; 2] {
        match self.matter.form() {
            Form::Item(read) => read.heat_carriers(self.times),
            Form::Stream(stream) => {
                let carriers = stream.heat_carriers();
                carriers.map(|carriers| carriers.times(self.times))
            }
        }
    }

    /// Adds it to a stream without looking at the temperature.
    pub(crate) fn put_into(&self, stream: &mut Stream<S>) {
        match self.matter.form() {
            Form::Item(read) => read.put_into(stream, self.times),
            Form::Stream(matter) => stream.put_times(matter, self.times),
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
