//! What an ingredient comes apart into, drawn to scale by mass; each part with what is in it and who uses it.

use maud::{Markup, html};
use pomace_bench::Bench;
use pomace_bench::shelf::{Item, Part, Share};
use pomace_book::names::same;
use pomace_book::{DocumentId, IngredientDoc};
use pomace_larder::Basis;
use pomace_plate::strip::{self, Strip};
use pomace_store::Id;

use super::contents::{READING, figures, known_by};
use super::uses::{self, Use};
use crate::kitchen::Kitchen;
use crate::view::plate::Widths;
use crate::words::{and, full, letter, set};

/// A part, and who uses it.
struct Row {
    part: Part,
    uses: Vec<Use>,
}

/// The parts of an ingredient; nothing where it is not known to have any.
pub(crate) fn part(
    bench: &Bench<'_>,
    (id, document): (&Id, DocumentId),
    doc: &IngredientDoc,
    kitchen: &Kitchen,
    widths: Widths,
) -> Markup {
    let parts = bench.parts(document);
    if parts.is_empty() {
        return html! {};
    }
    let (rows, whole) = rows(parts, uses::of(kitchen, id, &doc.name));
    let piece = bench
        .ingredient(document)
        .and_then(|item| Some((item.piece_grams?, item.piece_noun.clone())));
    let strip = strip_of(&doc.name, piece.as_ref().map(|piece| piece.0), &rows);
    let said = piece.map_or_else(
        || "By mass".to_owned(),
        |(grams, noun)| {
            let noun = noun.unwrap_or_else(|| "piece".to_owned());
            format!("One {noun} of {} g, by mass", set(grams, 0))
        },
    );
    let is_used = |row: &&Row| !row.uses.is_empty();
    let used: f64 = rows.iter().filter(is_used).filter_map(percent).sum();
    let unknown: Vec<String> = rows
        .iter()
        .filter(|row| row.part.share.is_none())
        .map(|row| row.part.name.clone())
        .collect();
    html! {
        div class="plate" {
            figure {
                (widths.draw("parts", |width, prefix| strip::draw_parts(&strip, width, prefix)))
                figcaption { b { "Fig. 1." } " " (said) ". Tinted is what the house has a use for: " (floor(used)) " %." }
            }
        }
        section class="section" { header { h2 { "Its parts" } }
            ul class="apart" {
                @for (index, row) in rows.iter().enumerate() { (one(index, row)) }
            }
            @if !unknown.is_empty() {
                p class="said" { "Not known how much of it is " (and(&unknown)) ": weigh the parts of five, and it is." }
            }
            @if !whole.is_empty() { p class="said" { "Whole it goes into " (links(&whole)) "." } }
        }
    }
}

/// Each part with its uses; and who uses the whole, or a part that nobody told of.
fn rows(parts: Vec<Part>, uses: Vec<(Option<String>, Use)>) -> (Vec<Row>, Vec<Use>) {
    let mut rows: Vec<Row> = parts
        .into_iter()
        .map(|part| Row {
            part,
            uses: Vec::new(),
        })
        .collect();
    let mut whole = Vec::new();
    for (called, used) in uses {
        let Some(called) = called else {
            whole.push(used);
            continue;
        };
        match rows.iter_mut().find(|row| same(&row.part.name, &called)) {
            Some(row) => row.uses.push(used),
            None => rows.push(Row {
                part: Part {
                    name: called,
                    share: None,
                    item: None,
                },
                uses: vec![used],
            }),
        }
    }
    (rows, whole)
}

fn percent(row: &Row) -> Option<f64> {
    row.part.share.as_ref().map(|share| share.percent)
}

/// Whole percent, never rounded up.
fn floor(percent: f64) -> String {
    set((percent + 1e-9).floor().clamp(0.0, 100.0), 0)
}

/// The shares as a strip: in g of one piece, or of 100 g.
fn strip_of(name: &str, piece_grams: Option<f64>, rows: &[Row]) -> Strip {
    let grams = piece_grams.unwrap_or(100.0) / 100.0;
    let mut shares: Vec<strip::Share> = rows
        .iter()
        .enumerate()
        .filter_map(|(index, row)| {
            Some(strip::Share {
                letter: letter(index).to_string(),
                name: row.part.name.clone(),
                amount: percent(row)? * grams,
                of_ingredient: !row.uses.is_empty(),
            })
        })
        .collect();
    let told: f64 = rows.iter().filter_map(percent).sum();
    if told < 99.5 && !shares.is_empty() {
        shares.push(strip::Share {
            letter: "?".to_owned(),
            name: "nobody told".to_owned(),
            amount: (100.0 - told) * grams,
            of_ingredient: false,
        });
    }
    Strip {
        figure: name.to_owned(),
        unit: "g".to_owned(),
        shares,
    }
}

