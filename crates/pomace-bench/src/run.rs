//! Programs run: preps made, drinks mixed.

use pomace_book::{DocumentId, Verb};
use pomace_larder::Form;
use pomace_matter::ice::chilling::Motion;
use pomace_matter::units::Celsius;
use pomace_matter::{Outside, Scalar, density};

use crate::dose::{Dose, ShareOf, Stuff, Unmeasured};
use crate::glass::{self, GlassIce, Minute};
use crate::house::{House, ROOM};
use crate::program::{DrinkProgram, Intake, Op, Origin, PrepProgram, Program};
use crate::record::{Destination, Record};
use crate::remark::{Assumption, Remark};
use crate::shelf::Shelf;
use crate::steps::separate::Filter;
use crate::steps::{
    blend, brown, charge, clarify, dissolve, draw, dry, ferment, freeze, ice, juice, separate,
    simmer, steep, wash,
};
use crate::stream::Stream;
use crate::texture::Beaten;
use crate::vessel::Vessel;

/// A prep, made once as written.
#[derive(Clone, Debug, PartialEq)]
pub struct Made<S: Scalar = f64> {
    /// What it keeps.
    pub kept: Stream<S>,
    /// What each step left behind; an empty stream where it left nothing.
    pub left: Vec<Stream<S>>,
    /// What each step did.
    pub records: Vec<Record<S>>,
    /// What each step brought in, g.
    pub brought: Vec<S>,
    /// Density of what is kept at 20 °C, g/mL, if it pours.
    pub grams_per_ml: Option<S>,
}

/// A drink, mixed once.
#[derive(Clone, Debug, PartialEq)]
pub struct Mixed<S: Scalar = f64> {
    /// What meets the ice, as it meets it; the whole drink where there is none.
    pub before: Stream<S>,
    /// What is in the glass when it is served, without the ice it is poured over.
    pub after: Stream<S>,
    /// Water from ice, g.
    pub melt: S,
    /// Grams of each line; lines without a known amount are missing.
    pub lines: Vec<(usize, S)>,
    /// Grams of each garnish, and what of it is eaten.
    pub garnish: Vec<(usize, S, Stream<S>)>,
    /// What each step did.
    pub records: Vec<Record<S>>,
    /// Whether ice was beaten into it, to be drunk with it.
    pub slush: bool,
    /// Ice that waits in the glass.
    pub glass_ice: Option<GlassIce>,
    /// How air was beaten in, if it was.
    pub beaten: Option<Beaten>,
    /// What the glass holds brimful, mL.
    pub glass_ml: Option<f64>,
}

impl<S: Scalar> Mixed<S> {
    /// The drink by the minute over the ice in its glass; empty without ice, and where the ice takes it
    /// out of the models.
    #[must_use]
    pub fn over_time(&self) -> Vec<Minute<S>> {
        match self.glass_ice {
            Some(ice) if !self.slush && self.after.liquid.total().0.value() > 0.0 => {
                glass::over_time(&self.after, &ice).unwrap_or_default()
            }
            _ => Vec::new(),
        }
    }
}

/// Why a document has no result.
#[derive(Clone, Debug, PartialEq)]
pub enum RunError {
    /// The document is neither a prep nor a drink, or is caught in a loop of names.
    Nothing,
    /// A step took the liquid out of what the models cover.
    Outside {
        /// Index of the step.
        step: usize,
        /// What was left.
        outside: Outside,
    },
    /// A volume of something that has no known density.
    NoDensity {
        /// Where.
        place: Place,
        /// What.
        name: String,
    },
    /// Pieces of something whose weight is not known.
    NoPieceWeight {
        /// Where.
        place: Place,
        /// What.
        name: String,
    },
    /// Something that this document is made with has no result itself.
    Needs(String),
    /// A step wants a liquid, and there is none.
    NoLiquid {
        /// Index of the step.
        step: usize,
    },
}

