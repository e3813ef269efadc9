//! Changes to a document: tried out, saved, or both by a plain form.

use std::collections::HashMap;
use std::sync::Arc;

use axum::extract::{Form, Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use axum::{Json, http};
use pomace_plate::field::Ranges;
use pomace_store::{Id, Stamp, Token};
use serde::Deserialize;
use serde_json::json;

use super::answer::{Answer, Place};
use super::drinks::{self, Showing, address};
use super::fault::Fault;
use super::opened::kept;
use super::written::Written;
use super::{house, ingredients, preps};
use crate::app::{App, Saving};
use crate::change::{self, Asked};
use crate::devices::Who;
use crate::drink::study::Stand;
use crate::kitchen::Kept;
use crate::view::plate::Widths;
use crate::view::{Part, stamp};
use crate::words::{Unit, moment, sentence};

/// A text to be tried out, and the changes that are to be made to it first.
#[derive(Debug, Deserialize)]
pub(crate) struct Try {
    text: String,
    #[serde(default)]
    changes: Vec<Asked>,
    #[serde(default, rename = "in")]
    unit: Unit,
    #[serde(default)]
    width: String,
    #[serde(default)]
    was: Option<Place>,
    #[serde(default)]
    scales: Option<Place>,
    /// Stamps of the parts that the page has.
    #[serde(default)]
    have: HashMap<String, String>,
}

/// Works out a text without keeping it.
pub(crate) async fn try_out(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
    Json(asked): Json<Try>,
) -> Response {
    tried(&app, &id, asked).unwrap_or_else(|fault| fault.as_json())
}

fn tried(app: &App, id: &str, asked: Try) -> Result<Response, Fault> {
    let (id, kept) = kept(app, id)?;
    let (written, refused) = Written::changed(app, &id, &kept, asked.text, &asked.changes)?;
    let showing = Showing {
        unit: asked.unit,
        widths: Widths::named(&asked.width).0,
        was: asked.was.map(|was| Stand {
            sourness_g_per_l: was.sour,
            sweetness_g_per_100ml: was.sweet,
        }),
        kept: asked.scales.map(|tops| Ranges {
            sourness_g_per_l: tops.sour,
            sweetness_g_per_100ml: tops.sweet,
        }),
    };
    let (parts, stand, scales) = parts(app, &id, &kept, &written, &showing)?;
    let mut answer = Answer::of(&written.read.source().text, kept.revision);
    answer.stand = stand.map(Place::from);
    answer.scales = scales.map(Place::from);
    answer.refused = refused;
    for part in parts {
        let html = part.html.into_string();
        let stamp = stamp(&html);
        let is_there = asked.have.get(part.name) == Some(&stamp);
        answer.put(part.name, html, stamp, is_there);
    }
    Ok(answer.into_response())
}

/// The parts of a document; of a drink, where it stands and the scales of its field.
type Worked = (Vec<Part>, Option<Stand>, Option<Ranges>);

/// The parts of any document.
fn parts(
    app: &App,
    id: &Id,
    kept: &Kept,
    written: &Written,
    showing: &Showing,
) -> Result<Worked, Fault> {
    match written.read.document().kind() {
        "drink" => {
            let shown = drinks::parts(app, id, kept.revision, written, showing)?;
            Ok((shown.parts, shown.stand, Some(shown.ranges)))
        }
        "prep" => Ok((
            preps::parts(app, id, kept.revision, written, showing)?,
            None,
            None,
        )),
        "house" => Ok((house::parts(id, kept.revision, written), None, None)),
        _ => Ok((
            ingredients::parts(app, id, kept.revision, written, showing)?,
            None,
            None,
        )),
    }
}

/// A text to be kept.
#[derive(Debug, Deserialize)]
pub(crate) struct Save {
    text: String,
    based_on: u64,
    token: String,
    #[serde(default)]
    why: Option<String>,
}

/// Keeps a text as a revision; answers when it is on disk.
pub(crate) async fn save(
    State(app): State<Arc<App>>,
    who: Who,
    Path(id): Path<String>,
    Json(asked): Json<Save>,
) -> Response {
    let (id, kept) = match kept(&app, &id) {
        Ok(found) => found,
        Err(fault) => return fault.as_json(),
    };
    let Ok(token) = Token::parse(&asked.token) else {
        return Fault::new(
            StatusCode::BAD_REQUEST,
            "a save without a token",
            "load the page again",
        )
        .as_json();
    };
    let saving = Saving {
        document: &id,
        based_on: Some(asked.based_on),
        text: &asked.text,
        kind: &kept.kind,
        name: &kept.name,
        who: who.name(),
        why: asked.why.as_deref(),
    };
    match app.save(&token, &saving).await {
        Ok(Ok(stamp)) => Json(json!({
            "revision": stamp.revision,
            "when": stamp.when.as_str(),
        }))
        .into_response(),
        // Another document, which a new name would have changed: nothing stands against this text.
        Ok(Err(overtaken)) if overtaken.theirs.stamp.document != id => Fault::new(
            StatusCode::SERVICE_UNAVAILABLE,
            "A document that calls for this one was saved at the same moment",
            "It is sent again by itself",
        )
        .as_json(),
        Ok(Err(overtaken)) => {
            let theirs = &overtaken.theirs;
            let body = json!({
                "fault": changed_by(&theirs.stamp),
                "revision": theirs.stamp.revision,
                "when": theirs.stamp.when.as_str(),
                "text": theirs.text,
            });
            (StatusCode::CONFLICT, Json(body)).into_response()
        }
        Err(error) => Fault::from(error).as_json(),
    }
}

/// Who saved last.
fn changed_by(stamp: &Stamp) -> String {
    format!("{} changed this", sentence(&stamp.who))
}

/// A form's fields: the change, and what the page was based on.
#[derive(Debug, Deserialize)]
pub(crate) struct Posted {
    based_on: u64,
    #[serde(rename = "do")]
    change: String,
    list: Option<change::List>,
    at: Option<usize>,
    to: Option<usize>,
    key: Option<String>,
    #[serde(default)]
    value: String,
    /// The button that was pressed, in the place of the value.
    pick: Option<String>,
    #[serde(default)]
    unit: String,
    what: Option<String>,
    amount: Option<String>,
    enters: Option<String>,
    verb: Option<String>,
    #[serde(default, rename = "in")]
    shown_in: Unit,
}

/// A change by a plain form: made, kept, and back to the page.
pub(crate) async fn form(
    State(app): State<Arc<App>>,
    who: Who,
    Path(id): Path<String>,
    Form(posted): Form<Posted>,
) -> Result<Response, Fault> {
    let (id, kept) = kept(&app, &id)?;
    let back = match posted.shown_in {
        Unit::Written => address(&kept.kind, &id),
        unit => format!("{}?in={}", address(&kept.kind, &id), unit.key()),
    };
    let asked = Asked {
        change: posted.change,
        list: posted.list,
        at: posted.at,
        to: posted.to,
        key: posted.key,
        unit: if posted.pick.is_some() {
            String::new()
        } else {
            posted.unit
        },
        value: posted.pick.unwrap_or(posted.value),
        what: posted.what,
        amount: posted.amount,
        enters: posted.enters,
        verb: posted.verb,
    };
    let asked = std::slice::from_ref(&asked);
    let (written, refused) = Written::changed(&app, &id, &kept, kept.text.clone(), asked)?;
    if let Some(why) = refused.into_iter().next() {
        return Err(Fault::new(
            StatusCode::BAD_REQUEST,
            why,
            "Go back, and try again",
        ));
    }
    let saving = Saving {
        document: &id,
        based_on: Some(posted.based_on),
        text: &written.read.source().text,
        kind: &kept.kind,
        name: &kept.name,
        who: who.name(),
        why: None,
    };
    match app.save(&Token::new(), &saving).await? {
        Ok(_) => Ok(Redirect::to(&back).into_response()),
        Err(overtaken) => Err(Fault::new(
            http::StatusCode::CONFLICT,
            format!(
                "{} on {}, after your page was loaded",
                changed_by(&overtaken.theirs.stamp),
                moment(overtaken.theirs.stamp.when.as_str())
            ),
            "Nothing was overwritten. Go back, load the page again to see theirs, and make your change there",
        )),
    }
}
