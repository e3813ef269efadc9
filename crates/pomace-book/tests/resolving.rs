//! Names into references, and what is said where they lead nowhere.

use pomace_book::{Book, DocumentId, Graph, Gravity, Reference, Source, Spot, resolve};

use crate::documents::{DRINK, SHRUB};

fn book(texts: &[&str]) -> Book {
    let mut book = Book::new();
    for (index, text) in texts.iter().enumerate() {
        book.add(Source::new(format!("{index}.toml"), *text))
            .unwrap();
    }
    assert!(
        book.findings()
            .iter()
            .all(|finding| finding.gravity < Gravity::Stop),
        "{:?}",
        book.findings()
    );
    book
}

fn resolved(texts: &[&str]) -> (Graph, Vec<String>) {
    let (graph, findings) = resolve(&book(texts));
    let said = findings.iter().map(|finding| {
        let place = &finding.place;
        format!(
            "{}:{} {} [{}] {} → {}",
            place.path, place.line, finding.gravity, place.key, finding.message, finding.mend
        )
    });
    (graph, said.collect())
}

fn prep(name: &str, what: &str) -> String {
    format!("prep = \"{name}\"\n[[step]]\ndo = \"weigh\"\nwhat = \"{what}\"\namount = \"10 g\"\n")
}

const A: DocumentId = DocumentId(0);
const B: DocumentId = DocumentId(1);

#[test]
fn the_documents_of_the_design() {
    let whey = prep("Whey, cleared", "whey");
    let leather = prep("Quince leather", "pressed peel");
    let (graph, said) = resolved(&[DRINK, &whey, SHRUB, &leather]);
    assert_eq!(graph.line(A, 1), Some(&Reference::Document(DocumentId(2))));
    assert_eq!(graph.line(A, 2), Some(&Reference::Document(B)));
    assert_eq!(
        graph.line(A, 0),
        Some(&Reference::Spirit {
            name: "aquavit".to_owned(),
            strength_percent: 42.0
        })
    );
    assert_eq!(
        graph.garnish(A, 0),
        Some(&Reference::Document(DocumentId(3)))
    );
    let shrub = DocumentId(2);
    assert!(
        matches!(graph.step(shrub, 0), Some(Reference::WholePart { whole, part }) if whole.name == "quince" && whole.parts[*part].name == "peel")
    );
    assert_eq!(
        graph.share_of(shrub, Spot::Step(1)),
        Some(&Reference::Stream(0))
    );
    assert_eq!(
        graph.share_of(shrub, Spot::Step(4)),
        Some(&Reference::Stream(3))
    );
    assert_eq!(
        graph.step(DocumentId(3), 0),
        Some(&Reference::ByProduct {
            prep: shrub,
            name: "pressed peel".to_owned()
        })
    );
    assert_eq!(graph.uses(A), [B, shrub, DocumentId(3)]);
    assert_eq!(graph.used_by(shrub), [A, DocumentId(3)]);
    let at = |id| graph.order.iter().position(|other| *other == id).unwrap();
    assert!(at(shrub) < at(DocumentId(3)) && at(DocumentId(3)) < at(A));
    let stops: Vec<&String> = said.iter().filter(|said| said.contains(" stop ")).collect();
    assert!(
        stops.iter().all(|said| said.contains("sparkling water")),
        "{stops:#?}"
    );
}

#[test]
fn names_match_as_people_mean_them() {
    let (graph, said) = resolved(&[
        "ingredient = \"Crème  fraîche\"\nlike = \"cream\"\n",
        &prep("P", "creme FRAICHE"),
    ]);
    assert_eq!(graph.step(B, 0), Some(&Reference::Document(A)));
    assert!(said.is_empty(), "{said:?}");
}

#[test]
fn loops_are_printed_and_left_out() {
    let (graph, said) = resolved(&[
        &prep("A", "B"),
        &prep("B", "C"),
        &prep("C", "A"),
        &prep("D", "A"),
    ]);
    assert_eq!(graph.order, [DocumentId(3)]);
    insta::assert_snapshot!(said.join("\n"), @"0.toml:4 stop [step 1, what] these documents need one another: `A` → `B` → `C` → `A` → take one of the names out, or make what is meant a document of its own");
    let (graph, said) = resolved(&[&prep("A", "a")]);
    assert!(graph.order.is_empty());
    insta::assert_snapshot!(said.join("\n"), @"0.toml:4 stop [step 1, what] this document needs itself: `A` → `A` → take one of the names out, or make what is meant a document of its own");
}

