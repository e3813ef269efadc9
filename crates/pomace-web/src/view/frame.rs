//! The frame of every page: masthead, title, footer.

use maud::{DOCTYPE, Markup, html};

use crate::assets;
use crate::devices::pass;

/// What stands around a page.
pub(crate) struct Frame<'a> {
    /// The house's name.
    pub house: &'a str,
    /// For the browser's tab.
    pub title: &'a str,
    /// The room that is open: `drinks`, `preps`, `ingredients`, `house`.
    pub room: &'a str,
    /// Whether what is changed is thrown away at the end.
    pub is_demo: bool,
    /// Where `At the bar` leads.
    pub bar: Option<String>,
}

/// The rooms that are there so far.
const ROOMS: [(&str, &str); 4] = [
    ("drinks", "Drinks"),
    ("preps", "Preps"),
    ("ingredients", "Ingredients"),
    ("house", "The house"),
];

pub(crate) fn page(frame: &Frame<'_>, inner: &Markup) -> Markup {
    let rooms = html! {
        @for (key, label) in ROOMS {
            li { a href={ "/" (key) } aria-current=[(key == frame.room).then_some("page")] { (label) } }
        }
    };
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                (head(frame.title, frame.house))
                script type="module" src=(assets::address("page.js")) {}
            }
            body {
                a class="skip" href="#main" { "To the page" }
                div class="page" {
                    nav class="masthead" aria-label="Rooms" {
                        a class="house" href="/" { (frame.house) }
                        ul class="rooms" { (rooms) }
                        details { summary { "Rooms" } ul { (rooms) } }
                        @match &frame.bar {
                            Some(bar) => a class="tonight" href=(bar) { "At the bar" },
                            None => a class="tonight" href="/new" { "New" },
                        }
                    }
                    (inner)
                    footer class="footer" {
                        span {
                            @if frame.is_demo { "The demo: an invented house. What you change here is gone when the program ends." }
                            @else { "Figures are worked out, not read. Weigh, taste, and follow your local rules." }
                        }
                        span {
                            @if pass::is_open() { a class="act" href="/devices" { "devices" } }
                            button class="act" data-look="light" { "light" }
                            button class="act" data-look="dim" { "dim" }
                            a class="act" href="/look" { "the look" }
                        }
                    }
                }
            }
        }
    }
}

/// A page for who is not let in yet: nothing of the book around it.
pub(crate) fn bare(title: &str, inner: &Markup) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            head { (head(title, "pomace")) }
            body { div class="page" { (inner) } }
        }
    }
}

fn head(title: &str, house: &str) -> Markup {
    html! {
        meta charset="utf-8";
        meta name="viewport" content="width=device-width,initial-scale=1";
        meta name="color-scheme" content="light dark";
        title { (title) " · " (house) }
        link rel="stylesheet" href=(assets::address("look.css"));
        link rel="stylesheet" href=(assets::address("page.css"));
        link rel="icon" href=(assets::address("mark.svg")) type="image/svg+xml";
        script src=(assets::address("early.js")) {}
    }
}
