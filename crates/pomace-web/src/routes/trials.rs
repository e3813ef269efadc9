//! Trials: small variants side by side, one of them made the next revision, and a new one begun.

use std::sync::Arc;

use axum::extract::{Form, Path, State};
use axum::http::StatusCode;
use axum::response::Redirect;
use maud::{Markup, html};
use pomace_bench::Bench;
use pomace_bench::difference::{Apart, Named, SWEET_TO_SOUR};
use pomace_bench::doubt::Stage;
use pomace_bench::report::Figure;
use pomace_book::edit::{Draft, quoted};
use pomace_book::{Document, DocumentId, ReadOnce, Source, Trial, trial};
use pomace_store::{Id, Token};
use serde::Deserialize;

use super::drinks::{address, house};
use super::fault::Fault;
use crate::app::{App, Saving};
use crate::devices::Who;
use crate::differ::label;
use crate::kitchen::Kept;
use crate::view::frame::{self, Frame};
use crate::voice;
use crate::words::{full, known, set};

/// Stage and name of a figure, its label, unit and decimals.
type Told = (Stage, &'static str, &'static str, &'static str, usize);

const OF_A_DRINK: &[Told] = &[
    (Stage::AfterIce, "volume_ml", "volume", "mL", 0),
    (Stage::AfterIce, "abv_percent", "strength", "% vol", 1),
    (
        Stage::AfterIce,
        "sweetness_sucrose_g_per_100ml",
        "sweetness",
        "g in 100 mL",
        1,
    ),
    (
        Stage::AfterIce,
        "titratable_acidity_citric_g_per_l",
        "sourness",
        "g in 1 L",
        1,
    ),
    (
        Stage::AfterIce,
        SWEET_TO_SOUR,
        "sweet to one of sour",
        "",
        1,
    ),
    (Stage::AfterIce, "ph", "pH", "", 2),
    (
        Stage::AfterIce,
        "temperature_celsius",
        "temperature",
        "°C",
        1,
    ),
];

const OF_A_PREP: &[Told] = &[
    (Stage::Kept, "mass_g", "kept", "g", 0),
    (
        Stage::Kept,
        "refractometer_brix",
        "a refractometer reads",
        "°Bx",
        1,
    ),
    (Stage::Kept, "abv_percent", "strength", "% vol", 1),
    (Stage::Kept, "sugar_g_per_100ml", "sugar", "g in 100 mL", 1),
    (
        Stage::Kept,
        "titratable_acidity_citric_g_per_l",
        "sourness",
        "g in 1 L",
        1,
    ),
    (Stage::Kept, "ph", "pH", "", 2),
];

/// A trial and what came of it.
struct Tried<'a> {
    trial: &'a Trial,
    place: usize,
    /// Its figures; why there are none.
    apart: Result<Apart, String>,
    /// What is changed, and how.
    words: Vec<(String, String)>,
}

fn kept(app: &App, id: &str) -> Result<(Id, Kept, ReadOnce), Fault> {
    let (id, kept) = super::opened::kept(app, id)?;
    let read = kept.read.clone().map_err(|_| Fault::nowhere())?;
    Ok((id, kept, read))
}

pub(crate) async fn page(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
) -> Result<Markup, Fault> {
    let (id, kept, read) = kept(&app, &id)?;
    let around = app.kitchen().around(Some(&id), &read);
    let book = around.book.with_trials(Some(around.document));
    let bench = Bench::new(&book);
    let Some(document @ (Document::Drink(_) | Document::Prep(_))) = book.document(around.document)
    else {
        return Err(Fault::nowhere());
    };
    let base = bench.named(around.document).ok();
    let tried: Vec<Tried<'_>> = document
        .trials()
        .iter()
        .enumerate()
        .map(|(place, trial)| tried(&bench, around.document, &kept.text, place, trial))
        .collect();
    let told = if kept.kind == "drink" {
        OF_A_DRINK
    } else {
        OF_A_PREP
    };
    let house = house(&app.kitchen());
    let frame = Frame {
        house: &house,
        title: &kept.name,
        room: if kept.kind == "drink" {
            "drinks"
        } else {
            "preps"
        },
        is_demo: app.is_demo,
        bar: None,
    };
    let inner = html! {
        main id="main" {
            header class="title" { h1 { (kept.name) } p { "trials, side by side" } }
            p { a class="act" href=(address(&kept.kind, &id)) { "back to the " (kept.kind) } }
            @if tried.is_empty() { p class="said" { "None yet. A trial changes a line or two, and is held beside what is written." } }
            @else { (side_by_side(&base, &tried, told)) }
            @for one in &tried { (alone(&id, &kept, one)) }
            (begin(&id, &kept, document))
        }
    };
    Ok(frame::page(&frame, &inner))
}

