//! Matter that flows: what is in a vessel, by how it is held.

use pomace_larder::{Allergen, Basis};
use pomace_matter::heat::HeatCarriers;
use pomace_matter::substance::{Kind, Substance};
use pomace_matter::{Mixture, Scalar, Sloped};

use crate::portion::Portion;

/// What travels with matter and is not matter.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Carried {
    /// Allergens that are surely in it, one bit per class.
    pub allergens: Allergens,
    /// Allergens that may be in it: read the label.
    pub possible: Allergens,
    /// Where it came from: indices into the shelf of the bench, sorted.
    pub origins: Vec<u32>,
    /// The weakest basis of what is in it.
    pub basis: Option<Basis>,
}

impl Carried {
    /// Takes on what another stream carries.
    pub fn join(&mut self, other: &Self) {
        self.allergens.0 |= other.allergens.0;
        self.possible.0 |= other.possible.0;
        for origin in &other.origins {
            if let Err(place) = self.origins.binary_search(origin) {
                self.origins.insert(place, *origin);
            }
        }
        self.basis = self.basis.max(other.basis);
    }
}

impl Carried {
    /// The allergens that may be in it and are not surely in it.
    pub fn maybe(&self) -> impl Iterator<Item = Allergen> {
        self.possible.without(self.allergens).iter()
    }
}

/// A set of allergen classes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Allergens(u16);

impl Allergens {
    /// Adds a class.
    pub fn put(&mut self, allergen: Allergen) {
        self.0 |= 1 << allergen as u16;
    }

    /// Whether the class is in it.
    #[must_use]
    pub fn has(self, allergen: Allergen) -> bool {
        self.0 & (1 << allergen as u16) != 0
    }

    /// The classes in it, in the order of the law's annex.
    pub fn iter(self) -> impl Iterator<Item = Allergen> {
        Allergen::ALL.into_iter().filter(move |a| self.has(*a))
    }

    /// Those that are not in `other`.
    #[must_use]
    pub fn without(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }
}

/// What is in a vessel.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stream<S: Scalar = f64> {
    /// What pours: the liquid, all that is dissolved in it, and fine particles.
    pub liquid: Mixture<S>,
    /// Dry solids that could dissolve and have not.
    pub crystals: Mixture<S>,
    /// Pieces: tissue with its own sap, grounds, leaves.
    pub pieces: Mixture<S>,
    /// Ice, g.
    pub ice: S,
    /// Temperature, °C.
    pub celsius: S,
    /// What travels along.
    pub carried: Carried,
}

impl<S: Scalar> Stream<S> {
    /// An empty vessel at a temperature, °C.
    #[must_use]
    pub fn empty(celsius: f64) -> Self {
        Self {
            celsius: S::from(celsius),
            ..Self::default()
        }
    }

    /// The whole mass, g.
    #[must_use]
    pub fn total(&self) -> S {
        self.liquid.total().0 + self.crystals.total().0 + self.pieces.total().0 + self.ice
    }

    /// The whole mass without its slopes, g.
    #[must_use]
    pub fn weight(&self) -> f64 {
        let held = [&self.liquid, &self.crystals, &self.pieces];
        held.map(|matter| matter.weight().0).iter().sum::<f64>() + self.ice.value()
    }

    /// Everything in it but the ice as one mixture.
    #[must_use]
    pub fn matter(&self) -> Mixture<S> {
        self.liquid + self.crystals + self.pieces
    }

    /// A share of it; what travels along stays whole.
    #[must_use]
    pub fn share(&self, factor: S) -> Self {
        Self {
            liquid: self.liquid * factor,
            crystals: self.crystals * factor,
            pieces: self.pieces * factor,
            ice: self.ice * factor,
            celsius: self.celsius,
            carried: self.carried.clone(),
        }
    }

