//! Who is let in: before every page it is found out who asks.

use std::net::SocketAddr;
use std::sync::Arc;

use axum::extract::{ConnectInfo, Request, State};
use axum::http::header;
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use super::token::Token;
use super::{Devices, Who};
use crate::routes;

/// Where a request comes from.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Peer(pub SocketAddr);

impl Peer {
    /// Whether it comes from this machine and never went over a network.
    pub(crate) fn is_this_machine(self) -> bool {
        self.0.ip().to_canonical().is_loopback()
    }
}

tokio::task_local! {
    /// Whether other devices may be paired. The frame of a page asks, also that of a fault, which nobody
    /// hands anything.
    static IS_OPEN: bool;
}

/// Whether the page that is being made is of a book that other devices may open.
pub(crate) fn is_open() -> bool {
    IS_OPEN.try_with(|open| *open).unwrap_or(false)
}

/// Lets in this machine and paired devices. All others get the page on which a device is paired, and what
/// that page is made of.
pub(crate) async fn let_in(
    State(devices): State<Option<Arc<Devices>>>,
    ConnectInfo(peer): ConnectInfo<Peer>,
    mut request: Request,
    next: Next,
) -> Response {
    IS_OPEN
        .scope(devices.is_some(), async {
            if peer.is_this_machine() {
                request.extensions_mut().insert(Who::ThisMachine);
                return next.run(request).await;
            }
            let Some(devices) = devices else {
                // Nobody listens beyond this machine, so this cannot come; if it does, it is refused.
                return routes::devices::stranger(request.headers());
            };
            let path = request.uri().path();
            let is_first = path == "/";
            let is_for_all = path == "/pair" || path.starts_with("/assets/");
            let token = Token::of(request.headers());
            let known = token.and_then(|token| Some((devices.list.whose(&token)?, token)));
            match known {
                Some((device, token)) => {
                    request.extensions_mut().insert(Who::Device(device));
                    let mut response = next.run(request).await;
                    if is_first && let Some(cookie) = token.cookie(devices.is_encrypted) {
                        response.headers_mut().append(header::SET_COOKIE, cookie);
                    }
                    response
                }
                None if is_for_all => next.run(request).await,
                None => routes::devices::stranger(request.headers()),
            }
        })
        .await
        .into_response()
}
