//! What ethanol does to the activity of water.
//!
//! Freezing points are the best data there are: ln a_w at the freezing point *is* the ice line. So
//! the osmotic coefficient Φ of ethanol is read off the freezing table, laid through its points
//! as a monotone cubic, and carried to other temperatures with the heat of mixing (models.md B2).

use std::sync::LazyLock;

use super::{WATER_KG_PER_MOL, ice_line};
use crate::heat::mixing::HeatOfWater;
use crate::scalar::{Scalar, Sloped, polynomial};
use crate::substance::Substance;
use crate::units::{GAS_CONSTANT, ICE_POINT_KELVIN};

/// Freezing-point depressions of ethanol in water: mass % and K.
/// Source: CRC Handbook 102nd ed., "Concentrative properties of aqueous solutions".
const FREEZING: [(f64, f64); 16] = [
    (4.0, 1.65),
    (8.0, 3.47),
    (12.0, 5.56),
    (16.0, 8.01),
    (20.0, 10.92),
    (24.0, 14.47),
    (28.0, 18.43),
    (32.0, 22.44),
    (36.0, 25.98),
    (40.0, 29.26),
    (44.0, 32.68),
    (50.0, 37.67),
    (56.0, 42.06),
    (60.0, 44.93),
    (64.0, 47.52),
    (68.0, 49.52),
];

/// A monotone piecewise cubic through points (Fritsch and Carlson 1980, SIAM J. Numer. Anal.
/// 17:238; slopes by the weighted harmonic mean).
struct MonotoneCubic {
    x: Vec<f64>,
    y: Vec<f64>,
    slope: Vec<f64>,
}

impl MonotoneCubic {
    fn through(points: &[(f64, f64)]) -> Self {
        let (x, y): (Vec<f64>, Vec<f64>) = points.iter().copied().unzip();
        let chord: Vec<(f64, f64)> = points
            .windows(2)
            .map(|w| (w[1].0 - w[0].0, (w[1].1 - w[0].1) / (w[1].0 - w[0].0)))
            .collect();
        let end = |(h0, d0): (f64, f64), (h1, d1): (f64, f64)| {
            let slope = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
            if slope * d0 <= 0.0 {
                0.0
            } else if d0 * d1 < 0.0 && slope.abs() > 3.0 * d0.abs() {
                3.0 * d0
            } else {
                slope
            }
        };
        let mut slope = Vec::with_capacity(x.len());
        slope.push(end(chord[0], chord[1]));
        for pair in chord.windows(2) {
            let ((h0, d0), (h1, d1)) = (pair[0], pair[1]);
            let (w0, w1) = (2.0 * h1 + h0, h1 + 2.0 * h0);
            slope.push(if d0 * d1 > 0.0 {
                (w0 + w1) / (w0 / d0 + w1 / d1)
            } else {
                0.0
            });
        }
        slope.push(end(chord[chord.len() - 1], chord[chord.len() - 2]));
        Self { x, y, slope }
    }

    /// Value and slope; past the last point a straight line.
    fn at(&self, x: f64) -> (f64, f64) {
        let last = self.x.len() - 1;
        if x >= self.x[last] {
            return (
                self.y[last] + self.slope[last] * (x - self.x[last]),
                self.slope[last],
            );
        }
        let i = self.x.partition_point(|k| *k <= x).clamp(1, last) - 1;
        let h = self.x[i + 1] - self.x[i];
        let u = (x - self.x[i]) / h;
        let (m0, m1) = (self.slope[i] * h, self.slope[i + 1] * h);
        let rise = self.y[i + 1] - self.y[i];
        let (a, b) = (3.0 * rise - 2.0 * m0 - m1, m0 + m1 - 2.0 * rise);
        (
            self.y[i] + u * (m0 + u * (a + u * b)),
            (m0 + u * (2.0 * a + 3.0 * u * b)) / h,
        )
    }
}

