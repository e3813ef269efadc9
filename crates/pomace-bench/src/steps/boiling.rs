//! What an open vessel can reach: no more than the point at which its liquid boils.

use pomace_matter::activity::water_activity;
use pomace_matter::units::{Celsius, ICE_POINT_KELVIN};
use pomace_matter::vapour::boiling_kelvin;
use pomace_matter::{Scalar, Substance};

use crate::remark::Remark;
use crate::vessel::Vessel;

/// The air at sea level, kPa.
const AIR: f64 = 101.325;

/// A kitchen thermometer, the weather and the height above the sea are off by so much, °C.
const NEAR: f64 = 2.0;

/// Says where a liquid boils that is told to be hotter than that. Spirit lowers the point; what is dissolved
/// raises it by what it takes from the water's activity (that at 25 °C is taken, so a thick syrup is off by
/// a degree or two).
pub(crate) fn remark<S: Scalar>(vessel: &mut Vessel<'_, S>, told: Option<f64>) {
    let Some(told) = told.filter(|told| *told > 70.0) else {
        return;
    };
    let liquid = vessel.stream.liquid.values();
    let (ethanol, water) = (
        liquid.moles(Substance::Ethanol),
        liquid.moles(Substance::Water),
    );
    // Without spirit nothing boils below the point of water.
    if water <= 0.0 || (ethanol <= 0.0 && told <= 100.0) {
        return;
    }
    let activity = water_activity(&liquid, Celsius(25.0)).ok();
    let activity = activity
        .filter(|a| ethanol <= 0.0 && *a > 0.3)
        .unwrap_or(1.0);
    let boils = boiling_kelvin(ethanol / (ethanol + water), AIR / activity) - ICE_POINT_KELVIN;
    if told > boils + NEAR {
        vessel.remark(Remark::AboveBoiling { told, boils });
    }
}
