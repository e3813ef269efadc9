//! Which gram came from where: what enters stands in the vessel or has left, at each step.

use pomace_bench::Bench;
use pomace_bench::flow::{Came, Exit, Flow, Way};
use pomace_bench::record::{Destination, Record};
use pomace_book::{Document, Spot, demo};
use pomace_matter::Substance;
use proptest::prelude::*;

use super::book;

const TOLD: f64 = 1e-9;

fn sum(grams: &[f64]) -> f64 {
    grams.iter().sum()
}

/// The flow closes at every step, and says what the evaluator's own records say.
fn closes(flow: &Flow, records: &[Record], kept: f64) -> Result<(), String> {
    let whole = sum(&flow.inflows.iter().map(|i| i.grams).collect::<Vec<_>>()).max(1.0);
    let near = |what: &str, one: f64, other: f64| {
        if (one - other).abs() <= TOLD * whole {
            Ok(())
        } else {
            Err(format!("{what}: {one} for {other}"))
        }
    };
    near("steps", flow.steps.len() as f64, records.len() as f64)?;
    for (index, (step, record)) in flow.steps.iter().zip(records).enumerate() {
        let of = |what: &str| format!("step {}, {what}", index + 1);
        near(&of("gap"), step.gap(flow), 0.0)?;
        near(&of("before"), sum(&step.before), record.before)?;
        near(&of("after"), sum(&step.after), record.after)?;
        let left = |way: &dyn Fn(&Exit) -> bool| {
            let exits = step.exits.iter().filter(|exit| way(exit));
            exits.map(Exit::grams).sum::<f64>()
        };
        near(&of("aside"), left(&|e| e.way == Way::Aside), record.left)?;
        for to in [Destination::Air, Destination::Drain, Destination::Ice] {
            let lost = record.lost.iter().filter(|(other, _)| *other == to);
            let is_to = |e: &Exit| matches!(e.way, Way::Gone(other, _) if other == to);
            near(&of(to.word()), left(&is_to), lost.map(|(_, g)| *g).sum())?;
        }
        for exit in &step.exits {
            near(&of("matter"), exit.matter.total().0, exit.grams())?;
        }
        let mut all = step
            .exits
            .iter()
            .map(|e| &e.grams_from)
            .chain([&step.after]);
        if let Some(bad) = all.find(|g| g.iter().any(|g| !g.is_finite() || *g < 0.0)) {
            return Err(format!("{}: {bad:?}", of("less than nothing")));
        }
    }
    near("kept", sum(&flow.kept), kept)?;
    // And so does each inflow by itself, unless something of it turned into something of another.
    for (index, inflow) in flow.inflows.iter().enumerate() {
        let at = |grams: &Vec<f64>| grams.get(index).copied().unwrap_or(0.0);
        let gone = flow.steps.iter().flat_map(|step| &step.exits);
        let gone = gone.filter(|exit| exit.way != Way::Aside);
        let ends: f64 = gone.map(|exit| at(&exit.grams_from)).sum::<f64>()
            + flow.left.iter().map(at).sum::<f64>()
            + at(&flow.kept);
        near("an inflow", ends, inflow.grams)?;
    }
    Ok(())
}

#[test]
fn the_demo_closes_at_every_step() {
    let book = demo::book();
    let bench = Bench::new(&book);
    let (mut preps, mut drinks) = (0, 0);
    for (id, document) in book.documents() {
        let name = &document.name().value;
        match document {
            Document::Prep(_) => {
                let made = bench.prep(id).unwrap();
                let flow = bench.flow(id).unwrap();
                closes(&flow, &made.records, made.kept.total())
                    .unwrap_or_else(|e| panic!("{name}: {e}"));
                for (step, of) in flow.left.iter().enumerate() {
                    let left = made.left.grams(step);
                    assert!((left - sum(of)).abs() < TOLD * left.max(1.0), "{name}");
                }
                preps += 1;
            }
            Document::Drink(_) => {
                let mixed = bench.drink(id).unwrap();
                let flow = bench.flow(id).unwrap();
                closes(&flow, &mixed.records, mixed.after.total())
                    .unwrap_or_else(|e| panic!("{name}: {e}"));
                drinks += 1;
            }
            _ => {}
        }
    }
    assert_eq!((preps, drinks), (10, 5));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, failure_persistence: Some(Box::new(
        proptest::test_runner::FileFailurePersistence::WithSource("regressions"))), ..ProptestConfig::default() })]

    #[test]
    fn preps_flow_without_a_gap(text in super::laws::prep()) {
        let book = book(&[&text]);
        let bench = Bench::new(&book);
        let id = book.by_name("P").unwrap();
        let Ok(made) = bench.prep(id) else { return Ok(()) };
        let flow = bench.flow(id).unwrap();
        if let Err(why) = closes(&flow, &made.records, made.kept.total()) {
            prop_assert!(false, "{why}");
        }
    }

    #[test]
    fn drinks_flow_without_a_gap(text in super::laws::drink()) {
        let book = book(&[&text]);
        let bench = Bench::new(&book);
        let id = book.by_name("D").unwrap();
        let Ok(mixed) = bench.drink(id) else { return Ok(()) };
        let flow = bench.flow(id).unwrap();
        if let Err(why) = closes(&flow, &mixed.records, mixed.after.total()) {
            prop_assert!(false, "{why}");
        }
    }

    /// Nobody can tell two pours of the same from one: they share everything by their masses.
    #[test]
    fn two_pours_of_one_thing_share_alike(text in super::laws::prep(), share in 0.1..0.9_f64) {
        let (first, rest) = text.split_once("amount = \"300 g\"\n").unwrap();
        let what = first.split("what = ").nth(1).unwrap().trim();
        let text = format!(
            "{first}amount = \"{:.4} g\"\n\n[[step]]\ndo = \"add\"\nwhat = {what}\namount = \"{:.4} g\"\n{rest}",
            300.0 * share, 300.0 * (1.0 - share));
        let book = book(&[&text]);
        let bench = Bench::new(&book);
        let Ok(flow) = bench.flow(book.by_name("P").unwrap()) else { return Ok(()) };
        let ratio = flow.inflows[1].grams / flow.inflows[0].grams;
        for grams in flow.steps.iter().flat_map(|s| s.exits.iter().map(|e| &e.grams_from)).chain([&flow.kept]) {
            prop_assert!((grams[0] * ratio - grams[1]).abs() < 1e-7, "{grams:?}");
        }
    }
}

