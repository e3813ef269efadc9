//! What sugars, polyols and acids do to the activity of water: Norrish's equation.
//!
//! ln a = ln x_w − (Σ √kⱼ xⱼ)² + Σ pⱼ xⱼ²/(1 + qⱼ xⱼ), mole fractions over water and these solutes,
//! ethanol left out (models.md B3). k describes solutes that hold water back, p those that push it.

use crate::mixture::Mixture;
use crate::scalar::Scalar;
use crate::substance::{Kind, Substance};
use crate::units::ICE_POINT_KELVIN;

/// k = (hold + colder (25 °C − t)) / (1 + crowd x), p = push, and q = [`LACTIC_EASE`] of lactic acid.
struct Constants {
    hold: f64,
    colder: f64,
    crowd: f64,
    push: f64,
}

/// How lactic acid's push eases where it is crowded: without it a_w would pass 1 before 90 %. To 20 %
/// by freezing points, beyond by judgement: ± 0.01 at 50 % (`fits/RESULTS.md` section 10.5).
const LACTIC_EASE: f64 = 4.0;

const NONE: Constants = Constants {
    hold: 0.0,
    colder: 0.0,
    crowd: 0.0,
    push: 0.0,
};

const fn hold(hold: f64) -> Constants {
    Constants { hold, ..NONE }
}

/// Fitted to CRC freezing points, glycerol to Melinder's too (`fits/RESULTS.md`, section 4); malic
/// and tartaric acid from memory (25 °C constants of Chirife and co-workers), weak.
const fn constants(substance: Substance) -> Constants {
    use Substance as X;
    match substance {
        X::Sucrose => Constants {
            hold: 6.47,
            colder: 0.034,
            ..NONE
        },
        X::Glucose | X::OtherSugars => hold(2.74),
        X::Fructose => hold(2.12),
        X::Maltose => hold(7.115),
        X::Lactose => hold(9.5),
        X::Glycerol => Constants {
            hold: 2.1539,
            colder: 0.0331,
            crowd: 6.0389,
            push: 0.0,
        },
        X::Polyols => hold(1.78),
        X::Citric => hold(1.9),
        X::Tartaric => hold(4.7),
        X::Malic | X::Ascorbic | X::OtherAcids => hold(1.8),
        X::Phosphoric => hold(9.68),
        X::Lactic => Constants { push: 3.0, ..NONE },
        X::Acetic => Constants {
            push: 1.213,
            ..NONE
        },
        _ => NONE,
    }
}

/// Whether a substance counts here at all.
const fn counts(substance: Substance) -> bool {
    matches!(
        substance.kind(),
        Kind::Sugar | Kind::Polyol | Kind::Acid | Kind::Gas
    ) || matches!(substance, Substance::Caffeine)
}

/// Dissolved molecules, counted; the water may vary.
#[derive(Clone, Copy, Debug)]
pub(super) struct Molecules<S> {
    moles: S,
    sucrose: S,
    glycerol: S,
    /// Σ √k n of all but these two.
    hold: S,
    /// Σ p n² of all but lactic acid.
    push: S,
    lactic: S,
    /// Weighted moles that push ethanol out of the water.
    salting: S,
}

impl<S: Scalar> Molecules<S> {
    pub(super) fn of(liquid: &Mixture<S>) -> Self {
        let there = liquid
            .iter()
            .filter(|(substance, grams)| counts(*substance) && grams.value() > 0.0);
        // Σ weight n
        let weighted = |weight: fn(Substance) -> f64| {
            let parts = there.clone();
            S::linear(parts.map(|(s, grams)| (grams, weight(s) / s.molar_mass())))
        };
        let mut push = S::zero();
        for (substance, grams) in there.clone() {
            let constants = constants(substance);
            if constants.push > 0.0 && substance != Substance::Lactic {
                push += (grams / substance.molar_mass()).squared() * constants.push;
            }
        }
        Self {
            moles: weighted(|_| 1.0),
            sucrose: liquid.moles(Substance::Sucrose),
            glycerol: liquid.moles(Substance::Glycerol),
            hold: weighted(|substance| match substance {
                Substance::Sucrose | Substance::Glycerol => 0.0,
                _ => constants(substance).hold.sqrt(),
            }),
            push,
            lactic: liquid.moles(Substance::Lactic),
            salting: weighted(|substance| match (substance, substance.kind()) {
                (Substance::Sucrose, _) => 1.0,
                (_, Kind::Sugar | Kind::Polyol | Kind::Acid) => 0.6,
                _ => 0.0,
            }),
        }
    }

    /// Weighted moles for the salting-out of ethanol.
    pub(super) fn for_salting_out(&self) -> S {
        self.salting
    }

    /// In so many moles of water.
    pub(super) fn in_water(&self, water: S) -> Option<MoleculeTerm<S>> {
        if self.moles.value() <= 0.0 {
            return None;
        }
        let all = water + self.moles;
        let share = |n: S, substance: Substance| {
            let x = n / all;
            x / (x * constants(substance).crowd + 1.0).sqrt()
        };
        let mut push = self.push / (all * all);
        if self.lactic.value() > 0.0 {
            let x = self.lactic / all;
            let eased = x * constants(Substance::Lactic).push / (x * LACTIC_EASE + 1.0);
            push += x * eased;
        }
        Some(MoleculeTerm {
            ln_water_fraction: (water / all).ln(),
            sucrose: share(self.sucrose, Substance::Sucrose),
            glycerol: share(self.glycerol, Substance::Glycerol),
            hold: self.hold / all,
            push,
        })
    }

    pub(super) fn convert<T: Scalar>(&self, with: impl Fn(S) -> T) -> Molecules<T> {
        Molecules {
            moles: with(self.moles),
            sucrose: with(self.sucrose),
            glycerol: with(self.glycerol),
            hold: with(self.hold),
            push: with(self.push),
            lactic: with(self.lactic),
            salting: with(self.salting),
        }
    }
}

/// The part of dissolved molecules in ln a_w, ready for any temperature.
#[derive(Clone, Copy, Debug)]
pub(super) struct MoleculeTerm<S> {
    ln_water_fraction: S,
    /// x / √(1 + crowd x) of the two whose k moves with temperature.
    sucrose: S,
    glycerol: S,
    /// Σ √k x of all others.
    hold: S,
    push: S,
}

impl<S: Scalar> MoleculeTerm<S> {
    pub(super) fn ln_activity(&self, kelvin: S) -> S {
        let colder = -kelvin + (ICE_POINT_KELVIN + 25.0);
        let mut hold = self.hold;
        for (substance, x) in [
            (Substance::Sucrose, self.sucrose),
            (Substance::Glycerol, self.glycerol),
        ] {
            if x.value() > 0.0 {
                let constants = constants(substance);
                let k = (colder * constants.colder + constants.hold).at_least(0.0);
                hold += x * k.sqrt();
            }
        }
        self.ln_water_fraction - hold * hold + self.push
    }

    pub(super) fn convert<T: Scalar>(&self, with: impl Fn(S) -> T) -> MoleculeTerm<T> {
        MoleculeTerm {
            ln_water_fraction: with(self.ln_water_fraction),
            sucrose: with(self.sucrose),
            glycerol: with(self.glycerol),
            hold: with(self.hold),
            push: with(self.push),
        }
    }
}
