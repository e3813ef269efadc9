//! What there is to look at, to know and to answer.

use maud::{Markup, html};
use pomace_bench::Bench;
use pomace_bench::remark::{Assumption, Remark};
use pomace_book::{DocumentId, Finding, Gravity, Topic, Verb};

use crate::voice;
use crate::words::{and, set};

/// The findings about one place of a document: `line 2`, `step 1`, `garnish 3`.
pub(crate) fn at<'a>(
    findings: &'a [&'a Finding],
    place: &'a str,
) -> impl Iterator<Item = &'a Finding> + 'a {
    findings
        .iter()
        .copied()
        .filter(move |finding| is_at(&finding.place.key, place))
}

fn is_at(key: &str, place: &str) -> bool {
    key.strip_prefix(place)
        .is_some_and(|rest| !rest.starts_with(|sign: char| sign.is_ascii_digit()))
}

/// The findings of a document, gravest first, without mere notes.
pub(crate) fn of<'a>(bench: &'a Bench<'_>, id: DocumentId) -> Vec<&'a Finding> {
    let own = bench.book().source(id).map(|source| source.path.as_str());
    let mut found: Vec<&Finding> = bench
        .findings()
        .iter()
        .filter(|f| Some(f.place.path.as_str()) == own && f.gravity > Gravity::Note)
        .collect();
    found.sort_by_key(|finding| std::cmp::Reverse(finding.gravity));
    found
}

/// Whether the name in a line or a step leads nowhere.
pub(crate) fn leads_nowhere(findings: &[&Finding], list: &str, index: usize) -> bool {
    let place = format!("{list} {}", index + 1);
    at(findings, &place).any(|f| f.topic == Topic::Name && f.gravity == Gravity::Stop)
}

/// Findings that belong to no line, step or garnish.
pub(crate) fn elsewhere(findings: &[&Finding]) -> Markup {
    let rest: Vec<&&Finding> = findings
        .iter()
        .filter(|f| {
            !["line ", "step ", "garnish "]
                .iter()
                .any(|list| f.place.key.starts_with(list))
        })
        .collect();
    html! {
        @for finding in rest {
            div class="question" role="note" {
                @let (message, mend) = voice::finding(finding);
                p { (message) " " }
                p { small { (mend) " " } }
            }
        }
    }
}

/// Allergens as a sentence, and the cautions that came with what is in it.
///
/// `unknown` are lines of which nothing is known.
pub(crate) fn allergens(
    sure: &[&str],
    possible: &[&str],
    cautions: &[String],
    unknown: &[String],
) -> Markup {
    let owned = |words: &[&str]| words.iter().map(|w| (*w).to_owned()).collect::<Vec<_>>();
    html! {
        p class="said" {
            @if sure.is_empty() && !unknown.is_empty() { "Not known." }
            @else if sure.is_empty() { "None known so far." }
            @else { "Contains " strong { (and(&owned(sure))) } "." }
        }
        @if !possible.is_empty() {
            p class="said" { "Not known yet: " (and(&owned(possible))) ". Read the labels." }
        }
        @if !unknown.is_empty() {
            p class="said caution" { "Nobody has told what is in " (and(unknown)) ": it is in no figure, and may bring any allergen. Ask before you serve it." }
        }
        @for caution in cautions { p class="said caution" { "Caution: " (caution) "." } }
        p { small { "As far as the book and its labels tell. What touched the same board, tin or bottle is not in it." } }
    }
}

/// What nobody said and was assumed, as a table, and what the steps remark.
pub(crate) fn remarks<'a>(all: impl Iterator<Item = (Verb, &'a Remark)>) -> Markup {
    let mut assumed: Vec<(Verb, &Assumption)> = Vec::new();
    let mut told: Vec<String> = Vec::new();
    for (verb, remark) in all {
        match remark {
            Remark::Assumed(one) => {
                if !assumed.iter().any(|(_, other)| *other == one) {
                    assumed.push((verb, one));
                }
            }
            other => {
                let text = format!("{}: {other}", verb.word());
                if !told.contains(&text) {
                    told.push(text);
                }
            }
        }
    }
    html! {
        @if !told.is_empty() {
            @for text in &told { p class="said" { (voice::spoken(text)) } }
        }
        @if !assumed.is_empty() {
            details class="fold" {
                summary { "What was assumed, since nobody said" }
                table class="assumed" {
                    thead { tr { th { "step" } th { "what" } th { "taken as" } th { "usual range" } } }
                    tbody {
                        @for (verb, one) in &assumed {
                            tr {
                                td { (verb.word()) } td { (one.what) }
                                td { (short(one.value)) " " small { (one.unit) } }
                                td { (short(one.low)) " to " (short(one.high)) }
                            }
                        }
                    }
                }
                @let sources = sources(&assumed);
                p { small { "Sources: " (sources) "." } }
            }
        }
    }
}

fn sources(assumed: &[(Verb, &Assumption)]) -> String {
    let mut sources: Vec<&str> = assumed.iter().map(|(_, one)| one.source).collect();
    sources.sort_unstable();
    sources.dedup();
    sources.join("; ")
}

/// A number with three digits at most.
fn short(value: f64) -> String {
    let decimals = match value.abs() {
        size if size >= 100.0 => 0,
        size if size >= 10.0 => 1,
        size if size >= 1.0 => 2,
        _ => 3,
    };
    let text = set(value, decimals);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::{is_at, short};

    #[test]
    fn a_place_is_not_the_beginning_of_another() {
        assert!(is_at("line 1, amount", "line 1") && is_at("line 1", "line 1"));
        assert!(!is_at("line 12, amount", "line 1") && !is_at("step 1", "line 1"));
        assert_eq!(
            (
                short(12.0).as_str(),
                short(0.05).as_str(),
                short(250.0).as_str()
            ),
            ("12", "0.05", "250")
        );
    }
}
