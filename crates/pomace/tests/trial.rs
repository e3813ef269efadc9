//! `pomace trial`: the demo's variants side by side, and one made the document.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;

use crate::{FEWER_DIGITS, pomace, root, run, run_args};

const DRINK: [&str; 4] = ["trial", "Second Pressing", "--book", "demo"];

/// A copy of the demo that may be written to.
fn house(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    for entry in fs::read_dir(root().join("examples/sill-and-ebb")).unwrap() {
        let entry = entry.unwrap();
        fs::copy(entry.path(), folder.join(entry.file_name())).unwrap();
    }
    folder
}

#[test]
fn side_by_side() {
    let ran = run_args(&DRINK);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    insta::assert_snapshot!("side_by_side", ran.out);
    let prep = run_args(&["trial", "Quince peel shrub", "--book", "demo"]);
    assert_eq!((prep.code, prep.err.as_str()), (0, ""));
    insta::assert_snapshot!("side_by_side_of_a_prep", prep.out);
}

#[test]
fn the_json_has_the_names_of_show() {
    let mut asked = DRINK.to_vec();
    asked.push("--json");
    let ran = run_args(&asked);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    insta::with_settings!({ filters => FEWER_DIGITS }, {
        insta::assert_snapshot!("trial_json", ran.out);
    });
    let answer: Value = serde_json::from_str(&ran.out).unwrap();
    let show = run_args(&["show", "Second Pressing", "--book", "demo", "--json"]);
    let show: Value = serde_json::from_str(&show.out).unwrap();
    for stage in ["before_ice", "after_ice", "per_serve"] {
        for (name, figure) in show[stage].as_object().unwrap() {
            if figure.get("value").is_some() {
                let same = &answer["as_written"][stage][name];
                assert_eq!(same, figure, "{stage} {name}");
                let less = &answer["trials"][0]["less_as_written"][stage][name];
                assert!(less.get("smaller_than_doubt").is_some(), "{stage} {name}");
            }
        }
    }
    // By hand: 5 mL less of 157.5 mL that are poured.
    let less = &answer["trials"][0]["less_as_written"]["before_ice"]["volume_ml_20c"]["value"];
    assert!((less.as_f64().unwrap() + 5.0).abs() < 0.2, "{less}");
}

#[test]
fn it_fits_narrow_windows() {
    for name in ["Second Pressing", "Quince peel shrub"] {
        for columns in [80, 60, 50, 40] {
            let mut command = pomace();
            command.args(["trial", name, "--book", "demo"]);
            let ran = run(command.env("COLUMNS", columns.to_string()));
            assert_eq!(ran.code, 0);
            for line in ran.out.lines() {
                assert!(line.chars().count() <= columns, "{name}, {columns}: {line}");
            }
        }
    }
}

/// What is promoted is written to its file, and is then what the variant was.
#[test]
fn promoted() {
    let folder = house("promoted");
    let path = folder.join("second-pressing.toml");
    let (path, folder) = (path.to_str().unwrap(), folder.to_str().unwrap());
    let before = fs::read_to_string(path).unwrap();
    let json = |asked: &[&str]| -> Value { serde_json::from_str(&run_args(asked).out).unwrap() };
    let wanted = json(&["trial", path, "--json"])["trials"][1]["figures"].take();

    let printed = run_args(&["trial", path, "--promote", "cordial for salt", "--print"]);
    assert_eq!((printed.code, printed.err.as_str()), (0, ""));
    assert_eq!(fs::read_to_string(path).unwrap(), before);

    let ran = run_args(&["trial", path, "--promote", "Cordial for salt"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let after = fs::read_to_string(path).unwrap();
    assert_eq!(after, printed.out);
    assert!(
        fs::read_dir(folder).unwrap().all(|e| !e
            .unwrap()
            .file_name()
            .to_string_lossy()
            .starts_with('.'))
    );

    let now = json(&["trial", path, "--json"]);
    assert_eq!(now["as_written"], wanted);
    assert_eq!(now["trials"][1]["promoted"], true);
    assert_eq!(run_args(&["check", folder]).code, 0);
    let page = run_args(&["trial", path]);
    assert!(
        page.out.contains("promoted: the document is so already"),
        "{}",
        page.out
    );

    let again = run_args(&["trial", path, "--promote", "cordial for salt"]);
    assert_eq!(again.code, 2);
    assert!(again.err.contains("promoted before"), "{}", again.err);
}

#[test]
fn what_cannot_be_promoted() {
    for (asked, told) in [
        (&["--promote", "less shrub"][..], "built in"),
        (
            &["--promote", "more shrub"],
            "it has `less shrub` or `cordial for salt`",
        ),
        (&["--print"], "--promote"),
        (
            &["--promote", "less shrub", "--json"],
            "cannot be used with",
        ),
    ] {
        let mut all = DRINK.to_vec();
        all.extend(asked);
        let ran = run_args(&all);
        assert_eq!(ran.code, 2, "{asked:?}: {}", ran.out);
        assert!(ran.err.contains(told), "{asked:?}: {}", ran.err);
    }
    for (name, told) in [
        ("Weir", "has no trials"),
        ("quince", "only drinks and preps"),
    ] {
        let ran = run_args(&["trial", name, "--book", "demo"]);
        assert_eq!(ran.code, 2);
        assert!(ran.err.contains(told), "{}", ran.err);
    }
}

/// A trial with a fault is told by `check` at its place, gives no figures, and is not promoted.
#[test]
fn a_faulty_trial() {
    let folder = house("faulty-trial");
    let path = folder.join("second-pressing.toml");
    let text = fs::read_to_string(&path).unwrap();
    fs::write(&path, text.replace("17.5 mL", "-17.5 mL")).unwrap();
    let path = path.to_str().unwrap();
    let ran = run_args(&["check", path]);
    assert_eq!(ran.code, 1);
    assert!(
        ran.out
            .contains("in the trial `less shrub`, line 2, amount"),
        "{}",
        ran.out
    );
    assert!(ran.out.contains("name = \"less shrub\""), "{}", ran.out);
    let ran = run_args(&["trial", path]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("No figures"), "{}", ran.out);
    assert!(ran.out.contains("cordial for salt"), "{}", ran.out);
    let ran = run_args(&["trial", path, "--promote", "less shrub"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("cannot be promoted"), "{}", ran.err);
}
