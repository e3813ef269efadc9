//! The figures, as a table of tides: before, served, later; each opens to say why.

use maud::{Markup, PreEscaped, html};
use pomace_bench::report::Figure;
use pomace_plate::{strip, whiskers};

use super::plate::Widths;
use crate::voice;
use crate::words::{doubt, known, sentence};

/// One figure, ready to be shown.
pub(crate) struct Row {
    /// Stays the same from change to change.
    pub key: &'static str,
    pub label: String,
    pub unit: String,
    pub decimals: usize,
    pub before: Option<Figure>,
    pub served: Figure,
    /// At which minute in the glass, and what it is then.
    pub later: Option<(u32, Figure)>,
    pub why: Why,
}

/// Why a figure is what it is.
#[derive(Default)]
pub(crate) struct Why {
    /// What it means, in a sentence.
    pub sentence: String,
    /// What each line brings to it.
    pub strip: Option<strip::Strip>,
    /// From, how much, known by.
    pub table: Vec<(String, String, String)>,
    /// Heads of the second column.
    pub head: String,
    /// What most of its doubt comes from, with its part in percent.
    pub doubts: Vec<(String, f64)>,
    /// The reading that would settle most.
    pub reading: Option<String>,
    /// Notes of the models about it.
    pub notes: Vec<String>,
}

pub(crate) fn table(rows: &[Row], widths: Widths) -> Markup {
    let has_before = rows.iter().any(|row| row.before.is_some());
    let later = rows.iter().find_map(|row| Some(row.later.as_ref()?.0));
    html! {
        div class={ "tide" @if !has_before && later.is_none() { " single" } } {
            @if has_before || later.is_some() {
                div class="heads" aria-hidden="true" {
                    span {}
                    span { @if has_before { "before" } }
                    span { "served" }
                    span { @if let Some(minute) = later { (minute) " min" } }
                }
            }
            @for row in rows {
                details data-key=(row.key) {
                    summary {
                        span class="name" {
                            (row.label) " " @if !row.unit.is_empty() { small { (row.unit) } " " }
                            span class="ask" { "why?" }
                        }
                        b { @if let Some(before) = &row.before { span class="unseen" { "before " } (known(before.value, row.decimals)) } }
                        b class="served" {
                            (known(row.served.value, row.decimals))
                            @if let Some(doubt) = doubt(&row.served, row.decimals) { " " small { (doubt) } }
                        }
                        b { @if let Some((minute, later)) = &row.later { span class="unseen" { "after " (minute) " minutes " } (known(later.value, row.decimals)) } }
                    }
                    (why(row, widths))
                }
            }
        }
    }
}

fn why(row: &Row, widths: Widths) -> Markup {
    let why = &row.why;
    html! {
        div class="why" {
            p { (why.sentence) }
            @if let Some(strip) = &why.strip {
                (widths.draw(&format!("strip-{}", row.key), |width, prefix| strip::draw(strip, width, prefix)))
            }
            @if !why.table.is_empty() {
                table {
                    thead { tr { th { "from" } th { (why.head) } th { "known by" } } }
                    tbody { @for (from, much, by) in &why.table { tr { td { (from) } td { (much) } td { (by) } } } }
                }
            }
            @if !why.doubts.is_empty() {
                p { "Most of its doubt: "
                    @for (index, (name, percent)) in why.doubts.iter().enumerate() {
                        @if index > 0 { ", " }
                        (voice::source(name)) " (" (format!("{percent:.0} %")) ")"
                    }
                    "."
                }
            }
            @if let Some(reading) = &why.reading { p { "The reading that would settle most: " (reading) "." } }
            @if let Some(elsewhere) = elsewhere(row) { p { (elsewhere) } }
            @for note in &why.notes { p { small { (voice::spoken(note)) } } }
            p { small { "How it is known: " (row.served.basis.as_str()) ". In 19 of 20 cases the true value lies within the ±." } }
        }
    }
}

/// How sure the figures are that stand beside the one that is served.
fn elsewhere(row: &Row) -> Option<String> {
    let told = |figure: &Figure, when: String| {
        let doubt = doubt(figure, row.decimals)?;
        Some(format!(
            "{when} {} {doubt}",
            known(figure.value, row.decimals)
        ))
    };
    let before = row
        .before
        .iter()
        .map(|before| (before, "before ice".to_owned()));
    let later = row.later.iter().map(|(minute, later)| {
        let when = format!("after {minute} minutes in the glass");
        (later, when)
    });
    let all = before
        .chain(later)
        .filter_map(|(figure, when)| told(figure, when));
    let all: Vec<String> = all.collect();
    (!all.is_empty()).then(|| sentence(&format!("{}.", all.join("; "))))
}

/// What one reading would settle, drawn.
pub(crate) fn whiskers_of(what: &whiskers::Whiskers, widths: Widths) -> Markup {
    let width = widths.0.unwrap_or(pomace_plate::Width::Phone);
    html! {
        @if let Some(drawing) = whiskers::draw(what, width, "whiskers") { (PreEscaped(drawing.svg)) }
    }
}
