//! The history of a drink: told in words, and by the clock of whoever reads it.

use headless_chrome::protocol::cdp::Emulation;

use super::chromium::Browser;
use super::server::Server;

const AMOUNT: &str = "[data-key='line-0'] .stepper input[name=value]";

#[test]
fn what_each_revision_changed_is_told_in_words() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.open(&server, "Second Pressing");
    page.fill(AMOUNT, "45");
    page.press("Enter");
    page.is_kept_as(2);
    page.tap_words(".imprint a", "history");
    page.wait(
        "the history is there",
        "document.querySelector('.revisions')",
    );
    let told = page.text(".revisions");
    let (second, first) = told.split_once("Revision 1").unwrap();
    assert!(second.contains("40 mL → 45 mL"), "{second}");
    assert!(second.contains("this machine"), "{second}");
    // The first is set like a recipe: a line with its amount, a step with its time, the garnish.
    for words in ["aquavit, 42 %", "40 mL", "Shake", "9 s", "Quince leather"] {
        assert!(first.contains(words), "no {words} in {first}");
    }
    assert!(!told.contains("[[") && !told.contains(" = "), "{told}");
    // Who wants the file finds it behind its fold.
    page.tap_words(".file summary", "As a file");
    assert!(page.text(".file[open] pre").contains("[[line]]"));
}

#[test]
fn times_are_those_of_the_reader() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.tab
        .call_method(Emulation::SetTimezoneOverride {
            timezone_id: "Pacific/Kiritimati".into(),
        })
        .unwrap();
    page.go(&server.at("/"));
    // Fourteen hours before the clock of the world: the day of the month tells.
    let (told, there): (String, String) = page.eval(
        "(() => { const time = document.querySelector('time'); const at = new Date(new Date(time.dateTime).getTime() + 14 * 36e5); \
         return [time.innerText, `${at.getUTCDate()} ${['January','February','March','April','May','June','July','August','September','October','November','December'][at.getUTCMonth()]} \
         ${at.getUTCFullYear()}, ${String(at.getUTCHours()).padStart(2, '0')}:${String(at.getUTCMinutes()).padStart(2, '0')}`]; })()",
    );
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    let there = there.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(told, there);
    assert!(!told.contains("UTC"));
}

#[test]
fn without_a_script_times_say_whose_they_are() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.without_scripts();
    page.go(&server.at("/"));
    assert!(page.text("time").ends_with(" UTC"), "{}", page.text("time"));
}
