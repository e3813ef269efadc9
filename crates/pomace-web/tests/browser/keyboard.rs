//! Everything by the keyboard alone.

use std::collections::BTreeSet;

use headless_chrome::browser::tab::ModifierKey;

use super::chromium::Browser;
use super::page::Page;
use super::server::Server;

/// Every control of a line that can be pressed or typed into, numbered in the order of the page.
const CONTROLS: &str = "(() => {
    const line = document.querySelector('[data-key=line-1]');
    return [...line.querySelectorAll('a[href], button, input:not([type=hidden]), select, summary')]
        .filter((one) => one.checkVisibility() && one.tabIndex >= 0 && !one.disabled);
})()";

/// Whether what has the focus shows it.
const IS_SEEN: &str = "(() => {
    const drawn = (one) => { const style = getComputedStyle(one); return style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2; };
    const focused = document.activeElement;
    return drawn(focused) || [...focused.querySelectorAll('*')].some(drawn) || drawn(focused.closest('label, form') ?? focused);
})()";

fn open(page: &Page, server: &Server) {
    page.open(server, "Second Pressing");
    page.eval::<bool>("(document.querySelector('[data-key=line-1] details').open = true)");
}

#[test]
fn the_tab_key_reaches_every_control_of_a_line_in_order_and_shows_where_it_is() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    open(&page, &server);
    let count: usize = page.eval(&format!("{CONTROLS}.length"));
    assert!(count >= 7, "{count} controls only");
    page.eval::<bool>("(document.querySelector('[data-key=line-0] .plus').focus(), true)");
    let mut reached = Vec::new();
    for _ in 0..count {
        page.press("Tab");
        let at: i64 = page.eval(&format!("{CONTROLS}.indexOf(document.activeElement)"));
        let name: String = page.eval("document.activeElement.outerHTML.slice(0, 120)");
        assert!(
            page.eval::<bool>(IS_SEEN),
            "nobody sees that the focus is at {name}"
        );
        reached.push(at);
    }
    assert_eq!(
        reached,
        (0..i64::try_from(count).unwrap()).collect::<Vec<_>>()
    );
    // And out again, to the next line; and back.
    page.press("Tab");
    assert!(
        page.eval::<bool>("document.activeElement.closest('[data-key]').dataset.key === 'line-2'")
    );
    page.press_with(ModifierKey::Shift, "Tab");
    assert_eq!(
        page.eval::<i64>(&format!("{CONTROLS}.indexOf(document.activeElement)")),
        *reached.last().unwrap()
    );
}

#[test]
fn the_tab_key_comes_through_the_whole_page_and_is_caught_nowhere() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Second Pressing");
    let wanted: usize = page.eval(
        "(window.all = [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, summary')] \
         .filter((one) => one.checkVisibility() && one.tabIndex >= 0 && !one.disabled)).length",
    );
    let mut reached = BTreeSet::new();
    for _ in 0..wanted + 4 {
        page.press("Tab");
        let at: i64 = page.eval("all.indexOf(document.activeElement)");
        if at >= 0 {
            let name: String = page.eval("document.activeElement.outerHTML.slice(0, 160)");
            assert!(
                page.eval::<bool>(IS_SEEN),
                "nobody sees that the focus is at {name}"
            );
            reached.insert(at);
        }
    }
    assert_eq!(reached.len(), wanted);
}

#[test]
fn enter_in_an_amount_sets_it_and_presses_neither_minus_nor_plus() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Second Pressing");
    let field = "[data-key='line-1'] .stepper input[name=value]";
    page.eval::<bool>(&format!(
        "(document.querySelector(\"{field}\").focus(), document.activeElement.select(), true)"
    ));
    page.type_words("31");
    page.press("Enter");
    page.wait(
        "it is kept",
        "document.getElementById('kept').innerText.startsWith('revision 2')",
    );
    assert_eq!(page.value(field), "31");
    assert!(
        page.kept_text().contains("\"31 mL\""),
        "{}",
        page.kept_text()
    );
    // The focus stays where it was, for the next amount.
    assert!(page.eval::<bool>(&format!(
        "document.activeElement === document.querySelector(\"{field}\")"
    )));

    // Enter once more, with nothing changed, changes nothing.
    page.press("Enter");
    page.press_with(ModifierKey::Ctrl, "z");
    page.wait(
        "it is undone",
        &format!("document.querySelector(\"{field}\").value === '22.5'"),
    );
    page.press_with(ModifierKey::Ctrl, "y");
    page.press_with(ModifierKey::Shift, "Tab");
    // Space presses the button that has the focus.
    page.press(" ");
    page.wait(
        "minus was pressed",
        &format!("document.querySelector(\"{field}\").value === '20'"),
    );
}
