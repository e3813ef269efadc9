//! Findings on a page: document by document, each with its line and what is meant underlined.

use std::collections::HashMap;
use std::fs::File;
use std::io::Read as _;

use pomace_book::limits::DOCUMENT_BYTES;
use pomace_book::{Book, Finding, Gravity};

use crate::page::{BOLD, DIM, shorten, signs, wrap};
use crate::quote::Quote;

/// The page.
pub(super) fn page(book: &Book, findings: &[Finding], count: usize, width: usize) -> String {
    let mut page = String::new();
    let mut texts = Texts::of(book);
    let mut before: Option<(&str, &str)> = None;
    for finding in findings {
        let here = (finding.document.as_str(), finding.place.path.as_str());
        if before != Some(here) {
            page.push_str(&head(finding));
            before = Some(here);
        }
        page.push_str(&one(finding, &mut texts, width));
    }
    if !findings.is_empty() {
        page.push('\n');
    }
    page.push_str(&wrap(&summary(count, findings), width, "", ""));
    page.push('\n');
    page
}

fn head(finding: &Finding) -> String {
    let name = shorten(&finding.document, 200);
    let path = shorten(&finding.place.path, 400);
    if name == path {
        return format!("\n{BOLD}{path}{BOLD:#}\n");
    }
    format!("\n{BOLD}{name}{BOLD:#}  {DIM}{path}{DIM:#}\n")
}

fn one(finding: &Finding, texts: &mut Texts<'_>, width: usize) -> String {
    let place = &finding.place;
    let gravity = finding.gravity.to_string();
    let lead = format!("  {gravity}: ");
    let mut told = format!(
        "\n{}\n",
        wrap(&finding.message.to_string(), width, &lead, "    ")
    );
    let quote = texts.quote(finding);
    if let Some(quote) = &quote {
        told.push_str(&quote.set(width, "  "));
        told.push('\n');
    }
    let mut add = |lead: &str, text: &str| {
        let rest = " ".repeat(signs(lead));
        told.push_str(&wrap(text, width, lead, &rest));
        told.push('\n');
    };
    let at = format!("line {}, column {}", place.line, place.column);
    if !place.key.is_empty() {
        add("    at ", &format!("{at}: {}", place.key));
    } else if quote.is_some() {
        add("    at ", &at);
    }
    if let Some(authority) = &finding.authority {
        add("    says ", authority);
    }
    if !finding.mend.is_empty() {
        add("    mend: ", &finding.mend.to_string());
    }
    told
}

/// `3 findings in 2 documents: 1 stop, 2 caution`, out of how many.
fn summary(count: usize, findings: &[Finding]) -> String {
    let read = counted(count, "document", "documents");
    if findings.is_empty() {
        return format!("{read} read, nothing to mend.");
    }
    let of = |gravity: Gravity| {
        let count = findings
            .iter()
            .filter(|finding| finding.gravity == gravity)
            .count();
        (count > 0).then(|| format!("{count} {gravity}"))
    };
    let grades: Vec<String> = [Gravity::Stop, Gravity::Caution, Gravity::Note]
        .into_iter()
        .filter_map(of)
        .collect();
    format!(
        "{read} read, {}: {}.",
        counted(findings.len(), "finding", "findings"),
        grades.join(", ")
    )
}

fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// The texts that findings point into.
struct Texts<'b> {
    of_book: HashMap<&'b str, &'b str>,
    /// Of texts so faulty that the book does not hold them.
    others: HashMap<String, Option<String>>,
}

impl<'b> Texts<'b> {
    fn of(book: &'b Book) -> Self {
        let sources = book.documents().filter_map(|(id, _)| book.source(id));
        let of_book = sources
            .map(|source| (source.path.as_str(), source.text.as_str()))
            .collect();
        Self {
            of_book,
            others: HashMap::new(),
        }
    }

    fn text(&mut self, path: &str) -> Option<&str> {
        if let Some(text) = self.of_book.get(path) {
            return Some(text);
        }
        self.others
            .entry(path.to_owned())
            .or_insert_with(|| from_file(path))
            .as_deref()
    }

    /// The line of a finding; none where the text cannot be read or has no such line.
    fn quote(&mut self, finding: &Finding) -> Option<Quote> {
        let place = &finding.place;
        let span = place.span;
        let text = self.text(&place.path)?;
        let line = text.lines().nth(place.line.checked_sub(1)?)?;
        if line.trim().is_empty() {
            return None;
        }
        let start = place.column.saturating_sub(1);
        let left = signs(line).saturating_sub(start);
        // A span over several lines is underlined in its first.
        let meant = span
            .of(text)
            .lines()
            .next()
            .map_or(0, |meant| signs(meant.trim_end()));
        Some(Quote {
            line: line.to_owned(),
            number: Some(place.line),
            start,
            length: meant.min(left),
        })
    }
}

fn from_file(path: &str) -> Option<String> {
    // A pipe would wait for a writer.
    if !std::fs::metadata(path).ok()?.is_file() {
        return None;
    }
    let mut bytes = Vec::new();
    File::open(path)
        .ok()?
        .take(DOCUMENT_BYTES)
        .read_to_end(&mut bytes)
        .ok()?;
    String::from_utf8(bytes)
        .ok()
        .filter(|text| !text.contains('\0'))
}
