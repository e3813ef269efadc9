//! What axe-core finds: rules of WCAG that a program can check.

use std::path::Path;

use serde::Deserialize;

use super::chromium::Browser;
use super::pages;
use super::server::Server;

#[derive(Debug, Deserialize)]
struct Violation {
    id: String,
    impact: Option<String>,
    help: String,
    nodes: Vec<Node>,
}

#[derive(Debug, Deserialize)]
struct Node {
    html: String,
    #[serde(rename = "failureSummary")]
    summary: Option<String>,
}

/// `./test` puts it beside what is built; it is no part of the repository.
fn axe() -> String {
    let file = Path::new(env!("CARGO_TARGET_TMPDIR"))
        .with_file_name("axe/node_modules/axe-core/axe.min.js");
    std::fs::read_to_string(&file).unwrap_or_else(|error| {
        let folder = file.ancestors().nth(3).unwrap().display();
        panic!(
            "`{}`: {error}. Run `./test`, or `mkdir -p {folder} && cp {}/tests/axe/package*.json {folder} && \
             npm ci --prefix {folder} --ignore-scripts`",
            file.display(),
            env!("CARGO_MANIFEST_DIR"),
        )
    })
}

#[test]
fn axe_finds_nothing_serious_on_any_page_in_either_look() {
    let axe = axe();
    let (demo, empty, browser) = (Server::demo(), Server::empty(), Browser::open());
    let page = browser.page();
    let mut faults = Vec::new();
    for sight in pages::all(&demo, &empty) {
        for (look, width) in [("light", 1440), ("dark", 1440), ("light", 390)] {
            page.size(width, 900);
            page.likes(look);
            sight.open(&page);
            pages::unfold(&page);
            page.eval::<serde_json::Value>(&format!("{axe};null"));
            let found: Vec<Violation> = page.eval(
                "axe.run(document, { resultTypes: ['violations'] }).then((found) => found.violations)",
            );
            for one in found {
                let impact = one.impact.as_deref().unwrap_or("none");
                let first = one.nodes.first().unwrap();
                let fault = format!(
                    "{}, {look}: {impact}, {}: {}, {} times, first {}\n   {}",
                    sight.name,
                    one.id,
                    one.help,
                    one.nodes.len(),
                    first.html,
                    first.summary.as_deref().unwrap_or_default()
                );
                if matches!(impact, "serious" | "critical") {
                    faults.push(fault);
                } else {
                    println!("{fault}");
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
fn axe_sees_what_is_wrong() {
    let axe = axe();
    let (demo, browser) = (Server::demo(), Browser::open());
    let page = browser.page();
    page.go(&demo.at("/look"));
    page.eval::<bool>("(document.body.insertAdjacentHTML('beforeend', '<button></button>'), true)");
    page.eval::<serde_json::Value>(&format!("{axe};null"));
    let found: Vec<Violation> = page.eval("axe.run(document).then((found) => found.violations)");
    assert!(found.iter().any(|one| one.id == "button-name"), "{found:?}");
}