fn tried<'a>(
    bench: &Bench<'_>,
    id: DocumentId,
    text: &str,
    place: usize,
    trial: &'a Trial,
) -> Tried<'a> {
    let variant = bench.book().variants(id).find(|(_, at)| *at == place);
    let apart = match variant {
        _ if trial.promoted => Err("it was taken over".to_owned()),
        Some((variant, _)) => bench
            .apart(id, variant)
            .map_err(|error| voice::error(&error)),
        None => Err("its changes could not be read".to_owned()),
    };
    let draft = Draft::open(text).ok();
    let item = |list: &str, index: usize, key: &str| {
        let draft = draft.as_ref()?;
        draft.get(&pomace_book::edit::Path::item(list, index, key))
    };
    let mut words = Vec::new();
    for change in &trial.changes {
        let list = change.list.key();
        let Some(index) = change.index else { continue };
        let name = item(list, index, "what").or_else(|| item(list, index, "do"));
        let name = name.unwrap_or_else(|| format!("{list} {}", index + 1));
        if change.left_out {
            words.push((name, "left out".to_owned()));
            continue;
        }
        for (key, new) in &change.settings {
            let old = item(list, index, key).unwrap_or_else(|| "nothing".to_owned());
            let which = if key == "amount" {
                String::new()
            } else {
                format!("{} ", label(list, key))
            };
            words.push((name.clone(), format!("{which}{old} → {new}")));
        }
    }
    for addition in &trial.additions {
        let told: Vec<String> = addition
            .settings
            .iter()
            .map(|(_, value)| value.to_string())
            .collect();
        words.push((format!("a new {}", addition.list.key()), told.join(", ")));
    }
    Tried {
        trial,
        place,
        apart,
        words,
    }
}

