//! New documents: a drink from its name and first line, a prep, an ingredient; and the demo.

use std::sync::Arc;

use axum::extract::{Form, Query, State};
use axum::http::StatusCode;
use axum::response::Redirect;
use maud::{Markup, html};
use pomace_book::edit::{Draft, Path};
use pomace_book::{ReadOnce, Source};
use pomace_store::{Id, Token, When};
use serde::Deserialize;

use super::drinks::{address, house};
use super::fault::Fault;
use crate::app::{App, Saving};
use crate::devices::Who;
use crate::view::frame::{self, Frame};
use crate::voice;
use crate::whole;

/// What is to be made.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Asked {
    #[serde(default)]
    kind: String,
    #[serde(default)]
    name: String,
    what: Option<String>,
    amount: Option<String>,
    /// How a drink is mixed: `shake`, `stir`, `build`.
    mixed: Option<String>,
    /// What an ingredient is like.
    like: Option<String>,
    strength: Option<String>,
    sugar: Option<String>,
    /// The page to go back to.
    back: Option<String>,
}

/// Keys and texts of a step.
type Step = &'static [(&'static str, &'static str)];

/// How a drink may be mixed: word, label, steps.
const MIXED: &[(&str, &str, &[Step])] = &[
    (
        "shake",
        "shaken",
        &[
            &[("do", "shake"), ("time", "10 s")],
            &[("do", "pour"), ("through", "fine sieve")],
        ],
    ),
    (
        "stir",
        "stirred",
        &[
            &[("do", "stir"), ("time", "30 s")],
            &[("do", "pour"), ("through", "sieve")],
        ],
    ),
    ("build", "built in the glass", &[&[("do", "build")]]),
    (
        "whip",
        "whipped without ice",
        &[&[("do", "whip")], &[("do", "pour")]],
    ),
];

pub(crate) fn drink_form(name: &str) -> Markup {
    html! {
        form class="new" method="post" action="/new" autocomplete="off" {
            input type="hidden" name="kind" value="drink";
            label class="field" { span { "What is it called?" } input name="name" value=(name) required autofocus placeholder="Low Water"; }
            label class="field" { span { "What goes in first?" } input name="what" data-find="what" placeholder="gin, 42 %"; }
            label class="field" { span { "How much of it?" } input name="amount" placeholder="40 mL"; }
            fieldset class="choice" {
                legend { "How is it mixed?" }
                @for (index, (word, label, _)) in MIXED.iter().enumerate() {
                    label { input type="radio" name="mixed" value=(word) checked[index == 0]; span { (label) } }
                }
            }
            div class="buttons" { button class="button chief" { "Begin" } }
        }
    }
}

fn prep_form(name: &str, back: Option<&str>) -> Markup {
    html! {
        form class="new" method="post" action="/new" autocomplete="off" {
            input type="hidden" name="kind" value="prep";
            @if let Some(back) = back { input type="hidden" name="back" value=(back); }
            label class="field" { span { "What is it called?" } input name="name" value=(name) required autofocus placeholder="Quince peel shrub"; }
            label class="field" { span { "What is weighed first?" } input name="what" data-find="what" placeholder="quince / peel"; }
            label class="field" { span { "How much of it?" } input name="amount" placeholder="240 g"; }
            div class="buttons" { button class="button chief" { "Begin" } }
        }
    }
}

fn ingredient_form(name: &str, back: Option<&str>) -> Markup {
    html! {
        form class="new" method="post" action="/new" autocomplete="off" {
            input type="hidden" name="kind" value="ingredient";
            @if let Some(back) = back { input type="hidden" name="back" value=(back); }
            label class="field" { span { "What is it called?" } input name="name" value=(name) required autofocus placeholder="bitter liqueur of the house"; }
            label class="field" { span { "Similar to what, if you know no better?" } input name="like" data-find="what" placeholder="dry vermouth"; }
            label class="field" { span { "Strength on its label" } input name="strength" placeholder="28 %"; }
            label class="field" { span { "Sugar on its label, or from how much to how much" } input name="sugar" placeholder="0 to 120 g/L"; }
            div class="buttons" { button class="button chief" { "Keep it" } }
        }
    }
}

pub(crate) async fn ask(State(app): State<Arc<App>>, Query(asked): Query<Asked>) -> Markup {
    let house = house(&app.kitchen());
    let (title, form) = match asked.kind.as_str() {
        "prep" => ("A new prep", prep_form(&asked.name, asked.back.as_deref())),
        "ingredient" => (
            "A new ingredient",
            ingredient_form(&asked.name, asked.back.as_deref()),
        ),
        _ => ("A new drink", drink_form(&asked.name)),
    };
    let frame = Frame {
        house: &house,
        title,
        room: "",
        is_demo: app.is_demo,
        bar: None,
    };
    let inner = html! {
        main id="main" {
            header class="title" { h1 { (title) } p {
                @for (kind, label) in [("drink", "a drink"), ("prep", "a prep"), ("ingredient", "an ingredient")] {
                    a class="act" href={ "/new?kind=" (kind) } { (label) }
                }
            } }
            section class="section" { (form) }
        }
    };
    frame::page(&frame, &inner)
}