#[test]
fn a_loop_through_a_by_product_is_a_loop() {
    let a = format!(
        "{}[[step]]\ndo = \"press\"\nkeep = \"x\"\nby_product = \"A pulp\"\n",
        prep("A", "B")
    );
    let (graph, said) = resolved(&[&a, &prep("B", "A pulp")]);
    assert!(graph.order.is_empty());
    assert_eq!(said.len(), 1, "{said:?}");
}

#[test]
fn names_that_lead_nowhere() {
    let (_, said) = resolved(&[
        SHRUB,
        &prep("P", "Quince peel shrubb"),
        &prep("Q", "hony"),
        &prep("R", "quince peel"),
        &prep("S", "zzzzzzz"),
        &prep("T", "cream, 35 %"),
        &prep("U", "Quince peel shrub, 12 %"),
    ]);
    insta::assert_snapshot!(said.join("\n"), @r"
    1.toml:4 stop [step 1, what] nothing is called `Quince peel shrubb` → write `Quince peel shrub`, if that is meant; or add it to the book
    2.toml:4 stop [step 1, what] nothing is called `hony` → write `Honey` or `hon mirin`, if that is meant; or add it to the book
    3.toml:4 stop [step 1, what] nothing is called `quince peel` → write `quince / peel` or `Quince peel shrub`, if that is meant; or add it to the book
    4.toml:4 stop [step 1, what] nothing is called `zzzzzzz` → add it to the book as an ingredient or a prep, or use a name of the catalogue
    5.toml:4 stop [step 1, what] `cream, 35 %` would be read as a spirit, which `cream` is not → write `cream` alone, or make it an ingredient of the book under the whole name
    6.toml:4 stop [step 1, what] `Quince peel shrub, 12 %` would be read as a spirit, which `Quince peel shrub` is not → write `Quince peel shrub` alone, or make it an ingredient of the book under the whole name
    ");
}

#[test]
fn two_documents_of_one_name() {
    let (graph, said) = resolved(&[
        &prep("Honey water", "honey"),
        &prep("honey  WATER", "honey"),
        &prep("P", "Honey water"),
    ]);
    assert_eq!(graph.step(DocumentId(2), 0), Some(&Reference::Document(A)));
    insta::assert_snapshot!(said.join("\n"), @"1.toml:1 stop [prep] there are two documents called `honey  WATER`; the other is in `0.toml` → rename one of them; until then the other is used");
}

#[test]
fn a_by_product_of_two_preps_is_asked_for() {
    let leaving = |name: &str| {
        format!(
            "{}[[step]]\ndo = \"press\"\nkeep = \"k\"\nby_product = \"pulp\"\n",
            prep(name, "honey")
        )
    };
    let (graph, said) = resolved(&[
        &leaving("A"),
        &leaving("B"),
        &prep("P", "pulp"),
        &prep("Q", "B / Pulp"),
    ]);
    assert_eq!(graph.step(DocumentId(2), 0), None);
    assert_eq!(
        graph.step(DocumentId(3), 0),
        Some(&Reference::ByProduct {
            prep: B,
            name: "pulp".to_owned()
        })
    );
    insta::assert_snapshot!(said.join("\n"), @"2.toml:4 stop [step 1, what] `pulp` is left behind by more than one prep → write `A / pulp` or `B / pulp`");
}

#[test]
fn parts_of_ingredients() {
    let quince = "ingredient = \"Garden quince\"\nlike = \"quince\"\n[[part]]\nname = \"Skin\"\nshare = \"12 %\"\n";
    let (graph, said) = resolved(&[
        quince,
        &prep("P", "garden quince/skin"),
        &prep("Q", "Garden quince / core"),
        &prep("R", "Garden quince / wings"),
    ]);
    let part = |part: &str| Reference::Part {
        of: Box::new(Reference::Document(A)),
        part: part.to_owned(),
    };
    assert_eq!(graph.step(B, 0), Some(&part("Skin")));
    assert_eq!(graph.step(DocumentId(2), 0), Some(&part("core")));
    assert_eq!(graph.uses(B), [A]);
    assert!(matches!(graph.like(A), Some(Reference::Catalogue(_))));
    assert_eq!(said.len(), 1, "{said:?}");
}

#[test]
fn an_ingredient_may_be_like_one_of_its_own_name() {
    let (graph, said) = resolved(&[
        "ingredient = \"Honey\"\nlike = \"honey\"\n",
        &prep("P", "honey"),
    ]);
    assert!(
        matches!(graph.like(A), Some(Reference::Catalogue(_))),
        "{said:?}"
    );
    assert_eq!(graph.step(B, 0), Some(&Reference::Document(A)));
    assert_eq!(graph.order, [A, B]);
}

#[test]
fn streams_of_the_same_prep() {
    let text = r#"
prep = "P"
[[step]]
do = "weigh"
what = "quince / peel"
amount = "10 g"
[[step]]
do = "press"
keep = "juice"
by_product = "pulp"
[[step]]
do = "add"
what = "pulp"
amount = "half of the juice"
[[step]]
do = "add"
what = "honey"
amount = "5 % of peel"
"#;
    let (graph, said) = resolved(&[text]);
    assert_eq!(graph.step(A, 2), Some(&Reference::Left(1)));
    assert_eq!(
        graph.share_of(A, Spot::Step(2)),
        Some(&Reference::Stream(1))
    );
    assert_eq!(graph.share_of(A, Spot::Step(3)), Some(&Reference::Added(0)));
    assert!(said.is_empty(), "{said:?}");
}

#[test]
fn shares_of_what_is_not_there() {
    let text = r#"
prep = "P"
[[step]]
do = "add"
what = "honey"
amount = "5 % of juice"
[[step]]
do = "add"
what = "honey"
amount = "5 % of jiuce"
[[step]]
do = "weigh"
what = "whey"
amount = "10 % of whey"
[[step]]
do = "strain"
what = "foam"
[[step]]
do = "press"
keep = "juice"
by_product = "foam"
"#;
    let (_, said) = resolved(&[text]);
    insta::assert_snapshot!(said.join("\n"), @r"
    0.toml:6 stop [step 1, amount] `5 % of juice` is a share of `juice`, which is not weighed before step 5 → move that step up, or write a weight here
    0.toml:10 stop [step 2, amount] `5 % of jiuce` is a share of `jiuce`, which is nowhere in this document → write `juice`, if that is meant
    0.toml:14 stop [step 3, amount] `10 % of whey` is a share of `whey`, which is this step itself → write a weight here, and shares of it in the later steps
    0.toml:17 stop [step 4, what] `foam` is not there yet at this step → move the step that makes `foam` up, or name another
    ");
}

#[test]
fn shares_among_the_lines_of_a_drink() {
    let line =
        |what: &str, amount: &str| format!("[[line]]\nwhat = \"{what}\"\namount = \"{amount}\"\n");
    let drink = format!(
        "drink = \"D\"\n{}{}{}",
        line("honey", "50 % of whey"),
        line("whey", "10 g"),
        line("malt vinegar", "1:3 of nothing")
    );
    let (graph, said) = resolved(&[&drink]);
    assert_eq!(graph.share_of(A, Spot::Line(0)), Some(&Reference::Line(1)));
    insta::assert_snapshot!(said.join("\n"), @r"
    0.toml:9 stop [line 3, what] nothing is called `malt vinegar` → add it to the book as an ingredient or a prep, or use a name of the catalogue
    0.toml:10 stop [line 3, amount] `1:3 of nothing` is a share of `nothing`, which is nowhere in this document → name what is there, such as `honey` or `whey`
    ");
    let drink = format!(
        "drink = \"D\"\n{}{}",
        line("honey", "50 % of whey"),
        line("whey", "10 % of honey")
    );
    let (_, said) = resolved(&[&drink]);
    insta::assert_snapshot!(said.join("\n"), @"0.toml:4 stop [line 1, amount] the lines are shares of one another: `honey` → `whey` → `honey` → write one of them as an amount, such as `40 mL`");
}

#[test]
fn a_brief_is_carried_by_what_is_there() {
    let drink = format!(
        "{DRINK}[[brief]]\nnote = \"salt\"\ncarried_by = [\"quince leather\", \"Quince shrub\"]\n"
    );
    let (_, said) = resolved(&[&drink, SHRUB]);
    let said: Vec<String> = said
        .into_iter()
        .filter(|said| said.contains("brief"))
        .collect();
    insta::assert_snapshot!(said.join("\n"), @"0.toml:46 caution [brief 2, carried_by] `Quince shrub` carries the brief but is nowhere in this document → write `Quince peel shrub`, if that is meant");
}

#[test]
fn a_drink_is_no_ingredient() {
    let line = "drink = \"Twice\"\n[[line]]\nwhat = \"second PRESSING\"\namount = \"40 mL\"\n";
    let itself = "drink = \"Ouroboros\"\n[[line]]\nwhat = \"Ouroboros\"\namount = \"40 mL\"\n";
    let (graph, said) = resolved(&[
        "drink = \"Second Pressing\"\n[[line]]\nwhat = \"honey\"\namount = \"40 g\"\n",
        line,
        itself,
        &prep("P", "Second Pressing"),
        &prep("Q", "Second Presing"),
    ]);
    assert_eq!(graph.line(B, 0), None);
    assert_eq!(graph.uses(B), []);
    assert_eq!(graph.order.len(), 5);
    insta::assert_snapshot!(said.join("\n"), @r"
    1.toml:3 stop [line 1, what] `second PRESSING` is a drink, and a drink is no ingredient → make what is meant a prep, and name that in both
    2.toml:3 stop [line 1, what] `Ouroboros` is a drink, and a drink is no ingredient → make what is meant a prep, and name that in both
    3.toml:4 stop [step 1, what] `Second Pressing` is a drink, and a drink is no ingredient → make what is meant a prep, and name that in both
    4.toml:4 stop [step 1, what] nothing is called `Second Presing` → add it to the book as an ingredient or a prep, or use a name of the catalogue
    ");
}

#[test]
fn a_stream_is_not_added_to_itself() {
    let text = r#"
prep = "P"
[[step]]
do = "weigh"
what = "quince / peel"
amount = "10 g"
as = "peel"
[[step]]
do = "add"
what = "peel"
amount = "2 g"
[[step]]
do = "press"
keep = "juice"
by_product = "pulp"
[[step]]
do = "dissolve"
what = "Juice"
amount = "2 g"
[[step]]
do = "add"
what = "pulp"
amount = "2 g"
"#;
    let (graph, said) = resolved(&[text]);
    assert_eq!(graph.step(A, 1), Some(&Reference::Stream(0)));
    assert_eq!(graph.step(A, 4), Some(&Reference::Left(2)));
    insta::assert_snapshot!(said.join("\n"), @r"
    0.toml:10 caution [step 2, what] `peel` is in the vessel already, from step 1 → take this step out; if something else of that name comes in, give the stream another
    0.toml:18 caution [step 4, what] `Juice` is in the vessel already, from step 3 → take this step out; if something else of that name comes in, give the stream another
    ");
}

#[test]
fn shares_of_what_is_left_and_of_what_is_misspelt() {
    let text = r#"
prep = "P"
[[step]]
do = "weigh"
what = "quince / flesh"
amount = "100 g"
[[step]]
do = "press"
keep = "juice"
by_product = "cake"
[[step]]
do = "add"
what = "honey"
amount = "10 % of the cake"
[[step]]
do = "add"
what = "honey"
amount = "10 % of caek"
"#;
    let (graph, said) = resolved(&[text]);
    assert_eq!(graph.share_of(A, Spot::Step(2)), Some(&Reference::Left(1)));
    assert_eq!(graph.share_of(A, Spot::Step(3)), None);
    insta::assert_snapshot!(said.join("\n"), @"0.toml:18 stop [step 4, amount] `10 % of caek` is a share of `caek`, which is nowhere in this document → write `cake`, if that is meant");
}

#[test]
fn shares_of_what_is_told() {
    let told = |amount: &str| {
        format!(
            "prep = \"P {amount}\"\n[told]\nbase = \"aquavit, 42 %\"\nsolid = \"honey\"\nsolid_amount = \"{amount}\"\n"
        )
    };
    let (_, said) = resolved(&[
        &told("1:8"),
        &told("1:8 of aquavit"),
        &told("10 % of the base"),
        &told("10 % of akvavit"),
    ]);
    let said: Vec<String> = said
        .into_iter()
        .filter(|said| !said.contains("plain ethanol"))
        .collect();
    insta::assert_snapshot!(said.join("\n"), @"3.toml:5 stop [told, solid_amount] `10 % of akvavit` is a share of `akvavit`, which is not told here → write it as a share of `aquavit`, or as a weight");
}

#[test]
fn a_share_may_be_of_a_line_that_stands_or_enters_later() {
    let drink = r#"
drink = "D"
[[line]]
what = "honey"
amount = "10 % of soda water"
[[line]]
what = "soda water"
amount = "60 g"
enters = "top"
[[step]]
do = "build"
what = "whey"
amount = "half of soda water"
[[step]]
do = "top"
"#;
    let (graph, _) = resolved(&[drink]);
    assert_eq!(graph.share_of(A, Spot::Line(0)), Some(&Reference::Line(1)));
    assert_eq!(graph.share_of(A, Spot::Step(0)), Some(&Reference::Line(1)));
}

#[test]
fn the_demo_leads_somewhere_everywhere() {
    let (_, findings) = resolve(&pomace_book::demo::book());
    let grave: Vec<String> = findings
        .iter()
        .filter(|finding| finding.gravity > Gravity::Note)
        .map(ToString::to_string)
        .collect();
    assert!(grave.is_empty(), "{grave:#?}");
}
