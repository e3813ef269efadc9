//! Preps as their pages draw them: those of the demo, and one of many steps. Masses in g, rounded.

use pomace_plate::flow::Fate::{ByProduct, Kept, Lost};
use pomace_plate::flow::Matter::{Ingredient, Liquid, Sweetener};
use pomace_plate::flow::{Fate, Flow, Inflow, Matter, Outflow, Station};

/// Name, note, where it ends, station, g from each inflow.
type Out<'a> = (&'a str, &'a str, Fate, usize, &'a [f64]);

fn prep(
    inflows: &[(&str, Matter, usize)],
    stations: &[(&str, &str)],
    outflows: &[Out<'_>],
) -> Flow {
    Flow {
        name: outflows
            .first()
            .map_or_else(String::new, |out| out.0.to_owned()),
        inflows: inflows
            .iter()
            .map(|(name, matter, station)| Inflow {
                name: (*name).to_owned(),
                matter: *matter,
                station: *station,
            })
            .collect(),
        stations: stations
            .iter()
            .map(|(name, note)| Station {
                name: (*name).to_owned(),
                note: (*note).to_owned(),
            })
            .collect(),
        outflows: outflows
            .iter()
            .map(|(name, note, fate, station, grams_from)| Outflow {
                name: (*name).to_owned(),
                note: (*note).to_owned(),
                fate: *fate,
                station: *station,
                grams_from: grams_from.to_vec(),
            })
            .collect(),
    }
}

/// The ten preps of the demo.
pub(crate) fn of_the_demo() -> Vec<Flow> {
    vec![
        prep(
            &[
                ("quince flesh", Ingredient, 0),
                ("water", Liquid, 0),
                ("honey", Sweetener, 0),
            ],
            &[("simmer", "1 h"), ("strain", "fine sieve")],
            &[
                (
                    "Poaching liquor",
                    "7 d, 4 °C",
                    Kept,
                    2,
                    &[111.4, 258.8, 144.3],
                ),
                (
                    "poached flesh",
                    "to Quince purée",
                    ByProduct,
                    1,
                    &[438.5, 136.2, 55.3],
                ),
                ("steam", "", Lost, 0, &[49.5, 143.5, 9.5]),
                ("on the sieve", "", Lost, 1, &[0.6, 1.5, 0.8]),
            ],
        ),
        prep(
            &[("quince peel", Ingredient, 0), ("sugar", Sweetener, 0)],
            &[("draw", "20 h, 20 °C"), ("strain", "fine sieve")],
            &[
                ("Drawn peel syrup", "10 d, 4 °C", Kept, 2, &[149.6, 221.7]),
                ("drawn peel", "", ByProduct, 1, &[149.2, 16.5]),
                ("on the sieve", "", Lost, 1, &[1.2, 1.8]),
            ],
        ),
        prep(
            &[
                ("quince pomace", Ingredient, 0),
                ("water", Liquid, 0),
                ("sugar", Sweetener, 0),
            ],
            &[
                ("dissolve", ""),
                ("steep", "6 h"),
                ("strain", "muslin"),
                ("ferment", "2 d, 20 °C"),
                ("chill", "3 °C"),
            ],
            &[
                ("Pomace soda", "4 d, 3 °C", Kept, 5, &[403.7, 1818.6, 113.2]),
                ("spent pomace", "", ByProduct, 2, &[340.1, 419.4, 27.9]),
                ("in the cloth", "", Lost, 2, &[2.6, 11.6, 0.8]),
                ("gas", "", Lost, 3, &[3.5, 0.4, 8.1]),
            ],
        ),
        prep(
            &[("quince flesh", Ingredient, 0)],
            &[("juice", "")],
            &[
                ("Quince juice", "2 d, 3 °C", Kept, 1, &[750.0]),
                ("quince pomace", "to Pomace soda", ByProduct, 0, &[750.0]),
            ],
        ),
        prep(
            &[("pressed peel", Ingredient, 0), ("honey", Sweetener, 0)],
            &[("dry", "9 h, 60 °C")],
            &[
                ("Quince leather", "30 d, 18 °C", Kept, 1, &[53.2, 29.1]),
                ("water into the air", "", Lost, 0, &[84.0, 5.2]),
            ],
        ),
        prep(
            &[
                ("quince peel", Ingredient, 0),
                ("cider vinegar", Liquid, 0),
                ("honey", Sweetener, 2),
            ],
            &[
                ("steep", "1 d 6 h, 18 °C"),
                ("press", "cloth"),
                ("dissolve", ""),
            ],
            &[
                (
                    "Quince peel shrub",
                    "21 d, 4 °C",
                    Kept,
                    3,
                    &[151.3, 272.4, 254.2],
                ),
                (
                    "pressed peel",
                    "to Quince leather",
                    ByProduct,
                    1,
                    &[83.3, 54.0, 0.0],
                ),
                ("in the cloth", "", Lost, 1, &[5.4, 9.6, 0.0]),
            ],
        ),
        prep(
            &[("poached flesh", Ingredient, 0), ("water", Liquid, 0)],
            &[("blend", "")],
            &[
                ("Quince purée", "4 d, 3 °C", Kept, 1, &[623.3, 124.7]),
                ("on the jug and blade", "", Lost, 0, &[6.7, 1.3]),
            ],
        ),
        prep(
            &[
                ("Whey, cleared", Ingredient, 0),
                ("sugar", Sweetener, 0),
                ("salt", Liquid, 1),
            ],
            &[("dissolve", ""), ("dissolve", "")],
            &[(
                "Salted whey cordial",
                "7 d, 3 °C",
                Kept,
                2,
                &[500.0, 350.0, 4.5],
            )],
        ),
        prep(
            &[
                ("quince core", Ingredient, 0),
                ("water", Liquid, 0),
                ("sugar", Sweetener, 2),
                ("malic acid", Liquid, 3),
            ],
            &[
                ("simmer", "40 min"),
                ("strain", "muslin"),
                ("dissolve", ""),
                ("dissolve", ""),
            ],
            &[
                (
                    "Set core cordial",
                    "14 d, 4 °C",
                    Kept,
                    4,
                    &[80.2, 576.8, 558.5, 7.2],
                ),
                ("boiled cores", "", ByProduct, 1, &[284.0, 136.0, 0.0, 0.0]),
                ("steam", "", Lost, 0, &[33.9, 274.1, 0.0, 0.0]),
                ("in the cloth", "", Lost, 1, &[1.8, 13.2, 0.0, 0.0]),
            ],
        ),
        prep(
            &[
                ("strained-yoghurt whey", Ingredient, 0),
                ("lactic acid, 80 %", Liquid, 2),
            ],
            &[
                ("heat", "10 min, 88 °C"),
                ("strain", "paper filter"),
                ("dissolve", ""),
            ],
            &[
                ("Whey, cleared", "5 d, 3 °C", Kept, 3, &[989.1, 11.9]),
                ("whey curd", "", ByProduct, 1, &[0.9, 0.0]),
                ("in the paper", "", Lost, 1, &[10.0, 0.0]),
            ],
        ),
    ]
}

/// Sixteen steps: not of the demo.
pub(crate) fn long() -> Flow {
    prep(
        &[
            ("lemon peel", Ingredient, 0),
            ("sugar", Sweetener, 0),
            ("gin, 47 %", Liquid, 1),
            ("lemon juice", Liquid, 3),
            ("water", Liquid, 3),
            ("honey", Sweetener, 7),
            ("citric acid", Liquid, 8),
            ("carbonic acid gas", Liquid, 9),
        ],
        &[
            ("draw", "12 h, 20 °C"),
            ("steep", "1 d"),
            ("strain", "muslin"),
            ("simmer", ""),
            ("rest", "1 h"),
            ("clarify", ""),
            ("strain", "paper filter"),
            ("dissolve", ""),
            ("dissolve", ""),
            ("charge", "3 °C"),
        ],
        &[
            (
                "Long harbour cordial",
                "10 d, 3 °C",
                Kept,
                10,
                &[98.4, 157.8, 155.9, 185.1, 148.3, 90.0, 8.0, 2.3],
            ),
            (
                "spent lemon peel",
                "",
                ByProduct,
                2,
                &[44.6, 16.5, 23.0, 0.0, 0.0, 0.0, 0.0, 0.0],
            ),
            (
                "left behind",
                "",
                Lost,
                5,
                &[21.6, 34.7, 34.2, 42.7, 32.6, 0.0, 0.0, 0.0],
            ),
            (
                "in the cloth",
                "",
                Lost,
                2,
                &[3.3, 4.9, 6.8, 0.0, 0.0, 0.0, 0.0, 0.0],
            ),
            (
                "vapour",
                "64 g spirit",
                Lost,
                3,
                &[10.7, 0.0, 78.1, 19.7, 17.2, 0.0, 0.0, 0.0],
            ),
            (
                "in the paper",
                "",
                Lost,
                6,
                &[1.3, 2.1, 2.1, 2.5, 2.0, 0.0, 0.0, 0.0],
            ),
        ],
    )
}
