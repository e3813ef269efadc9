//! Pages as HTML. A page is a frame and parts; a part is what a change may replace.

pub(crate) mod devices;
pub(crate) mod figures;
pub(crate) mod frame;
pub(crate) mod lines;
pub(crate) mod look;
pub(crate) mod plate;
pub(crate) mod qr;
pub(crate) mod said;
pub(crate) mod spec;
pub(crate) mod steps;

use std::hash::BuildHasher as _;

use foldhash::quality::FixedState;
use maud::{Markup, html};

/// A named piece of a page, which a change may replace.
pub(crate) struct Part {
    pub name: &'static str,
    pub html: Markup,
}

impl Part {
    pub(crate) const fn new(name: &'static str, html: Markup) -> Self {
        Self { name, html }
    }

    /// In its place on the page.
    pub(crate) fn placed(&self) -> Markup {
        html! { div data-part=(self.name) data-stamp=(stamp(&self.html.0)) { (self.html) } }
    }
}

/// What tells a piece of a page from another: a page says which it has, and is sent the others.
pub(crate) fn stamp(html: &str) -> String {
    format!("{:x}", FixedState::default().hash_one(html))
}

/// Fields that every change carries: what is done, and where.
pub(crate) struct At<'a> {
    pub change: &'a str,
    pub list: Option<&'a str>,
    pub index: Option<usize>,
    pub key: Option<&'a str>,
}

impl At<'_> {
    pub(crate) fn fields(&self) -> Markup {
        html! {
            input type="hidden" name="do" value=(self.change);
            @if let Some(list) = self.list { input type="hidden" name="list" value=(list); }
            @if let Some(index) = self.index { input type="hidden" name="at" value=(index); }
            @if let Some(key) = self.key { input type="hidden" name="key" value=(key); }
        }
    }
}

/// What a page's forms need to know of the document.
pub(crate) struct Doc<'a> {
    pub id: &'a str,
    pub revision: u64,
    pub unit: crate::words::Unit,
}

impl Doc<'_> {
    /// A form that changes the document.
    pub(crate) fn form(&self, at: &At<'_>, class: &str, inner: &Markup) -> Markup {
        html! {
            form class=(class) method="post" action={ "/d/" (self.id) "/change" } data-change autocomplete="off" {
                input type="hidden" name="based_on" value=(self.revision);
                input type="hidden" name="in" value=(self.unit.key());
                (at.fields())
                (inner)
            }
        }
    }

    /// One button that changes the document.
    pub(crate) fn act(&self, at: &At<'_>, extra: &Markup, label: &str, spoken: &str) -> Markup {
        let inner = html! {
            (extra)
            button class="act" { (label) span class="unseen" { (spoken) } }
        };
        self.form(at, "inline", &inner)
    }
}

/// A step back, and forth again. Their places are kept free: a second press on the one must not meet the other.
pub(crate) fn undo() -> Markup {
    html! {
        button class="act" type="button" data-undo hidden disabled { "undo" }
        button class="act" type="button" data-redo hidden disabled { "redo" }
    }
}

/// The title of a document's page: its name, and a word about it; opened, both can be changed.
pub(crate) fn title(doc: &Doc<'_>, name: &str, note: &str) -> Markup {
    let at = |key| At {
        change: "set",
        list: None,
        index: None,
        key: Some(key),
    };
    html! {
        header class="title" {
            h1 { (name) }
            details class="more note" {
                summary { @if note.is_empty() { span class="hint" { "add a word about it" } } @else { (note) } }
                div class="within" {
                    (doc.form(&at("name"), "field-row", &html! {
                        label class="field" { span { "Name" } input name="value" value=(name) required; }
                        button class="act" { "keep" }
                    }))
                    (doc.form(&at("note"), "field-row", &html! {
                        label class="field" { span { "A word about it" } input name="value" value=(note) placeholder="such as: for the first cold evenings"; }
                        button class="act" { "keep" }
                    }))
                }
            }
        }
    }
}
