//! A vessel at work: its content, and the tally of the step under way.

use pomace_larder::Basis;
use pomace_matter::Scalar;

use crate::record::{Destination, Record};
use crate::remark::Remark;
use crate::stream::Stream;

/// What a step works on.
#[derive(Clone, Debug)]
pub(crate) struct Vessel<S: Scalar> {
    pub stream: Stream<S>,
    added: S,
    left: Stream<S>,
    lost: Vec<(Destination, S)>,
    remarks: Vec<Remark>,
    before: S,
}

impl<S: Scalar> Vessel<S> {
    pub(crate) fn empty(celsius: f64) -> Self {
        Self {
            stream: Stream::empty(celsius),
            added: S::zero(),
            left: Stream::empty(celsius),
            lost: Vec::new(),
            remarks: Vec::new(),
            before: S::zero(),
        }
    }

    /// Puts a stream in; the vessel stays at its own temperature.
    pub(crate) fn put(&mut self, stream: &Stream<S>) {
        self.added += stream.total();
        self.stream.put(stream);
    }

    /// Pours a stream in; both find their temperature.
    pub(crate) fn pour_in(&mut self, stream: &Stream<S>) {
        self.added += stream.total();
        self.stream.pour_in(stream);
    }

    /// Takes grams from the air or a cylinder; the caller has put them into the stream.
    pub(crate) fn take_from_air(&mut self, grams: S) {
        self.added += grams;
    }

    /// Adds ice, g.
    pub(crate) fn add_ice(&mut self, grams: S) {
        self.added += grams;
        self.stream.ice += grams;
    }

    /// Says something about the step. What stands on an assumption is no better than assumed.
    pub(crate) fn remark(&mut self, remark: Remark) {
        if matches!(remark, Remark::Assumed(_)) {
            self.stream.carried.basis = Some(Basis::Assumed);
        }
        self.remarks.push(remark);
    }

    /// Notes grams that are gone; the caller has taken them out of the stream.
    pub(crate) fn lose(&mut self, to: Destination, grams: S) {
        if grams.value() != 0.0 {
            self.lost.push((to, grams));
        }
    }

    /// Takes `grams` of the liquid, with all that is in it, to a destination.
    pub(crate) fn lose_liquid(&mut self, to: Destination, grams: S) {
        let total = self.stream.liquid.total().0;
        if total.value() <= 0.0 || grams.value() <= 0.0 {
            return;
        }
        let grams = grams.at_most(total.value());
        self.stream.liquid = self.stream.liquid * (-(grams / total) + 1.0);
        self.lose(to, grams);
    }

    /// Sets a stream aside as by-product; the caller has taken it out of the stream.
    pub(crate) fn set_aside(&mut self, stream: &Stream<S>) {
        self.left.put(stream);
    }

    /// Ends the step: its record and its by-product.
    pub(crate) fn finish(&mut self) -> (Record<S>, Stream<S>) {
        let celsius = self.stream.celsius;
        let mut left = std::mem::replace(&mut self.left, Stream::empty(0.0));
        left.celsius = celsius;
        let after = self.stream.total();
        let record = Record {
            before: self.before,
            added: self.added,
            after,
            left: left.total(),
            lost: std::mem::take(&mut self.lost),
            celsius,
            remarks: std::mem::take(&mut self.remarks),
        };
        self.added = S::zero();
        self.before = after;
        (record, left)
    }
}