fn flow_of(text: &str) -> Flow {
    let book = book(&[text]);
    let bench = Bench::new(&book);
    bench.flow(book.by_name("P").unwrap()).unwrap()
}

fn steps(steps: &[&str]) -> String {
    let mut text = "prep = \"P\"\n".to_owned();
    for step in steps {
        text.push_str(&format!("[[step]]\n{}\n", step.replace("; ", "\n")));
    }
    text
}

/// Exits of a kind, at whatever step.
fn exits<'a>(flow: &'a Flow, is: impl Fn(Way) -> bool + 'a) -> Vec<&'a Exit> {
    let all = flow.steps.iter().flat_map(|step| &step.exits);
    all.filter(|exit| is(exit.way)).collect()
}

#[test]
fn a_press_leaves_pieces_that_took_up_vinegar() {
    let book = demo::book();
    let bench = Bench::new(&book);
    let flow = bench
        .flow(book.by_name("Quince peel shrub").unwrap())
        .unwrap();
    let names: Vec<Came> = flow.inflows.iter().map(|i| i.from).collect();
    assert_eq!(names, [0, 1, 4].map(|step| Came::Spot(Spot::Step(step))));
    let pressed = &exits(&flow, |way| way == Way::Aside)[0].grams_from;
    // 240 g of peel and 336 g of vinegar; the steep went nearly all the way, so that what is pressed out of
    // the peel is mostly the vinegar's, and the tissue is the peel's own.
    assert!(
        pressed[0] > 40.0 && pressed[1] > 30.0 && pressed[2] == 0.0,
        "{pressed:?}"
    );
    let kept = &flow.kept;
    assert!(kept[0] > 60.0 && kept[0] < 180.0, "{kept:?}");
    // The honey went in after the press, all of it.
    assert!((kept[2] - flow.inflows[2].grams).abs() < 1e-9, "{kept:?}");
    // What stays in the cloth is what ran through it: of both.
    let cloth = exits(&flow, |way| way == Way::Gone(Destination::Drain, "cloth"))[0];
    assert!((cloth.grams() - 15.0).abs() < 1e-9 && cloth.grams_from[0] > 1.0);
}

#[test]
fn a_steep_takes_its_time_to_mix_whose_water_is_whose() {
    let peel = |time: &str| {
        let flow = flow_of(&steps(&[
            "do = \"weigh\"; what = \"lemon peel\"; amount = \"200 g\"",
            "do = \"add\"; what = \"water\"; amount = \"400 g\"",
            &format!("do = \"steep\"; time = \"{time}\""),
            "do = \"strain\"",
        ]));
        flow.kept[0]
    };
    let (minute, hour, day) = (peel("1 min"), peel("1 h"), peel("24 h"));
    assert!(minute < hour && hour < day, "{minute} {hour} {day}");
    // At balance the sap of the peel is two parts water and one part its own.
    assert!(minute < 25.0 && day > 80.0, "{minute} {day}");
}

#[test]
fn drawn_syrup_is_the_peels_water_and_the_sugar() {
    let flow = flow_of(&steps(&[
        "do = \"weigh\"; what = \"lemon peel\"; amount = \"300 g\"",
        "do = \"add\"; what = \"sugar\"; amount = \"240 g\"",
        "do = \"draw\"; time = \"20 h\"",
        "do = \"strain\"",
    ]));
    assert!(flow.kept[0] > 20.0, "{:?}", flow.kept);
    let aside = exits(&flow, |way| way == Way::Aside);
    let whole: f64 = aside.iter().map(|e| e.grams_from[0]).sum();
    assert!(whole + flow.kept[0] <= 300.0 + 1e-9);
}

