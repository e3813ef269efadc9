//! How much will dissolve.

use std::fmt;

use crate::mixture::Mixture;
use crate::scalar::polynomial;
use crate::substance::Substance;

/// What may crystallise: a substance, or two ions as the salt that people know.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Crystal {
    /// A substance by itself.
    Of(Substance),
    /// Sodium chloride.
    Salt,
    /// Potassium chloride.
    PotassiumChloride,
}

impl Crystal {
    /// All whose solubility is known here.
    pub const ALL: [Self; 9] = [
        Self::Of(Substance::Sucrose),
        Self::Of(Substance::Glucose),
        Self::Of(Substance::Fructose),
        Self::Of(Substance::Lactose),
        Self::Of(Substance::Citric),
        Self::Of(Substance::Malic),
        Self::Of(Substance::Tartaric),
        Self::Salt,
        Self::PotassiumChloride,
    ];

    /// Grams of it in a liquid; ions count as salt as far as they go in pairs, sodium first.
    #[must_use]
    pub fn grams(self, liquid: &Mixture) -> f64 {
        let chloride = liquid.moles(Substance::Chloride);
        let salt = liquid.moles(Substance::Sodium).min(chloride);
        let molar = |ion: Substance| ion.molar_mass() + Substance::Chloride.molar_mass();
        match self {
            Self::Of(substance) => liquid.grams(substance),
            Self::Salt => salt * molar(Substance::Sodium),
            Self::PotassiumChloride => {
                let left = liquid.moles(Substance::Potassium).min(chloride - salt);
                left * molar(Substance::Potassium)
            }
        }
    }

    /// Saturated solution in water alone, mass % in crystal and water, `t` in °C; `None` where no curve
    /// is known or the temperature lies outside it.
    ///
    /// Ethanol lowers it: above 15 %vol a syrup may crystallise well below this figure.
    #[must_use]
    pub fn saturated_percent(self, t: f64) -> Option<f64> {
        let piece = curve(self).iter().find(|p| t >= p.from && t <= p.to)?;
        Some(polynomial(piece.coefficients, t).0)
    }
}

impl fmt::Display for Crystal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Of(substance) => substance.label(),
            Self::Salt => "salt",
            Self::PotassiumChloride => "potassium chloride",
        })
    }
}

/// Grams of crystal in 100 g of saturated solution, in powers of °C, between two temperatures.
struct Piece {
    coefficients: &'static [f64],
    from: f64,
    to: f64,
}

const fn piece(coefficients: &'static [f64], from: f64, to: f64) -> Piece {
    Piece {
        coefficients,
        from,
        to,
    }
}

/// Mostly from memory, each checked against what could be read: `fits/RESULTS.md` sections 8 and 10.6.
const fn curve(crystal: Crystal) -> &'static [Piece] {
    use Substance as X;
    match crystal {
        // Vavrinecz; within 0.3 of printed tables at 0…100 °C (models.md G9).
        Crystal::Of(X::Sucrose) => {
            const {
                &[piece(
                    &[64.397, 0.07251, 0.0020569, -9.035e-6],
                    -14.0,
                    100.0,
                )]
            }
        }
        // The monohydrate; Jackson and Silsbee, ± 2: other sources have 49.7 at 20 °C.
        Crystal::Of(X::Glucose) => const { &[piece(&[34.984, 0.550393, 0.00317524], 0.0, 50.0)] },
        Crystal::Of(X::Fructose) => const { &[piece(&[73.7161, 0.261214], 20.0, 50.0)] },
        // Both forms at rest, within 0.2 of printed points.
        Crystal::Of(X::Lactose) => const { &[piece(&[10.6763, 0.178463, 0.00429381], 0.0, 64.0)] },
        // The monohydrate, above 36 °C the anhydrous acid, ± 2; below 10 °C carried on.
        Crystal::Of(X::Citric) => {
            const {
                &[
                    piece(&[48.8422, 0.516275, 3.61392e-5], 0.0, 36.0),
                    piece(&[58.634, 0.247118], 36.0, 60.0),
                ]
            }
        }
        // DL; a maker's list after Apelblat and Manzurola (1995), below 15 °C carried on.
        Crystal::Of(X::Malic) => const { &[piece(&[46.7119, 0.433869, 0.000358974], 0.0, 50.0)] },
        // L, ± 1.
        Crystal::Of(X::Tartaric) => const { &[piece(&[53.4871, 0.21444, 0.00107519], 0.0, 40.0)] },
        Crystal::Of(_) => &[],
        // Below 0 °C another crystal, with water in it, forms.
        Crystal::Salt => const { &[piece(&[26.269, 0.00425496, 0.000160201], 0.0, 60.0)] },
        Crystal::PotassiumChloride => {
            const { &[piece(&[21.9146, 0.187891, -0.000516147], 0.0, 60.0)] }
        }
    }
}

/// [`Crystal::saturated_percent`] of a substance.
#[must_use]
pub fn saturated_percent(substance: Substance, t: f64) -> Option<f64> {
    Crystal::Of(substance).saturated_percent(t)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Grams;

    /// Handbook values, from memory, g in 100 g of solution at 20 °C; ± as the curves say.
    #[test]
    fn at_20_degrees() {
        for (crystal, percent, within) in [
            (Crystal::Of(Substance::Sucrose), 66.7, 0.4),
            (Crystal::Of(Substance::Glucose), 47.8, 2.0),
            (Crystal::Of(Substance::Fructose), 78.9, 0.5),
            (Crystal::Of(Substance::Lactose), 16.1, 0.5),
            (Crystal::Of(Substance::Citric), 59.2, 2.0),
            (Crystal::Of(Substance::Malic), 55.8, 1.0),
            (Crystal::Of(Substance::Tartaric), 58.2, 1.0),
            (Crystal::Salt, 26.4, 0.1),
            (Crystal::PotassiumChloride, 25.4, 0.2),
        ] {
            let found = crystal.saturated_percent(20.0).unwrap();
            assert!((found - percent).abs() < within, "{crystal}: {found}");
        }
    }

    #[test]
    fn pieces_meet() {
        for crystal in Crystal::ALL {
            for pair in curve(crystal).windows(2) {
                let step = polynomial(pair[1].coefficients, pair[1].from).0
                    - polynomial(pair[0].coefficients, pair[0].to).0;
                assert!(step.abs() < 0.1, "{crystal}: {step}");
            }
        }
    }

    #[test]
    fn ions_count_as_salt_in_pairs() {
        let sea = Mixture::of(&[
            (Substance::Sodium, Grams(22.990)),
            (Substance::Potassium, Grams(39.098)),
            (Substance::Chloride, Grams(1.5 * 35.45)),
        ]);
        assert!((Crystal::Salt.grams(&sea) - 58.44).abs() < 1e-9);
        assert!((Crystal::PotassiumChloride.grams(&sea) - 37.274).abs() < 1e-9);
    }
}
