//! Style, script and fonts, inside the binary; each under an address that changes with its content.

use std::sync::LazyLock;

use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};

/// A file of the pages.
struct Asset {
    name: &'static str,
    kind: &'static str,
    bytes: &'static [u8],
}

macro_rules! assets {
    ($($name:literal, $kind:literal;)*) => {
        &[$(Asset { name: $name, kind: $kind, bytes: include_bytes!(concat!("../assets/", $name)) },)*]
    };
}

const CSS: &str = "text/css; charset=utf-8";
const JS: &str = "text/javascript; charset=utf-8";
const FONT: &str = "font/woff2";

static ASSETS: &[Asset] = assets! {
    "look.css", "text/css; charset=utf-8";
    "page.css", "text/css; charset=utf-8";
    "devices.css", "text/css; charset=utf-8";
    "mark.svg", "image/svg+xml";
    "early.js", "text/javascript; charset=utf-8";
    "page.js", "text/javascript; charset=utf-8";
    "answer.js", "text/javascript; charset=utf-8";
    "live.js", "text/javascript; charset=utf-8";
    "morph.js", "text/javascript; charset=utf-8";
    "earlier.js", "text/javascript; charset=utf-8";
    "forms.js", "text/javascript; charset=utf-8";
    "keeping.js", "text/javascript; charset=utf-8";
    "kept.js", "text/javascript; charset=utf-8";
    "line.js", "text/javascript; charset=utf-8";
    "notices.js", "text/javascript; charset=utf-8";
    "places.js", "text/javascript; charset=utf-8";
    "state.js", "text/javascript; charset=utf-8";
    "typed.js", "text/javascript; charset=utf-8";
    "times.js", "text/javascript; charset=utf-8";
    "versions.js", "text/javascript; charset=utf-8";
    "find.js", "text/javascript; charset=utf-8";
    "bar.js", "text/javascript; charset=utf-8";
    "devices.js", "text/javascript; charset=utf-8";
    "fonts/brygada.woff2", "font/woff2";
    "fonts/brygada-italic.woff2", "font/woff2";
    "fonts/brygada-ext.woff2", "font/woff2";
    "fonts/brygada-italic-ext.woff2", "font/woff2";
    "fonts/ysabeau.woff2", "font/woff2";
    "fonts/ysabeau-ext.woff2", "font/woff2";
    "fonts/ysabeau-signs.woff2", "font/woff2";
};

/// One stamp for all of them: a page, its style and its modules always are of one making.
static STAMP: LazyLock<String> = LazyLock::new(|| {
    // FNV-1a, 64 bits.
    let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
    for byte in ASSETS.iter().flat_map(|asset| asset.bytes) {
        hash = (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
    }
    format!("{hash:016x}")
});

/// The address of a file.
pub(crate) fn address(name: &str) -> String {
    format!("/assets/{}/{name}", *STAMP)
}

/// Answers for a file. What has an old stamp is answered too, but not kept by the browser.
pub(crate) fn answer(stamp: &str, name: &str) -> Response {
    let Some(asset) = ASSETS.iter().find(|asset| asset.name == name) else {
        return StatusCode::NOT_FOUND.into_response();
    };
    debug_assert!([CSS, JS, FONT, "image/svg+xml"].contains(&asset.kind));
    let keep = if stamp == *STAMP {
        "public, max-age=31536000, immutable"
    } else {
        "no-cache"
    };
    (
        [
            (header::CONTENT_TYPE, asset.kind),
            (header::CACHE_CONTROL, keep),
        ],
        asset.bytes,
    )
        .into_response()
}
