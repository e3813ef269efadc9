//! Other devices: the page that shows a code, the page that takes it, and the list of those that are paired.

use std::sync::Arc;

use axum::Router;
use axum::extract::{Form, Query, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Redirect, Response};
use axum::routing::{get, post};
use maud::Markup;
use serde::Deserialize;

use super::drinks::house;
use super::fault::Fault;
use crate::app::App;
use crate::devices::code::{Code, Refusal};
use crate::devices::{Devices, PairError, Who};
use crate::listen::reach::Reach;
use crate::view::devices::{self as view, Asking, Showing};
use crate::view::frame::{self, Frame};
use crate::voice;

/// What these pages work with.
#[derive(Clone)]
pub(crate) struct Pairing {
    pub app: Arc<App>,
    pub devices: Arc<Devices>,
    pub reach: Reach,
}

pub(crate) fn router(pairing: Pairing) -> Router<Arc<App>> {
    Router::new()
        .route("/devices", get(page))
        .route("/devices/code", post(anew))
        .route("/devices/remove", post(remove))
        .route("/pair", get(ask).post(pair))
        .with_state(pairing)
}

impl Pairing {
    /// The code of the moment and the devices that are paired, as `show` puts them.
    fn shown(&self, who: &Who, show: fn(&Showing<'_>) -> Markup) -> Result<Markup, Fault> {
        let list = self.devices.list.all();
        let code = match who {
            Who::ThisMachine => Some(self.devices.code(false).map_err(no_lots)?),
            Who::Device(_) => None,
        };
        Ok(show(&Showing {
            who,
            code: code.as_ref(),
            address: self.reach.elsewhere().as_deref(),
            is_encrypted: self.devices.is_encrypted,
            list: &list,
        }))
    }

    /// What the first page shows at this machine as long as no other device is paired.
    pub(crate) fn invitation(&self, who: &Who) -> Result<Option<Markup>, Fault> {
        let is_alone = *who == Who::ThisMachine && self.devices.list.all().is_empty();
        is_alone
            .then(|| self.shown(who, view::invitation))
            .transpose()
    }
}

/// More is no name to read on a page.
const NAME_SIGNS: usize = 40;

async fn page(State(pairing): State<Pairing>, who: Who) -> Result<Response, Fault> {
    let inner = pairing.shown(&who, view::page)?;
    let house = house(&pairing.app.kitchen());
    let frame = Frame {
        house: &house,
        title: "Devices",
        room: "",
        is_demo: pairing.app.is_demo,
        bar: None,
    };
    Ok(frame::page(&frame, &inner).into_response())
}

/// Another code; the one before holds no longer.
async fn anew(State(pairing): State<Pairing>, who: Who) -> Result<Redirect, Fault> {
    only_here(&who)?;
    pairing.devices.code(true).map_err(no_lots)?;
    Ok(Redirect::to("/devices"))
}

#[derive(Deserialize)]
struct Remove {
    id: String,
}

async fn remove(
    State(pairing): State<Pairing>,
    who: Who,
    Form(asked): Form<Remove>,
) -> Result<Redirect, Fault> {
    let own = matches!(&who, Who::Device(device) if device.id == asked.id);
    if !own {
        only_here(&who)?;
    }
    let devices = Arc::clone(&pairing.devices);
    let removed = tokio::task::spawn_blocking(move || devices.list.remove(&asked.id)).await;
    match removed {
        Ok(Ok(())) => Ok(Redirect::to("/devices")),
        Ok(Err(error)) => Err(unwritten(&error.to_string())),
        Err(error) => Err(unwritten(&error.to_string())),
    }
}

fn only_here(who: &Who) -> Result<(), Fault> {
    match who {
        Who::ThisMachine => Ok(()),
        Who::Device(_) => Err(Fault::new(
            StatusCode::FORBIDDEN,
            "Other devices are paired and un-paired at the machine that serves the book",
            "Open the page of devices there",
        )),
    }
}

fn no_lots(error: getrandom::Error) -> Fault {
    Fault::new(
        StatusCode::SERVICE_UNAVAILABLE,
        format!("No code can be drawn: {error}"),
        "Try again in a moment",
    )
}

fn unwritten(problem: &str) -> Fault {
    Fault {
        detail: Some(voice::spoken(problem)),
        ..Fault::new(
            StatusCode::SERVICE_UNAVAILABLE,
            "The list of paired devices cannot be written",
            "See that the disk of this machine has room, and that the folder of the book can be written",
        )
    }
}

/// The code is used up then, and the device still a stranger.
const NOT_NOTED: &str = "The machine that serves the book cannot write this device down; see that its disk \
    has room, and take a new code there";

/// What a device says of itself.
#[derive(Debug, Default, Deserialize)]
struct Said {
    #[serde(default)]
    code: String,
    #[serde(default)]
    name: String,
}

/// The page on which a device is paired; a picture that was scanned brings the code along.
async fn ask(who: Option<Who>, Query(said): Query<Said>) -> Response {
    match who {
        Some(Who::ThisMachine) => Redirect::to("/devices").into_response(),
        Some(Who::Device(_)) => Redirect::to("/").into_response(),
        None => view::ask(&Asking {
            // What is no code is not shown: the address may be of anybody's making.
            code: Code::read(&said.code).as_ref().map_or("", Code::as_str),
            ..Asking::default()
        })
        .into_response(),
    }
}

/// What a stranger gets, whatever was asked for: the page to pair. The script of a page that was open when its
/// device was un-paired asks in JSON, and is answered so.
pub(crate) fn stranger(asked: &HeaderMap) -> Response {
    // A scheme of our own: browsers know only others, and so show the page.
    let how = [(header::WWW_AUTHENTICATE, "Pairing realm=\"the book\"")];
    let kind = asked.get(header::CONTENT_TYPE);
    if kind.is_some_and(|kind| kind.as_bytes().starts_with(b"application/json")) {
        let fault = Fault::new(
            StatusCode::UNAUTHORIZED,
            "This device is not paired any more",
            "What you entered is kept on it: pair it again, then load this page anew",
        );
        return (how, fault.as_json()).into_response();
    }
    (StatusCode::UNAUTHORIZED, how, view::ask(&Asking::default())).into_response()
}

async fn pair(
    State(pairing): State<Pairing>,
    who: Option<Who>,
    Form(said): Form<Said>,
) -> Response {
    if who.is_some() {
        return Redirect::to("/").into_response();
    }
    let name = said.name.split_whitespace().collect::<Vec<_>>().join(" ");
    let problem = match name.chars().count() {
        0 => Some("This device has no name yet"),
        1..=NAME_SIGNS if !name.chars().any(char::is_control) => None,
        _ => Some("A name has at most 40 letters, and no signs that steer a screen"),
    };
    if problem.is_some() {
        // The code was not tried, so it stays as it was typed.
        let page = view::ask(&Asking {
            code: &said.code,
            name: &said.name,
            name_problem: problem,
            ..Asking::default()
        });
        return (StatusCode::BAD_REQUEST, page).into_response();
    }
    let devices = Arc::clone(&pairing.devices);
    let (code, called) = (said.code.clone(), name.clone());
    let paired = tokio::task::spawn_blocking(move || devices.pair(&code, &called)).await;
    let (status, problem) = match paired {
        Ok(Ok(token)) => match token.cookie(pairing.devices.is_encrypted) {
            Some(cookie) => {
                return ([(header::SET_COOKIE, cookie)], Redirect::to("/")).into_response();
            }
            None => (StatusCode::INTERNAL_SERVER_ERROR, NOT_NOTED.to_owned()),
        },
        Ok(Err(PairError::Code(refusal))) => {
            let status = match refusal {
                Refusal::Wrong => StatusCode::FORBIDDEN,
                Refusal::Pause(_) => StatusCode::TOO_MANY_REQUESTS,
            };
            (status, refusal.to_string())
        }
        // What is wrong with the disk of this machine is no stranger's business.
        Ok(Err(PairError::List(_) | PairError::Lots(_))) | Err(_) => {
            (StatusCode::SERVICE_UNAVAILABLE, NOT_NOTED.to_owned())
        }
    };
    let page = view::ask(&Asking {
        name: &said.name,
        code_problem: Some(&problem),
        ..Asking::default()
    });
    (status, page).into_response()
}
