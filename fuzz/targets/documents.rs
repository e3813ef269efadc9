//! Any text may be a document: reading, resolving, computing and editing never panic, places lie
//! within the text, and writing what was read keeps it the same.
#![no_main]

use libfuzzer_sys::fuzz_target;
use pomace_bench::Bench;
use pomace_book::edit::{Draft, Path};
use pomace_book::{Book, Document, Source, parse, resolve};

fuzz_target!(|text: &str| {
    let source = Source::new("fuzz.toml", text);
    let parsed = parse(&source);
    for finding in &parsed.findings {
        assert!(
            !finding.message.is_empty() && !finding.mend.is_empty(),
            "{finding:?}"
        );
        assert!(finding.place.span.start <= text.len(), "{finding:?}");
    }
    assert!(parsed.document.is_some() || !parsed.findings.is_empty());

    let mut book = Book::new();
    book.add(source.clone());
    // Twice, so that there is something to confuse it with.
    book.add(source);
    let (graph, _) = resolve(&book);
    assert!(graph.order.len() <= book.len());
    for finding in Bench::new(&book).check() {
        assert!(
            !finding.message.is_empty() && !finding.mend.is_empty(),
            "{finding:?}"
        );
    }

    let Ok(mut draft) = Draft::open(text) else {
        return;
    };
    let written = draft.to_text();
    let again = parse(&Source::new("fuzz.toml", written.clone()));
    assert_eq!(
        said(again.document.as_ref()),
        said(parsed.document.as_ref()),
        "{written}"
    );
    assert_eq!(again.findings.len(), parsed.findings.len(), "{written}");

    let at = Path::item("line", 0, "amount");
    if draft.set(&at, "12.5 g").is_ok() {
        assert_eq!(draft.get(&at).as_deref(), Some("12.5 g"));
        assert!(Draft::open(&draft.to_text()).is_ok(), "{}", draft.to_text());
    }
    if draft.insert("step", 0, &[("do", "rest")]).is_ok() {
        let again = Draft::open(&draft.to_text());
        let first = again
            .ok()
            .and_then(|again| again.get(&Path::item("step", 0, "do")));
        assert_eq!(first.as_deref(), Some("rest"), "{}", draft.to_text());
        assert!(draft.remove("step", 0).is_ok());
    }
});

/// What a document says, without the places.
fn said(document: Option<&Document>) -> Option<(String, &'static str, usize)> {
    document.map(|document| {
        (
            document.name().value.clone(),
            document.kind(),
            document.steps().len(),
        )
    })
}
