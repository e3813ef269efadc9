//! At the bar, with a phone: what is pressed in a hurry, what is typed amiss, and a line that breaks.

use super::chromium::Browser;
use super::page::{AMOUNT, Page};
use super::server::Server;

const FIRST: &str = "[data-key='line-0']";
const NAME: &str = ".title input[name=value]";

fn open(browser: &Browser) -> (Page, Server) {
    let (page, server) = (browser.page(), Server::demo());
    page.size(390, 844);
    page.open(&server, "Second Pressing");
    (page, server)
}

fn shows(page: &Page, amount: &str) {
    let is_so = format!("document.querySelector(\"{AMOUNT}\").value === '{amount}'");
    page.wait(&format!("the amount is {amount}"), &is_so);
}

#[test]
fn nothing_moves_under_a_finger_that_presses_undo_or_plus_again() {
    let browser = Browser::open();
    let (page, _server) = open(&browser);
    let places = || -> Vec<i32> {
        page.eval(&format!(
            "[\"{FIRST} .plus\", '[data-undo]', '[data-redo]'].flatMap((one) => {{ \
             const box = document.querySelector(one).getBoundingClientRect(); \
             return [Math.round(box.left), Math.round(box.top + scrollY)]; }})"
        ))
    };
    let before = places();
    page.tap_often(&format!("{FIRST} .plus"), 2);
    shows(&page, "45");
    assert_eq!(places(), before, "after a press of plus");
    page.tap_often("[data-undo]", 2);
    shows(&page, "40");
    page.wait(
        "no more can be undone",
        "document.querySelector('[data-undo]').hidden",
    );
    assert_eq!(places(), before, "after two presses of undo");
    let again: bool = page.eval("!document.querySelector('[data-redo]').hidden");
    assert!(again, "there is no way forth");
}

#[test]
fn the_plate_never_hides_the_lines() {
    let browser = Browser::open();
    let (page, _server) = open(&browser);
    for (width, height) in [
        (320, 568),
        (320, 710),
        (390, 664),
        (390, 844),
        (430, 932),
        (600, 800),
        (700, 1000),
        (844, 390),
    ] {
        page.size(width, height);
        page.eval::<bool>("(scrollTo(0, 0), true)");
        let hit: bool = page.eval(
            "(() => {
                const plus = document.querySelector(\"[data-key='line-2'] .plus\");
                plus.scrollIntoView({ block: 'nearest', behavior: 'instant' });
                const box = plus.getBoundingClientRect();
                const hit = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
                return plus.contains(hit);
            })()",
        );
        assert!(hit, "hidden at {width} × {height}");
        let left: f64 = page.eval(
            "(() => { const plate = document.querySelector('.plate'); const box = plate.getBoundingClientRect(); \
             return box.top <= 1 ? 1 - Math.max(0, box.bottom) / innerHeight : 1; })()",
        );
        assert!(
            left > 0.3,
            "{left} of the window is left at {width} × {height}"
        );
    }
}

#[test]
fn a_name_that_another_has_is_refused_and_the_words_stay_in_their_field() {
    let browser = Browser::open();
    let (page, _server) = open(&browser);
    page.tap(".title summary");
    for (name, why) in [("weir", "another drink"), (&*"x".repeat(210), "too long")] {
        page.fill(NAME, name);
        page.press("Enter");
        page.wait(
            "it is refused",
            &format!(
                "document.getElementById('notices').innerText.includes({})",
                super::page::quoted(why)
            ),
        );
        assert_eq!(page.value(NAME), name);
        assert_eq!(page.text("h1"), "Second Pressing");
        // Nothing of it is kept, and nothing of it is lost.
        page.is_kept_as(1);
        page.reload();
        assert_eq!(page.value(NAME), name);
    }
    page.fill(NAME, "Third Pressing");
    page.press("Enter");
    page.is_kept_as(2);
    assert_eq!(page.text("h1"), "Third Pressing");
    let title: String = page.eval("document.title");
    assert_eq!(title, "Third Pressing · Sill & Ebb");
    assert!(!page.has("[data-notice]"));
}