impl RunError {
    /// What is wrong, and how to mend it.
    #[must_use]
    pub fn told(&self) -> (String, String) {
        match self {
            Self::Nothing => (
                "there is nothing to compute here".to_owned(),
                "give it lines or steps, and no loop of names".to_owned(),
            ),
            Self::Outside { outside, .. } => (
                format!("after this step {outside}"),
                "look at the amounts that go in: the models do not reach so far".to_owned(),
            ),
            Self::NoDensity { name, .. } => (
                format!("`{name}` is measured by volume, and its density is not known"),
                "weigh it, or write `density = \"1.05 g/mL\"` in its ingredient".to_owned(),
            ),
            Self::NoPieceWeight { name, .. } => (
                format!("`{name}` is counted, and the weight of one is not known"),
                "weigh it, or write `unit = \"1 = 240 g\"` in its ingredient".to_owned(),
            ),
            Self::NoLiquid { .. } => (
                "there is no liquid here that could meet ice".to_owned(),
                "let a line enter at this step or before it".to_owned(),
            ),
            Self::Needs(name) => (
                format!("`{name}`, which it is made with, gives no figures"),
                format!("mend `{name}` first"),
            ),
        }
    }
}

impl std::fmt::Display for RunError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let place = match self {
            Self::Outside { step, .. } | Self::NoLiquid { step } => Place::Step(*step).words(),
            Self::NoDensity { place, .. } | Self::NoPieceWeight { place, .. } => place.words(),
            Self::Nothing | Self::Needs(_) => String::new(),
        };
        let (message, mend) = self.told();
        if !place.is_empty() {
            write!(f, "{place}: ")?;
        }
        write!(f, "{message}; {mend}")
    }
}

impl std::error::Error for RunError {}

/// Where in a document something was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// A line of a drink.
    Line(usize),
    /// A step.
    Step(usize),
    /// A garnish.
    Garnish(usize),
}

impl Place {
    pub(crate) fn words(self) -> String {
        match self {
            Self::Line(i) => format!("line {}", i + 1),
            Self::Step(i) => format!("step {}", i + 1),
            Self::Garnish(i) => format!("garnish {}", i + 1),
        }
    }
}

/// Runs programs; preps that have been made are kept.
pub(crate) struct Runner<'a, S: Scalar> {
    pub programs: &'a [Option<Program>],
    pub names: &'a dyn Fn(DocumentId) -> String,
    pub shelf: &'a Shelf,
    pub house: &'a House,
    pub made: Vec<Option<Result<Made<S>, RunError>>>,
}

