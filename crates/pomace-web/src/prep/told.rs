//! A prep told from outside: what somebody told of it, and what is taken for the rest.

use maud::{Markup, html};
use pomace_bench::Made;
use pomace_book::{PrepDoc, Told, Verb};

use crate::words::set;

/// What is told of a prep from outside, where that is all that is known of it.
pub(crate) fn outside(doc: &PrepDoc) -> Option<&Told> {
    doc.told.as_ref().filter(|_| doc.steps.is_empty())
}

/// What is done; of a prep told from outside, what is taken to have been done.
pub(crate) fn verbs(doc: &PrepDoc) -> Vec<Verb> {
    if outside(doc).is_some() {
        return vec![Verb::Weigh, Verb::Add, Verb::Steep, Verb::Strain];
    }
    doc.steps.iter().map(|step| step.verb.value).collect()
}

/// What somebody told of it, and what is taken where nobody did.
pub(crate) fn part(outside: &Told, made: Option<&Made>) -> Markup {
    let grams = |step: usize| {
        let brought = made.map(|made| made.brought(step)).unwrap_or_default();
        (brought > 0.0).then(|| format!("{} g", set(brought, 0)))
    };
    let rows = [
        (&outside.base, &outside.base_amount, 0),
        (&outside.solid, &outside.solid_amount, 1),
    ];
    html! {
        p { "Told from outside." }
        ul class="points" {
            @for (name, amount, step) in rows {
                @if let Some(name) = name {
                    li { span { (name.value) } span class="dots" {}
                        span {
                            (grams(step).unwrap_or_else(|| "–".to_owned())) " "
                            small { @if amount.is_some() { "told" } @else { "nobody told: the usual" } }
                        } }
                }
            }
            li { span { "together" } span class="dots" {}
                span { @match &outside.time {
                    Some(time) => { (time.value) " " small { "told" } }
                    None => { "long enough " small { "nobody told" } }
                } } }
        }
    }
}

#[cfg(test)]
mod tests {
    use pomace_bench::Bench;
    use pomace_book::{Book, Document, Source};

    use super::*;

    #[test]
    fn what_nobody_told_is_said_to_be_the_usual() {
        let mut book = Book::new();
        let text = "prep = \"P\"\n[told]\nbase = \"aquavit, 42 %\"\nbase_amount = \"800 g\"\nsolid = \"lemon peel\"\n";
        book.add(Source::new("0.toml", text));
        let bench = Bench::new(&book);
        let id = book.by_name("P").unwrap();
        let Some(Document::Prep(doc)) = book.document(id) else {
            panic!("no prep");
        };
        let made = bench.prep(id).unwrap();
        let shown = part(outside(doc).unwrap(), Some(&made)).into_string();
        let words: Vec<&str> = shown
            .split(['<', '>'])
            .skip(2)
            .step_by(2)
            .map(str::trim)
            .filter(|words| !words.is_empty())
            .collect();
        assert_eq!(
            words,
            [
                "Told from outside.",
                "aquavit, 42 %",
                "800 g",
                "told",
                "lemon peel",
                "100 g",
                "nobody told: the usual",
                "together",
                "long enough",
                "nobody told"
            ]
        );
        // Each thing that was assumed is said of the step that it belongs to.
        assert_eq!(verbs(doc).len(), made.records.len());
    }

    #[test]
    fn a_prep_with_steps_is_not_told_from_outside() {
        let mut book = Book::new();
        book.add(Source::new(
            "0.toml",
            "prep = \"P\"\n[told]\nbase = \"water\"\n[[step]]\ndo = \"weigh\"\nwhat = \"water\"\namount = \"1 g\"\n",
        ));
        let Some(Document::Prep(doc)) = book.document(book.by_name("P").unwrap()) else {
            panic!("no prep");
        };
        assert!(outside(doc).is_none());
        assert_eq!(verbs(doc), [Verb::Weigh]);
    }
}