#[test]
fn a_server_that_falls_silent_is_told_of_soon_and_gets_all_when_it_speaks_again() {
    let browser = Browser::open();
    let (page, server) = open(&browser);
    server.sleeps(true);
    page.tap_often(&format!("{FIRST} .plus"), 2);
    page.wait(
        "it is told",
        "document.querySelector('[data-notice=offline]')?.innerText.includes('2 changes wait')",
    );
    assert!(page.has(".stale"));
    assert!(page.text("#kept").contains("not kept"));
    server.sleeps(false);
    shows(&page, "45");
    page.is_kept();
    assert!(!page.has("[data-notice]") && !page.has(".stale"));
}

#[test]
fn a_drink_that_was_taken_out_is_told_of_and_what_was_changed_waits_for_its_return() {
    let browser = Browser::open();
    let (page, server) = open(&browser);
    let other = browser.stranger();
    let id: String = page.eval("document.querySelector('[data-live]').dataset.live");
    other.go(&server.at(&format!("/d/{id}/history")));
    super::pages::unfold(&other);
    other.tap_words("button", "Take it out");
    other.wait(
        "it is out",
        "document.querySelector('main').innerText.includes('Any revision brings it back')",
    );
    page.tap(&format!("{FIRST} .plus"));
    page.wait("it is told", "document.querySelector('[data-notice=gone]')");
    page.go("about:blank");
    other.tap_words("button", "make this the next revision");
    other.wait(
        "it is back",
        "document.querySelector('[data-live][data-ready]')",
    );
    page.go(&server.at(&format!("/drinks/{id}")));
    shows(&page, "42.5");
    page.is_kept();
}

#[test]
fn a_line_that_could_not_be_read_is_refused_and_its_words_stay_in_their_fields() {
    let browser = Browser::open();
    let (page, _server) = open(&browser);
    let (what, amount) = (
        ".put-in.line input[name=what]",
        ".put-in.line input[name=amount]",
    );
    let count = "document.querySelectorAll('.line[data-key]').length";
    let lines: u32 = page.eval(count);
    let long = "x".repeat(210);
    for (name, why) in [("", "what goes in"), (&*long, "too long")] {
        page.fill(what, name);
        page.press("Escape");
        page.fill(amount, "20 mL");
        page.tap(".put-in.line button");
        page.wait(
            "it is refused",
            &format!("document.getElementById('notices').innerText.includes('{why}')"),
        );
        assert_eq!(
            (page.value(what), page.value(amount)),
            (name.to_owned(), "20 mL".to_owned())
        );
        page.is_kept_as(1);
    }
    // They outlive the page, too.
    page.reload();
    assert_eq!(page.value(what), long);
    page.fill(what, "honey");
    page.press("Escape");
    page.tap_often(".put-in.line button", 2);
    page.wait("it is there", &format!("{count} === {}", lines + 1));
    page.is_kept_as(2);
    assert!(!page.has("[data-notice]"));
    assert_eq!(page.value(what), "");
}

#[test]
fn a_press_that_slips_adds_one_step_and_not_two() {
    let browser = Browser::open();
    let (page, _server) = open(&browser);
    super::pages::unfold(&page);
    let count = "document.querySelectorAll('[data-part=steps] .steps > li').length";
    let steps: u32 = page.eval(count);
    // In one breath: a busy machine would press so late that it is no slip.
    page.eval::<bool>(
        "(() => { const button = document.querySelector('[data-part=steps] .put-in button'); \
         button.click(); button.click(); return true; })()",
    );
    page.wait("it is there", &format!("{count} === {}", steps + 1));
    page.is_kept_as(2);
    assert_eq!(page.eval::<u32>(count), steps + 1);
}
