//! What a step does to the vessel.

use pomace_matter::{Outside, Scalar};

use crate::dose::Dose;
use crate::program::{Op, Work};
use crate::remark::Remark;
use crate::steps::{
    blend, boiling, brown, charge, clarify, dissolve, draw, dry, ferment, freeze, juice, pour,
    separate, simmer, steep, wash,
};
use crate::vessel::Vessel;

/// What a step does to the vessel.
pub(super) fn work<S: Scalar>(op: &Op, vessel: &mut Vessel<'_, S>) -> Result<(), Outside> {
    match &op.work {
        Work::Nothing | Work::Ice { .. } => {}
        Work::Dissolve => {
            dissolve::run(vessel);
            boiling::remark(vessel, op.celsius);
        }
        Work::Draw { seconds } => draw::run(vessel, *seconds),
        Work::Steep { seconds, extract } => {
            steep::run(vessel, *seconds, *extract);
            boiling::remark(vessel, op.celsius);
        }
        Work::Strain { filter, soak } => separate::strain(vessel, *filter, *soak),
        Work::Press { filter } => separate::press(vessel, *filter),
        Work::Juice { usual } => juice::run(vessel, *usual),
        Work::Clarify { by } => clarify::run(vessel, *by),
        Work::Simmer {
            to,
            seconds,
            extract,
        } => simmer::run(vessel, *to, *seconds, *extract),
        Work::Blend => blend::run(vessel),
        Work::Wash => wash::run(vessel),
        Work::Ferment { kind, used } => ferment::run(vessel, *kind, *used),
        Work::Dry { moisture, to } => dry::run(vessel, *moisture, *to),
        Work::Toast => brown::toast(vessel),
        Work::Torch => brown::torch(vessel),
        Work::Freeze { celsius } => freeze::freeze(vessel, *celsius)?,
        Work::Thaw { celsius } => freeze::thaw(vessel, *celsius),
        Work::Charge {
            gas,
            gauge_bar,
            celsius,
        } => {
            charge::run(vessel, *gas, *gauge_bar, *celsius)?;
        }
        Work::Pour { filter } => pour::run(vessel, *filter),
    }
    Ok(())
}

/// Sugar and acid that go into a drink dry are stirred in.
pub(super) fn dissolve_dry<S: Scalar>(vessel: &mut Vessel<'_, S>) {
    if vessel.stream.crystals.weight().0 > 0.0 {
        dissolve::run(vessel);
    }
}

pub(super) fn remark_dose<S: Scalar>(vessel: &mut Vessel<'_, S>, dose: &Dose, grams: f64) {
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
