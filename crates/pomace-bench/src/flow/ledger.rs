//! The ledger of a vessel: whose the grams in it are, step by step.
//!
//! What a vessel tells it is marked cold: nearly every run has none, and shall be as quick as if there were none.

use pomace_matter::{Mixture, Substance};

use super::sharing::{Out, Places, Shared, share_out, water};
use super::{Came, Exit, Flow, FlowStep, Inflow, Way};
use crate::record::{Destination, Record};
use crate::remark::Remark;
use crate::stream::{Stream, is_sap};

/// Whose the grams in a vessel are.
#[derive(Clone, Debug, Default)]
pub(crate) struct Ledger {
    inflows: Vec<Inflow>,
    steps: Vec<FlowStep>,
    /// What each inflow has in the vessel.
    held: Vec<Places>,
    /// What of it came as gas and is no substance yet, g.
    gas: Vec<f64>,
    /// What of each inflow each step left behind.
    pots: Vec<Vec<Mixture>>,
    before: Vec<f64>,
    entered: Vec<usize>,
    back: Vec<(usize, Vec<f64>)>,
}

impl Ledger {
    /// Something comes in.
    #[cold]
    pub(crate) fn enter(&mut self, from: Came, stream: Stream) {
        let places = Places {
            liquid: stream.liquid,
            crystals: stream.crystals,
            pieces: stream.pieces,
            ice: water(stream.ice),
            service: Mixture::default(),
        };
        self.comes(from, stream.total(), stream, places, 0.0);
    }

    /// Ice of the service comes in, g.
    #[cold]
    pub(crate) fn ice(&mut self, grams: f64) {
        let places = Places {
            service: water(grams),
            ..Places::default()
        };
        let stream = Stream {
            ice: grams,
            ..Stream::default()
        };
        self.comes(Came::Ice, grams, stream, places, 0.0);
    }

    /// Gas comes in, g.
    #[cold]
    pub(crate) fn gas(&mut self, grams: f64) {
        self.comes(
            Came::Gas,
            grams,
            Stream::default(),
            Places::default(),
            grams,
        );
    }

    fn comes(&mut self, from: Came, grams: f64, stream: Stream, places: Places, gas: f64) {
        if grams <= 0.0 {
            return;
        }
        self.entered.push(self.inflows.len());
        self.inflows.push(Inflow {
            from,
            step: self.steps.len(),
            grams,
            stream,
        });
        self.held.push(places);
        self.gas.push(gas);
    }

    /// So much of what a step left goes back in, as a share of what is there.
    #[cold]
    pub(crate) fn back(&mut self, step: usize, share: f64) {
        let Some(pot) = self.pots.get_mut(step) else {
            return;
        };
        let mut grams = Vec::with_capacity(pot.len());
        for (left, held) in pot.iter_mut().zip(&mut self.held) {
            let taken = *left * share;
            *left = *left * (1.0 - share).max(0.0);
            held.pieces += taken;
            grams.push(taken.total().0);
        }
        self.back.push((step, grams));
    }

    /// Pieces and liquid become one, before anything is taken from them.
    #[cold]
    pub(crate) fn stir(&mut self, stream: &Stream, service_grams: f64) {
        let after = Places {
            liquid: stream.liquid + stream.pieces,
            pieces: Mixture::default(),
            ..places_of(stream, service_grams)
        };
        self.look(&after, &Out::default());
    }

    /// Sap and liquid change places: of the sap goes `reach` into what is free, and comes back as its `share` of
    /// all. What is free goes the same way against it.
    #[cold]
    pub(crate) fn exchange(
        &mut self,
        stream: &Stream,
        service_grams: f64,
        (share, reach): (f64, f64),
    ) {
        self.look(&places_of(stream, service_grams), &Out::default());
        for held in &mut self.held {
            let sap = held.pieces.only(is_sap, false);
            let free = held.liquid.only(is_sap, false);
            let all = sap + free;
            let inside = sap * (1.0 - reach) + all * (share * reach);
            held.pieces = held.pieces.without(&sap) + inside;
            held.liquid = held.liquid.without(&free) + all.without(&inside);
        }
    }

    /// Looks at the vessel, and shares out what has moved.
    fn look(&mut self, after: &Places, out: &Out) -> Vec<Shared> {
        let shared = share_out(&self.held, &self.gas, after, out);
        for (held, shared) in self.held.iter_mut().zip(&shared) {
            held.clone_from(&shared.held);
        }
        shared
    }