impl<S: Scalar> Runner<'_, S> {
    /// Makes a prep, and first what it is made with.
    pub(crate) fn make(&mut self, id: DocumentId) -> Result<&Made<S>, RunError> {
        if self.made.get(id.0).is_some_and(Option::is_none) {
            let result = match self.programs.get(id.0).and_then(Option::as_ref) {
                Some(Program::Prep(prep)) => self.prep(prep),
                _ => Err(RunError::Nothing),
            };
            if let Some(place) = self.made.get_mut(id.0) {
                *place = Some(result);
            }
        }
        match self.made.get(id.0).and_then(Option::as_ref) {
            Some(Ok(made)) => Ok(made),
            Some(Err(error)) => Err(error.clone()),
            None => Err(RunError::Nothing),
        }
    }

    fn prep(&mut self, program: &PrepProgram) -> Result<Made<S>, RunError> {
        let mut vessel = Vessel::empty(ROOM);
        let mut made = Made {
            kept: Stream::empty(ROOM),
            left: Vec::with_capacity(program.ops.len()),
            records: Vec::with_capacity(program.ops.len()),
            brought: Vec::with_capacity(program.ops.len()),
            grams_per_ml: None,
        };
        for (index, op) in program.ops.iter().enumerate() {
            let mut brought = S::zero();
            if let Some(intake) = &op.intake {
                let stream = self.measure(intake, Place::Step(index), &vessel, &made, &[])?;
                brought = stream.total();
                remark_dose(&mut vessel, &intake.dose, brought.value());
                vessel.put(&stream);
                if let Origin::OwnLeft(step) = intake.origin {
                    take_back(&mut made, step, &stream);
                }
            }
            self.step(op, &mut vessel)
                .map_err(|outside| RunError::Outside {
                    step: index,
                    outside,
                })?;
            let (record, left) = vessel.finish();
            made.records.push(record);
            made.left.push(left);
            made.brought.push(brought);
        }
        made.kept = vessel.stream;
        made.grams_per_ml = density::density(&made.kept.liquid, Celsius(S::from(20.0)))
            .ok()
            .map(|d| d.0 / 1000.0);
        Ok(made)
    }

    /// Mixes a drink, and first what it is made with.
    pub(crate) fn drink(&mut self, id: DocumentId) -> Result<Mixed<S>, RunError> {
        let programs = self.programs;
        let Some(Program::Drink(program)) = programs.get(id.0).and_then(Option::as_ref) else {
            return Err(RunError::Nothing);
        };
        self.mix(program)
    }

    fn mix(&mut self, program: &DrinkProgram) -> Result<Mixed<S>, RunError> {
        let none = Made {
            kept: Stream::empty(ROOM),
            left: Vec::new(),
            records: Vec::new(),
            brought: Vec::new(),
            grams_per_ml: None,
        };
        let mut vessel: Vessel<S> = Vessel::empty(ROOM);
        let mut lines: Vec<(usize, S)> = Vec::with_capacity(program.entries.len());
        let mut mixed = Mixed {
            before: Stream::empty(ROOM),
            after: Stream::empty(ROOM),
            melt: S::zero(),
            lines: Vec::new(),
            garnish: Vec::new(),
            records: Vec::with_capacity(program.ops.len()),
            slush: false,
            glass_ice: None,
            beaten: None,
            glass_ml: None,
        };
        let mut has_met_ice = false;
        for (index, op) in program.ops.iter().enumerate() {
            for entry in program.entries.iter().filter(|e| e.step == index) {
                let stream = self.measure(
                    &entry.intake,
                    Place::Line(entry.line),
                    &vessel,
                    &none,
                    &lines,
                )?;
                remark_dose(&mut vessel, &entry.intake.dose, stream.total().value());
                lines.push((entry.line, stream.total()));
                vessel.pour_in(&stream);
            }
            let outside = |outside| RunError::Outside {
                step: index,
                outside,
            };
            dissolve_into_drink(&mut vessel);
            if let Some(motion) = motion(op.verb) {
                if !has_met_ice {
                    mixed.before = vessel.stream.clone();
                    has_met_ice = true;
                }
                let grams = vessel.stream.liquid.total().0.value();
                if grams <= 0.0 {
                    return Err(RunError::NoLiquid { step: index });
                }
                let (with, assumed) =
                    self.house
                        .chilling(motion, op.ice.as_ref(), op.seconds, grams);
                for assumption in assumed {
                    vessel.remark(Remark::Assumed(assumption));
                }
                mixed.melt += ice::run(&mut vessel, &with).map_err(outside)?;
                mixed.slush |= motion == Motion::Blend;
            } else {
                self.service(op, &mut vessel, mixed.slush)
                    .map_err(outside)?;
            }
            mixed.glass_ice = op.over.or(mixed.glass_ice);
            mixed.beaten = mixed.beaten.max(beaten(op.verb));
            mixed.glass_ml = op.glass_ml.or(mixed.glass_ml);
            mixed.records.push(vessel.finish().0);
        }
        lines.sort_by_key(|(line, _)| *line);
        mixed.lines = lines;
        if !mixed.slush && vessel.stream.ice.value() > 0.0 {
            // Nobody wrote that it is strained; the ice is not drunk.
            vessel.stream.ice = S::zero();
        }
        mixed.after = vessel.stream.clone();
        if !has_met_ice {
            mixed.before = vessel.stream;
        }
        for crown in &program.crowns {
            let at = Place::Garnish(crown.place);
            let stream =
                self.measure(&crown.intake, at, &Vessel::empty(ROOM), &none, &mixed.lines)?;
            mixed.garnish.push((
                crown.place,
                stream.total(),
                stream.share(S::from(crown.eaten)),
            ));
        }
        Ok(mixed)
    }

    /// So many grams of where it comes from.
    fn measure(
        &mut self,
        intake: &Intake,
        place: Place,
        vessel: &Vessel<S>,
        made: &Made<S>,
        lines: &[(usize, S)],
    ) -> Result<Stream<S>, RunError> {
        let whole = |of: ShareOf| match of {
            ShareOf::Vessel => vessel.stream.total(),
            ShareOf::Kept(step) => match made.brought.get(step) {
                Some(brought) if brought.value() > 0.0 => *brought,
                _ => made.records.get(step).map_or(S::zero(), |r| r.after),
            },
            ShareOf::Brought(step) => made.brought.get(step).copied().unwrap_or_default(),
            ShareOf::Line(line) => lines
                .iter()
                .find(|(l, _)| *l == line)
                .map_or(S::zero(), |(_, g)| *g),
        };
        let (stream, stuff, name, density) = self.source(intake.origin, made)?;
        // A made stream's own density carries slopes; a bought one's is a constant.
        let grams = match (density, intake.dose.measure) {
            (Some(density), crate::dose::Measure::Millilitres(ml)) => Ok(density * ml),
            _ => intake.dose.grams(&stuff, whole),
        };
        let grams = grams.map_err(|error| match error {
            Unmeasured::NoDensity => RunError::NoDensity {
                place,
                name: name.clone(),
            },
            Unmeasured::NoPieceWeight => RunError::NoPieceWeight {
                place,
                name: name.clone(),
            },
        })?;
        let total = stream.total();
        if total.value() <= 0.0 {
            return Err(RunError::Needs(name));
        }
        Ok(stream.share(grams / total))
    }

    /// Matter of an origin, how it is measured, and its name.
    fn source(
        &mut self,
        origin: Origin,
        own: &Made<S>,
    ) -> Result<(Stream<S>, Stuff, String, Option<S>), RunError> {
        let stuff = |stream: &Stream<S>, grams_per_ml: Option<S>| Stuff {
            form: if stream.liquid.total().0.value() > 0.0 {
                Form::Liquid
            } else {
                Form::Pieces
            },
            grams_per_ml: grams_per_ml.map(Scalar::value),
            piece_grams: None,
        };
        match origin {
            Origin::Shelf(index) => {
                let item = self.shelf.get(index).ok_or(RunError::Nothing)?;
                let stuff = Stuff {
                    form: item.form,
                    grams_per_ml: item.grams_per_ml,
                    piece_grams: item.piece_grams,
                };
                Ok((item.gram.lift(), stuff, item.name.clone(), None))
            }
            Origin::Made(id) => {
                let name = (self.names)(id);
                let made = self.make(id).map_err(|_| RunError::Needs(name.clone()))?;
                let stuff = stuff(&made.kept, made.grams_per_ml);
                Ok((made.kept.clone(), stuff, name, made.grams_per_ml))
            }
            Origin::Left(id, step) => {
                let name = (self.names)(id);
                let made = self.make(id).map_err(|_| RunError::Needs(name.clone()))?;
                let left = made
                    .left
                    .get(step)
                    .cloned()
                    .unwrap_or_else(|| Stream::empty(ROOM));
                Ok((left.clone(), stuff(&left, None), name, None))
            }
            Origin::OwnLeft(step) => {
                let left = own
                    .left
                    .get(step)
                    .cloned()
                    .unwrap_or_else(|| Stream::empty(ROOM));
                Ok((
                    left.clone(),
                    stuff(&left, None),
                    format!("what step {} left", step + 1),
                    None,
                ))
            }
        }
    }

    /// A step of a prep.
    fn step(&self, op: &Op, vessel: &mut Vessel<S>) -> Result<(), Outside> {
        if let Some(celsius) = op.celsius {
            vessel.stream.celsius = S::from(celsius);
        }
        match op.verb {
            Verb::Dissolve | Verb::Heat => dissolve::run(vessel),
            Verb::Draw => draw::run(vessel, op.seconds),
            Verb::Steep => steep::run(vessel, op.seconds),
            Verb::Strain => separate::strain(vessel, op.filter, op.usual),
            Verb::Press => separate::press(vessel, op.filter),
            Verb::Juice => juice::run(vessel, op.usual),
            Verb::Clarify => clarify::run(vessel, op.by),
            Verb::Simmer => simmer::run(vessel, op.to, op.seconds),
            Verb::Blend | Verb::Whip => blend::run(vessel),
            Verb::Wash => wash::run(vessel),
            Verb::Ferment => ferment::run(vessel, op.ferment, op.sugar_used),
            Verb::Dry => dry::run(vessel, op.moisture, op.to),
            Verb::Toast => brown::toast(vessel),
            Verb::Torch => brown::torch(vessel),
            Verb::Freeze => freeze::freeze(vessel, op.celsius)?,
            Verb::Thaw => freeze::thaw(vessel, op.celsius),
            Verb::Charge => charge::run(vessel, op.gas, op.gauge_bar, op.celsius)?,
            // Bringing in, moving and waiting change no matter by themselves.
            Verb::Weigh
            | Verb::Add
            | Verb::Chill
            | Verb::Rest
            | Verb::Store
            | Verb::Build
            | Verb::Top
            | Verb::Pour
            | Verb::Stir
            | Verb::Shake
            | Verb::Throw
            | Verb::Swizzle
            | Verb::BlendWithIce => {}
        }
        Ok(())
    }

    /// A step of a drink that does not meet ice.
    fn service(&self, op: &Op, vessel: &mut Vessel<S>, slush: bool) -> Result<(), Outside> {
        match op.verb {
            Verb::Strain | Verb::Pour => {
                let ice = if slush {
                    S::zero()
                } else {
                    std::mem::take(&mut vessel.stream.ice)
                };
                vessel.lose(Destination::Ice, ice);
                let film = if ice.value() > 0.0 || op.filter != Filter::Sieve {
                    POURED_OFF_ICE
                } else {
                    POURED
                };
                let grams = film.value.min(0.1 * vessel.stream.liquid.total().0.value());
                vessel.lose_liquid(Destination::Drain, S::from(grams));
                vessel.remark(Remark::Assumed(film));
                Ok(())
            }
            _ => self.step(op, vessel),
        }
    }
}

