//! Amounts: pressed, typed, taken back, kept.

use super::chromium::Browser;
use super::page::{AMOUNT, Page};
use super::server::Server;

/// The line that most of it happens to: aquavit, 40 mL.
const FIRST: &str = "[data-key='line-0']";

/// Waits for what the first line's field shows.
fn shows(page: &Page, amount: &str) {
    let is_so = format!("document.querySelector(\"{AMOUNT}\").value === '{amount}'");
    page.wait(&format!("the amount is {amount}"), &is_so);
}

fn figures(page: &Page) -> String {
    page.text(".gist")
}

#[test]
fn plus_changes_figures_and_drawing_and_can_be_undone_and_is_kept() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Second Pressing");
    let drawn =
        || -> String { page.eval("document.querySelector('.plate .for-desktop svg').outerHTML") };
    let before = (figures(&page), drawn());
    shows(&page, "40");

    page.tap(&format!("{FIRST} .plus"));
    shows(&page, "42.5");
    let after = (figures(&page), drawn());
    assert_ne!(before.0, after.0, "the figures stood still");
    assert_ne!(before.1, after.1, "the drawing stood still");
    page.is_kept_as(2);

    page.tap("[data-undo]");
    shows(&page, "40");
    assert_eq!(figures(&page), before.0);
    page.is_kept_as(3);
    page.tap("[data-redo]");
    shows(&page, "42.5");
    assert_eq!(figures(&page), after.0);
    page.is_kept_as(4);

    page.reload();
    shows(&page, "42.5");
    assert_eq!(figures(&page), after.0);
    let imprint = page.text("#kept");
    assert!(imprint.starts_with("revision 4, kept "), "{imprint}");
}

#[test]
fn ten_quick_taps_are_ten_steps() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Second Pressing");
    page.tap_often(&format!("{FIRST} .plus"), 10);
    // Eight steps of 2.5 mL, and from 60 mL on two of 10 mL.
    shows(&page, "80");
    page.is_kept();
    // Each was a step of its own.
    for back in [
        "70", "60", "57.5", "55", "52.5", "50", "47.5", "45", "42.5", "40",
    ] {
        page.tap("[data-undo]");
        shows(&page, back);
    }
    page.wait(
        "no more can be undone",
        "document.querySelector('[data-undo]').hidden",
    );
}

#[test]
fn minus_taps_among_plus_taps_are_all_done_in_their_order() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Second Pressing");
    for _ in 0..3 {
        page.tap_often(&format!("{FIRST} .plus"), 2);
        page.tap_often(&format!("{FIRST} .minus"), 1);
    }
    shows(&page, "47.5");
    page.is_kept();
    for back in ["50", "47.5", "45"] {
        page.tap("[data-undo]");
        shows(&page, back);
    }
}

#[test]
fn a_step_there_and_back_is_at_once_what_is_kept() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Second Pressing");
    page.tap(&format!("{FIRST} .plus"));
    shows(&page, "42.5");
    page.tap("[data-undo]");
    shows(&page, "40");
    // Whether the step between was kept depends on how quick the fingers were.
    page.is_kept();
    page.tap(&format!("{FIRST} .plus"));
    shows(&page, "42.5");
    page.is_kept();
}

#[test]
fn what_is_typed_takes_the_place_of_an_amount() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Second Pressing");
    let before = figures(&page);
    page.fill(AMOUNT, "1.5 oz");
    page.press("Enter");
    page.wait(
        "the figures follow",
        &format!(
            "document.querySelector('.gist').innerText !== {}",
            super::page::quoted(&before)
        ),
    );
    page.is_kept();
    let text: String = page.kept_text();
    assert!(text.contains("\"1.5 oz\""), "{text}");
}

#[test]
fn an_amount_that_cannot_be_read_is_said_at_its_line_and_nothing_is_lost() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Second Pressing");
    let before = figures(&page);
    page.fill(AMOUNT, "40 xl");
    page.press("Enter");
    page.wait(
        "it is said at the line",
        &format!("document.querySelector(\"{FIRST} .amiss\")"),
    );
    let said = page.text(&format!("{FIRST} .amiss"));
    let mend = page.text(&format!("{FIRST} .amiss span"));
    assert!(
        said.len() > mend.len() && mend.len() > 10,
        "no mend in `{said}`"
    );
    assert_eq!(page.value(AMOUNT), "40 xl");
    assert!(said.contains("“xl” is no unit"), "{said}");
    let others: u32 = page.eval("document.querySelectorAll('.line[data-key] .amiss').length");
    assert_eq!(others, 1, "other lines complain too");
    page.is_kept();
    page.reload();
    assert_eq!(page.value(AMOUNT), "40 xl");
    assert_eq!(page.text(&format!("{FIRST} .amiss")), said);

    page.fill(AMOUNT, "40 mL");
    page.press("Enter");
    page.wait(
        "it is mended",
        &format!("!document.querySelector(\"{FIRST} .amiss\")"),
    );
    assert_eq!(figures(&page), before);
}

#[test]
fn of_an_amount_with_two_meanings_both_results_are_offered_and_one_press_settles_it() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Second Pressing");
    page.fill(AMOUNT, "1,500 g");
    page.press("Enter");
    page.wait(
        "it is asked",
        "document.querySelector('[data-part=asked] .question form button')",
    );
    let offered: Vec<String> = page.eval(
        "[...document.querySelectorAll('[data-part=asked] .question:first-of-type form button')].map((one) => one.innerText)",
    );
    assert_eq!(offered.len(), 2, "{offered:?}");
    assert_ne!(offered[0], offered[1]);
    assert!(
        offered.iter().all(|one| one.contains("% vol")),
        "no results: {offered:?}"
    );
    // 1.5 g, and 1500 g: what is meant by a comma.
    page.tap_words("[data-part=asked] button", "1.5 g");
    page.wait(
        "it is settled",
        "!document.querySelector('[data-part=asked] .question form')",
    );
    shows(&page, "1.5");
    page.is_kept();
    assert!(
        page.kept_text().contains("\"1.5 g\""),
        "{}",
        page.kept_text()
    );
}

#[test]
fn words_in_a_field_outlive_a_change_somewhere_else() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Second Pressing");
    page.fill(".put-in input[name=what]", "elderflow");
    page.press("Escape");
    page.tap(&format!("{FIRST} .plus"));
    shows(&page, "42.5");
    assert_eq!(page.value(".put-in input[name=what]"), "elderflow");
}
