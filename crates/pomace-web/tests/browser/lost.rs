//! The server is killed, the page is closed: nothing that was typed is lost.

use super::chromium::Browser;
use super::page::{AMOUNT, Page};
use super::server::Server;

fn is_cut_off(page: &Page) {
    page.wait(
        "the page says that nobody answers",
        "document.querySelector('[data-notice=offline]')",
    );
    page.wait(
        "the figures are grey",
        "document.querySelector('[data-live]').classList.contains('stale')",
    );
}

/// The grey of what is not worked out yet is another than the ink of what is.
fn inks(page: &Page) -> Vec<String> {
    page.eval("['.gist dd', '.tide b.served', '.plate .drawn'].map((one) => { const style = getComputedStyle(document.querySelector(one)); return style.color + style.opacity; })")
}

#[test]
fn a_server_that_is_killed_and_comes_back_gets_what_was_done_meanwhile() {
    let browser = Browser::open();
    let page = browser.page();
    let mut server = Server::with_demo_open(&page);
    let ink = inks(&page);

    server.kill();
    page.fill(AMOUNT, "45");
    page.press("Enter");
    is_cut_off(&page);
    for (now, then) in inks(&page).iter().zip(&ink) {
        assert_ne!(
            now, then,
            "figures that may be wrong look like those that are right"
        );
    }
    let said = page.text("[data-notice=offline]");
    assert!(said.contains("kept on this device"), "{said}");
    assert!(
        page.text("#kept").contains("not kept"),
        "{}",
        page.text("#kept")
    );
    // Typing goes on.
    page.fill("[data-key='line-1'] .stepper input[name=value]", "25");
    page.press("Tab");
    assert_eq!(page.value(AMOUNT), "45");

    server.start();
    page.wait(
        "the notice is gone",
        "!document.querySelector('[data-notice=offline]')",
    );
    page.wait(
        "the figures are worked out",
        "!document.querySelector('[data-live]').classList.contains('stale')",
    );
    assert_eq!(inks(&page), ink);
    page.is_kept();
    let text = server.kept().text("Second Pressing");
    assert!(
        text.contains("\"45 mL\"") && text.contains("\"25 mL\""),
        "{text}"
    );
}

#[test]
fn taps_without_a_server_are_all_there_when_it_comes_back() {
    let browser = Browser::open();
    let page = browser.page();
    let mut server = Server::with_demo_open(&page);
    server.kill();
    page.tap_often("[data-key='line-0'] .plus", 4);
    is_cut_off(&page);
    page.go("about:blank");
    server.start();
    page.open(&server, "Second Pressing");
    page.wait(
        "four steps are there",
        &format!("document.querySelector(\"{AMOUNT}\").value === '50'"),
    );
    page.is_kept();
    assert!(server.kept().text("Second Pressing").contains("\"50 mL\""));
}

#[test]
fn a_page_that_is_closed_before_its_change_was_sent_has_it_when_it_is_opened_again() {
    let browser = Browser::open();
    let page = browser.page();
    let mut server = Server::with_demo_open(&page);
    server.kill();
    page.fill(AMOUNT, "47.5");
    page.press("Enter");
    is_cut_off(&page);
    page.go("about:blank");
    server.start();
    page.open(&server, "Second Pressing");
    page.wait("it is said", "document.querySelector('[data-notice=back]')");
    page.wait(
        "the amount is back",
        &format!("document.querySelector(\"{AMOUNT}\").value === '47.5'"),
    );
    page.is_kept();
    assert!(
        server
            .kept()
            .text("Second Pressing")
            .contains("\"47.5 mL\"")
    );
    // It was one change, kept once.
    assert_eq!(server.kept().history("Second Pressing").len(), 2);
}

#[test]
fn half_typed_words_come_back_with_the_page() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Second Pressing");
    page.fill(".put-in.line input[name=what]", "green wal");
    page.reload();
    assert_eq!(page.value(".put-in.line input[name=what]"), "green wal");
    page.fill(AMOUNT, "43.");
    page.reload();
    assert_eq!(page.value(AMOUNT), "43.");
    // They are not kept as an amount before someone is done with them.
    assert!(page.text("#kept").starts_with("revision 1, kept"));
}