fn side_by_side(base: &Option<Named>, tried: &[Tried<'_>], told: &[Told]) -> Markup {
    let computed: Vec<(&Tried<'_>, &Apart)> = tried
        .iter()
        .filter_map(|one| Some((one, one.apart.as_ref().ok()?)))
        .collect();
    html! {
        div class="scrolled" role="region" aria-label="figures side by side" tabindex="0" {
            table class="beside-table" {
                thead { tr { th {} th { "as written" } @for (one, _) in &computed { th { (one.trial.name.value) } } } }
                tbody {
                    @for (stage, name, label, unit, decimals) in told {
                        @if let Some(now) = base.as_ref().and_then(|base| base.get(*stage, name)).filter(|f| f.value.is_some()) {
                            tr {
                                th { (label) " " small { (unit) } }
                                td { (known(now.value, *decimals)) }
                                @for (_, apart) in &computed {
                                    td {
                                        (known(apart.figures.get(*stage, name).and_then(|f| f.value), *decimals))
                                        small { (less(apart.less_base.get(*stage, name), *decimals)) }
                                    }
                                }
                            }
                        }
                    }
                }
            }
        }
        p { small { "Below each figure: how far it is from what is written, and how far off that may be. What is too close to tell is for tasting blind." } }
    }
}

/// A difference in words.
fn less(figure: Option<Figure>, decimals: usize) -> String {
    let Some((by, doubt)) = figure.and_then(|f| Some((f.value?, f.plus_minus?))) else {
        return String::new();
    };
    if by.abs() < 1e-9 {
        "the same".to_owned()
    } else if by.abs() < doubt {
        "too close to tell".to_owned()
    } else {
        let sign = if by > 0.0 { "+" } else { "" };
        format!(
            "{sign}{} ± {}",
            set(by, decimals.max(1)),
            set(doubt, decimals.max(1))
        )
    }
}

fn alone(id: &Id, kept: &Kept, one: &Tried<'_>) -> Markup {
    html! {
        section class="section" {
            header { h2 { (one.trial.name.value) } }
            @if let Some(note) = &one.trial.note { p class="said" { (full(note)) } }
            ul class="points" { @for (what, how) in &one.words { li { span { (what) } span class="dots" {} span { (how) } } } }
            @if let Err(why) = &one.apart { p class="said" { (full(why)) } }
            @if !one.trial.promoted {
                form method="post" action={ "/d/" (id) "/promote" } {
                    input type="hidden" name="trial" value=(one.place);
                    input type="hidden" name="based_on" value=(kept.revision);
                    button class="act" { "make this the next revision" }
                }
            }
        }
    }
}

/// A form for a new trial: one amount changed.
fn begin(id: &Id, kept: &Kept, document: &Document) -> Markup {
    let names: Vec<&str> = match document {
        Document::Drink(drink) => drink
            .lines
            .iter()
            .map(|line| line.what.value.as_str())
            .collect(),
        _ => document
            .steps()
            .iter()
            .filter(|step| step.amount.is_some())
            .filter_map(|step| Some(step.what.as_ref()?.value.as_str()))
            .collect(),
    };
    html! {
        section class="section" {
            header { h2 { "One more trial" } }
            form class="new" method="post" action={ "/d/" (id) "/trials" } autocomplete="off" {
                input type="hidden" name="based_on" value=(kept.revision);
                label class="field" { span { "What is it called?" } input name="name" required placeholder="such as: less shrub"; }
                label class="field" { span { "What is changed?" } select name="item" { @for name in &names { option { (name) } } } }
                label class="field" { span { "To how much?" } input name="amount" required placeholder="such as 17.5 mL"; }
                label class="field" { span { "What is hoped for, or was found" } input name="note" placeholder="such as: thinner; the whey shows"; }
                div class="buttons" { button class="button" { "Begin this trial" } }
            }
        }
    }
}

#[derive(Debug, Deserialize)]
pub(crate) struct New {
    based_on: u64,
    name: String,
    item: String,
    amount: String,
    #[serde(default)]
    note: String,
}

/// Writes a trial into its document.
pub(crate) async fn add(
    State(app): State<Arc<App>>,
    who: Who,
    Path(id): Path<String>,
    Form(new): Form<New>,
) -> Result<Redirect, Fault> {
    let (id, kept, read) = kept(&app, &id)?;
    let list = if kept.kind == "drink" { "line" } else { "step" };
    let mut text = kept.text.trim_end().to_owned();
    text.push_str(&format!(
        "\n\n[[trial]]\nname = {}\n",
        quoted(new.name.trim())
    ));
    if !new.note.trim().is_empty() {
        text.push_str(&format!("note = {}\n", quoted(new.note.trim())));
    }
    text.push_str(&format!(
        "[[trial.change]]\n{list} = {}\namount = {}\n",
        quoted(new.item.trim()),
        quoted(new.amount.trim())
    ));
    let faults = |read: &ReadOnce| {
        let stops = read
            .findings()
            .iter()
            .filter(|f| f.gravity == pomace_book::Gravity::Stop);
        stops.count()
    };
    let written = ReadOnce::of(Source::new(&kept.name, text.clone()));
    match written {
        Ok(written) if faults(&written) <= faults(&read) => {}
        Ok(written) => {
            let last = written
                .findings()
                .iter()
                .rev()
                .find(|f| f.gravity == pomace_book::Gravity::Stop);
            let (message, mend) = last.map(voice::finding).unwrap_or_default();
            return Err(Fault::new(StatusCode::BAD_REQUEST, message, mend));
        }
        Err(_) => {
            return Err(Fault::new(
                StatusCode::BAD_REQUEST,
                "The trial cannot be written there",
                "Make the same changes on its page",
            ));
        }
    }
    keep(&app, &who, (&id, &kept), new.based_on, &text, None).await?;
    Ok(Redirect::to(&format!("/d/{id}/trials")))
}

#[derive(Debug, Deserialize)]
pub(crate) struct Promoted {
    trial: usize,
    based_on: u64,
}

/// Makes a trial the next revision.
pub(crate) async fn promote(
    State(app): State<Arc<App>>,
    who: Who,
    Path(id): Path<String>,
    Form(asked): Form<Promoted>,
) -> Result<Redirect, Fault> {
    let (id, kept, read) = kept(&app, &id)?;
    let trials = read.document().trials();
    let text = trial::promote(&kept.text, trials, asked.trial).map_err(|error| {
        Fault::new(
            StatusCode::BAD_REQUEST,
            voice::promote(&error),
            "Make the same changes on its page",
        )
    })?;
    let name = trials
        .get(asked.trial)
        .map_or("", |trial| trial.name.value.as_str());
    keep(
        &app,
        &who,
        (&id, &kept),
        asked.based_on,
        &text,
        Some(&format!("the trial {name}")),
    )
    .await?;
    Ok(Redirect::to(&address(&kept.kind, &id)))
}

async fn keep(
    app: &Arc<App>,
    who: &Who,
    (id, kept): (&Id, &Kept),
    based_on: u64,
    text: &str,
    why: Option<&str>,
) -> Result<(), Fault> {
    let saving = Saving {
        document: id,
        based_on: Some(based_on),
        text,
        kind: &kept.kind,
        name: &kept.name,
        who: who.name(),
        why,
    };
    app.save(&Token::new(), &saving)
        .await?
        .map(drop)
        .map_err(|_| {
            Fault::new(
                StatusCode::CONFLICT,
                "Somebody changed it in the meantime",
                "Nothing was overwritten. Load the page again",
            )
        })
}
