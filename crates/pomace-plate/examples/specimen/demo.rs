//! Drinks and preps of the demo book.
//!
//! From `pomace show … --json`: all figures before ice and as served, minutes in the glass, masses.
//! Worked out for this page only: the seconds while shaking, what one step more does, and how much of
//! the vinegar stays in the pressed peel.

use pomace_plate::Doubtful;
use pomace_plate::field::{Ended, Field, Neighbour, Push, Remembered, Spot, Taste};
use pomace_plate::flow::{Fate, Flow, Inflow, Matter, Outflow, Station};
use pomace_plate::glass::{Glass, Ice, Shape};
use pomace_plate::path::{IcePath, Moment, State};
use pomace_plate::strip::{Share, Strip};
use pomace_plate::whiskers::Whiskers;

pub(crate) fn taste(sour: f64, sweet: f64) -> Taste {
    Taste {
        sourness_g_per_l: sour,
        sweetness_g_per_100ml: sweet,
    }
}

pub(crate) fn spot(sour: (f64, f64), sweet: (f64, f64), strength_percent: f64) -> Spot {
    Spot {
        sourness_g_per_l: Doubtful::new(sour.0, sour.1),
        sweetness_g_per_100ml: Doubtful::new(sweet.0, sweet.1),
        strength_percent,
    }
}

pub(crate) fn other(name: &str, sour: f64, sweet: f64, strength_percent: f64) -> Neighbour {
    Neighbour {
        name: name.to_owned(),
        taste: taste(sour, sweet),
        strength_percent,
    }
}

pub(crate) fn field() -> Field {
    Field {
        name: "Second Pressing".to_owned(),
        before: Some(spot((8.28, 0.92), (9.34, 2.50), 17.251)),
        served: Some(spot((4.11, 0.48), (4.86, 1.29), 8.68)),
        was: None,
        ended: Some(Ended {
            taste: taste(6.11, 6.89),
            words: "shaken 9 s".to_owned(),
        }),
        house: vec![
            other("Slack Water", 1.16, 7.02, 20.14),
            other("Weir", 2.47, 7.47, 11.48),
            other("Frost Line", 1.98, 12.63, 9.36),
            other("Ebb, its twin", 5.42, 7.53, 0.0),
        ],
        remembered: Some(Remembered {
            words: "long and charged".to_owned(),
            from: taste(3.0, 5.4),
            to: taste(6.0, 9.6),
        }),
        pushes: vec![
            push('a', -0.05, -0.06),
            push('b', 0.27, 0.45),
            push('c', 0.10, 0.02),
            push('d', 0.02, 0.30),
            push('e', -0.21, -0.25),
        ],
        kept: None,
    }
}

fn push(letter: char, sour: f64, sweet: f64) -> Push {
    Push {
        letter,
        change: taste(sour, sweet),
    }
}

/// After 5 mL less of the shrub.
pub(crate) fn changed() -> Field {
    let mut field = field();
    field.was = Some(taste(4.11, 4.86));
    field.served = Some(spot((3.52, 0.45), (3.92, 1.1), 8.9));
    field.before = Some(spot((7.2, 0.88), (7.7, 2.2), 18.1));
    field.ended = None;
    field.remembered = None;
    field
}

pub(crate) fn dry() -> Field {
    Field {
        name: "Soda".to_owned(),
        served: Some(spot((0.0, 0.0), (0.0, 0.0), 0.0)),
        house: field().house,
        ..Field::default()
    }
}

pub(crate) fn syrup() -> Field {
    Field {
        name: "Quince peel syrup".to_owned(),
        served: Some(spot((6.2, 0.9), (30.0, 3.1), 0.0)),
        house: field().house,
        ..Field::default()
    }
}

pub(crate) fn vinegar() -> Field {
    Field {
        name: "Cider vinegar".to_owned(),
        served: Some(spot((53.0, 2.0), (0.4, 0.2), 0.3)),
        house: field().house,
        ..Field::default()
    }
}

pub(crate) fn empty() -> Field {
    Field {
        name: "A new drink".to_owned(),
        ..Field::default()
    }
}

fn state(melt_percent: f64, celsius: f64) -> State {
    State {
        melt_percent,
        celsius,
    }
}