#[test]
fn a_simmer_says_what_went_into_the_air() {
    let flow = flow_of(&steps(&[
        "do = \"weigh\"; what = \"gin, 47 %\"; amount = \"300 g\"",
        "do = \"add\"; what = \"water\"; amount = \"300 g\"",
        "do = \"simmer\"; loss = \"10 %\"",
    ]));
    let air = exits(&flow, |way| way == Way::Gone(Destination::Air, ""));
    let [air] = air.as_slice() else {
        panic!("{air:?}")
    };
    assert!((air.grams() - 60.0).abs() < 1e-9);
    let ethanol = air.matter.grams(Substance::Ethanol);
    assert!(ethanol > 10.0 && air.matter.grams(Substance::Water) > 10.0);
    // All of the spirit's vapour is the gin's; of the water each gives what it has of it.
    let has = |index: usize| {
        let stream = &flow.inflows[index].stream;
        stream.liquid.grams(Substance::Water)
    };
    let of_water = air.matter.grams(Substance::Water) * has(1) / (has(0) + has(1));
    assert!((air.grams_from[1] - of_water).abs() < 1e-9, "{air:?}");
}

#[test]
fn the_gas_of_a_ferment_is_the_sugars() {
    let flow = flow_of(&steps(&[
        "do = \"weigh\"; what = \"water\"; amount = \"900 g\"",
        "do = \"dissolve\"; what = \"sugar\"; amount = \"100 g\"",
        "do = \"ferment\"; kind = \"alcoholic\"; sugar_used = \"50 %\"",
    ]));
    let air = exits(&flow, |way| way == Way::Gone(Destination::Air, ""))[0];
    assert!(air.matter.grams(Substance::CarbonDioxide) > 20.0, "{air:?}");
    // Sucrose takes up a twentieth of its weight in water on the way.
    assert!(air.grams_from[1] / air.grams() > 0.94, "{air:?}");
}

#[test]
fn a_by_product_that_goes_back_brings_what_it_took_along() {
    let flow = flow_of(&steps(&[
        "do = \"weigh\"; what = \"lemon peel\"; amount = \"200 g\"",
        "do = \"add\"; what = \"water\"; amount = \"300 g\"",
        "do = \"steep\"; time = \"24 h\"",
        "do = \"strain\"; by_product = \"spent peel\"",
        "do = \"simmer\"; loss = \"20 %\"",
        "do = \"add\"; what = \"spent peel\"; amount = \"50 % of spent peel\"",
    ]));
    let (left, grams) = &flow.steps[5].back[0];
    assert_eq!(*left, 3);
    let aside = &exits(&flow, |way| way == Way::Aside)[0].grams_from;
    for (back, all) in grams.iter().zip(aside) {
        assert!((back * 2.0 - all).abs() < 1e-9, "{grams:?} {aside:?}");
    }
    assert!((sum(&flow.left[3]) - sum(aside) / 2.0).abs() < 1e-9);
}

#[test]
fn a_drink_takes_water_of_the_ice_along() {
    let text = "drink = \"P\"\n[[line]]\nwhat = \"gin, 47 %\"\namount = \"50 mL\"\n[[line]]\nwhat = \"lemon juice\"\n\
                amount = \"25 mL\"\n[[step]]\ndo = \"shake\"\ntime = \"12 s\"\n[[step]]\ndo = \"pour\"\nthrough = \"fine sieve\"\n";
    let book = book(&[text]);
    let bench = Bench::new(&book);
    let id = book.by_name("P").unwrap();
    let (flow, mixed) = (bench.flow(id).unwrap(), bench.drink(id).unwrap());
    let ice = flow
        .inflows
        .iter()
        .position(|i| i.from == Came::Ice)
        .unwrap();
    let kept_share = sum(&flow.kept)
        / (sum(&flow.steps[0].after)
            - exits(&flow, |w| w == Way::Gone(Destination::Ice, ""))[0].grams());
    // The film in the tin takes its part of the melt.
    assert!(
        (flow.kept[ice] - mixed.melt * kept_share).abs() < 1e-6,
        "{} {}",
        flow.kept[ice],
        mixed.melt
    );
    let thrown = exits(&flow, |way| way == Way::Gone(Destination::Ice, ""))[0];
    assert!((thrown.grams_from[ice] - thrown.grams()).abs() < 1e-9);
}

#[test]
fn what_cannot_be_made_has_no_flow() {
    let book = book(&[
        "prep = \"P\"\n[[step]]\ndo = \"weigh\"\nwhat = \"nothing known\"\namount = \"1 g\"\n",
    ]);
    let bench = Bench::new(&book);
    let id = book.by_name("P").unwrap();
    assert_eq!(bench.flow(id).is_ok(), bench.prep(id).is_ok());
}
