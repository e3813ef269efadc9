//! The flow of a prep, as it is drawn: from what the bench counted, and the words of the document.

use pomace_bench::flow::{Came, Exit, Flow as Counted, Inflow as Brought, Way};
use pomace_bench::record::Destination;
use pomace_book::{PrepDoc, Spot, Step, Verb};
use pomace_matter::Substance;
use pomace_plate::flow::{Fate, Flow, Inflow, Matter, Outflow, Station};

use crate::words::set;

/// Less than this is not worth a word, g.
const CRUMBS: f64 = 0.05;

/// The drawing of a prep's flow. `goes_to` says which document of the house takes what is called so.
pub(crate) fn flow_of(
    doc: &PrepDoc,
    counted: &Counted,
    goes_to: impl Fn(&str) -> Option<String>,
) -> Flow {
    let acts = acts(doc);
    let (stations, place) = stations(&acts);
    let at = |step: usize| place.get(step).copied().unwrap_or(0);
    let names = Names { doc, acts: &acts };
    let own = owner(counted);
    let inflows = counted
        .inflows
        .iter()
        .enumerate()
        .map(|(index, brought)| Inflow {
            name: names.inflow(brought),
            matter: matter(brought, own == Some(index)),
            station: at(brought.step),
        })
        .collect();
    let mut outflows = vec![Outflow {
        name: doc.name.value.clone(),
        note: doc.keeping().map_or_else(String::new, kept_for),
        fate: Fate::Kept,
        station: stations.len(),
        grams_from: counted.kept.clone(),
    }];
    for (index, left) in counted.left.iter().enumerate() {
        if left.iter().sum::<f64>() < CRUMBS {
            continue;
        }
        let told = acts.get(index).and_then(|act| act.by_product.clone());
        outflows.push(Outflow {
            note: told
                .as_deref()
                .and_then(&goes_to)
                .map_or_else(String::new, |other| format!("to {other}")),
            fate: if told.is_some() {
                Fate::ByProduct
            } else {
                Fate::Lost
            },
            name: told.unwrap_or_else(|| "left behind".to_owned()),
            station: at(index),
            grams_from: left.clone(),
        });
    }
    for (index, step) in counted.steps.iter().enumerate() {
        for exit in step.exits.iter().filter(|exit| exit.grams() >= CRUMBS) {
            let Way::Gone(to, on) = exit.way else {
                continue;
            };
            let verb = acts.get(index).map(|act| act.verb);
            let (name, note) = gone(to, on, exit, verb);
            outflows.push(Outflow {
                name,
                note,
                fate: Fate::Lost,
                station: at(index),
                grams_from: exit.grams_from.clone(),
            });
        }
    }
    Flow {
        name: doc.name.value.clone(),
        inflows,
        stations,
        outflows,
    }
}

/// One step, as the drawing needs it.
struct Act {
    verb: Verb,
    /// How it is done.
    note: String,
    by_product: Option<String>,
}

/// The steps of a prep; those that stand for it where it is told from outside.
fn acts(doc: &PrepDoc) -> Vec<Act> {
    let told = |verb, note: String| Act {
        verb,
        note,
        by_product: None,
    };
    if let (true, Some(outside)) = (doc.steps.is_empty(), &doc.told) {
        let time = outside.time.as_ref().map(|time| time.value.to_string());
        return vec![
            told(Verb::Weigh, String::new()),
            told(Verb::Add, String::new()),
            told(
                Verb::Steep,
                time.unwrap_or_else(|| "time not told".to_owned()),
            ),
            told(Verb::Strain, "as usual".to_owned()),
        ];
    }
    let of = |step: &Step| Act {
        verb: step.verb.value,
        note: how(step),
        by_product: step.by_product.as_ref().map(|name| name.value.clone()),
    };
    doc.steps.iter().map(of).collect()
}

/// The stations of a flow, and at which of them each step is. To weigh and to add is no station of its own: what
/// they bring enters at the next one; and how it is kept at the end is told beside what is kept.
fn stations(acts: &[Act]) -> (Vec<Station>, Vec<usize>) {
    let mut stations: Vec<Station> = Vec::new();
    let mut place = Vec::with_capacity(acts.len());
    let is_kept = |index: usize, act: &Act| index + 1 == acts.len() && act.verb == Verb::Store;
    for (index, act) in acts.iter().enumerate() {
        place.push(stations.len());
        let brings = matches!(act.verb, Verb::Weigh | Verb::Add);
        if !brings && !is_kept(index, act) {
            stations.push(Station {
                name: act.verb.word().to_owned(),
                note: act.note.clone(),
            });
        }
    }
    // What comes in after all has been done is added at the end.
    let comes_last = place.iter().zip(acts);
    let added = comes_last
        .rev()
        .take_while(|(at, _)| **at == stations.len());
    if added
        .into_iter()
        .any(|(_, act)| matches!(act.verb, Verb::Weigh | Verb::Add))
    {
        let name = if stations.is_empty() { "weigh" } else { "add" };
        stations.push(Station {
            name: name.to_owned(),
            note: String::new(),
        });
    }
    (stations, place)
}

