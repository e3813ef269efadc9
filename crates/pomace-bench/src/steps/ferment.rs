//! Ferment: yeast or bacteria at work, by mass.
//!
//! How far it goes is not predicted from time: it is told, or a usual share is taken and said to be.

use pomace_book::{FermentKind, SugarUsed};
use pomace_matter::{Mixture, Scalar, Substance};

use crate::record::Destination;
use crate::remark::{Assumption, Remark};
use crate::steps::dissolve;
use crate::vessel::Vessel;

/// Where nobody says how much sugar was used.
const USED: Assumption = Assumption::new(
    "share that the ferment uses",
    (60.0, 20.0, 95.0),
    "% of what can be used",
    "common practice, no source; weigh it before and after, the loss is the gas",
);

/// One gram of hexose makes, in g, with 91 % of the theoretical ethanol (theory 0.5114 and 0.4886;
/// models.md G3: practice 0.90 ± 0.03; the rest glycerol, yeast and acids, assumed).
const ETHANOL: f64 = 0.91 * 0.5114;
const GAS: f64 = 0.91 * 0.4886;
const GLYCEROL: f64 = 0.04;
const YEAST_AND_REST: f64 = 1.0 - ETHANOL - GAS - GLYCEROL;

/// Theory, which warnings use.
const ETHANOL_AT_MOST: f64 = 0.5114;

/// One gram of ethanol takes oxygen from the air and makes acid and water, g (molar masses).
const OXYGEN_PER_ETHANOL: f64 = 0.6946;
const ACID_PER_ETHANOL: f64 = 1.3036;

/// Drier than this no yeast works, share of the mass; assumed (honey at 20 % keeps).
const LEAST_WATER: f64 = 0.4;

/// Grams of hexose from a gram of sugar: a disaccharide takes up water.
const fn hexose_per_gram(sugar: Substance) -> f64 {
    match sugar {
        Substance::Sucrose | Substance::Maltose | Substance::Lactose => 360.312 / 342.297,
        _ => 1.0,
    }
}

/// What yeast and lactic bacteria can use. Yeast leaves lactose.
fn usable(kind: FermentKind) -> &'static [Substance] {
    use Substance as S;
    match kind {
        FermentKind::Lactic => &[
            S::Glucose,
            S::Fructose,
            S::Sucrose,
            S::Maltose,
            S::Lactose,
            S::OtherSugars,
        ],
        _ => &[
            S::Glucose,
            S::Fructose,
            S::Sucrose,
            S::Maltose,
            S::OtherSugars,
        ],
    }
}

/// Ferments what pours; pieces give up their sugar only if they were steeped or blended before.
pub(crate) fn run<S: Scalar>(
    vessel: &mut Vessel<'_, S>,
    kind: Option<FermentKind>,
    used: Option<SugarUsed>,
) {
    dissolve::run(vessel);
    let liquid = &vessel.stream.liquid;
    if liquid.grams(Substance::Water).value() < LEAST_WATER * liquid.weight().0 {
        vessel.remark(Remark::TooDryToFerment);
        return;
    }
    let kind = kind.unwrap_or(FermentKind::Alcoholic);
    let used = match used {
        Some(SugarUsed::Grams(grams)) => Used::Grams(S::from(grams)),
        Some(SugarUsed::Share(share)) => Used::Share(S::from(share)),
        None => Used::Share(vessel.assume(USED) / 100.0),
    };
    match kind {
        FermentKind::Acetic => acetic(vessel, used),
        FermentKind::Lactic => lactic(vessel, used),
        FermentKind::Alcoholic => alcoholic(vessel, used),
    }
}

/// How much of what can be used is used.
#[derive(Clone, Copy)]
enum Used<S> {
    Grams(S),
    Share(S),
}

impl<S: Scalar> Used<S> {
    /// Grams used of so many.
    fn of(self, there: S) -> S {
        match self {
            Self::Share(share) => there * share,
            Self::Grams(grams) => grams.lesser(there),
        }
    }
}

/// Takes the sugar that is used out of the liquid; gives grams of hexose, the water of
/// disaccharides counted in.
fn take_sugar<S: Scalar>(liquid: &mut Mixture<S>, kind: FermentKind, used: Used<S>) -> S {
    let mut there = S::zero();
    for sugar in usable(kind) {
        there += liquid.grams(*sugar);
    }
    if there.value() <= 0.0 {
        return S::zero();
    }
    let share = used.of(there) / there;
    let mut hexose = S::zero();
    for sugar in usable(kind) {
        let gone = liquid.grams(*sugar) * share;
        let made = gone * hexose_per_gram(*sugar);
        liquid.put(*sugar, -gone);
        liquid.put(Substance::Water, gone - made);
        hexose += made;
    }
    hexose
}

fn alcoholic<S: Scalar>(vessel: &mut Vessel<'_, S>, used: Used<S>) {
    let liquid = &mut vessel.stream.liquid;
    let mut all_hexose = S::zero();
    for sugar in usable(FermentKind::Alcoholic) {
        all_hexose += liquid.grams(*sugar) * hexose_per_gram(*sugar);
    }
    let ethanol_before = liquid.grams(Substance::Ethanol);
    let hexose = take_sugar(liquid, FermentKind::Alcoholic, used);
    liquid.put(Substance::Ethanol, hexose * ETHANOL);
    liquid.put(Substance::Glycerol, hexose * GLYCEROL);
    liquid.put(Substance::Other, hexose * YEAST_AND_REST);
    vessel.lose(Destination::Air, hexose.value() * GAS);
    // If all the sugar went, by theory: what a warning must count with.
    let volume = pomace_matter::density::volume(
        &vessel.stream.liquid.values(),
        pomace_matter::units::Celsius(20.0),
    );
    if let Ok(volume) = volume {
        let most = ethanol_before.value() + all_hexose.value() * ETHANOL_AT_MOST;
        let percent = most / volume.0 * 100_000.0 / pomace_matter::density::PURE_ETHANOL_20C;
        vessel.remark(Remark::MayFerment { percent });
    }
}

fn lactic<S: Scalar>(vessel: &mut Vessel<'_, S>, used: Used<S>) {
    let liquid = &mut vessel.stream.liquid;
    let hexose = take_sugar(liquid, FermentKind::Lactic, used);
    // Homofermentative: a gram of acid from a gram of hexose.
    liquid.put(Substance::Lactic, hexose);
}

fn acetic<S: Scalar>(vessel: &mut Vessel<'_, S>, used: Used<S>) {
    let liquid = &mut vessel.stream.liquid;
    let ethanol = liquid.grams(Substance::Ethanol);
    let gone = used.of(ethanol);
    let oxygen = gone * OXYGEN_PER_ETHANOL;
    let acid = gone * ACID_PER_ETHANOL;
    liquid.put(Substance::Ethanol, -gone);
    liquid.put(Substance::Acetic, acid);
    liquid.put(Substance::Water, gone + oxygen - acid);
    vessel.take_from_air(oxygen);
}
