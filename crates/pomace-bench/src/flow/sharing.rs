//! Matter that moved, shared out among those it came from.
//!
//! The ledger knows what each inflow had in each place before, and sees what is there after. Of each
//! substance, what can stay stays; what a place has too much of goes to where it is missing. What is missing
//! then, and what is left over then, is matter that became other matter (sugar that became spirit and gas), and
//! is shared by mass.

use pomace_matter::units::Grams;
use pomace_matter::{Mixture, Substance};

/// Matter in a vessel, by place.
#[derive(Clone, Debug, Default)]
pub(super) struct Places {
    pub(super) liquid: Mixture,
    pub(super) crystals: Mixture,
    pub(super) pieces: Mixture,
    /// Ice that is part of the drink.
    pub(super) ice: Mixture,
    /// Ice of the service, in the way and not drunk.
    pub(super) service: Mixture,
}

impl Places {
    fn each(&self) -> [&Mixture; 5] {
        [
            &self.liquid,
            &self.crystals,
            &self.pieces,
            &self.ice,
            &self.service,
        ]
    }

    fn each_mut(&mut self) -> [&mut Mixture; 5] {
        [
            &mut self.liquid,
            &mut self.crystals,
            &mut self.pieces,
            &mut self.ice,
            &mut self.service,
        ]
    }

    pub(super) fn add(&mut self, other: &Self) {
        for (own, other) in self.each_mut().into_iter().zip(other.each()) {
            *own += other;
        }
    }

    /// All of it, g.
    pub(super) fn grams(&self) -> f64 {
        self.each().map(|place| place.total().0).iter().sum()
    }

    /// Place by place with another.
    fn with(&self, other: &Self, both: impl Fn(&Mixture, &Mixture) -> Mixture) -> Self {
        let mut made = Self::default();
        let pairs = self.each().into_iter().zip(other.each());
        for (place, (own, other)) in made.each_mut().into_iter().zip(pairs) {
            *place = both(own, other);
        }
        made
    }
}

/// What went out of the vessel.
#[derive(Clone, Debug, Default)]
pub(super) struct Out {
    /// Set aside.
    pub(super) aside: Mixture,
    /// Ice thrown away, g.
    pub(super) ice: f64,
    /// Into the air, g.
    pub(super) air: f64,
}

/// What of each inflow is where.
#[derive(Clone, Debug, Default)]
pub(super) struct Shared {
    pub(super) held: Places,
    pub(super) aside: Mixture,
    pub(super) ice: Mixture,
    pub(super) air: f64,
}

/// Shares out what is there after a step: `held` is what each inflow had before, `gas` what each brought that is
/// no substance yet, `after` what is in the vessel, `out` what went.
pub(super) fn share_out(held: &[Places], gas: &[f64], after: &Places, out: &Out) -> Vec<Shared> {
    let mut before = Places::default();
    for places in held {
        before.add(places);
    }
    let stays = before.with(after, lesser);
    let mut over = before.with(&stays, less);
    let wanted = after.with(&stays, less);

    // Ice is thrown away as ice, and what is set aside is pieces sooner than liquid.
    let ice = water(out.ice.min(over.service.total().0));
    let left_of_ice = less(&over.service, &ice);
    let mut takes: Vec<(Where, Mixture)> = vec![(Where::Service, ice)];
    over.service = left_of_ice;
    let mut aside = out.aside;
    for (from, there) in [
        (Where::Pieces, &mut over.pieces),
        (Where::Crystals, &mut over.crystals),
        (Where::Ice, &mut over.ice),
        (Where::Liquid, &mut over.liquid),
    ] {
        let taken = lesser(&aside, there);
        aside = less(&aside, &taken);
        *there = less(there, &taken);
        takes.push((from, taken));
    }
    // What is over now moves to where it is missing.
    let mut pool = Mixture::default();
    for place in over.each() {
        pool += place;
    }
    let mut missing = aside;
    for place in wanted.each() {
        missing += place;
    }
    let moved = lesser(&pool, &missing);
    // And what nobody wants as it is has become something else.
    let turned = less(&pool, &moved);
    let made = less(&missing, &moved);
    let sources = turned.total().0 + gas.iter().sum::<f64>();

    held.iter()
        .zip(gas)
        .map(|(own, gas)| {
            let of = |part: &Mixture, whole: &Mixture, own: &Mixture| share(part, whole, own);
            let mut shared = Shared::default();
            for (((kept, stay), whole), own) in shared
                .held
                .each_mut()
                .into_iter()
                .zip(stays.each())
                .zip(before.each())
                .zip(own.each())
            {
                *kept = of(stay, whole, own);
            }
            for (from, taken) in &takes {
                let (whole, own) = (from.of(&before), from.of(own));
                let part = of(taken, whole, own);
                match from {
                    Where::Service => shared.ice += part,
                    _ => shared.aside += part,
                }
            }
            // Its share of what is over.
            let mut own_over = Mixture::default();
            for ((rest, whole), own) in over.each().into_iter().zip(before.each()).zip(own.each()) {
                own_over += of(rest, whole, own);
            }
            let mine = of(&moved, &pool, &own_over);
            let mine_turned = of(&turned, &pool, &own_over).total().0 + gas;
            let part = if sources > 0.0 {
                mine_turned / sources
            } else {
                0.0
            };
            let gets = |wanted: &Mixture| {
                let moved = of(wanted, &missing, &mine);
                moved + of(wanted, &missing, &made) * part
            };
            for (held, wanted) in shared.held.each_mut().into_iter().zip(wanted.each()) {
                *held += gets(wanted);
            }
            shared.aside += gets(&aside);
            shared.air = out.air * part;
            shared
        })
        .collect()
}

/// A place in a vessel.
#[derive(Clone, Copy)]
enum Where {
    Liquid,
    Crystals,
    Pieces,
    Ice,
    Service,
}

impl Where {
    const fn of(self, places: &Places) -> &Mixture {
        match self {
            Self::Liquid => &places.liquid,
            Self::Crystals => &places.crystals,
            Self::Pieces => &places.pieces,
            Self::Ice => &places.ice,
            Self::Service => &places.service,
        }
    }
}

/// Water, g.
pub(super) fn water(grams: f64) -> Mixture {
    if grams > 0.0 {
        Mixture::of(&[(Substance::Water, Grams(grams))])
    } else {
        Mixture::default()
    }
}

/// Of each substance the lesser mass.
fn lesser(one: &Mixture, other: &Mixture) -> Mixture {
    by_substance(one, |substance, grams| grams.min(other.grams(substance)))
}

/// Of each substance what the one has more than the other.
fn less(one: &Mixture, other: &Mixture) -> Mixture {
    by_substance(one, |substance, grams| grams - other.grams(substance))
}

/// Of each substance the share of `own` that `part` is of `whole`.
fn share(part: &Mixture, whole: &Mixture, own: &Mixture) -> Mixture {
    by_substance(own, |substance, grams| {
        let whole = whole.grams(substance);
        if whole > 0.0 {
            grams * (part.grams(substance) / whole)
        } else {
            0.0
        }
    })
}

/// Substance by substance, never less than nothing.
fn by_substance(mixture: &Mixture, of: impl Fn(Substance, f64) -> f64) -> Mixture {
    let mut made = Mixture::default();
    for (substance, grams) in mixture.iter() {
        let grams = of(substance, grams);
        if grams > 0.0 {
            made.set(substance, grams);
        }
    }
    made
}
