//! One figure opened: what each line does to it, and where its doubt comes from.

use pomace_bench::doubt::{Doubt, FigureName, HasFigures, Stage};
use pomace_bench::report::{Figure, Figures};
use pomace_bench::shelf::SIMILAR_MARK;
use pomace_bench::{Bench, Change, To};
use pomace_book::{Document, DocumentId, Spot};

use super::said;
use crate::fault::{Fault, Stop};
use crate::number::set_short;
use crate::page::{BOLD, DIM, rule, shorten, signs, wrap};

/// So much more of a line is tried.
const MORE: f64 = 1.1;

pub(crate) fn page(
    bench: &Bench<'_>,
    id: DocumentId,
    report: &mut impl HasFigures,
    doubts: &[&Doubt],
    asked: &str,
    width: usize,
) -> Result<String, Stop> {
    let Some((name, figure)) = find(report, asked) else {
        let mut names: Vec<String> = doubts
            .iter()
            .flat_map(|doubt| doubt.names())
            .map(|n| n.to_string())
            .collect();
        names.dedup();
        let near = pomace_book::names::nearest(asked, names.iter().map(String::as_str), 3);
        let mend = if near.is_empty() {
            "take a name from `--json`, such as `abv_percent` or `before_ice.ph`, or of a minute in the glass, `minute_10.abv_percent`".to_owned()
        } else {
            format!("did you mean {}?", pomace_book::names::either(near))
        };
        return Err(Fault::new(format!("there is no figure `{asked}`"), mend).into());
    };
    let Some(value) = figure.value else {
        return Err(Fault::new(
            format!("`{name}` has no value here"),
            "`pomace show` without `--why` says what is missing",
        )
        .into());
    };
    let title = bench
        .book()
        .document(id)
        .map_or("", |d| d.name().value.as_str());
    let mut page = format!("\n{BOLD}{title}{BOLD:#}: {name}\n{}\n", rule(width));
    let plus_minus = figure
        .plus_minus
        .map_or_else(String::new, |d| format!(" ± {}", set_short(d, 2)));
    page.push_str(&format!(
        "  {BOLD}{}{BOLD:#}{plus_minus}  {DIM}{}{DIM:#}\n",
        set_short(value, 4),
        figure.basis.as_str()
    ));
    moves(&mut page, bench, id, name, value, width);
    for doubt in doubts {
        shares(&mut page, doubt, name, width);
    }
    Ok(page)
}

fn find(report: &mut impl HasFigures, asked: &str) -> Option<(FigureName, Figure)> {
    let mut found: Vec<(FigureName, Figure)> = Vec::new();
    report.each(&mut |name, figure| {
        if name.name == asked || name.to_string() == asked {
            found.push((name, *figure));
        }
    });
    // Without a stage, what is in the glass is meant.
    let after = found.iter().position(|(n, _)| n.stage == Stage::AfterIce);
    found.into_iter().nth(after.unwrap_or(0))
}

/// What a tenth more of each line or addition does.
fn moves(
    page: &mut String,
    bench: &Bench<'_>,
    id: DocumentId,
    name: FigureName,
    value: f64,
    width: usize,
) {
    let Some(document) = bench.book().document(id) else {
        return;
    };
    let lines = match document {
        Document::Drink(drink) => drink.lines.as_slice(),
        _ => &[],
    };
    let lines = lines
        .iter()
        .enumerate()
        .map(|(i, l)| (Spot::Line(i), l.what.value.clone()));
    let steps = document.steps().iter().enumerate().filter_map(|(i, s)| {
        let what = s.what.as_ref()?;
        Some((Spot::Step(i), format!("{} ({})", what.value, s.verb.value)))
    });
    let mut rows: Vec<(String, f64)> = Vec::new();
    for (spot, label) in lines.chain(steps) {
        let with = bench.with(&[Change {
            document: id,
            spot,
            to: To::Factor(MORE),
        }]);
        let moved = match with.report(id) {
            Ok((_, mut report)) => find(&mut report, &name.to_string()),
            Err(_) => with
                .prep(id)
                .ok()
                .and_then(|made| find(&mut Figures::of(&made.kept), &name.to_string())),
        };
        if let Some(moved) = moved.and_then(|(_, f)| f.value) {
            rows.push((label, moved - value));
        }
    }
    if rows.is_empty() {
        return;
    }
    said::heading(page, "A tenth more of");
    let widest = rows.iter().map(|(l, _)| signs(l)).max().unwrap_or(0);
    let widest = widest.min(width.saturating_sub(16));
    for (label, by) in rows {
        let sign = if by < 0.0 { "−" } else { "+" };
        let by = set_short(by.abs(), 2);
        page.push_str(&format!(
            "  {:widest$}  {BOLD}{sign} {by}{BOLD:#}\n",
            shorten(&label, widest)
        ));
    }
    page.push_str(&format!(
        "{DIM}{}{DIM:#}\n",
        wrap(
            "Amounts told as a share of a line or a step move with it.",
            width,
            "  ",
            "  "
        )
    ));
}

/// Where the doubt comes from, and what would settle it.
fn shares(page: &mut String, doubt: &Doubt, name: FigureName, width: usize) {
    let largest = doubt.largest(name, 8);
    if largest.is_empty() {
        return;
    }
    said::heading(page, "Its doubt comes from");
    let marked = largest.iter().any(|s| s.name.ends_with(SIMILAR_MARK));
    for share in largest {
        let percent = crate::number::set(100.0 * share.share, 0);
        let lead = format!("  {BOLD}{percent:>3}{BOLD:#} %  ");
        let text = format!("{}; settled by {}", share.name, share.reading);
        page.push_str(&format!("{}\n", wrap(&text, width, &lead, "           ")));
    }
    if marked {
        said::similar(page, width);
    }
}
