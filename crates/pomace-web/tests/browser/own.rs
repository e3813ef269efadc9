//! One person's own pages and saves: none of them is taken for somebody else's.

use std::sync::atomic::Ordering;

use super::chromium::Browser;
use super::page::{AMOUNT, Page};
use super::server::Server;

const SECOND: &str = "[data-key='line-1'] .stepper input[name=value]";
const COPIES: &str = "Object.keys(localStorage).filter((key) => key.startsWith('pomace:doc:'))";

fn set(page: &Page, field: &str, amount: &str) {
    page.fill(field, amount);
    page.press("Enter");
}

fn shows(page: &Page, field: &str, amount: &str) {
    page.wait(
        &format!("{field} is {amount}"),
        &format!("document.querySelector(\"{field}\").value === '{amount}'"),
    );
}

/// The amounts of the first line, revision by revision.
fn amounts(server: &Server) -> Vec<String> {
    let amount = |text: &str| {
        let first = text.split_once("amount = \"").unwrap().1;
        first.split_once('"').unwrap().0.to_owned()
    };
    let history = server.kept().history("Second Pressing");
    history.iter().map(|(_, text)| amount(text)).collect()
}

/// Sets 45 mL, which is kept, and nobody tells the page; it is cut off before it can ask again.
fn answer_is_lost(page: &Page, server: &Server) {
    let left = page.loses_answers("/save", 1);
    set(page, AMOUNT, "45");
    page.wait(
        "its answer is lost",
        "document.querySelector('[data-notice=offline]')",
    );
    page.is_offline(true);
    assert_eq!(left.load(Ordering::SeqCst), 0);
    assert_eq!(amounts(server), ["40 mL", "45 mL"]);
}

#[test]
fn a_save_whose_answer_is_lost_is_not_somebody_elses() {
    let browser = Browser::open();
    let page = browser.page();
    let server = Server::with_demo_open(&page);
    answer_is_lost(&page, &server);
    // Before it is sent again, something else is changed.
    set(&page, SECOND, "25");
    page.is_offline(false);
    page.is_kept_as(3);
    assert!(!page.has("[data-notice=conflict]"));
    shows(&page, AMOUNT, "45");
    let text = server.kept().text("Second Pressing");
    assert!(
        text.contains("\"45 mL\"") && text.contains("\"25 mL\""),
        "{text}"
    );
}

#[test]
fn a_save_whose_answer_is_lost_can_be_undone() {
    let browser = Browser::open();
    let page = browser.page();
    let server = Server::with_demo_open(&page);
    answer_is_lost(&page, &server);
    // What the page takes for kept already is kept once more, since something came between.
    page.tap("[data-undo]");
    page.is_offline(false);
    page.is_kept_as(3);
    assert_eq!(amounts(&server), ["40 mL", "45 mL", "40 mL"]);
}

#[test]
fn a_server_killed_before_it_could_answer_is_no_conflict_either() {
    let browser = Browser::open();
    let page = browser.page();
    let mut server = Server::with_demo_open(&page);
    answer_is_lost(&page, &server);
    server.kill();
    set(&page, AMOUNT, "50");
    page.tap("[data-key='line-0'] .minus");
    // The page is closed with all of that unsent.
    page.go("about:blank");
    page.is_offline(false);
    server.start();
    page.open(&server, "Second Pressing");
    shows(&page, AMOUNT, "47.5");
    page.is_kept();
    assert!(!page.has("[data-notice=conflict]"));
    assert_eq!(amounts(&server).last().unwrap(), "47.5 mL");
}

#[test]
fn a_page_closed_before_any_answer_goes_on_from_its_own_save() {
    let browser = Browser::open();
    let page = browser.page();
    let server = Server::with_demo_open(&page);
    let left = page.loses_answers("/save", 1000);
    set(&page, AMOUNT, "45");
    page.wait(
        "it is sent",
        "document.querySelector('[data-notice=offline]')",
    );
    assert_eq!(amounts(&server), ["40 mL", "45 mL"]);
    set(&page, AMOUNT, "50");
    // The server refuses this one, since it knows the one before; nobody hears of that either.
    let sent = "JSON.parse(Object.values(localStorage)[0]).draft.sent.length";
    page.wait("it is sent too", &format!("{sent} === 2"));
    page.go("about:blank");
    left.store(0, Ordering::SeqCst);
    page.open(&server, "Second Pressing");
    shows(&page, AMOUNT, "50");
    page.is_kept_as(3);
    assert!(!page.has("[data-notice=conflict]"));
    assert_eq!(amounts(&server), ["40 mL", "45 mL", "50 mL"]);
}

#[test]
fn a_lost_answer_hides_nobody_elses_change() {
    let browser = Browser::open();
    let (page, other) = (browser.page(), browser.stranger());
    let server = Server::with_demo_open(&page);
    answer_is_lost(&page, &server);
    set(&page, SECOND, "25");
    other.open(&server, "Second Pressing");
    set(&other, AMOUNT, "60");
    other.is_kept_as(3);
    page.is_offline(false);
    page.wait(
        "both are shown",
        "document.querySelector('[data-notice=conflict]')",
    );
    let said = page.text("[data-notice=conflict]");
    for amount in ["45 mL", "25 mL", "60 mL"] {
        assert!(said.contains(amount), "no {amount} in {said}");
    }
    assert_eq!(amounts(&server), ["40 mL", "45 mL", "60 mL"]);
}

