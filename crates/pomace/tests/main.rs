//! The command line as a person or a script meets it, one binary.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests: a panic is a failed test"
)]

mod check;
mod commands;
mod documents;
mod liquid;
mod scale;
mod serve;
mod show;
mod table;
mod trial;
mod yield_test;

use std::path::PathBuf;
use std::process::Output;

use assert_cmd::Command;

/// Snapshots show the shape of an answer; its digits are held against the library.
const FEWER_DIGITS: [(&str, &str); 1] = [(r"(\d\.\d\d)\d+", "$1…")];

/// The binary, on a plain terminal of 80 columns.
fn pomace() -> Command {
    let mut command = Command::cargo_bin("pomace").unwrap();
    command
        .env("NO_COLOR", "1")
        .env("COLUMNS", "80")
        .current_dir(env!("CARGO_MANIFEST_DIR"));
    command
}

/// What came of a run.
struct Run {
    code: i32,
    out: String,
    err: String,
}

fn run(command: &mut Command) -> Run {
    let Output {
        status,
        stdout,
        stderr,
    } = command.output().unwrap();
    Run {
        code: status.code().expect("it ends by itself"),
        out: String::from_utf8(stdout).unwrap(),
        err: String::from_utf8(stderr).unwrap(),
    }
}

fn run_args(args: &[&str]) -> Run {
    run(pomace().args(args))
}

/// The root of the workspace.
fn root() -> PathBuf {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../..");
    root.canonicalize().unwrap()
}

/// A file with this content, for one test.
fn file(name: &str, content: &[u8]) -> PathBuf {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::create_dir_all(path.parent().unwrap()).unwrap();
    std::fs::write(&path, content).unwrap();
    path
}