fn one(index: usize, row: &Row) -> Markup {
    html! {
        li {
            span class="letter" { (letter(index)) }
            div {
                p class="what" { (row.part.name) }
                (used(&row.uses))
                @match &row.part.item {
                    Some(item) => (inside(item, row.part.share.as_ref())),
                    None => p class="inside" { "Nothing is known of what is in it: " (READING) " would tell." },
                }
            }
            (share(row.part.share.as_ref()))
        }
    }
}

fn share(share: Option<&Share>) -> Markup {
    html! {
        b {
            @match share {
                None => { "–" small { "not known" } }
                Some(share) => {
                    (set(share.percent, if share.percent < 10.0 && share.percent.fract() > 0.0 { 1 } else { 0 })) " %"
                    @if let Some((low, high)) = share.range { small { (set(low, 0)) " to " (set(high, 0)) } }
                    small { (word(share.basis)) }
                }
            }
        }
    }
}

/// How well a share is known, in a word.
const fn word(basis: Basis) -> &'static str {
    match basis {
        Basis::Measured | Basis::Declared => "measured",
        Basis::Typical => "catalogue",
        Basis::Assumed => "assumed",
    }
}

/// Who uses a part; and what those leave, as far as somebody takes it or not.
fn used(uses: &[Use]) -> Markup {
    html! {
        @if uses.is_empty() { p class="uses" { "Nobody uses it yet." } }
        @for used in uses {
            p class="uses" {
                "Into " a href=(used.link) { (used.name) }
                @for (index, (name, takers)) in used.leaves.iter().enumerate() {
                    @if index == 0 { "; it leaves " } @else { ", and " }
                    (name) ", "
                    @if takers.is_empty() { "which nobody uses yet" }
                    @else {
                        "for "
                        @for (index, (taker, link)) in takers.iter().enumerate() {
                            @if index > 0 { ", " }
                            a href=(link) { (taker) }
                        }
                    }
                }
            }
        }
    }
}

fn links(uses: &[Use]) -> Markup {
    html! {
        @for (index, used) in uses.iter().enumerate() {
            @if index > 0 { @if index + 1 == uses.len() { " and " } @else { ", " } }
            a href=(used.link) { (used.name) }
        }
    }
}

/// What is in a part, what it carries, and how well that is known.
fn inside(item: &Item, share: Option<&Share>) -> Markup {
    let carried = &item.gram.carried;
    let allergens: Vec<String> = carried
        .allergens
        .iter()
        .map(|a| a.as_str().to_owned())
        .collect();
    html! {
        @if let Some(contents) = item.contents() {
            p class="inside" { "In 100 g: "
                @for (index, (label, value, unit)) in figures(&contents).into_iter().enumerate() {
                    @if index > 0 { ", " }
                    span { (label) " " (value) " " (unit) }
                }
                "."
            }
        }
        @if !allergens.is_empty() { p class="inside" { "Contains " (and(&allergens)) "." } }
        @for caution in &item.cautions { p class="caution" { (full(caution)) } }
        (known_by(item, share.map(|share| share.source.as_str())))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(name: &str, percent: Option<f64>) -> Part {
        Part {
            name: name.to_owned(),
            share: percent.map(|percent| Share {
                percent,
                range: None,
                basis: Basis::Measured,
                source: String::new(),
            }),
            item: None,
        }
    }

    fn used(name: &str) -> Use {
        Use {
            name: name.to_owned(),
            link: String::new(),
            leaves: Vec::new(),
        }
    }

    #[test]
    fn uses_find_their_part_and_others_make_one() {
        let parts = vec![part("peel", Some(12.0)), part("core", Some(19.0))];
        let called = |part: &str, by: &str| (Some(part.to_owned()), used(by));
        let uses = vec![
            called("Peel", "shrub"),
            called("zest", "bitters"),
            (None, used("compote")),
        ];
        let (rows, whole) = rows(parts, uses);
        let counted: Vec<(&str, usize)> = rows
            .iter()
            .map(|row| (row.part.name.as_str(), row.uses.len()))
            .collect();
        assert_eq!(counted, [("peel", 1), ("core", 0), ("zest", 1)]);
        assert_eq!(whole, [used("compote")]);
    }

    #[test]
    fn what_nobody_told_has_its_own_place_on_the_strip() {
        let (rows, _) = rows(
            vec![part("peel", Some(12.0)), part("pips", None)],
            Vec::new(),
        );
        let strip = strip_of("quince", Some(310.0), &rows);
        let shares: Vec<(&str, f64)> = strip
            .shares
            .iter()
            .map(|share| (share.name.as_str(), (share.amount * 10.0).round() / 10.0))
            .collect();
        assert_eq!(shares, [("peel", 37.2), ("nobody told", 272.8)]);
    }

    #[test]
    fn a_share_that_is_used_is_never_rounded_up() {
        assert_eq!(floor(97.9), "97");
        assert_eq!(floor(97.0), "97");
        assert_eq!(floor(104.0), "100");
    }
}