/// Φ against molality.
static OSMOTIC: LazyLock<MonotoneCubic> = LazyLock::new(|| {
    let mut points = vec![(0.0, 1.0)];
    points.extend(FREEZING.map(|(percent, depression)| {
        let molality = percent / (100.0 - percent) / Substance::Ethanol.molar_mass() * 1000.0;
        let ln_a = ice_line::ln_activity(ICE_POINT_KELVIN - depression);
        (molality, -ln_a / (WATER_KG_PER_MOL * molality))
    }));
    MonotoneCubic::through(&points)
});

/// First guess of the freezing depression, K, in powers of ln a from the first: within 0.006 K of
/// the ice line to −58 °C, so that two Newton steps end on it.
const FIRST_GUESS: [f64; 3] = [103.30030, 6.10497, 4.56170];

/// The temperature, K, at which ice is in balance with water of this ln a.
fn freezing_kelvin<S: Scalar>(ln_activity: S) -> S {
    let wanted = ln_activity.value();
    let mut kelvin = ICE_POINT_KELVIN + wanted * polynomial(&FIRST_GUESS, wanted).0;
    let mut slope = 1.0;
    for _ in 0..20 {
        let line = ice_line::ln_activity(Sloped::<1>::variable(kelvin, 0));
        slope = line.slopes[0];
        let step = (wanted - line.value) / slope;
        kelvin += step;
        // Newton squares its error: what is left after this step is below 1e-13 K.
        if step.abs() < 1e-5 {
            break;
        }
    }
    ln_activity.chain(kelvin, 1.0 / slope)
}

/// Where water with so much ethanol, mol/kg, and nothing else freezes, K.
pub(super) fn freezing_of_spirit<S: Scalar>(molality: S) -> S {
    freezing_kelvin(ln_at_freezing(molality))
}

/// ln a at the freezing point itself: −M_w b Φ(b).
fn ln_at_freezing<S: Scalar>(molality: S) -> S {
    let (phi, slope) = OSMOTIC.at(molality.value());
    molality * molality.chain(phi, slope) * -WATER_KG_PER_MOL
}

/// The part of ethanol in ln a_w, ready for any temperature.
#[derive(Clone, Copy, Debug)]
pub(super) struct EthanolTerm<S> {
    at_freezing: S,
    freezing_kelvin: S,
    heat: HeatOfWater<S>,
}

impl<S: Scalar> EthanolTerm<S> {
    /// For `molality` mol of ethanol per kg of water; `None` where there is none.
    pub(super) fn new(molality: S) -> Option<Self> {
        if molality.value() <= 0.0 {
            return None;
        }
        let at_freezing = ln_at_freezing(molality);
        let moles_of_water = 1.0 / WATER_KG_PER_MOL;
        Some(Self {
            at_freezing,
            freezing_kelvin: freezing_kelvin(at_freezing),
            heat: HeatOfWater::of(molality / (molality + moles_of_water)),
        })
    }

    /// ln a at `kelvin`: −M_w b Φ(b) + (H_w/R)(1/T − 1/T_L), H_w midway between T and T_L.
    pub(super) fn ln_activity(&self, kelvin: S) -> S {
        let heat = self
            .heat
            .at((kelvin + self.freezing_kelvin) * 0.5 - ICE_POINT_KELVIN);
        let one = S::from(1.0);
        self.at_freezing + heat / GAS_CONSTANT * (one / kelvin - one / self.freezing_kelvin)
    }

    pub(super) fn convert<T: Scalar>(&self, with: impl Fn(S) -> T) -> EthanolTerm<T> {
        EthanolTerm {
            at_freezing: with(self.at_freezing),
            freezing_kelvin: with(self.freezing_kelvin),
            heat: HeatOfWater {
                at_25c: with(self.heat.at_25c),
                slope: with(self.heat.slope),
                curve: with(self.heat.curve),
            },
        }
    }
}
