//! How the pages look: on three widths, light and dim.

use std::fs;
use std::path::{Path, PathBuf};

use super::chromium::Browser;
use super::pages;
use super::server::Server;

/// A phone beside the scale, a tablet on the bar, a laptop.
const WIDTHS: [(u32, u32); 3] = [(390, 844), (820, 1180), (1440, 900)];

/// Kept for whoever wants to look: `screens/` beside what is built.
fn screens() -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).with_file_name("screens");
    fs::create_dir_all(&folder).unwrap();
    folder
}

#[test]
fn on_three_widths_in_both_looks_nothing_overlaps_or_is_too_small_to_press_or_read() {
    let (demo, empty, browser) = (Server::demo(), Server::empty(), Browser::open());
    let page = browser.page();
    let folder = screens();
    let mut faults = Vec::new();
    for sight in pages::all(&demo, &empty) {
        for (width, height) in WIDTHS {
            page.size(width, height);
            page.likes("light");
            sight.open(&page);
            for look in ["light", "dark"] {
                page.likes(look);
                let file = format!("{}-{width}-{look}.png", sight.name.replace([' ', ','], "-"));
                fs::write(folder.join(file), page.picture()).unwrap();
            }
            for is_unfolded in [false, true] {
                if is_unfolded {
                    pages::unfold(&page);
                }
                let found: Vec<String> = page.eval(include_str!("audit.js"));
                for fault in found {
                    let fault = format!("{}: {fault}", sight.name);
                    if !faults.contains(&fault) {
                        println!("{width}: {fault}");
                        faults.push(fault);
                    }
                }
            }
        }
    }
    assert!(
        faults.is_empty(),
        "{} faults:\n{}",
        faults.len(),
        faults.join("\n")
    );
}

#[test]
fn the_audit_sees_what_is_wrong() {
    let (demo, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.go(&demo.at("/look"));
    let before: Vec<String> = page.eval(include_str!("audit.js"));
    page.eval::<bool>(
        "(document.querySelector('main').insertAdjacentHTML('beforeend', \
         '<div class=\"w\"><button>tiny</button><p class=\"unit\">fine print</p>\
          <svg class=\"drawn two\" viewBox=\"0 0 400 100\"><text x=\"10\" y=\"50\">one label</text>\
          <text x=\"30\" y=\"54\">another</text></svg></div>'), \
         Object.assign(document.querySelector('.w').style, { width: '1600px' }), \
         (document.querySelector('.w p').style.fontSize = '11px'), true)",
    );
    let after: Vec<String> = page.eval(include_str!("audit.js"));
    let added: Vec<&String> = after.iter().filter(|one| !before.contains(one)).collect();
    for fault in [
        "scrolls sideways",
        "small for a finger",
        "small to read",
        "overlap",
    ] {
        assert!(
            added.iter().any(|one| one.contains(fault)),
            "`{fault}` is not seen: {added:?}"
        );
    }
}

/// The pictures of the README, drawn anew where `POMACE_WRITE_SCREENS` is set.
#[test]
fn the_pictures_of_the_readme_are_of_the_pages_as_they_are() {
    let docs = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/screens");
    let (demo, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.likes("light");
    for (width, height) in [(1440, 900), (390, 844)] {
        page.size(width, height);
        page.open(&demo, "Second Pressing");
        let picture = page.view();
        let file = docs.join(format!("drink-{width}.png"));
        if std::env::var_os("POMACE_WRITE_SCREENS").is_some() {
            fs::create_dir_all(&docs).unwrap();
            fs::write(&file, &picture).unwrap();
        }
        let kept = fs::read(&file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
        // The size of a PNG stands in its head.
        assert_eq!(kept.get(16..24), picture.get(16..24), "{}", file.display());
    }
}

#[test]
fn the_device_chooses_a_look_and_a_button_chooses_another_that_stays() {
    let (server, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    let paper = || -> String { page.eval("getComputedStyle(document.body).backgroundColor") };
    page.likes("light");
    page.go(&server.at("/"));
    let light = paper();
    page.likes("dark");
    let dim = paper();
    assert_ne!(light, dim, "the device is not heard");
    page.tap("[data-look=light]");
    assert_eq!(paper(), light);
    page.open(&server, "Weir");
    assert_eq!(paper(), light, "forgotten on the next page");
    page.likes("light");
    page.tap("[data-look=dim]");
    assert_eq!(paper(), dim);
    page.reload();
    assert_eq!(paper(), dim);
}
