//! Names become a graph: what each leads to, what needs what, and where it runs in a circle.
//!
//! A name is looked up in this order, and the first that has it wins:
//! 1. a stream named earlier in the same document (`as`, `keep`, `by_product`);
//! 2. a document of the book;
//! 3. a by-product of a prep of the book;
//! 4. `whole / part`: a by-product of that prep, a part of that ingredient, a part of a whole in
//!    the larder;
//! 5. an ingredient of the larder;
//! 6. `name, N %`: plain ethanol and water.
//!
//! Case, accents and extra spaces do not matter. A drink is no ingredient: a name that leads to
//! one leads nowhere, and is told.

mod graph;
mod here;
mod lookup;
mod order;
mod reference;
mod shares;
mod walk;

pub use graph::Graph;
pub use reference::{Reference, Spot};

use std::collections::{BTreeSet, HashMap};

use crate::book::{Book, DocumentId};
use crate::document::Document;
use crate::finding::{Finding, Gravity, Topic};
use crate::names::{self, fold};
use crate::read::faults::Faults;
use graph::Links;

/// Resolves every name of a book. Faults of reading are in [`Book::findings`]; these here are
/// those of names and of what they join.
///
/// ```
/// use pomace_book::{Book, Reference, Source, resolve};
///
/// let mut book = Book::new();
/// let syrup = book.add(Source::new("syrup", "prep = \"Plain syrup\"
/// [[step]]
/// do = \"weigh\"
/// what = \"honey\"
/// amount = \"100 g\""));
/// let drink = book.add(Source::new("drink", "drink = \"Try\"
/// [[line]]
/// what = \"plain SYRUP\"
/// amount = \"20 g\""));
/// let (graph, findings) = resolve(&book);
/// assert!(findings.is_empty());
/// assert_eq!(graph.line(drink.unwrap(), 0), Some(&Reference::Document(syrup.unwrap())));
/// ```
#[must_use]
pub fn resolve(book: &Book) -> (Graph, Vec<Finding>) {
    let known = lookup::Names::of(book);
    let mut findings = same_names(book);
    let mut graph = Graph::default();
    for (id, document) in book.documents() {
        let Some(source) = book.source(id) else {
            continue;
        };
        let mut walk = walk::Walk {
            names: &known,
            faults: Faults::of(source),
            id,
        };
        graph.links.push(walk.document(document));
        findings.extend(walk.faults.finish(Some(document.name())));
    }
    join(&mut graph);
    let sorted = order::sort(&graph.uses);
    graph.order = sorted.order;
    findings.extend(
        sorted
            .loops
            .iter()
            .filter_map(|path| loop_finding(book, &graph, path)),
    );
    findings.extend(book.documents().filter_map(|(id, document)| {
        let base = book.variant(id)?.base;
        needs_itself(book, &graph, id, document, base)
    }));
    (graph, findings)
}

/// A variant that is made with its own base: once promoted, it would need itself.
fn needs_itself(
    book: &Book,
    graph: &Graph,
    id: DocumentId,
    document: &Document,
    base: DocumentId,
) -> Option<Finding> {
    let mut seen = BTreeSet::from([id]);
    let mut next = vec![(id, None)];
    while let Some((at, first)) = next.pop() {
        for used in graph.uses(at) {
            let first = first.unwrap_or(*used);
            if *used == base {
                let (span, key) = place_of(document, graph, id, first);
                let mut faults = Faults::of(book.source(id)?);
                faults.add(
                    (Topic::Name, Gravity::Stop),
                    span,
                    &key,
                    format!(
                        "it would need itself, since `{}` is made with it",
                        book.document(first)?.name().value
                    ),
                    "take another ingredient in its place",
                );
                return faults.finish(Some(document.name())).pop();
            }
            if seen.insert(*used) {
                next.push((*used, Some(first)));
            }
        }
    }
    None
}

/// Fills in which document uses which.
fn join(graph: &mut Graph) {
    let uses = |links: &Links| -> Vec<DocumentId> {
        let ids: BTreeSet<DocumentId> = links.all().filter_map(Reference::document).collect();
        ids.into_iter().collect()
    };
    graph.uses = graph.links.iter().map(uses).collect();
    graph.used_by = vec![Vec::new(); graph.uses.len()];
    for (user, used) in graph.uses.iter().enumerate() {
        for id in used {
            if let Some(users) = graph.used_by.get_mut(id.0) {
                users.push(DocumentId(user));
            }
        }
    }
}

/// Two documents of one name: every use of it would be doubtful.
fn same_names(book: &Book) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut first: HashMap<String, DocumentId> = HashMap::new();
    for (id, document) in book.documents() {
        if book.variant(id).is_some() {
            continue;
        }
        let before = *first.entry(fold(document.name())).or_insert(id);
        if before == id {
            continue;
        }
        let (Some(source), Some(other)) = (book.source(id), book.source(before)) else {
            continue;
        };
        let mut faults = Faults::of(source);
        faults.add(
            (Topic::Name, Gravity::Stop),
            document.name().span,
            document.kind(),
            format!(
                "there are two documents called `{}`; the other is in `{}`",
                document.name().value,
                other.path,
            ),
            "rename one of them; until then the other is used",
        );
        findings.extend(faults.finish(Some(document.name())));
    }
    findings
}

/// One finding for a loop, at the place where its first document names the second.
fn loop_finding(book: &Book, graph: &Graph, path: &[DocumentId]) -> Option<Finding> {
    let names = path.iter().filter_map(|id| book.document(*id));
    let names = names::round(names.map(|document| document.name().as_str()));
    let (first, second) = (*path.first()?, path.get(1).copied()?);
    let document = book.document(first)?;
    let (span, key) = place_of(document, graph, first, second);
    let mut faults = Faults::of(book.source(first)?);
    faults.add(
        (Topic::Name, Gravity::Stop),
        span,
        &key,
        if path.len() > 2 {
            format!("these documents need one another: {names}")
        } else {
            format!("this document needs itself: {names}")
        },
        "take one of the names out, or make what is meant a document of its own",
    );
    faults.finish(Some(document.name())).pop()
}

/// Where a document names another.
fn place_of(
    document: &Document,
    graph: &Graph,
    id: DocumentId,
    other: DocumentId,
) -> (crate::span::Span, String) {
    let leads =
        |reference: Option<&Reference>| reference.and_then(Reference::document) == Some(other);
    for (index, step) in document.steps().iter().enumerate() {
        if leads(graph.step(id, index))
            && let Some(what) = &step.what
        {
            return (what.span, format!("step {}, what", index + 1));
        }
    }
    if let Document::Drink(drink) = document {
        for (index, line) in drink.lines.iter().enumerate() {
            if leads(graph.line(id, index)) {
                return (line.what.span, format!("line {}, what", index + 1));
            }
        }
    }
    (document.name().span, document.kind().to_owned())
}