/// The text of a new document.
fn text(asked: &Asked) -> Result<(&'static str, String), pomace_book::edit::EditError> {
    let kind = match asked.kind.as_str() {
        "prep" => "prep",
        "ingredient" => "ingredient",
        "house" => "house",
        _ => "drink",
    };
    let mut draft = Draft::open("")?;
    draft.set(&Path::top(kind), asked.name.trim())?;
    fn said(text: &Option<String>) -> Option<&str> {
        text.as_deref()
            .map(str::trim)
            .filter(|text| !text.is_empty())
    }
    let mut matter: Vec<(&str, &str)> = Vec::new();
    matter.extend(said(&asked.what).map(|what| ("what", what)));
    matter.extend(said(&asked.amount).map(|amount| ("amount", amount)));
    match kind {
        "drink" => {
            if said(&asked.what).is_some() {
                draft.insert("line", 0, &matter)?;
            }
            let mixed = MIXED
                .iter()
                .find(|(word, _, _)| Some(*word) == said(&asked.mixed));
            for step in mixed.into_iter().flat_map(|(_, _, steps)| *steps) {
                draft.insert("step", usize::MAX, step)?;
            }
        }
        "prep" => {
            if said(&asked.what).is_some() {
                matter.insert(0, ("do", "weigh"));
                draft.insert("step", 0, &matter)?;
            }
        }
        "house" => {}
        _ => {
            for (key, value) in [
                ("like", &asked.like),
                ("strength", &asked.strength),
                ("sugar", &asked.sugar),
            ] {
                if let Some(value) = said(value) {
                    draft.set(&Path::top(key), value)?;
                }
            }
        }
    }
    Ok((kind, draft.to_text()))
}

pub(crate) async fn make(
    State(app): State<Arc<App>>,
    who: Who,
    Form(asked): Form<Asked>,
) -> Result<Redirect, Fault> {
    let name = asked.name.trim();
    if name.is_empty() {
        return Err(Fault::new(
            StatusCode::BAD_REQUEST,
            "It has no name yet",
            "Go back, and call it something; a name can be changed later",
        ));
    }
    let (kind, text) = text(&asked).map_err(|error| {
        Fault::new(
            StatusCode::BAD_REQUEST,
            voice::edit(&error),
            "Go back, and try again",
        )
    })?;
    let faulty = match ReadOnce::of(Source::new(name, text.as_str())) {
        Ok(read) => whole::refusal(
            "",
            &read,
            Draft::open(&read.source().text).ok().as_ref(),
            &[],
        ),
        Err(findings) => findings.first().map(voice::both),
    };
    if let Some(why) = faulty {
        return Err(Fault::new(
            StatusCode::BAD_REQUEST,
            why,
            "Go back, and try again",
        ));
    }
    let taken = {
        let kitchen = app.kitchen();
        // A book is of one house.
        let house = kitchen.house_id().filter(|_| kind == "house");
        let same = kitchen.named(name).find(|(_, kept)| kept.kind == kind);
        house.or(same.map(|(id, _)| id)).map(|id| address(kind, id))
    };
    if let Some(taken) = taken {
        // What has this name is what was meant.
        return Ok(Redirect::to(&taken));
    }
    let id = Id::new(&When::now());
    let saving = Saving {
        document: &id,
        based_on: None,
        text: &text,
        kind,
        name,
        who: who.name(),
        why: None,
    };
    if app.save(&Token::new(), &saving).await?.is_err() {
        return Err(Fault::new(
            StatusCode::CONFLICT,
            "It was made twice at once",
            "Find it on the first page",
        ));
    }
    let back = asked
        .back
        .as_deref()
        .filter(|back| kind == "ingredient" && is_page(back));
    Ok(Redirect::to(back.unwrap_or(&address(kind, &id))))
}

/// Whether an address is one of ours: a path, and no other site's.
fn is_page(address: &str) -> bool {
    address.starts_with('/') && !address.starts_with("//") && !address.contains('\\')
}

pub(crate) async fn take_demo(State(app): State<Arc<App>>, who: Who) -> Result<Redirect, Fault> {
    if app.kitchen().is_empty() {
        app.take_demo(who.name()).await?;
    }
    Ok(Redirect::to("/"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drink_from_its_name_and_first_line() {
        let asked = Asked {
            kind: "drink".into(),
            name: " Low Water ".into(),
            what: Some("gin, 42 %".into()),
            amount: Some("40 mL".into()),
            mixed: Some("stir".into()),
            ..Asked::default()
        };
        let (kind, text) = text(&asked).unwrap();
        assert_eq!(kind, "drink");
        let parsed = pomace_book::parse(&pomace_book::Source::new("d", text));
        assert!(parsed.findings.is_empty(), "{:?}", parsed.findings);
        let Some(pomace_book::Document::Drink(drink)) = parsed.document else {
            panic!("no drink");
        };
        assert_eq!((drink.lines.len(), drink.steps.len()), (1, 2));
        assert_eq!(drink.name.value, "Low Water");
    }

    #[test]
    fn a_way_back_is_ours() {
        assert!(is_page("/drinks/x"));
        assert!(
            !is_page("//evil.example") && !is_page("https://evil.example") && !is_page("/\\evil")
        );
    }
}