    /// The same stream in another number type.
    #[must_use]
    pub fn convert<T: Scalar>(&self, mut with: impl FnMut(S) -> T) -> Stream<T> {
        Stream {
            liquid: self.liquid.convert(&mut with),
            crystals: self.crystals.convert(&mut with),
            pieces: self.pieces.convert(&mut with),
            ice: with(self.ice),
            celsius: with(self.celsius),
            carried: self.carried.clone(),
        }
    }

    /// The same stream in another number type, as a constant.
    #[must_use]
    pub fn lift<T: Scalar>(&self) -> Stream<T> {
        self.convert(|number| T::from(number.value()))
    }

    /// Pours a portion in. The temperature is that of both together, the heat of mixing of spirit and water
    /// included; ice does not take part.
    pub(crate) fn pour_in(&mut self, portion: &Portion<'_, S>) {
        let celsius = self.temperature_with(portion);
        portion.put_into(self);
        self.celsius = celsius;
    }

    /// Adds so many times another stream without looking at the temperature.
    pub fn put_times(&mut self, other: &Self, times: S) {
        self.liquid.put_times(&other.liquid, times);
        self.crystals.put_times(&other.crystals, times);
        self.pieces.put_times(&other.pieces, times);
        self.ice += other.ice * times;
        self.carried.join(&other.carried);
    }

    /// Adds another stream without looking at the temperature.
    pub fn put(&mut self, other: &Self) {
        self.liquid += &other.liquid;
        self.crystals += &other.crystals;
        self.pieces += &other.pieces;
        self.ice += other.ice;
        self.carried.join(&other.carried);
    }

    /// What holds its heat: the liquid, and all else but ice.
    pub(crate) fn heat_carriers(&self) -> [HeatCarriers<S>; 2] {
        let of = HeatCarriers::of;
        [of(&self.liquid), of(&self.pieces) + of(&self.crystals)]
    }

    fn temperature_with(&self, portion: &Portion<'_, S>) -> S {
        let held = [&self.liquid, &self.crystals, &self.pieces];
        if held.into_iter().all(|matter| matter.weight().0 <= 0.0) {
            return portion.celsius();
        }
        let (own, others) = (self.heat_carriers(), portion.heat_carriers());
        let both = [own[0] + others[0], own[1] + others[1]];
        let plain = both.map(|carriers| carriers.convert(|g| Sloped::<1>::from(g.value())));
        let heat = heat_of(&own, self.celsius) + heat_of(&others, portion.celsius());
        let (mut t, mut slope) = (self.celsius.value(), 1.0);
        for _ in 0..20 {
            let f = heat_of(&plain, Sloped::<1>::variable(t, 0));
            slope = f.slopes[0];
            if slope <= 0.0 {
                return self.celsius;
            }
            let step = ((heat.value() - f.value) / slope).clamp(-60.0, 60.0);
            t += step;
            // Newton squares its error: what is left after this step is below 1e-10 K.
            if step.abs() < 1e-4 {
                break;
            }
        }
        S::implicit(t, heat_of(&both, S::from(t)) - heat, slope)
    }
}

/// The heat of a liquid and of what is not, J, at a temperature in °C.
fn heat_of<S: Scalar>(carriers: &[HeatCarriers<S>; 2], t: S) -> S {
    let [liquid, rest] = carriers;
    let heat = liquid.enthalpy(t);
    if rest.water.value() + rest.ethanol.value() + rest.solids.value() == 0.0 {
        return heat;
    }
    heat + rest.enthalpy(t)
}

/// Whether a substance of a piece is part of its sap: dissolved and small enough to wander.
#[must_use]
pub(crate) fn is_sap(substance: Substance) -> bool {
    !matches!(substance.kind(), Kind::Insoluble | Kind::Colloid)
}

/// The sap of pieces, and what stays when it is gone.
#[must_use]
pub(crate) fn sap_and_dry<S: Scalar>(pieces: &Mixture<S>) -> (Mixture<S>, Mixture<S>) {
    let sap = pieces.only(is_sap, true);
    (sap, pieces.only(|substance| !is_sap(substance), false))
}