/// What stays on tin, ice and sieve when a drink is poured.
const POURED_OFF_ICE: Assumption = Assumption::new(
    "liquid left on ice, tin and sieve",
    (3.0, 1.0, 6.0),
    "g",
    "common practice, no source",
);
const POURED: Assumption = Assumption::new(
    "liquid left in the vessel",
    (1.0, 0.3, 2.0),
    "g",
    "common practice, no source",
);

const fn beaten(verb: Verb) -> Option<Beaten> {
    match verb {
        Verb::Shake => Some(Beaten::Shaken),
        Verb::Whip | Verb::Blend | Verb::BlendWithIce => Some(Beaten::Whipped),
        _ => None,
    }
}

const fn motion(verb: Verb) -> Option<Motion> {
    match verb {
        Verb::Shake => Some(Motion::Shake),
        Verb::Stir => Some(Motion::Stir),
        Verb::Throw => Some(Motion::Throw),
        Verb::Swizzle => Some(Motion::Swizzle),
        Verb::BlendWithIce => Some(Motion::Blend),
        _ => None,
    }
}

/// Sugar and acid that go into a drink dry are stirred in.
fn dissolve_into_drink<S: Scalar>(vessel: &mut Vessel<S>) {
    if vessel.stream.crystals.total().0.value() > 0.0 {
        dissolve::run(vessel);
    }
}

fn remark_dose<S: Scalar>(vessel: &mut Vessel<S>, dose: &Dose, grams: f64) {
    if dose.in_question {
        vessel.remark(Remark::AmountInQuestion);
    }
    if dose.to_taste {
        vessel.remark(Remark::ToTaste);
    }
    if let Some((low, high)) = dose.range {
        let per = grams / dose.number();
        vessel.remark(Remark::MiddleOfRange {
            low: low * per,
            high: high * per,
        });
    }
}

/// A by-product that goes back in is no longer left.
fn take_back<S: Scalar>(made: &mut Made<S>, step: usize, taken: &Stream<S>) {
    if let Some(left) = made.left.get_mut(step) {
        let total = left.total();
        if total.value() > 0.0 {
            let rest = -(taken.total() / total) + 1.0;
            *left = left.share(rest.at_least(0.0));
        }
    }
}