fn moment(time: f64, melt_percent: f64, celsius: f64) -> Moment {
    Moment {
        time,
        state: state(melt_percent, celsius),
    }
}

pub(crate) fn path() -> IcePath {
    IcePath {
        name: "Second Pressing".to_owned(),
        done: "shaken".to_owned(),
        on_ice: vec![
            moment(0.0, 0.0, 14.7),
            moment(1.0, 9.1, 8.7),
            moment(2.0, 16.0, 4.3),
            moment(3.0, 21.0, 1.3),
            moment(6.0, 31.0, -3.2),
            moment(9.0, 35.6, -4.9),
        ],
        topped: Some(state(35.6, -1.2)),
        in_glass: vec![
            moment(0.0, 35.6, -1.2),
            moment(5.0, 49.0, -1.9),
            moment(10.0, 61.7, -2.7),
            moment(15.0, 72.8, -3.1),
        ],
        freezing: vec![
            vec![state(0.0, -9.7), state(18.0, -8.0), state(35.6, -6.7)],
            vec![
                state(35.6, -4.1),
                state(49.0, -3.8),
                state(61.7, -3.5),
                state(72.8, -3.3),
            ],
        ],
    }
}

pub(crate) fn stirred() -> IcePath {
    IcePath {
        name: "Slack Water".to_owned(),
        done: "stirred".to_owned(),
        on_ice: vec![
            moment(0.0, 0.0, 18.7),
            moment(10.0, 18.0, 7.2),
            moment(20.0, 29.0, 1.8),
            moment(30.0, 37.8, -1.6),
        ],
        topped: None,
        in_glass: Vec::new(),
        freezing: vec![vec![
            state(0.0, -16.9),
            state(18.0, -13.0),
            state(37.8, -9.95),
        ]],
    }
}

pub(crate) fn glass() -> Glass {
    Glass {
        name: "Second Pressing".to_owned(),
        shape: Shape::Tall,
        brim_ml: 360.0,
        liquid_ml: Doubtful::new(188.7, 10.1),
        ice: Ice::Block { grams: 115.0 },
        foam_ml: 28.3,
        rim: None,
        garnish: Some("leather".to_owned()),
    }
}

pub(crate) fn coupe() -> Glass {
    Glass {
        name: "Weir".to_owned(),
        shape: Shape::Coupe,
        brim_ml: 240.0,
        liquid_ml: Doubtful::new(182.6, 10.9),
        ice: Ice::None,
        foam_ml: 55.0,
        rim: None,
        garnish: None,
    }
}

pub(crate) fn rocks() -> Glass {
    Glass {
        name: "Slack Water".to_owned(),
        shape: Shape::Rocks,
        brim_ml: 290.0,
        liquid_ml: Doubtful::new(125.4, 11.8),
        ice: Ice::Cubes { grams: 90.0 },
        foam_ml: 0.0,
        rim: Some("whey salt".to_owned()),
        garnish: None,
    }
}

pub(crate) fn stem() -> Glass {
    Glass {
        name: "Frost Line".to_owned(),
        shape: Shape::Stem,
        brim_ml: 300.0,
        liquid_ml: Doubtful::new(160.0, 3.5),
        ice: Ice::None,
        foam_ml: 51.0,
        rim: None,
        garnish: Some("quince leather".to_owned()),
    }
}

pub(crate) fn crushed() -> Glass {
    Glass {
        name: "Ebb".to_owned(),
        shape: Shape::Tall,
        brim_ml: 360.0,
        liquid_ml: Doubtful::new(169.5, 9.0),
        ice: Ice::Crushed { grams: 120.0 },
        foam_ml: 25.0,
        rim: None,
        garnish: None,
    }
}

pub(crate) fn unknown() -> Glass {
    Glass {
        shape: Shape::Unknown,
        ice: Ice::None,
        garnish: None,
        ..glass()
    }
}

pub(crate) fn over() -> Glass {
    Glass {
        brim_ml: 280.0,
        ..glass()
    }
}

fn inflow(name: &str, matter: Matter, station: usize) -> Inflow {
    Inflow {
        name: name.to_owned(),
        matter,
        station,
    }
}

fn station(name: &str, note: &str) -> Station {
    Station {
        name: name.to_owned(),
        note: note.to_owned(),
    }
}

