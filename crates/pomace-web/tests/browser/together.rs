//! Two who work at the same drink.

use super::chromium::Browser;
use super::page::{AMOUNT, Page};
use super::server::Server;

/// Ann sets 45 mL, and Ben, who has not seen it, 50 mL: he is shown both.
fn two_versions(ann: &Page, ben: &Page, server: &Server) {
    ann.open(server, "Second Pressing");
    ben.open(server, "Second Pressing");
    ann.fill(AMOUNT, "45");
    ann.press("Enter");
    ann.is_kept_as(2);
    ben.fill(AMOUNT, "50");
    ben.press("Enter");
    ben.wait(
        "both versions are shown",
        "document.querySelector('[data-notice=conflict]')",
    );
    let shown = ben.text("[data-notice=conflict]");
    assert!(
        shown.contains("45 mL") && shown.contains("50 mL"),
        "{shown}"
    );
    // Neither is overwritten while he thinks.
    let kept = server.kept().history("Second Pressing");
    assert_eq!(kept.len(), 2);
    assert!(kept[1].1.contains("\"45 mL\""));
    assert_eq!(ben.value(AMOUNT), "50");
}

#[test]
fn of_two_versions_ones_own_can_be_kept_and_the_other_stays_in_the_history() {
    let browser = Browser::open();
    let (ann, ben) = (browser.page(), browser.stranger());
    let server = Server::with_demo(&ann);
    two_versions(&ann, &ben, &server);
    ben.tap_words("[data-notice=conflict] button", "Keep yours");
    ben.is_kept_as(3);
    assert!(!ben.has("[data-notice=conflict]"));
    let kept = server.kept().history("Second Pressing");
    let amounts: Vec<bool> = ["40 mL", "45 mL", "50 mL"]
        .iter()
        .zip(&kept)
        .map(|(amount, (_, text))| text.contains(&format!("\"{amount}\"")))
        .collect();
    assert_eq!(amounts, [true, true, true]);
    // Ann hears of it with her next change.
    ann.fill(AMOUNT, "47.5");
    ann.press("Enter");
    ann.wait(
        "she is shown both",
        "document.querySelector('[data-notice=conflict]')",
    );
    assert!(ann.text("[data-notice=conflict]").contains("50 mL"));
}

#[test]
fn of_two_versions_the_other_can_be_taken_and_ones_own_undone_to() {
    let browser = Browser::open();
    let (ann, ben) = (browser.page(), browser.stranger());
    let server = Server::with_demo(&ann);
    two_versions(&ann, &ben, &server);
    ben.tap_words("[data-notice=conflict] button", "Go on with the other");
    ben.wait(
        "the other is shown",
        &format!("document.querySelector(\"{AMOUNT}\").value === '45'"),
    );
    assert!(!ben.has("[data-notice=conflict]"));
    // Nothing new is kept for that, and the next change goes on from there.
    ben.tap("[data-key='line-0'] .plus");
    ben.is_kept_as(3);
    let kept = server.kept().history("Second Pressing");
    assert_eq!(kept.len(), 3);
    assert!(kept[2].1.contains("\"47.5 mL\""), "{}", kept[2].1);
    // His own is one step back, and one more.
    ben.tap("[data-undo]");
    ben.wait(
        "the other is back",
        &format!("document.querySelector(\"{AMOUNT}\").value === '45'"),
    );
    ben.tap("[data-undo]");
    ben.wait(
        "his own is back",
        &format!("document.querySelector(\"{AMOUNT}\").value === '50'"),
    );
}

#[test]
fn two_who_change_the_same_to_the_same_are_not_asked() {
    let browser = Browser::open();
    let (ann, ben) = (browser.page(), browser.stranger());
    let server = Server::with_demo(&ann);
    ann.open(&server, "Second Pressing");
    ben.open(&server, "Second Pressing");
    for page in [&ann, &ben] {
        page.fill(AMOUNT, "45");
        page.press("Enter");
        page.is_kept_as(2);
    }
    assert_eq!(server.kept().history("Second Pressing").len(), 2);
}
