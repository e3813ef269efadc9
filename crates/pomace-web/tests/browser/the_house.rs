//! The house: named once, and its jiggers are in every stepper from then on.

use super::chromium::Browser;
use super::page::AMOUNT;
use super::server::Server;

const MARKS: &str = "textarea[name=value]";

#[test]
fn a_house_that_is_named_can_tell_its_jiggers_and_lines_step_in_them() {
    let (server, browser) = (Server::empty(), Browser::open());
    let page = browser.page();
    page.go(&server.at("/"));
    page.tap_words(".rooms a", "The house");
    page.wait("it is asked for", "document.querySelector('form.new')");
    page.fill("input[name=name]", "The Lock");
    page.tap_words("button", "Begin");
    page.wait("it is there", "location.pathname.startsWith('/house/')");
    page.ready();
    assert_eq!(page.text(".masthead .house"), "The Lock");

    page.tap_words("button", "metric");
    page.wait(
        "the set is written",
        &format!("document.querySelector('{MARKS}').value.startsWith('15 mL')"),
    );
    page.fill(MARKS, "20, 25 mL, 40");
    page.press("Tab");
    page.wait(
        "bare numbers are millilitres",
        &format!("document.querySelector('{MARKS}').value === '20 mL, 25 mL, 40 mL'"),
    );
    page.is_kept();

    // There is one house: its room leads to it, and no second is made.
    page.go(&server.at("/house"));
    page.wait("its page", "location.pathname.startsWith('/house/')");
    assert_eq!(page.text("h1"), "The Lock");

    page.go(&server.at("/new?kind=drink"));
    page.fill("input[name=name]", "Low Water");
    page.fill("input[name=what]", "gin, 42 %");
    page.press("Escape");
    page.fill("input[name=amount]", "40 mL");
    page.tap_words("button", "Begin");
    page.wait(
        "the drink is there",
        "location.pathname.startsWith('/drinks/')",
    );
    page.ready();
    page.tap("[data-key='line-0'] .plus");
    page.wait(
        "a step is what lies between two marks",
        &format!("document.querySelector(\"{AMOUNT}\").value === '45'"),
    );
    assert_eq!(page.complaints().len(), 0, "{:?}", page.complaints());
}

#[test]
fn what_is_wrong_with_a_setting_stands_at_it_and_stays_as_typed() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.go(&server.at("/house"));
    page.fill(MARKS, "20 mL, a splash");
    page.press("Tab");
    page.wait(
        "it is said",
        "document.querySelector('[data-part=label] .amiss')",
    );
    assert!(page.text("[data-part=label] .amiss").contains("splash"));
    assert_eq!(page.value(MARKS), "20 mL, a splash");
}