fn outflow(name: &str, note: &str, fate: Fate, station: usize, grams_from: &[f64]) -> Outflow {
    Outflow {
        name: name.to_owned(),
        note: note.to_owned(),
        fate,
        station,
        grams_from: grams_from.to_vec(),
    }
}

pub(crate) fn shrub() -> Flow {
    Flow {
        name: "Quince peel shrub".to_owned(),
        inflows: vec![
            inflow("quince peel", Matter::Ingredient, 0),
            inflow("cider vinegar", Matter::Liquid, 0),
            inflow("honey", Matter::Sweetener, 2),
        ],
        stations: vec![
            station("steep", "30 h, 18 °C"),
            station("press", ""),
            station("dissolve", ""),
        ],
        outflows: vec![
            outflow(
                "peel shrub",
                "22 serves",
                Fate::Kept,
                2,
                &[148.0, 275.7, 254.2],
            ),
            outflow(
                "pressed peel",
                "to quince leather",
                Fate::ByProduct,
                1,
                &[87.0, 50.3, 0.0],
            ),
            outflow("cloth, air", "", Fate::Lost, 1, &[5.0, 10.0, 0.0]),
        ],
    }
}

pub(crate) fn juice() -> Flow {
    Flow {
        name: "Quince juice".to_owned(),
        inflows: vec![inflow("quince flesh", Matter::Ingredient, 0)],
        stations: vec![station("juice", "")],
        outflows: vec![
            outflow("quince juice", "", Fate::Kept, 0, &[750.0]),
            outflow("quince pomace", "to soda", Fate::ByProduct, 0, &[750.0]),
        ],
    }
}

/// Many streams: not of the demo.
pub(crate) fn cordial() -> Flow {
    Flow {
        name: "Core cordial".to_owned(),
        inflows: vec![
            inflow("quince cores", Matter::Ingredient, 0),
            inflow("water", Matter::Liquid, 0),
            inflow("lemon juice", Matter::Liquid, 0),
            inflow("sugar", Matter::Sweetener, 2),
            inflow("citric acid", Matter::Sweetener, 2),
        ],
        stations: vec![
            station("simmer", "40 min"),
            station("strain", "cloth"),
            station("dissolve", ""),
            station("simmer", "to 105 °C"),
        ],
        outflows: vec![
            outflow(
                "core cordial",
                "12 weeks, 4 °C",
                Fate::Kept,
                3,
                &[96.0, 388.0, 28.0, 420.0, 6.0],
            ),
            outflow(
                "spent cores",
                "to compost",
                Fate::ByProduct,
                1,
                &[214.0, 118.0, 2.0, 0.0, 0.0],
            ),
            outflow("steam", "", Fate::Lost, 0, &[10.0, 154.0, 2.0, 0.0, 0.0]),
            outflow(
                "steam again",
                "",
                Fate::Lost,
                3,
                &[0.0, 72.0, 0.0, 0.0, 0.0],
            ),
        ],
    }
}

pub(crate) fn acid() -> Strip {
    let share = |letter: &str, name: &str, amount: f64, of_ingredient: bool| Share {
        letter: letter.to_owned(),
        name: name.to_owned(),
        amount,
        of_ingredient,
    };
    Strip {
        figure: "acid".to_owned(),
        unit: "g".to_owned(),
        shares: vec![
            share("b", "Quince peel shrub", 0.57, true),
            share("c", "Whey, cleared", 0.54, false),
        ],
    }
}

pub(crate) fn parts() -> Strip {
    let part = |letter: &str, name: &str, amount: f64, of_ingredient: bool| Share {
        letter: letter.to_owned(),
        name: name.to_owned(),
        amount,
        of_ingredient,
    };
    Strip {
        figure: "quince".to_owned(),
        unit: "g".to_owned(),
        shares: vec![
            part("a", "flesh", 204.6, true),
            part("b", "peel", 37.2, true),
            part("c", "core", 58.9, true),
            part("d", "seeds", 9.3, false),
        ],
    }
}

pub(crate) fn whey_doubt() -> Whiskers {
    Whiskers {
        figure: "sourness".to_owned(),
        unit: "g in 1 L".to_owned(),
        now: Doubtful::new(4.11, 0.48),
        once_read: 0.17,
    }
}
