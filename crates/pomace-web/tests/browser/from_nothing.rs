//! A drink where there was none, with a prep that it calls for; how much work that is.

use std::time::Instant;

use super::chromium::Browser;
use super::server::Server;

#[test]
fn a_drink_and_the_prep_that_it_calls_for_from_an_empty_book() {
    let (server, browser) = (Server::empty(), Browser::open());
    let page = browser.page();
    page.go(&server.at("/"));
    let began = Instant::now();

    // The name, and what goes in first.
    page.fill("input[name=name]", "Low Water");
    page.fill("input[name=what]", "gin, 42");
    page.wait(
        "the larder answers",
        "document.querySelector('form.new .offers:not([hidden]) li')",
    );
    page.press("ArrowDown");
    page.press("Enter");
    page.fill("input[name=amount]", "40 mL");
    page.tap_words("button", "Begin");
    page.wait(
        "the drink is there",
        "location.pathname.startsWith('/drinks/')",
    );
    page.ready();
    assert_eq!(page.text("h1"), "Low Water");

    // A second line, by a name that leads nowhere.
    page.fill(".put-in.line input[name=what]", "peel syrup");
    page.press("Escape");
    page.fill(".put-in.line input[name=amount]", "20 mL");
    page.press("Enter");
    page.wait(
        "it has its line",
        "document.querySelector('[data-key=line-1] .amiss')",
    );
    let said = page.text("[data-key=line-1]");
    assert!(said.contains("peel syrup"), "{said}");
    page.is_kept();

    // It becomes a prep, from there.
    page.tap_words("[data-key=line-1] button", "We make it here");
    page.wait("a new prep is asked for", "location.pathname === '/new'");
    page.ready();
    assert_eq!(page.value("input[name=name]"), "peel syrup");
    page.fill("input[name=what]", "quince / peel");
    page.press("Escape");
    page.fill("input[name=amount]", "240 g");
    page.tap_words("button", "Begin");
    page.wait(
        "the prep is there",
        "location.pathname.startsWith('/preps/')",
    );
    page.ready();

    // Its steps.
    for (verb, what, amount) in [
        ("add", "water", "240 g"),
        ("simmer", "", ""),
        ("strain", "", ""),
        ("dissolve", "sugar", "200 g"),
    ] {
        let count: u32 =
            page.eval("document.querySelectorAll('[data-part=steps] .steps li').length");
        page.choose("[data-part=steps] .put-in select", verb);
        if !what.is_empty() {
            page.fill("[data-part=steps] .put-in input[name=what]", what);
            page.press("Escape");
            page.fill("[data-part=steps] .put-in input[name=amount]", amount);
        }
        page.tap("[data-part=steps] .put-in button");
        page.wait(
            "the step is there",
            &format!(
                "document.querySelectorAll('[data-part=steps] .steps li').length === {}",
                count + 1
            ),
        );
    }
    page.is_kept();

    // Back in the drink the figures are there.
    page.open(&server, "Low Water");
    page.wait("there are figures", "document.querySelector('.gist')");
    let gist = page.text(".gist");
    let seconds = began.elapsed().as_secs_f64();
    assert!(!gist.contains('–'), "unknown figures in {gist}");
    assert!(
        !page.has("[data-key=line-1] .amiss"),
        "{}",
        page.text("[data-key=line-1]")
    );

    let text = server.kept().text("Low Water");
    assert!(
        text.contains("what = \"peel syrup\"") && text.contains("amount = \"20 mL\""),
        "{text}"
    );
    let (taps, keys) = page.effort();
    println!(
        "a drink and its prep from nothing: {taps} taps, {keys} keystrokes, {seconds:.1} s as scripted"
    );
}