    /// Ends a step: what stands in the vessel, what was set aside, and what is gone.
    #[cold]
    pub(crate) fn end_step(
        &mut self,
        record: &Record,
        stream: &Stream,
        service_grams: f64,
        left: &Stream,
    ) {
        let gone = |to: Destination| -> f64 {
            let lost = record.lost.iter().filter(|(other, _)| *other == to);
            lost.map(|(_, grams)| *grams).sum()
        };
        // What a sieve keeps it takes off the liquid as that is in the end.
        let drained = gone(Destination::Drain);
        let mut after = places_of(stream, service_grams);
        let stands = after.liquid.total().0;
        let drained_share = if stands > 0.0 {
            drained / (stands + drained)
        } else {
            0.0
        };
        if drained_share > 0.0 {
            after.liquid = after.liquid * (1.0 / (1.0 - drained_share));
        }
        let out = Out {
            aside: left.matter() + water(left.ice),
            ice: gone(Destination::Ice),
            air: gone(Destination::Air),
        };
        let there: f64 = self.held.iter().map(Places::grams).sum();
        let before = self.held.clone();
        let shared = self.look(&after, &out);
        self.gas.fill(0.0);

        let mut exits = Vec::new();
        let mut leaves = |way: Way, matter: Mixture, grams_from: Vec<f64>| {
            if grams_from.iter().sum::<f64>() > 1e-12 * there {
                exits.push(Exit {
                    way,
                    matter,
                    grams_from,
                });
            }
        };
        let total = |mixture: &Mixture| mixture.total().0;
        let aside = shared.iter().map(|s| total(&s.aside)).collect();
        leaves(Way::Aside, out.aside, aside);
        let vapour = vapour(&before, &shared, out.air);
        let air = shared.iter().map(|s| s.air).collect();
        leaves(Way::Gone(Destination::Air, ""), vapour, air);
        let mut sieve = Mixture::default();
        let mut on_sieve = Vec::with_capacity(self.held.len());
        for held in &mut self.held {
            let kept = held.liquid * drained_share;
            held.liquid = held.liquid * (1.0 - drained_share);
            on_sieve.push(total(&kept));
            sieve += kept;
        }
        leaves(Way::Gone(Destination::Drain, on(record)), sieve, on_sieve);
        let ice = shared.iter().map(|s| total(&s.ice)).collect();
        leaves(Way::Gone(Destination::Ice, ""), water(out.ice), ice);

        let stands: Vec<f64> = self.held.iter().map(Places::grams).collect();
        self.steps.push(FlowStep {
            before: std::mem::replace(&mut self.before, stands.clone()),
            entered: std::mem::take(&mut self.entered),
            back: std::mem::take(&mut self.back),
            after: stands,
            exits,
        });
        self.pots
            .push(shared.into_iter().map(|s| s.aside).collect());
    }

    /// What comes of it.
    pub(crate) fn close(self) -> Flow {
        let count = self.inflows.len();
        let full = |mut grams: Vec<f64>| {
            grams.resize(count, 0.0);
            grams
        };
        let pots = self.pots.iter();
        let left = pots.map(|pot| full(pot.iter().map(|left| left.total().0).collect()));
        let mut steps = self.steps;
        for step in &mut steps {
            for grams in [&mut step.before, &mut step.after] {
                grams.resize(count, 0.0);
            }
            for (_, grams) in &mut step.back {
                grams.resize(count, 0.0);
            }
            for exit in &mut step.exits {
                exit.grams_from.resize(count, 0.0);
            }
        }
        Flow {
            left: left.collect(),
            kept: full(self.before),
            inflows: self.inflows,
            steps,
        }
    }
}

fn places_of(stream: &Stream, service_grams: f64) -> Places {
    Places {
        liquid: stream.liquid,
        crystals: stream.crystals,
        pieces: stream.pieces,
        ice: water(stream.ice),
        service: water(service_grams),
    }
}

/// What went into the air: the water and the spirit that are missing, or the gas of a ferment, in which what
/// is missing has become other things too.
fn vapour(before: &[Places], shared: &[Shared], grams: f64) -> Mixture {
    if grams <= 0.0 {
        return Mixture::default();
    }
    let mut missing = Mixture::default();
    for volatile in [Substance::Water, Substance::Ethanol] {
        let of = |places: &Places| {
            [&places.liquid, &places.crystals, &places.pieces]
                .map(|place| place.grams(volatile))
                .iter()
                .sum::<f64>()
        };
        let was: f64 = before.iter().map(of).sum();
        let is: f64 = shared
            .iter()
            .map(|s| of(&s.held) + s.aside.grams(volatile))
            .sum();
        if was > is {
            missing.set(volatile, was - is);
        }
    }
    let found = missing.total().0;
    if (found - grams).abs() <= 1e-6 * grams.max(1e-3) {
        return missing;
    }
    let mut gas = Mixture::default();
    gas.set(Substance::CarbonDioxide, grams);
    gas
}

/// What the liquid stayed on.
fn on(record: &Record) -> &'static str {
    let said = record.remarks.iter().find_map(|remark| match remark {
        Remark::FixedLoss { on, .. } => Some(*on),
        _ => None,
    });
    said.unwrap_or("")
}
