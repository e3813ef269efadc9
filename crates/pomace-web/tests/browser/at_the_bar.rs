//! Tonight's spec, with wet hands.

use super::chromium::Browser;
use super::server::Server;

/// The numbers of the pours, in the order of the lines.
const POURS: &str =
    "[...document.querySelectorAll('.pours b')].map((one) => Number.parseFloat(one.innerText))";
const SCALE: &str = "[...document.querySelectorAll('.pours small')].map((one) => Number.parseFloat(one.innerText.match(/[\\d.]+ g/)[0]))";

#[test]
fn two_rounds_are_twice_the_amounts_and_twice_on_the_scale() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Second Pressing");
    page.tap(".masthead .tonight");
    page.wait("the bar is there", "document.querySelector('[data-bar]')");
    page.ready();
    let (once, weighed): (Vec<f64>, Vec<f64>) = (page.eval(POURS), page.eval(SCALE));
    assert!(
        once.len() > 3 && once.iter().all(|much| *much > 0.0),
        "{once:?}"
    );
    page.tap_words(".rounds a", "× 2");
    page.wait(
        "there are two rounds",
        "location.search.includes('rounds=2')",
    );
    page.ready();
    let (twice, scale): (Vec<f64>, Vec<f64>) = (page.eval(POURS), page.eval(SCALE));
    for (two, one) in twice.iter().zip(&once) {
        assert!((two - 2.0 * one).abs() < 1e-9, "{two} is not twice {one}");
    }
    // Shown to the gram, each rounded by itself.
    for (two, one) in scale.iter().zip(&weighed) {
        assert!(
            (two - 2.0 * one).abs() <= 1.5,
            "{two} g is not twice {one} g"
        );
    }
    // What the drink is topped with is weighed by itself, not with what was shaken before.
    let (topped, shaken) = scale.split_last().unwrap();
    assert!(shaken.is_sorted(), "a running total that falls: {scale:?}");
    assert!(topped < shaken.last().unwrap(), "{scale:?}");
    let current = page.text(".rounds [aria-current]");
    assert_eq!(current, "× 2");
}

#[test]
fn the_timer_counts_down_and_can_be_set_back() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Second Pressing");
    page.tap(".masthead .tonight");
    page.wait(
        "the timer is there",
        "document.querySelector('[data-timer]:not([hidden])')",
    );
    let left = "Number(document.querySelector('[data-timer]').innerText.match(/\\d+/)?.[0])";
    let whole: u32 = page.eval(left);
    assert!(
        page.text(".steps").contains(&format!("{whole} s")),
        "no step has {whole} s"
    );
    page.tap("[data-timer]");
    page.wait("it runs", &format!("{left} === {}", whole - 1));
    page.wait("it runs on", &format!("{left} === {}", whole - 2));
    page.tap("[data-timer]");
    assert_eq!(page.eval::<u32>(left), whole);
    // To the end.
    page.tap("[data-timer]");
    page.wait(
        "it says so",
        "document.querySelector('[data-timer]').innerText === 'done'",
    );
}

#[test]
fn nothing_at_the_bar_can_be_spoiled() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Weir");
    page.tap(".masthead .tonight");
    page.wait("the bar is there", "document.querySelector('[data-bar]')");
    let forms: u32 = page.eval("document.querySelectorAll('form, input, select, textarea').length");
    assert_eq!(forms, 0, "something can be changed here");
}
