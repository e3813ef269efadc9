//! The search, as one types.

use super::chromium::Browser;
use super::page::Page;
use super::server::Server;

const FIELD: &str = "input[data-find=page]";

/// What is offered for some words.
fn offered(page: &Page, words: &str, wanted: &str) -> Vec<String> {
    page.fill(FIELD, words);
    page.wait(
        &format!("`{words}` finds {wanted}"),
        &format!("[...document.querySelectorAll('.offers:not([hidden]) li')].some((one) => one.innerText.includes('{wanted}'))"),
    );
    page.eval(
        "[...document.querySelectorAll('.offers:not([hidden]) li')].map((one) => one.innerText)",
    )
}

#[test]
fn search_finds_by_beginnings_and_slips_and_the_arrow_keys_choose() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.go(&server.at("/"));
    for (words, wanted) in [
        ("sec", "Second Pressing"),
        ("pressing", "Second Pressing"),
        ("secnod presing", "Second Pressing"),
        ("quinse", "quince"),
        ("WEIR", "Weir"),
    ] {
        let found = offered(&page, words, wanted);
        assert!(
            found[0].starts_with(wanted),
            "`{words}` finds first {found:?}"
        );
    }

    // Down twice and up once is the first; the choice is told to a screen reader.
    let found = offered(&page, "quince", "Quince juice");
    assert!(found.len() > 2, "{found:?}");
    page.press("ArrowDown");
    page.press("ArrowDown");
    page.press("ArrowUp");
    let chosen: String = page.eval(
        "document.getElementById(document.activeElement.getAttribute('aria-activedescendant')).innerText",
    );
    assert_eq!(chosen, found[0]);
    let selected: u32 =
        page.eval("document.querySelectorAll('[role=option][aria-selected=true]').length");
    assert_eq!(selected, 1);
    // Up from the first is the last.
    page.press("ArrowUp");
    let chosen: String = page.eval(
        "document.getElementById(document.activeElement.getAttribute('aria-activedescendant')).innerText",
    );
    assert_eq!(&chosen, found.last().unwrap());
    page.press("ArrowDown");
    page.press("Enter");
    page.wait("it is open", "location.pathname !== '/'");
    page.ready();
    assert!(
        found[0].starts_with(&page.text("h1")),
        "{} for {}",
        page.text("h1"),
        found[0]
    );
}

#[test]
fn a_line_is_offered_what_is_called_just_so_and_a_name_of_its_own() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Weir");
    let field = ".put-in.line input[name=what]";
    let offered = |words: &str, wanted: &str| -> Vec<String> {
        page.fill(field, words);
        // Not what was offered for the half of the words.
        page.wait(
            &format!("`{words}` finds {wanted}"),
            &format!("((rows) => rows.includes('{wanted}') && !rows.some((row) => row.length < {} && '{words}'.startsWith(row)))([...document.querySelectorAll('.put-in .offers:not([hidden]) li span:first-child')].map((one) => one.innerText))", words.len()),
        );
        page.eval("[...document.querySelectorAll('.put-in .offers:not([hidden]) li')].map((one) => one.innerText)")
    };
    for known in ["water", "sugar"] {
        let found = offered(known, known);
        assert!(found[0].starts_with(known), "{found:?}");
        assert!(
            !found.iter().any(|one| one.contains("not in the book yet")),
            "{found:?}"
        );
    }
    let found = offered("zzxqj shrub", "zzxqj shrub");
    assert!(
        found.last().unwrap().contains("not in the book yet"),
        "{found:?}"
    );
    // Chosen, it is in the field, and the amount is next.
    page.press("ArrowUp");
    page.press("Enter");
    assert_eq!(page.value(field), "zzxqj shrub");
    let next: String = page.eval("document.activeElement.name");
    assert_eq!(next, "amount");
}

#[test]
fn escape_and_nothing_found_leave_the_words_where_they_are() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.go(&server.at("/"));
    offered(&page, "quince", "Quince juice");
    page.press("Escape");
    page.wait(
        "the offers are closed",
        "document.querySelector('.offers').hidden",
    );
    assert_eq!(page.value(FIELD), "quince");
    page.fill(FIELD, "zzxqj");
    page.press("Enter");
    page.wait(
        "it is said",
        "document.querySelector('main').innerText.includes('Nothing in the book is called so')",
    );
    assert_eq!(page.value(FIELD), "zzxqj");
}
