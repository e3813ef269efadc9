//! The page of the paired devices, and the page on which a device is paired.

use std::time::Duration;

use maud::{Markup, html};

use super::{frame, qr};
use crate::assets;
use crate::devices::Who;
use crate::devices::code::LENGTH;
use crate::devices::list::Device;
use crate::routes::clock;

/// What the page of the devices shows.
pub(crate) struct Showing<'a> {
    pub who: &'a Who,
    /// The code of the moment and how long it holds; only this machine shows it.
    pub code: Option<&'a (String, Duration)>,
    /// What other devices open.
    pub address: Option<&'a str>,
    pub is_encrypted: bool,
    pub list: &'a [Device],
}

pub(crate) fn page(showing: &Showing<'_>) -> Markup {
    html! {
        (sheet())
        main id="main" {
            header class="title" { h1 { "Devices" } p { "who may open this book" } }
            (now(showing))
        }
    }
}

/// The same on the first page, while this machine is alone.
pub(crate) fn invitation(showing: &Showing<'_>) -> Markup {
    html! { (sheet()) (now(showing)) }
}

/// The code of the moment and the devices that are paired; kept up to date while somebody looks.
fn now(showing: &Showing<'_>) -> Markup {
    html! {
        div data-devices {
            @match showing.code {
                Some((code, left)) => (another(code, *left, showing)),
                None => p class="said" { "You are “" (showing.who.name()) "”. Devices are paired at the machine that serves the book." },
            }
            section class="section" {
                header { h2 { "Paired" } }
                @if showing.list.is_empty() { p class="said" { "No device but this machine." } }
                ul class="paired" aria-live="polite" { @for device in showing.list { (paired(device, showing.who)) } }
            }
        }
    }
}

fn another(code: &str, left: Duration, showing: &Showing<'_>) -> Markup {
    let minutes = left.as_secs().div_ceil(60);
    html! {
        section class="section" {
            header { h2 { "Pair another device" } }
            @match showing.address {
                None => p class="said" { "This machine is on no network now. Connect it to the one that the other device is on." },
                Some(address) => div class="pairing" {
                    @if let Some(picture) = qr::picture(&format!("{address}/pair?code={code}")) { (picture) }
                    div {
                        p class="said" { "On the other device, scan this with the camera, or open" }
                        p class="address" { (address) }
                        p class="said" { "and type" }
                        p class="code" { (grouped(code)) }
                        p class="said" { "It lets in one device, within "
                            @if minutes == 1 { "a minute" } @else { (minutes) " minutes" } "." }
                        form method="post" action="/devices/code" { div class="buttons" { button class="button" { "Another code" } } }
                    }
                }
            }
            @if !showing.is_encrypted {
                p class="said caution" { "Whoever is on the same network can read along, and could pass for one of your devices. Keep guests on another network." }
                p { small { "What is sent is not encrypted. A certificate changes that: whoever set pomace up on this machine can add one." } }
            }
        }
    }
}

/// A code in two halves, as one reads it out.
fn grouped(code: &str) -> Markup {
    let (first, last) = code.split_at_checked(LENGTH / 2).unwrap_or((code, ""));
    html! { (first) " " (last) }
}

fn paired(device: &Device, who: &Who) -> Markup {
    let is_own = matches!(who, Who::Device(own) if own.id == device.id);
    html! {
        li {
            span { (device.name) @if is_own { " (this one)" } small { "since " (clock(&device.since)) } }
            @if is_own || *who == Who::ThisMachine {
                form method="post" action="/devices/remove" {
                    input type="hidden" name="id" value=(device.id);
                    button class="button" { "Un-pair" span class="unseen" { " " (device.name) } }
                }
            }
        }
    }
}

/// What the page on which a device is paired shows.
#[derive(Debug, Default)]
pub(crate) struct Asking<'a> {
    pub code: &'a str,
    pub name: &'a str,
    pub name_problem: Option<&'a str>,
    pub code_problem: Option<&'a str>,
}

pub(crate) fn ask(asking: &Asking<'_>) -> Markup {
    let inner = html! {
        (sheet())
        main id="main" {
            header class="title" { h1 { "Pair this device" } p { "once, and the book is open here" } }
            p class="said" { "On the machine that serves the book, open “devices” at the foot of a page. The code is there." }
            form class="new" method="post" action="/pair" autocomplete="off" {
                label class="field" {
                    span { "What is this device called?" }
                    input name="name" value=(asking.name) required maxlength="40" placeholder="bar tablet" autofocus[asking.name_problem.is_some()]
                        aria-invalid=[asking.name_problem.map(|_| "true")] aria-describedby=[asking.name_problem.map(|_| "name-problem")];
                    @if let Some(problem) = asking.name_problem { span class="said" id="name-problem" { (problem) "." } }
                }
                label class="field" {
                    span { "The code" }
                    input class="code" name="code" value=(asking.code) required maxlength="12" autocapitalize="characters" spellcheck="false" autofocus[asking.code_problem.is_some()]
                        aria-invalid=[asking.code_problem.map(|_| "true")] aria-describedby=[asking.code_problem.map(|_| "code-problem")];
                    @if let Some(problem) = asking.code_problem { span class="said" id="code-problem" role="alert" { (problem) "." } }
                }
                div class="buttons" { button class="button chief" { "Pair" } }
            }
            p { small { "Every change carries the name of the device that made it. The pairing stays in this browser (as a cookie): in another browser, or where its data is cleared, pair once more." } }
        }
    };
    frame::bare("Pair this device", &inner)
}

/// The sheet that only these pages need.
fn sheet() -> Markup {
    html! { link rel="stylesheet" href=(assets::address("devices.css")); }
}
