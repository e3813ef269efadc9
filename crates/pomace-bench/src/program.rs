//! Documents compiled: names looked up, defaults chosen, amounts read. What is left is arithmetic.

use std::sync::Arc;

use pomace_book::{ClarifyBy, DocumentId, FermentKind, Gas, Ice, Spot, SugarUsed, Target, Verb};
use pomace_matter::ice::chilling::Motion;

use crate::dose::Dose;
use crate::glass::GlassIce;
use crate::remark::Assumption;
use crate::steps::separate::Filter;
use crate::texture::Beaten;

/// Where matter comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Origin {
    /// An item of the shelf.
    Shelf(usize),
    /// What a prep keeps.
    Made(DocumentId),
    /// What a step of a prep leaves.
    Left(DocumentId, usize),
    /// What an earlier step of the same document left.
    OwnLeft(usize),
}

impl Origin {
    /// Whether it is a by-product.
    pub(crate) const fn is_left(self) -> bool {
        matches!(self, Self::Left(..) | Self::OwnLeft(_))
    }
}

/// Matter that comes in.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Intake {
    pub spot: Spot,
    pub origin: Origin,
    /// What it is called.
    pub called: Arc<str>,
    pub dose: Dose,
    /// The step at which it comes in.
    pub step: usize,
}

/// What a step does, with everything it needs to know.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Work {
    /// Bringing in, moving and waiting change no matter by themselves.
    Nothing,
    Dissolve,
    Draw {
        seconds: Option<f64>,
    },
    Steep {
        seconds: Option<f64>,
        extract: Option<Assumption>,
    },
    Strain {
        filter: Filter,
        soak: Option<Assumption>,
    },
    Press {
        filter: Filter,
    },
    Juice {
        usual: Option<Assumption>,
    },
    Clarify {
        by: Option<ClarifyBy>,
    },
    Simmer {
        to: Option<Target>,
        seconds: Option<f64>,
        extract: Option<Assumption>,
    },
    Blend,
    Wash,
    Ferment {
        kind: Option<FermentKind>,
        used: Option<SugarUsed>,
    },
    Dry {
        moisture: Option<f64>,
        to: Option<Target>,
    },
    Toast,
    Torch,
    Freeze {
        celsius: Option<f64>,
    },
    Thaw {
        celsius: Option<f64>,
    },
    Charge {
        gas: Option<Gas>,
        gauge_bar: Option<f64>,
        celsius: Option<f64>,
    },
    /// Shake, stir and their like.
    Ice {
        motion: Motion,
        ice: Option<Ice>,
        seconds: Option<f64>,
    },
    /// Off the ice and through a sieve, into a glass or not.
    Pour {
        filter: Filter,
    },
}

/// One step, compiled.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Op {
    pub verb: Verb,
    pub work: Work,
    pub celsius: Option<f64>,
    /// Ice that waits in the glass.
    pub over: Option<GlassIce>,
    pub glass_ml: Option<f64>,
}

impl Op {
    /// How the step beats air in.
    pub(crate) const fn beaten(&self) -> Option<Beaten> {
        match self.verb {
            Verb::Shake => Some(Beaten::Shaken),
            Verb::Whip | Verb::Blend | Verb::BlendWithIce => Some(Beaten::Whipped),
            _ => None,
        }
    }
}

/// A garnish, compiled.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Crown {
    pub intake: Intake,
    /// Share that is eaten.
    pub eaten: f64,
    /// Its place among the garnishes of the document.
    pub place: usize,
}

/// A prep or a drink, compiled.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Program {
    pub ops: Vec<Op>,
    /// Everything that comes in, in the order of the document.
    pub intakes: Vec<Intake>,
    pub crowns: Vec<Crown>,
    /// What is in it by an amount that nobody knows: no gram of it is counted, its allergens are.
    pub traces: Vec<Origin>,
    /// Whether it is a drink: poured together at its temperatures, with ice that is not drunk.
    pub is_drink: bool,
}

impl Program {
    /// Where all that it takes comes from.
    pub(crate) fn origins(&self) -> impl Iterator<Item = Origin> {
        let intakes = self.intakes.iter();
        let crowns = self.crowns.iter().map(|crown| &crown.intake);
        let taken = intakes.chain(crowns).map(|intake| intake.origin);
        taken.chain(self.traces.iter().copied())
    }
}
