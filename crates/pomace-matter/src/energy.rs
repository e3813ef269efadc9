//! Energy by the factors of the law.

use crate::mixture::Mixture;
use crate::scalar::Scalar;
use crate::substance::{Kind, Substance};

/// Energy of one gram: kilocalories and kilojoules, each from its own factor.
///
/// Source: Regulation (EU) No 1169/2011, Annex XIV. Phosphoric acid is no organic acid; unnamed
/// matter counts nothing.
#[must_use]
pub const fn factors(substance: Substance) -> (f64, f64) {
    match substance.kind() {
        Kind::Sugar => (4.0, 17.0),
        Kind::Polyol => (2.4, 10.0),
        Kind::Acid => match substance {
            Substance::Phosphoric => (0.0, 0.0),
            _ => (3.0, 13.0),
        },
        _ => match substance {
            Substance::Ethanol => (7.0, 29.0),
            Substance::Starch => (4.0, 17.0),
            Substance::Protein => (4.0, 17.0),
            Substance::Fat => (9.0, 37.0),
            Substance::Fibre => (2.0, 8.0),
            _ => (0.0, 0.0),
        },
    }
}

/// Energy of a mixture, kcal.
#[must_use]
pub fn kilocalories<S: Scalar>(mixture: &Mixture<S>) -> S {
    sum(mixture, |s| factors(s).0)
}

/// Energy of a mixture, kJ.
#[must_use]
pub fn kilojoules<S: Scalar>(mixture: &Mixture<S>) -> S {
    sum(mixture, |s| factors(s).1)
}

fn sum<S: Scalar>(mixture: &Mixture<S>, factor: fn(Substance) -> f64) -> S {
    let parts = mixture.iter();
    S::linear(parts.map(|(substance, grams)| (grams, factor(substance))))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Grams;

    #[test]
    fn worked_label() {
        // By hand from Annex XIV: 11.83 g ethanol, 6.5 g sugar, 0.85 g citric acid.
        let drink = Mixture::of(&[
            (Substance::Ethanol, Grams(11.83)),
            (Substance::Sucrose, Grams(6.5)),
            (Substance::Citric, Grams(0.85)),
        ]);
        assert!((kilojoules(&drink) - 464.62).abs() < 0.005);
        assert!((kilocalories(&drink) - 111.36).abs() < 0.005);
    }
}
