//! Variants side by side on a page.

use pomace_bench::difference::{Apart, Named};
use pomace_book::{Document, Gravity};

use super::table::{Row, rows, table};
use super::{Outcome, SideBySide, Variant, changes};
use crate::number::{set, set_doubt};
use crate::page::{BOLD, DIM, rule, wrap};
use crate::show::said::heading;

pub(super) fn page(all: &SideBySide<'_>, width: usize) -> String {
    let name = &all.document.name().value;
    let count = all.variants.len();
    let trials = if count == 1 { "trial" } else { "trials" };
    let mut page = format!(
        "\n{BOLD}{name}{BOLD:#}, {count} {trials}\n{}\n",
        rule(width)
    );
    heading(&mut page, "What changes");
    for variant in &all.variants {
        what_changes(&mut page, all, variant, width);
    }
    let computed: Vec<(&str, &Apart)> = all.variants.iter().filter_map(Variant::computed).collect();
    if !computed.is_empty() {
        let is_drink = matches!(all.document, Document::Drink(_));
        let mut columns: Vec<(&str, &Named)> = vec![("as written", &all.base)];
        columns.extend(computed.iter().map(|(name, apart)| (*name, &apart.figures)));
        let shown: Vec<&Named> = columns.iter().map(|(_, named)| *named).collect();
        let rows = rows(is_drink, &shown);
        heading(
            &mut page,
            if is_drink {
                "As served"
            } else {
                "What it keeps"
            },
        );
        table(&mut page, &rows, &columns, width);
        heading(&mut page, "Against as written");
        for (name, apart) in &computed {
            against(&mut page, name, apart, &rows, width);
        }
        let text = "± is two standard deviations. What variants share, the ice, the jiggers and what is in the bottles, cancels in a difference; each pour is its own. What the models are off by is taken as common to both. Whether anyone tastes it is for a tasting to say.";
        page.push_str(&format!("{DIM}{}{DIM:#}\n", wrap(text, width, "  ", "  ")));
    }
    to_look_at(&mut page, all, width);
    page
}

impl<'b> Variant<'b> {
    fn computed(&self) -> Option<(&'b str, &Apart)> {
        match &self.outcome {
            Outcome::Computed(apart) => Some((self.trial.name.value.as_str(), apart)),
            Outcome::Promoted | Outcome::Stuck(_) => None,
        }
    }
}

fn what_changes(page: &mut String, all: &SideBySide<'_>, variant: &Variant<'_>, width: usize) {
    let trial = variant.trial;
    let mut title = trial.name.value.clone();
    if matches!(variant.outcome, Outcome::Promoted) {
        title.push_str(" (promoted: the document is so already)");
    }
    page.push_str(&format!(
        "  {BOLD}{}{BOLD:#}\n",
        wrap(&title, width, "", "  ")
    ));
    if let Some(note) = &trial.note {
        page.push_str(&format!("{}\n", wrap(note, width, "    ", "    ")));
    }
    for change in changes::of(all.book, all.id, all.document, trial) {
        let told = wrap(&change.told(), width, "    · ", "      ");
        page.push_str(&format!("{told}\n"));
    }
    if let Outcome::Stuck(why) = &variant.outcome {
        let text = format!("No figures: {why}.");
        page.push_str(&format!("{}\n", wrap(&text, width, "    ", "    ")));
    }
}

/// What sets a variant apart, beyond doubt or not.
fn against(page: &mut String, name: &str, apart: &Apart, rows: &[Row], width: usize) {
    let (mut clear, mut within, mut unknown, mut same) = (vec![], vec![], vec![], vec![]);
    for row in rows {
        let Some(less) = row.figure(&apart.less_base) else {
            continue;
        };
        let Some(value) = less.value else {
            unknown.push(row.short().to_owned());
            continue;
        };
        let unit = if row.unit.is_empty() {
            String::new()
        } else {
            format!(" {}", row.unit)
        };
        let is_nothing = |value: f64| set(value, row.decimals).trim_matches(['0', '.']).is_empty();
        let size = |digits: String| match (is_nothing(value), value < 0.0) {
            (true, _) => set(0.0, row.decimals),
            (false, true) => format!("−{digits}"),
            (false, false) => format!("+{digits}"),
        };
        let size = size(set(value.abs(), row.decimals));
        let told = |doubt: f64| {
            let doubt = set_doubt(doubt, row.decimals);
            format!("{} {size} ± {doubt}{unit}", row.short())
        };
        match less.plus_minus {
            _ if value.abs() < 1e-9 => same.push(row.short().to_owned()),
            // Nothing to the digits that are worth showing, and surely so.
            Some(doubt) if is_nothing(value) && is_nothing(doubt) => {
                same.push(row.short().to_owned());
            }
            None => unknown.push(format!("{} {size}{unit}", row.short())),
            Some(doubt) if value.abs() <= doubt => within.push(told(doubt)),
            Some(doubt) if doubt < 1e-9 => clear.push(format!("{} {size}{unit}", row.short())),
            Some(doubt) => clear.push(told(doubt)),
        }
    }
    page.push_str(&format!(
        "  {BOLD}{}{BOLD:#}\n",
        wrap(name, width, "", "  ")
    ));
    let mut say = |lead: &str, found: &[String]| {
        if !found.is_empty() {
            let text = format!("{lead}{}.", found.join(", "));
            page.push_str(&format!("{}\n", wrap(&text, width, "    ", "    ")));
        }
    };
    if clear.is_empty() {
        say("", &["No difference is larger than its doubt".to_owned()]);
    }
    say("", &clear);
    say("Smaller than its doubt, so not known to differ: ", &within);
    say("Doubt of the difference not known: ", &unknown);
    say("The same: ", &same);
}

fn to_look_at(page: &mut String, all: &SideBySide<'_>, width: usize) {
    let found = all.findings.iter();
    let found: Vec<_> = found.filter(|f| f.gravity > Gravity::Note).collect();
    if found.is_empty() {
        return;
    }
    heading(page, "To look at");
    for finding in found {
        let told = wrap(&finding.message.to_string(), width, "  ", "  ");
        let mend = wrap(&finding.mend.to_string(), width, "    → ", "      ");
        page.push_str(&format!("{told}\n{DIM}{mend}{DIM:#}\n"));
    }
}
