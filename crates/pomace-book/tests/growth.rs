//! Large books: what they cost grows with their size and no faster.
//!
//! Times are printed; the bounds are wide, because tests run half optimised on busy machines.

use std::time::{Duration, Instant};

use pomace_book::{Book, DocumentId, Finding, Graph, Reference, Source, Spot, resolve};

const A: DocumentId = DocumentId(0);

fn book(texts: impl IntoIterator<Item = String>) -> Book {
    let start = Instant::now();
    let mut book = Book::new();
    for (index, text) in texts.into_iter().enumerate() {
        book.add(Source::new(format!("{index}.toml"), text));
    }
    println!("{} documents are read in {:?}", book.len(), start.elapsed());
    book
}

fn resolved(book: &Book, what: &str, within: Duration) -> (Graph, Vec<Finding>) {
    let start = Instant::now();
    let answer = resolve(book);
    let took = start.elapsed();
    println!("{what}: {took:?}");
    assert!(took < within, "{what}: {took:?}");
    answer
}

fn drink(name: &str, lines: &[String]) -> String {
    let lines: String = lines
        .iter()
        .map(|what| format!("[[line]]\nwhat = \"{what}\"\namount = \"10 g\"\n"))
        .collect();
    format!("drink = \"{name}\"\n{lines}")
}

fn prep(name: &str, what: &str) -> String {
    format!("prep = \"{name}\"\n[[step]]\ndo = \"weigh\"\nwhat = \"{what}\"\namount = \"10 g\"\n")
}

#[test]
fn missing_names_do_not_cost_the_book() {
    for (what, distinct) in [("the same two names", 1), ("names of their own", 10_000)] {
        let book = book((0..10_000).map(|at| {
            let missing = at % distinct;
            let lines = [
                format!("Quince shrub {missing}"),
                format!("Whey cordial no. {missing}"),
            ];
            if at % 2 == 0 {
                drink(&format!("Low tide {at}"), &lines)
            } else {
                drink(&format!("Slack water {at}"), &lines)
            }
        }));
        let (_, findings) = resolved(
            &book,
            &format!("20,000 missing, {what}"),
            Duration::from_secs(5),
        );
        assert_eq!(findings.len(), 20_000);
    }
}

#[test]
fn slips_of_names_do_not_cost_the_book() {
    let preps = (0..5_000).map(|at| prep(&format!("House cordial {at}"), "honey"));
    let drinks =
        (0..5_000).map(|at| drink(&format!("Drink {at}"), &[format!("Hous cordial {at}")]));
    let book = book(preps.chain(drinks));
    let (_, findings) = resolved(
        &book,
        "5,000 slips among 5,000 preps",
        Duration::from_secs(10),
    );
    assert_eq!(findings.len(), 5_000);
    assert!(
        findings[7].mend.to_string().contains("`House cordial 7`"),
        "{}",
        findings[7].mend
    );
}

#[test]
fn twelve_thousand_documents() {
    let book = book((0..12_000).map(|at| match at {
        0 => prep("P0", "honey"),
        at => prep(&format!("P{at}"), &format!("P{}", at - 1)),
    }));
    assert_eq!(book.len(), 12_000);
    let (graph, findings) = resolved(&book, "12,000 preps in a chain", Duration::from_secs(2));
    assert!(findings.is_empty());
    assert_eq!(graph.order.len(), 12_000);
}

#[test]
fn twelve_thousand_documents_with_faults() {
    let book = book((0..12_000).map(|at| format!("prep = \"P\"\ncolour = \"{at}\"\n")));
    assert!(book.findings().len() >= 12_000);
    let (_, findings) = resolved(&book, "12,000 of one name", Duration::from_secs(2));
    assert_eq!(findings.len(), 11_999);
}

#[test]
fn twelve_thousand_documents_in_a_circle() {
    let book =
        book((0..12_000).map(|at| prep(&format!("P{at}"), &format!("P{}", (at + 1) % 12_000))));
    let (graph, findings) = resolved(&book, "12,000 preps in a circle", Duration::from_secs(2));
    assert!(graph.order.is_empty());
    assert_eq!(findings.len(), 1);
    assert!(
        findings[0].message.to_string().len() < 300,
        "{}",
        findings[0].message
    );
}

#[test]
fn twelve_thousand_preps_that_leave_the_same() {
    let book = book((0..12_000).map(|at| {
        format!(
            "{}[[step]]\ndo = \"press\"\nkeep = \"k\"\nby_product = \"pulp\"\n",
            prep(&format!("P{at}"), "pulp")
        )
    }));
    let (_, findings) = resolved(&book, "12,000 of pulp", Duration::from_secs(2));
    assert_eq!(findings.len(), 12_000);
}

fn steps(step: impl Fn(usize) -> String) -> String {
    let steps: String = (0..1_000)
        .map(|at| format!("[[step]]\ndo = \"add\"\n{}\n", step(at)))
        .collect();
    format!("prep = \"P\"\n{steps}")
}

#[test]
fn a_thousand_steps() {
    let chain = book([steps(|at| {
        format!(
            "what = \"honey\"\namount = \"5 % of s{}\"\nas = \"s{at}\"",
            at.wrapping_sub(1)
        )
    })]);
    let (graph, findings) = resolved(&chain, "1,000 steps", Duration::from_millis(500));
    assert_eq!(
        graph.share_of(A, Spot::Step(999)),
        Some(&Reference::Stream(998))
    );
    assert_eq!(findings.len(), 1);

    let wrong = book([steps(|at| {
        format!(
            "what = \"lost thing {at}\"\namount = \"5 % of lots thing {at}\"\nas = \"some thing {at}\""
        )
    })]);
    let (_, findings) = resolved(&wrong, "1,000 steps, all wrong", Duration::from_secs(2));
    assert_eq!(findings.len(), 201);
}

#[test]
fn a_thousand_lines() {
    let lines: String = (0..1_000)
        .map(|at| {
            format!(
                "[[line]]\nwhat = \"n{at}\"\namount = \"5 % of n{}\"\n",
                (at + 1) % 1_000
            )
        })
        .collect();
    let book = book(
        std::iter::once(format!("drink = \"D\"\n{lines}"))
            .chain((0..1_000).map(|at| prep(&format!("n{at}"), "honey"))),
    );
    let (graph, findings) = resolved(&book, "1,000 lines in a circle", Duration::from_millis(500));
    assert_eq!(findings.len(), 1);
    assert_eq!(graph.share_of(A, Spot::Line(0)), None);
    assert_eq!(
        graph.share_of(A, Spot::Line(999)),
        Some(&Reference::Line(0))
    );
}

#[test]
fn long_names_that_are_all_alike() {
    let long = "of the quince that grew behind the lock house by the tidal ";
    let text = steps(|at| {
        format!(
            "what = \"honey\"\namount = \"5 % of pulp {long}{}\"\nas = \"palp {long}{at}\"",
            7 * at
        )
    });
    let book = book((0..40).map(|at| text.replace("\"P\"", &format!("\"P{at}\""))));
    let (_, findings) = resolved(
        &book,
        "8,000 long names, each close to a thousand",
        Duration::from_secs(5),
    );
    assert_eq!(findings.len(), 40 * 201);
}
