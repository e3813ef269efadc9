//! The drawings of preps and ingredients: there, moved by an edit, and in words for whoever hears them.

use super::chromium::Browser;
use super::page::Page;
use super::pages;
use super::server::Server;

/// The description of the drawing that is shown, or nothing.
fn described(page: &Page, width: &str) -> String {
    page.eval(&format!(
        "document.querySelector('.plate .for-{width} svg desc')?.textContent ?? ''"
    ))
}

/// Whether one drawing is in sight, with a caption.
fn is_shown(page: &Page) -> bool {
    page.eval(
        "[...document.querySelectorAll('.plate figure svg')].filter((one) => one.getBoundingClientRect().width > 0) \
         .length === 1 && document.querySelector('.plate figcaption').innerText.startsWith('Fig. 1.')",
    )
}

#[test]
fn the_flow_of_a_prep_is_drawn_and_moves_with_an_amount() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    pages::document(&server, &page, "Quince peel shrub");
    assert!(is_shown(&page));
    let before = described(&page, "desktop");
    for words in [
        "In: 240 g quince peel, 336 g cider vinegar and 254 g honey",
        "Then: steep (1 d 6 h, 18 °C), press (cloth) and dissolve",
        "Kept: 678 g Quince peel shrub",
        "By-product: 137 g pressed peel",
        "Lost: 15 g in the cloth",
    ] {
        assert!(before.contains(words), "{words}: {before}");
    }
    // What is heard is tied to what is seen.
    assert!(page.eval::<bool>(
        "[...document.querySelectorAll('.plate svg')].every((svg) => svg.getAttribute('role') === 'img' && \
         svg.getAttribute('aria-labelledby').split(' ').every((id) => document.getElementById(id)))"
    ));
    assert!(
        page.text(".plate .for-desktop")
            .contains("to Quince leather")
    );

    page.tap("[data-key='step-0'] summary");
    let amount = "[data-key='step-0'] input[placeholder='240 g']";
    page.fill(amount, "480 g");
    page.press("Enter");
    page.wait(
        "the drawing has twice the peel",
        "document.querySelector('.plate .for-desktop svg desc').textContent.includes('In: 480 g quince peel, 672 g cider vinegar')",
    );
    // It was drawn anew, and only in the width that the page has.
    assert_eq!(described(&page, "phone"), "");
    page.is_kept_as(2);
    page.tap("[data-undo]");
    page.wait(
        "and once again as before",
        "document.querySelector('.plate .for-desktop svg desc').textContent.includes('In: 240 g quince peel')",
    );
    assert_eq!(described(&page, "desktop"), before);
    assert!(page.complaints().is_empty(), "{:?}", page.complaints());
}

#[test]
fn a_prep_without_figures_has_no_drawing_and_gets_one() {
    let (server, browser) = (Server::empty(), Browser::open());
    let page = browser.page();
    page.go(&server.at("/new?kind=prep"));
    page.fill("input[name=name]", "Tea");
    page.press("Enter");
    page.wait(
        "the prep is there",
        "location.pathname.startsWith('/preps/')",
    );
    page.ready();
    assert!(!page.has(".plate svg"));
    page.choose("select[name=verb]", "weigh");
    page.fill(".put-in input[name=what]", "water");
    page.press("Escape");
    page.fill(".put-in input[name=amount]", "500 g");
    page.press("Enter");
    page.wait("it is drawn", "document.querySelector('.plate svg desc')");
    let width: String = page.eval("document.querySelector('.plate svg').parentElement.className");
    let described = described(&page, width.trim_start_matches("for-"));
    assert!(described.contains("In: 500 g water"), "{described}");
}

#[test]
fn an_ingredient_shows_its_parts_and_who_uses_each() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    pages::document(&server, &page, "quince");
    assert!(is_shown(&page));
    let words = described(&page, "desktop");
    // A fruit of 310 g, 12 % of which is peel.
    assert!(words.contains("b, peel: 37.2 g, 12 %"), "{words}");
    let caption = page.text(".plate figcaption");
    assert!(
        caption.contains("One fruit of 310 g") && caption.contains("97 %"),
        "{caption}"
    );
    let part = |index: usize| page.text(&format!(".apart li:nth-child({})", index + 1));
    let (flesh, peel, core, seeds) = (part(0), part(1), part(2), part(3));
    assert!(
        flesh.contains("Quince juice") && flesh.contains("66 %"),
        "{flesh}"
    );
    assert!(
        peel.contains("Into Quince peel shrub; it leaves pressed peel, for Quince leather"),
        "{peel}"
    );
    assert!(
        peel.contains("it leaves drawn peel, which nobody uses yet"),
        "{peel}"
    );
    assert!(
        peel.contains("water 76.9 g") && peel.contains("measured"),
        "{peel}"
    );
    assert!(core.contains("Set core cordial"), "{core}");
    assert!(
        seeds.contains("Nobody uses it yet.") && seeds.contains("amygdalin"),
        "{seeds}"
    );
    page.tap_words(".apart a", "Quince leather");
    page.wait(
        "the leather's page is there",
        "location.pathname.startsWith('/preps/')",
    );
}
