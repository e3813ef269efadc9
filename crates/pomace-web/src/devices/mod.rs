//! Which devices may ask. This machine always may; every other is paired with it once.
//!
//! A [`code`] that this machine shows for ten minutes lets one device in. From then on the device has a
//! [`token`] in a cookie, and this machine a [`list`] with what the token hashes to. The list lies in a file
//! of its own and not in the book: who is handed a copy of a book does not let in the devices of the house
//! it is from.

pub(crate) mod code;
pub(crate) mod list;
pub(crate) mod pass;
pub(crate) mod token;

use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use axum::extract::{FromRequestParts, OptionalFromRequestParts};
use axum::http::StatusCode;
use axum::http::request::Parts;
use tokio::time::Instant;

use self::code::{Desk, Refusal};
use self::list::{Device, List, ListError};
use self::token::Token;

/// Who asks, as a page or a revision names them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Who {
    /// Somebody at the machine that serves the book.
    ThisMachine,
    /// A paired device.
    Device(Device),
}

/// What this machine is called in a revision.
const THIS_MACHINE: &str = "this machine";

impl Who {
    /// For a revision.
    pub(crate) fn name(&self) -> &str {
        match self {
            Self::ThisMachine => THIS_MACHINE,
            Self::Device(device) => &device.name,
        }
    }
}

/// Handlers ask for who asks; [`pass::let_in`] has found out.
impl<S: Send + Sync> FromRequestParts<S> for Who {
    type Rejection = StatusCode;

    async fn from_request_parts(parts: &mut Parts, _: &S) -> Result<Self, Self::Rejection> {
        let who = parts.extensions.get::<Self>().cloned();
        who.ok_or(StatusCode::UNAUTHORIZED)
    }
}

/// On the pages that answer strangers too.
impl<S: Send + Sync> OptionalFromRequestParts<S> for Who {
    type Rejection = std::convert::Infallible;

    async fn from_request_parts(parts: &mut Parts, _: &S) -> Result<Option<Self>, Self::Rejection> {
        Ok(parts.extensions.get::<Self>().cloned())
    }
}

/// Everything that is known of other devices.
pub(crate) struct Devices {
    pub list: List,
    desk: Mutex<Desk>,
    /// Whether connections from elsewhere are encrypted, so that a cookie may insist on it.
    pub is_encrypted: bool,
}

/// Why a device is not paired.
#[derive(Debug, thiserror::Error)]
pub(crate) enum PairError {
    /// The code, or too many of them.
    #[error(transparent)]
    Code(#[from] Refusal),
    /// The list cannot be written.
    #[error(transparent)]
    List(#[from] ListError),
    /// The operating system draws no lots.
    #[error("no token can be drawn: {0}")]
    Lots(#[from] getrandom::Error),
}

impl Devices {
    pub(crate) fn new(list: List, is_encrypted: bool) -> Self {
        Self {
            list,
            desk: Mutex::default(),
            is_encrypted,
        }
    }

    /// Pairs a device that brings the code of the moment. The code is used up, whatever comes after.
    pub(crate) fn pair(&self, code: &str, name: &str) -> Result<Token, PairError> {
        self.desk().take(code, Instant::now())?;
        let token = Token::draw()?;
        self.list.add(name, &token)?;
        Ok(token)
    }

    /// The code of the moment and how long it still holds; a new one where none holds or another is wanted.
    pub(crate) fn code(&self, anew: bool) -> Result<(String, Duration), getrandom::Error> {
        let (now, mut desk) = (Instant::now(), self.desk());
        if anew {
            desk.withdraw();
        }
        let (code, left) = desk.show(now)?;
        Ok((code.as_str().to_owned(), left))
    }

    /// A desk is whole after every line of it, so a thread that broke off does no harm.
    fn desk(&self) -> MutexGuard<'_, Desk> {
        self.desk.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
