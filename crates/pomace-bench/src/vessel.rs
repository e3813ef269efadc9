//! A vessel at work: its content, and the tally of the step under way.

use pomace_larder::Basis;
use pomace_matter::{Mixture, Scalar};

use crate::flow::Ledger;
use crate::inputs::Inputs;
use crate::left::Left;
use crate::on_ice::OnIce;
use crate::portion::Portion;
use crate::record::{Destination, Record};
use crate::remark::{Assumption, Remark};
use crate::stream::Stream;

/// What a step works on.
#[derive(Clone, Debug)]
pub(crate) struct Vessel<'a, S: Scalar> {
    inputs: &'a Inputs,
    pub stream: Stream<S>,
    /// Ice of the service, g: it cools, is thrown away and not drunk.
    pub ice: S,
    /// What each earlier step left behind.
    pub left_by: Left<S>,
    /// Each time it met ice.
    pub on_ice: Vec<OnIce<S>>,
    /// Whose the grams are, where that is asked for.
    pub ledger: Option<Box<Ledger>>,
    added: f64,
    left: Option<Box<Stream<S>>>,
    lost: Vec<(Destination, f64)>,
    remarks: Vec<Remark>,
    before: f64,
}

impl<'a, S: Scalar> Vessel<'a, S> {
    /// An empty vessel.
    pub(crate) fn empty(inputs: &'a Inputs, celsius: f64, ledger: Option<Box<Ledger>>) -> Self {
        Self {
            inputs,
            ice: S::zero(),
            left_by: Left::default(),
            on_ice: Vec::new(),
            ledger,
            stream: Stream::empty(celsius),
            added: 0.0,
            left: None,
            lost: Vec::new(),
            remarks: Vec::new(),
            before: 0.0,
        }
    }

    /// Puts a portion in; the vessel stays at its own temperature.
    pub(crate) fn put(&mut self, portion: &Portion<'_, S>) {
        self.added += portion.grams.value();
        portion.put_into(&mut self.stream);
    }

    /// Pours a portion in; both find their temperature.
    pub(crate) fn pour_in(&mut self, portion: &Portion<'_, S>) {
        self.added += portion.grams.value();
        self.stream.pour_in(portion);
    }

    /// Takes grams from the air or a cylinder; the caller has put them into the stream.
    pub(crate) fn take_from_air(&mut self, grams: S) {
        self.added += grams.value();
        if let Some(ledger) = &mut self.ledger {
            ledger.gas(grams.value());
        }
    }

    /// Tells the ledger that all which follows is taken from pieces and liquid together.
    pub(crate) fn stirred(&mut self) {
        if let Some(ledger) = &mut self.ledger {
            ledger.stir(&self.stream.lift(), self.ice.value());
        }
    }

    /// Tells the ledger that sap and free liquid are about to change places, as far as `reach`; the sap is
    /// `share` of both.
    pub(crate) fn exchanges(&mut self, share: S, reach: S) {
        if let Some(ledger) = &mut self.ledger {
            let how = (share.value(), reach.value());
            ledger.exchange(&self.stream.lift(), self.ice.value(), how);
        }
    }

    /// Adds ice, g.
    pub(crate) fn add_ice(&mut self, grams: S) {
        self.added += grams.value();
        self.ice += grams;
        if let Some(ledger) = &mut self.ledger {
            ledger.ice(grams.value());
        }
    }

    /// Takes a default: reads it with its doubt, and says so. What stands on it is no better than
    /// assumed.
    pub(crate) fn assume(&mut self, assumption: Assumption) -> S {
        let value = self.inputs.assume(&assumption);
        self.remark(Remark::Assumed(assumption));
        value
    }

    /// A default that is fixed in grams, but never more than a tenth of the liquid: a spoonful through
    /// a large cloth does not vanish.
    pub(crate) fn lose_fixed(&mut self, to: Destination, assumption: Assumption, on: &'static str) {
        let total = self.stream.liquid.total().0;
        let grams = self.assume(assumption).lesser(total * 0.1);
        self.lose_liquid(total, to, grams);
        if grams.value() > 0.0 {
            self.remark(Remark::FixedLoss {
                grams: grams.value(),
                on,
            });
        }
    }

    /// Everything but the liquid goes to what is left behind, with `pieces` in place of the pieces.
    pub(crate) fn set_rest_aside(&mut self, pieces: Mixture<S>) {
        let stream = &mut self.stream;
        let rest = Stream {
            pieces,
            crystals: std::mem::take(&mut stream.crystals),
            ice: std::mem::take(&mut stream.ice),
            celsius: stream.celsius,
            carried: stream.carried.clone(),
            ..Stream::default()
        };
        stream.pieces = Mixture::default();
        if rest.weight() <= 0.0 {
            return;
        }
        match &mut self.left {
            Some(left) => left.put(&rest),
            None => self.left = Some(Box::new(rest)),
        }
    }

    /// All the ice of the service goes.
    pub(crate) fn throw_ice(&mut self) {
        let ice = std::mem::take(&mut self.ice);
        self.lose(Destination::Ice, ice.value());
    }

    /// Says something about the step. What stands on an assumption is no better than assumed.
    pub(crate) fn remark(&mut self, remark: Remark) {
        if matches!(remark, Remark::Assumed(_)) {
            self.stream.carried.basis = Some(Basis::Assumed);
        }
        if self.inputs.is_plain() {
            self.remarks.push(remark);
        }
    }

    /// Notes grams that are gone; the caller has taken them out of the stream.
    pub(crate) fn lose(&mut self, to: Destination, grams: f64) {
        if self.inputs.is_plain() && grams != 0.0 {
            self.lost.push((to, grams));
        }
    }

    /// Takes `grams` of the liquid, with all that is in it, to a destination; `total` is what there is of it.
    fn lose_liquid(&mut self, total: S, to: Destination, grams: S) {
        if total.value() <= 0.0 || grams.value() <= 0.0 {
            return;
        }
        let grams = grams.lesser(total);
        self.stream.liquid = self.stream.liquid * (-(grams / total) + 1.0);
        self.lose(to, grams.value());
    }

    /// Ends a step; what it left is kept in [`Vessel::left_by`]. Its record, where numbers are as they are.
    pub(crate) fn finish(&mut self, step: usize) -> Option<Record> {
        let left = self.left.take();
        let record = self.inputs.is_plain().then(|| self.record(left.as_deref()));
        if let Some(mut left) = left {
            left.celsius = self.stream.celsius;
            self.left_by.push(step, left);
        }
        record
    }

    /// What was done since the last record.
    fn record(&mut self, left: Option<&Stream<S>>) -> Record {
        let after = self.stream.weight() + self.ice.value();
        let record = Record {
            before: self.before,
            added: self.added,
            after,
            left: left.map_or(0.0, Stream::weight),
            lost: std::mem::take(&mut self.lost),
            celsius: self.stream.celsius.value(),
            remarks: std::mem::take(&mut self.remarks),
        };
        if let Some(ledger) = &mut self.ledger {
            let stands = self.stream.lift();
            let left = left.map_or_else(Stream::default, Stream::lift);
            ledger.end_step(&record, &stands, self.ice.value(), &left);
        }
        self.added = 0.0;
        self.before = after;
        record
    }
}
