//! What goes over the line: nothing to elsewhere, and little on a first visit.

use std::collections::BTreeMap;

use super::chromium::Browser;
use super::pages;
use super::server::Server;

#[test]
fn no_page_breaks_the_policy_of_its_content_or_asks_another_host() {
    let (demo, empty, browser) = (Server::demo(), Server::empty(), Browser::open());
    let mut faults = Vec::new();
    for sight in pages::all(&demo, &empty) {
        let page = browser.stranger();
        page.likes("light");
        sight.open(&page);
        pages::unfold(&page);
        page.likes("dark");
        for complaint in page.complaints() {
            // A page that tells that nothing is there has to answer so.
            if sight.name == "nowhere" && complaint.0.contains("404") {
                continue;
            }
            faults.push(format!("{}: {}", sight.name, complaint.0));
        }
        let asked = page.asked();
        assert!(!asked.is_empty());
        let own = [demo.at("/"), empty.at("/"), "data:".to_owned()];
        let strange = asked
            .iter()
            .filter(|url| !own.iter().any(|own| url.starts_with(own.as_str())));
        faults.extend(strange.map(|url| format!("{}: asks {url}", sight.name)));
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn the_policy_is_there_and_is_heard() {
    let (demo, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.go(&demo.at("/"));
    page.eval::<bool>(
        "(document.head.append(Object.assign(document.createElement('script'), { textContent: 'window.broken = true' })), \
         document.body.append(Object.assign(document.createElement('img'), { src: 'http://127.0.0.1:9/elsewhere.png' })), true)",
    );
    page.wait("both were tried", "performance.now() > 300");
    assert!(!page.eval::<bool>("window.broken === true"));
    let heard = page.complaints();
    let policy = heard
        .iter()
        .filter(|one| one.0.contains("Content Security Policy"))
        .count();
    assert!(policy >= 2, "{heard:?}");
}

#[test]
fn a_first_visit_takes_no_more_than_120_kilobytes_and_asks_for_nothing_twice() {
    let (demo, browser) = (Server::demo(), Browser::open());
    let guide = browser.page();
    let first = ["first page", "drink", "prep", "ingredient", "house"];
    for sight in pages::all(&demo, &demo) {
        let name = sight.name;
        if !first.contains(&name) {
            continue;
        }
        sight.open(&guide);
        let address: String = guide.eval("location.href");
        for (width, height) in [(390, 844), (1440, 900)] {
            // Another person's browser holds nothing yet.
            let page = browser.stranger();
            page.size(width, height);
            page.go(&address);
            // What the page would ask for by itself.
            page.wait("all is there", "performance.now() > 1500");
            let mut sizes: BTreeMap<String, (u32, f64)> = BTreeMap::new();
            for one in page.transfers() {
                let size = sizes.entry(one.kind).or_default();
                size.0 += 1;
                size.1 += one.bytes;
            }
            let all: f64 = sizes.values().map(|size| size.1).sum();
            println!("{name}, {width} px: {all} bytes in {sizes:?}");
            for kind in ["Document", "Stylesheet", "Script", "Font"] {
                assert!(sizes.contains_key(kind), "{name}: no {kind} in {sizes:?}");
            }
            assert!(
                all > 40_000.0 && all <= 120_000.0,
                "{name}, {width} px: {all} bytes in {sizes:?}"
            );
            // Nothing is worked out once more that the page brought along.
            let mut asked = page.asked();
            assert!(
                !asked.iter().any(|url| url.ends_with("/try")),
                "{name}: {asked:?}"
            );
            asked.sort();
            let twice = asked.windows(2).find(|two| two[0] == two[1]);
            assert!(twice.is_none(), "{name}: {twice:?}");
        }
    }
}