/// How a step is done, in few words.
fn how(step: &Step) -> String {
    let through = step.through.as_ref().map(|through| through.value.clone());
    let time = step.time.as_ref().map(|time| time.value.to_string());
    let celsius = step.temperature.as_ref();
    let celsius = celsius.map(|celsius| format!("{} °C", set(celsius.value, 0)));
    let said: Vec<String> = [through, time, celsius].into_iter().flatten().collect();
    said.join(", ")
}

/// How long it keeps, and how cold.
fn kept_for(step: &Step) -> String {
    let time = step.time.as_ref().map(|time| time.value.to_string());
    let celsius = step.temperature.as_ref();
    let celsius = celsius.map(|celsius| format!("{} °C", set(celsius.value, 0)));
    let said: Vec<String> = [time, celsius].into_iter().flatten().collect();
    said.join(", ")
}

/// The names of what comes in.
struct Names<'a> {
    doc: &'a PrepDoc,
    acts: &'a [Act],
}

impl Names<'_> {
    fn inflow(&self, brought: &Brought) -> String {
        match brought.from {
            Came::Spot(Spot::Step(step)) => self.step(step),
            Came::Spot(Spot::Line(_) | Spot::Garnish(_)) => String::new(),
            Came::Ice => "ice".to_owned(),
            Came::Gas => match self.acts.get(brought.step).map(|act| act.verb) {
                Some(Verb::Ferment) => "oxygen of the air".to_owned(),
                _ => "carbonic acid gas".to_owned(),
            },
        }
    }

    /// What a step calls for; of a prep told from outside the base, then the solid.
    fn step(&self, step: usize) -> String {
        let told = self.doc.told.as_ref();
        let outside = match step {
            0 => told.and_then(|told| told.base.as_ref()),
            _ => told.and_then(|told| told.solid.as_ref()),
        };
        let written = self.doc.steps.get(step);
        let written = written.and_then(|step| step.what.as_ref().or(step.fat.as_ref()));
        let name = written.or(outside);
        name.map_or_else(String::new, |name| plain(&name.value))
    }
}

/// `quince / peel` as it is said: `quince peel`.
fn plain(name: &str) -> String {
    let parts: Vec<&str> = name.split('/').map(str::trim).collect();
    parts.join(" ")
}

/// Where no pieces come in, what was weighed first is what the prep is of.
fn owner(counted: &Counted) -> Option<usize> {
    let has_pieces = counted.inflows.iter().any(is_pieces);
    (!has_pieces && !counted.inflows.is_empty()).then_some(0)
}

fn is_pieces(brought: &Brought) -> bool {
    brought.stream.pieces.total().0 > 0.5 * brought.grams
}

fn matter(brought: &Brought, is_owner: bool) -> Matter {
    if is_owner || is_pieces(brought) {
        Matter::Ingredient
    } else if brought.stream.matter().sugars() > 0.5 * brought.grams {
        Matter::Sweetener
    } else {
        Matter::Liquid
    }
}

/// What is gone, and where it stayed; and more about it.
fn gone(to: Destination, on: &str, exit: &Exit, verb: Option<Verb>) -> (String, String) {
    let bare = |name: &str| (name.to_owned(), String::new());
    match to {
        Destination::Air => {
            let spirit = exit.matter.grams(Substance::Ethanol);
            if exit.matter.grams(Substance::CarbonDioxide) > 0.5 * exit.grams() {
                bare("gas")
            } else if spirit >= CRUMBS {
                let spirit = set(spirit, if spirit < 10.0 { 1 } else { 0 });
                ("vapour".to_owned(), format!("{spirit} g spirit"))
            } else if verb == Some(Verb::Simmer) {
                bare("steam")
            } else {
                bare("water into the air")
            }
        }
        Destination::Drain if on == "vessel" || on.is_empty() => bare("in the vessel"),
        Destination::Drain if matches!(on, "cloth" | "paper") => bare(&format!("in the {on}")),
        Destination::Drain => bare(&format!("on the {on}")),
        Destination::Ice => bare("ice"),
    }
}

#[cfg(test)]
mod tests {
    use pomace_bench::Bench;
    use pomace_book::{Book, Document, Source, demo};

    use super::*;

    /// The flow of a prep of a book, its mass as the bench has it, and what the bench says it leaves.
    fn drawn(book: &Book, name: &str) -> (Flow, f64, f64) {
        let bench = Bench::new(book);
        let id = book.by_name(name).unwrap();
        let Some(Document::Prep(doc)) = book.document(id) else {
            panic!("{name} is no prep");
        };
        let made = bench.prep(id).unwrap();
        let flow = flow_of(doc, &bench.flow(id).unwrap(), |_| None);
        let left = made.left.iter().map(|(_, left)| left.total()).sum();
        (flow, made.kept.total(), left)
    }

