//! Which gram came from where, and where it ended: the flow of a prep or a drink.
//!
//! A run counts grams of each substance and forgets whose they were. Asked for its flow, it also keeps a
//! ledger: what each addition has in the liquid, in the pieces, dry and in the ice. The ledger has no model of
//! its own. It looks at the vessel after each step and shares out what has moved ([`sharing`]): matter stays
//! where it is as far as it can, what moves comes from where there is too much, and what turns into something
//! else is shared by mass. Where a step stirs all together, or two liquids change places, it tells the ledger.
//!
//! A run that is not asked pays for nothing but the question.

mod ledger;
mod sharing;

pub(crate) use ledger::Ledger;

use pomace_book::{DocumentId, Spot};
use pomace_matter::Mixture;

use crate::bench::Bench;
use crate::error::RunError;
use crate::inputs::Inputs;
use crate::record::Destination;
use crate::stream::Stream;

/// A prep or a drink by where its grams come from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Flow {
    /// Everything that came in, in the order in which it came.
    pub inflows: Vec<Inflow>,
    /// What each step did.
    pub steps: Vec<FlowStep>,
    /// What is left of each step's by-product at the end, g from each inflow; nothing where it left nothing,
    /// or where a later step took it.
    pub left: Vec<Vec<f64>>,
    /// What is kept, or served: g from each inflow.
    pub kept: Vec<f64>,
}

/// Something that came in.
#[derive(Clone, Debug, PartialEq)]
pub struct Inflow {
    /// What it is.
    pub from: Came,
    /// The step at which it came, counted from 0.
    pub step: usize,
    /// Its mass, g.
    pub grams: f64,
    /// Its matter as it came; empty where it is no substance that is counted, as oxygen.
    pub stream: Stream,
}

/// What came in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Came {
    /// What a line or a step of the document calls for.
    Spot(Spot),
    /// Ice, with the water on it.
    Ice,
    /// Gas of the air or of a cylinder.
    Gas,
}

/// One step: what came in, and what went.
#[derive(Clone, Debug, PartialEq)]
pub struct FlowStep {
    /// In the vessel before, g from each inflow.
    pub before: Vec<f64>,
    /// What came in: its place among the inflows.
    pub entered: Vec<usize>,
    /// By-products that went back in: the step that left them, and g from each inflow.
    pub back: Vec<(usize, Vec<f64>)>,
    /// In the vessel after, g from each inflow.
    pub after: Vec<f64>,
    /// What left the vessel.
    pub exits: Vec<Exit>,
}

/// What left the vessel at a step.
#[derive(Clone, Debug, PartialEq)]
pub struct Exit {
    /// How it left.
    pub way: Way,
    /// Its matter.
    pub matter: Mixture,
    /// g from each inflow.
    pub grams_from: Vec<f64>,
}

/// How something leaves a vessel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Set aside: what a strainer or a press leaves, a by-product.
    Aside,
    /// Gone to a destination, and on what: `cloth`, `jug and blade`; empty for vapour and ice.
    Gone(Destination, &'static str),
}

impl Exit {
    /// Its mass, g.
    #[must_use]
    pub fn grams(&self) -> f64 {
        self.grams_from.iter().sum()
    }
}

impl FlowStep {
    /// Mass that does not close, g: what was there and came in, less what stands there and has left. Zero but
    /// for rounding.
    #[must_use]
    pub fn gap(&self, flow: &Flow) -> f64 {
        let sum = |grams: &Vec<f64>| grams.iter().sum::<f64>();
        let entered = self.entered.iter().filter_map(|at| flow.inflows.get(*at));
        let came = entered.map(|inflow| inflow.grams).sum::<f64>()
            + self.back.iter().map(|(_, grams)| sum(grams)).sum::<f64>();
        let went: f64 = self.exits.iter().map(Exit::grams).sum();
        sum(&self.before) + came - sum(&self.after) - went
    }
}

impl Bench<'_> {
    /// A prep or a drink as it is written, by where its grams come from. What it is made with counts as one
    /// thing each: their own flows are theirs.
    ///
    /// # Errors
    /// As [`Bench::prep`] and [`Bench::drink`].
    pub fn flow(&self, id: DocumentId) -> Result<Flow, RunError> {
        let is_drink = self.program(id).is_some_and(|program| program.is_drink);
        let kept = |other: DocumentId| self.prep(other);
        let inputs = Inputs::values();
        self.run::<f64, _>(&inputs, Some(&kept), |runner| {
            runner.ledger = Some(Box::default());
            if is_drink {
                runner.drink(id)?;
            } else {
                runner.prep(id)?;
            }
            let ledger = runner.ledger.take().ok_or(RunError::Nothing)?;
            Ok(ledger.close())
        })
    }
}