#[test]
fn two_pages_of_one_browser_each_keep_their_own_unsent_words() {
    let browser = Browser::open();
    let (one, two) = (browser.page(), browser.page());
    let mut server = Server::with_demo_open(&one);
    two.open(&server, "Second Pressing");
    server.kill();
    set(&one, AMOUNT, "45");
    set(&two, SECOND, "25");
    one.fill(".put-in.line input[name=what]", "green wal");
    two.fill(".put-in.line input[name=what]", "elderflow");
    let copies: Vec<String> = one.eval(COPIES);
    assert_eq!(copies.len(), 2, "{copies:?}");

    // One is kept; what the other has is still there, and is shown beside it.
    server.start();
    for (page, words) in [(&one, "green wal"), (&two, "elderflow")] {
        assert_eq!(page.value(".put-in.line input[name=what]"), words);
    }
    let both = "[...document.querySelectorAll('[data-notice=conflict]')].length";
    let told = |page: &Page| page.eval::<u32>(both);
    one.wait("one is settled", "!document.querySelector('.stale')");
    two.wait("the other is settled", "!document.querySelector('.stale')");
    let is_told = "document.querySelector('[data-notice=conflict]') || /^revision 2/.test(document.getElementById('kept').innerText)";
    one.wait("one is kept or told", is_told);
    two.wait("the other is kept or told", is_told);
    assert_eq!(told(&one) + told(&two), 1, "one of them is first");
    let (first, second) = if told(&one) == 0 {
        (&one, &two)
    } else {
        (&two, &one)
    };
    assert_eq!(server.kept().history("Second Pressing").len(), 2);

    // Both are closed: the first has half a word left, the second its version and half a word.
    first.go("about:blank");
    second.go("about:blank");
    assert_eq!(first.eval::<Vec<String>>("[]"), Vec::<String>::new());
    one.open(&server, "Second Pressing");
    one.wait(
        "the version that waits is shown",
        "document.querySelector('[data-notice=conflict]')",
    );
    one.tap_words("[data-notice=conflict] button", "Keep yours");
    one.is_kept_as(3);
    let history = server.kept().history("Second Pressing");
    let has = |at: usize, amount: &str| history[at].1.contains(&format!("\"{amount}\""));
    assert!(has(1, "45 mL") != has(1, "25 mL"));
    assert!(has(2, "45 mL") != has(2, "25 mL"));
    assert!(has(1, "45 mL") != has(2, "45 mL"));
    // Of the half words one is in its field, and the other is told.
    let seen = one.value(".put-in.line input[name=what]");
    let said = one.text("[data-notice=strayed]");
    let words = ["green wal", "elderflow"];
    assert!(
        words
            .iter()
            .all(|word| seen == *word || said.contains(word)),
        "{seen}, {said}"
    );
}

#[test]
fn what_one_page_keeps_the_other_shows_and_goes_on_from() {
    let browser = Browser::open();
    let (one, two) = (browser.page(), browser.page());
    let server = Server::with_demo_open(&one);
    two.open(&server, "Second Pressing");
    set(&one, AMOUNT, "45");
    one.is_kept_as(2);
    shows(&two, AMOUNT, "45");
    two.is_kept_as(2);
    two.tap("[data-key='line-0'] .plus");
    two.is_kept_as(3);
    assert!(!two.has("[data-notice]") && !one.has("[data-notice]"));
    shows(&one, AMOUNT, "47.5");
    // A step back is a step back from there.
    one.tap("[data-undo]");
    one.is_kept_as(4);
    assert_eq!(amounts(&server), ["40 mL", "45 mL", "47.5 mL", "45 mL"]);
}

#[test]
fn what_the_server_cannot_take_is_told_and_stops_nothing_else() {
    let browser = Browser::open();
    let page = browser.page();
    let server = Server::with_demo_open(&page);
    // As a page of another making may have left it.
    page.eval::<bool>(
        "(() => {
            const id = document.querySelector('[data-live]').dataset.live;
            const text = document.getElementById('text').textContent;
            const todo = [{ change: { do: 'set', list: 'shelf', at: 0, value: 'x' } },
                { change: { do: 'set', list: 'line', at: 0, key: 'amount', value: '45 mL' } }];
            const draft = { revision: 1, text, todo, sent: [] };
            localStorage.setItem(`pomace:doc:${id}:gone`, JSON.stringify({ when: 1, draft }));
            return true;
        })()",
    );
    page.reload();
    page.wait(
        "it is told",
        "document.querySelector('[data-notice=fault]')",
    );
    shows(&page, AMOUNT, "45");
    page.is_kept_as(2);
    assert_eq!(amounts(&server), ["40 mL", "45 mL"]);
    assert_eq!(page.eval::<Vec<String>>(COPIES), Vec::<String>::new());
}

#[test]
fn a_version_that_waits_for_a_choice_waits_over_any_number_of_loads() {
    let browser = Browser::open();
    let (page, other) = (browser.page(), browser.stranger());
    let server = Server::with_demo_open(&page);
    other.open(&server, "Second Pressing");
    page.is_offline(true);
    set(&page, AMOUNT, "45");
    page.wait(
        "it is cut off",
        "document.querySelector('[data-notice=offline]')",
    );
    set(&other, AMOUNT, "60");
    other.is_kept_as(2);
    page.go("about:blank");
    page.is_offline(false);
    for _ in 0..3 {
        page.open(&server, "Second Pressing");
        page.wait(
            "both are shown",
            "document.querySelector('[data-notice=conflict]')",
        );
        let said = page.text("[data-notice=conflict]");
        assert!(said.contains("45 mL") && said.contains("60 mL"), "{said}");
        shows(&page, AMOUNT, "45");
        page.go("about:blank");
    }
    assert_eq!(amounts(&server), ["40 mL", "60 mL"]);
}
