//! What is pressed while an answer is under way waits for its turn, and none of it goes to another line.

use headless_chrome::browser::tab::ModifierKey;

use super::chromium::Browser;
use super::page::{AMOUNT, Page};
use super::server::Server;

const FIRST: &str = "[data-key='line-0']";
/// Long enough that several things are pressed before an answer.
const SLOW_MS: u32 = 2500;

fn open(browser: &Browser) -> (Page, Server) {
    let (page, server) = (browser.page(), Server::demo());
    page.open(&server, "Second Pressing");
    (page, server)
}

fn shows(page: &Page, amount: &str) {
    let is_so = format!("document.querySelector(\"{AMOUNT}\").value === '{amount}'");
    page.wait(&format!("the amount is {amount}"), &is_so);
}

/// Waits until all is answered and kept.
fn rests(page: &Page) {
    page.is_slow(0);
    page.is_kept();
}

fn lines(page: &Page) -> Vec<String> {
    page.eval(
        "[...document.querySelectorAll('.line[data-key]')].map((one) => \
         one.querySelector('.more summary').firstChild.textContent.trim() + ': ' + one.querySelector('.stepper input[name=value]').value)",
    )
}

#[test]
fn undo_and_redo_pressed_while_an_answer_is_under_way_are_done_after_it() {
    let browser = Browser::open();
    let (page, _server) = open(&browser);
    page.tap_often(&format!("{FIRST} .plus"), 2);
    shows(&page, "45");
    rests(&page);
    page.is_slow(SLOW_MS);
    // 47.5, and back, and back, and back: as if each had been waited for.
    page.tap(&format!("{FIRST} .plus"));
    for _ in 0..3 {
        page.tap("[data-undo]");
    }
    rests(&page);
    shows(&page, "40");
    page.wait(
        "no more can be undone",
        "document.querySelector('[data-undo]').hidden",
    );
    page.is_slow(SLOW_MS);
    page.tap("[data-redo]");
    page.tap("[data-redo]");
    rests(&page);
    shows(&page, "45");
    page.tap("[data-redo]");
    shows(&page, "47.5");
    page.is_kept();
    assert!(page.kept_text().contains("\"47.5 mL\""));
}

#[test]
fn a_step_back_by_the_keyboard_at_once_takes_back_what_is_still_under_way() {
    let browser = Browser::open();
    let (page, _server) = open(&browser);
    page.is_slow(SLOW_MS);
    page.tap(&format!("{FIRST} .plus"));
    page.press_with(ModifierKey::Ctrl, "z");
    page.tap(&format!("{FIRST} .plus"));
    page.tap(&format!("{FIRST} .plus"));
    rests(&page);
    shows(&page, "45");
}

#[test]
fn what_is_typed_after_taps_comes_after_them() {
    let browser = Browser::open();
    let (page, _server) = open(&browser);
    page.is_slow(SLOW_MS);
    page.tap_often(&format!("{FIRST} .plus"), 3);
    page.fill(AMOUNT, "33");
    page.press("Enter");
    rests(&page);
    shows(&page, "33");
    // Each can be taken back by itself.
    for back in ["47.5", "45", "42.5", "40"] {
        page.tap("[data-undo]");
        shows(&page, back);
    }
}

#[test]
fn two_amounts_typed_at_once_are_two_steps_back() {
    let browser = Browser::open();
    let (page, _server) = open(&browser);
    let before = lines(&page);
    page.is_slow(SLOW_MS);
    page.fill(AMOUNT, "33");
    page.press("Enter");
    page.fill("[data-key='line-1'] .stepper input[name=value]", "11");
    page.press("Enter");
    rests(&page);
    let after = lines(&page);
    assert!(after[0].ends_with(": 33") && after[1].ends_with(": 11"));
    page.tap("[data-undo]");
    shows(&page, "33");
    page.wait(
        "the second is back",
        "document.querySelector(\"[data-key='line-1'] .stepper input[name=value]\").value !== '11'",
    );
    page.tap("[data-undo]");
    shows(&page, "40");
    assert_eq!(lines(&page), before);
}

#[test]
fn what_is_asked_of_a_line_while_one_above_it_goes_is_done_to_that_line() {
    let browser = Browser::open();
    let (page, _server) = open(&browser);
    let before = lines(&page);
    let third = before[2].split(": ").next().unwrap().to_owned();
    page.tap(&format!("{FIRST} .more summary"));
    page.is_slow(SLOW_MS);
    page.tap_words(&format!("{FIRST} .within button"), "take out");
    // The third line, which will be the second.
    page.fill("[data-key='line-2'] .stepper input[name=value]", "12");
    page.press("Enter");
    page.tap("[data-key='line-2'] .plus");
    rests(&page);
    page.wait(
        "the line is out",
        &format!(
            "document.querySelectorAll('.line[data-key]').length === {}",
            before.len() - 1
        ),
    );
    let after = lines(&page);
    assert!(
        after[1].starts_with(&third) && after[1] != format!("{third}: 12"),
        "{before:?} became {after:?}"
    );
    let stepped: f64 = after[1].rsplit(": ").next().unwrap().parse().unwrap();
    assert!(stepped > 12.0, "{after:?}");
    assert_eq!(after[0], before[1]);
    assert_eq!(after[2..], before[3..]);
    for _ in 0..3 {
        page.tap("[data-undo]");
    }
    rests(&page);
    page.wait(
        "all is undone",
        "document.querySelector('[data-undo]').hidden",
    );
    assert_eq!(lines(&page), before);
}

#[test]
fn half_a_word_stays_with_its_line_when_lines_move() {
    let browser = Browser::open();
    let (page, _server) = open(&browser);
    let before = lines(&page);
    page.eval::<bool>("(document.querySelector(\"[data-key='line-2'] .more\").open = true)");
    let field = "[data-key='line-2'] input[data-find]";
    page.fill(field, "half a wo");
    page.press("Escape");
    page.tap(&format!("{FIRST} .more summary"));
    page.tap_words(&format!("{FIRST} .within button"), "take out");
    page.wait(
        "the line is out",
        &format!(
            "document.querySelectorAll('.line[data-key]').length === {}",
            before.len() - 1
        ),
    );
    assert_eq!(
        page.value("[data-key='line-1'] input[data-find]"),
        "half a wo"
    );
    assert_ne!(
        page.value("[data-key='line-2'] input[data-find]"),
        "half a wo"
    );
    page.is_kept();
    page.reload();
    assert_eq!(
        page.value("[data-key='line-1'] input[data-find]"),
        "half a wo"
    );
}

#[test]
fn a_line_pressed_up_and_up_again_goes_on_up() {
    let browser = Browser::open();
    let (page, _server) = open(&browser);
    let before = lines(&page);
    page.tap("[data-key='line-3'] .more summary");
    for at in [2, 1] {
        page.tap_words(".line .more[open] button", "up");
        page.wait(
            "it is one up",
            &format!("document.querySelector(\"[data-key='line-{at}'] .more[open]\")"),
        );
    }
    let wanted: Vec<&String> = [0, 3, 1, 2].iter().map(|at| &before[*at]).collect();
    let after = lines(&page);
    assert_eq!(after.iter().take(4).collect::<Vec<_>>(), wanted);
    page.is_kept();
}
