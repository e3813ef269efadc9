//! A browser that runs no script: everything is a form.

use super::chromium::Browser;
use super::page::AMOUNT;
use super::server::Server;

#[test]
fn without_scripts_plus_and_a_new_line_work_by_plain_forms() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.without_scripts();
    page.open(&server, "Second Pressing");
    assert_eq!(page.value(AMOUNT), "40");
    page.tap("[data-key='line-0'] .plus");
    page.wait(
        "the page is back with one step more",
        &format!("document.querySelector(\"{AMOUNT}\")?.value === '42.5'"),
    );
    assert!(page.text("#kept").starts_with("revision 2, kept"));

    page.fill(AMOUNT, "44");
    page.press("Enter");
    page.wait("the page is back with what was typed", &format!("document.querySelector(\"{AMOUNT}\")?.value === '44' && document.getElementById('kept').innerText.startsWith('revision 3')"));

    let lines: u32 = page.eval("document.querySelectorAll('.line[data-key]').length");
    page.fill(".put-in.line input[name=what]", "honey");
    page.fill(".put-in.line input[name=amount]", "5 g");
    page.tap_words("button", "Put it in");
    page.wait(
        "the line is there",
        &format!(
            "document.querySelectorAll('.line[data-key]').length === {}",
            lines + 1
        ),
    );
    assert!(page.text("main").contains("honey"));
}

#[test]
fn without_scripts_a_form_of_a_stale_page_is_refused_with_a_sentence() {
    let (server, browser) = (Server::demo(), Browser::open());
    let (stale, quick) = (browser.page(), browser.stranger());
    for page in [&stale, &quick] {
        page.without_scripts();
        page.open(&server, "Second Pressing");
    }
    quick.tap("[data-key='line-0'] .plus");
    quick.wait(
        "it is kept",
        "document.getElementById('kept')?.innerText.startsWith('revision 2')",
    );
    stale.tap("[data-key='line-0'] .minus");
    stale.wait(
        "it is refused",
        "document.querySelector('main')?.innerText.includes('Nothing was overwritten')",
    );
    let said = stale.text("main");
    assert!(
        said.contains("changed this on") && said.contains("Go back"),
        "{said}"
    );
    quick.reload();
    assert_eq!(quick.value(AMOUNT), "42.5");
}
