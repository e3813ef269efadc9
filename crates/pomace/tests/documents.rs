//! The documents of the workspace, held against what is there.

use std::fs;
use std::path::{Path, PathBuf};

use crate::{root, run_args};

/// Every `.md` file of the workspace that a person wrote.
fn documents() -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut folders = vec![root()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
            let path = entry.path();
            let name = entry.file_name().to_string_lossy().into_owned();
            if entry.file_type().unwrap().is_dir() {
                if name != "target" && !name.starts_with('.') {
                    folders.push(path);
                }
            } else if name.ends_with(".md") {
                found.push(path);
            }
        }
    }
    assert!(found.len() > 4, "{found:?}");
    found
}

fn read(path: impl AsRef<Path>) -> String {
    fs::read_to_string(root().join(path)).unwrap()
}

/// Targets of `[text](target)` outside of code.
fn links(text: &str) -> Vec<String> {
    let mut links = Vec::new();
    let mut code = false;
    for line in text.lines() {
        if line.trim_start().starts_with("```") {
            code = !code;
        }
        if code {
            continue;
        }
        let prose: String = line.split('`').step_by(2).collect();
        for part in prose.split("](").skip(1) {
            links.extend(part.split(')').next().map(str::to_owned));
        }
    }
    links
}

#[test]
fn every_relative_link_leads_somewhere() {
    for document in documents() {
        let folder = document.parent().unwrap();
        for link in links(&fs::read_to_string(&document).unwrap()) {
            let target = link.split('#').next().unwrap();
            if target.is_empty() || target.contains("://") || target.starts_with("mailto:") {
                continue;
            }
            let there = folder.join(target).exists();
            assert!(there, "{}: `{link}` leads nowhere", document.display());
        }
    }
}

#[test]
fn every_crate_is_in_the_architecture() {
    let architecture = read("ARCHITECTURE.md");
    for entry in fs::read_dir(root().join("crates"))
        .unwrap()
        .map(Result::unwrap)
    {
        let name = entry.file_name().to_string_lossy().into_owned();
        assert!(
            architecture.contains(&format!("`{name}`")),
            "{name} is not in ARCHITECTURE.md"
        );
    }
}

#[test]
fn every_dependency_has_its_reason() {
    let reasons = read("docs/dependencies.md");
    let manifest = read("Cargo.toml");
    let dependencies = manifest.split("[workspace.dependencies]").nth(1).unwrap();
    let dependencies = dependencies.split("\n[").next().unwrap();
    for line in dependencies.lines().filter(|line| !line.starts_with('#')) {
        let Some((name, _)) = line.split_once(" = ") else {
            continue;
        };
        let told = name.starts_with("pomace-") || reasons.contains(&format!("`{name}`"));
        assert!(told, "{name} is not in docs/dependencies.md");
    }
}

/// Commands named in a document: `pomace NAME`, and `cargo run … -- NAME`.
fn commands(text: &str) -> Vec<String> {
    let mut commands = Vec::new();
    for line in text.lines() {
        for lead in ["pomace ", "cargo run --release -- "] {
            for after in line.split(lead).skip(1) {
                let word: String = after
                    .chars()
                    .take_while(|sign| sign.is_ascii_lowercase() || *sign == '-')
                    .collect();
                if !word.is_empty() {
                    commands.push(word);
                }
            }
        }
    }
    commands
}

#[test]
fn every_command_in_the_readme_is_in_the_help() {
    let help = run_args(&["--help"]).out;
    let there = |command: &str| {
        help.lines()
            .any(|line| line.split_whitespace().next() == Some(command))
    };
    let named = commands(&code(&read("README.md")));
    assert!(named.len() > 2, "{named:?}");
    for command in named {
        assert!(
            there(&command),
            "README.md names `pomace {command}`, which is not there"
        );
    }
}

/// The code of a document: fenced blocks, and what stands between backticks.
fn code(text: &str) -> String {
    let mut code = String::new();
    let mut fenced = false;
    for line in text.lines() {
        if line.starts_with("```") {
            fenced = !fenced;
        } else if fenced {
            code.push_str(line);
            code.push('\n');
        } else {
            for inline in line.split('`').skip(1).step_by(2) {
                code.push_str(inline);
                code.push('\n');
            }
        }
    }
    code
}