    fn book(text: &str) -> Book {
        let mut book = Book::new();
        book.add(Source::new("0.toml", text));
        book
    }

    fn grams(flow: &Flow, is: impl Fn(&Outflow) -> bool) -> f64 {
        let out = flow.outflows.iter().filter(|out| is(out));
        out.flat_map(|out| &out.grams_from).sum()
    }

    fn names(flow: &Flow) -> (Vec<&str>, Vec<&str>, Vec<&str>) {
        (
            flow.inflows.iter().map(|i| i.name.as_str()).collect(),
            flow.stations.iter().map(|s| s.name.as_str()).collect(),
            flow.outflows.iter().map(|o| o.name.as_str()).collect(),
        )
    }

    #[test]
    fn what_is_drawn_weighs_what_the_bench_says() {
        let book = demo::book();
        let mut seen = 0;
        for (_, document) in book.documents() {
            let Document::Prep(prep) = document else {
                continue;
            };
            let name = &prep.name.value;
            let (flow, kept, left) = drawn(&book, name);
            let near = |one: f64, other: f64| (one - other).abs() < 1e-9 * kept.max(1.0);
            assert!(near(grams(&flow, |o| o.fate == Fate::Kept), kept), "{name}");
            let aside = |o: &Outflow| o.fate == Fate::ByProduct || o.name == "left behind";
            assert!(near(grams(&flow, aside), left), "{name}");
            for inflow in &flow.inflows {
                assert!(!inflow.name.is_empty(), "{name}: {inflow:?}");
                assert!(inflow.station < flow.stations.len(), "{name}: {inflow:?}");
            }
            assert_eq!(
                flow.inflows
                    .iter()
                    .filter(|i| i.matter == Matter::Ingredient)
                    .count(),
                1,
                "{name}"
            );
            seen += 1;
        }
        assert_eq!(seen, 10);
    }

    #[test]
    fn stations_are_what_is_done_and_not_what_is_weighed() {
        let book = demo::book();
        let (flow, ..) = drawn(&book, "Set core cordial");
        let (inflows, stations, outflows) = names(&flow);
        assert_eq!(inflows, ["quince core", "water", "sugar", "malic acid"]);
        assert_eq!(stations, ["simmer", "strain", "dissolve", "dissolve"]);
        assert_eq!(
            outflows,
            ["Set core cordial", "boiled cores", "steam", "in the cloth"]
        );
        assert_eq!(flow.outflows[0].note, "14 d, 4 °C");
        assert_eq!(
            flow.inflows.iter().map(|i| i.station).collect::<Vec<_>>(),
            [0, 0, 2, 3]
        );
        assert_eq!(flow.outflows[2].station, 0);
    }

    #[test]
    fn a_prep_that_is_only_weighed_together_has_one_station() {
        let text = "prep = \"P\"\n[[step]]\ndo = \"weigh\"\nwhat = \"water\"\namount = \"100 g\"\n\
                    [[step]]\ndo = \"add\"\nwhat = \"sugar\"\namount = \"50 g\"\n";
        let book = book(text);
        let (flow, ..) = drawn(&book, "P");
        assert_eq!(names(&flow).1, ["weigh"]);
        // And what is stirred in after the last step is added there.
        let text = format!(
            "{text}[[step]]\ndo = \"heat\"\n[[step]]\ndo = \"add\"\nwhat = \"honey\"\namount = \"5 g\"\n"
        );
        let book = self::book(&text);
        let (flow, ..) = drawn(&book, "P");
        assert_eq!(names(&flow).1, ["heat", "add"]);
        assert_eq!(flow.inflows[2].station, 1);
    }

    #[test]
    fn what_is_told_from_outside_is_drawn_as_it_is_taken() {
        let book = book(
            "prep = \"P\"\n[told]\nbase = \"aquavit, 42 %\"\nsolid = \"lemon peel\"\ntime = \"12 h\"\n",
        );
        let (flow, ..) = drawn(&book, "P");
        let (inflows, stations, outflows) = names(&flow);
        assert_eq!(inflows, ["aquavit, 42 %", "lemon peel"]);
        assert_eq!(stations, ["steep", "strain"]);
        assert_eq!(outflows, ["P", "left behind", "on the sieve"]);
        assert_eq!(flow.stations[0].note, "12 h");
        assert_eq!(flow.inflows[1].matter, Matter::Ingredient);
    }

    #[test]
    fn vapour_says_how_much_spirit_went() {
        let book = book(
            "prep = \"P\"\n[[step]]\ndo = \"weigh\"\nwhat = \"gin, 47 %\"\namount = \"300 g\"\n\
             [[step]]\ndo = \"simmer\"\nloss = \"20 %\"\n",
        );
        let (flow, ..) = drawn(&book, "P");
        let steam = flow.outflows.last().unwrap();
        assert_eq!(steam.name, "vapour");
        assert!(steam.note.ends_with("g spirit"), "{}", steam.note);
    }
}
