//! The style sheet against the drawings, and against what the look never does.

use std::fs;
use std::path::Path;

use pomace_plate::{Drawing, Voice, Width, field, flow, glass, path, strip, whiskers};

use crate::palette::read;
use crate::specimen::{crowd, demo};

fn sheet() -> String {
    read("crates/pomace-web/assets/look.css")
}

#[test]
fn each_voice_has_its_size_and_face_in_the_sheet() {
    let sheet = sheet();
    for voice in Voice::ALL {
        let begins = format!(".drawn .{}{{font:", voice.class());
        let rule = sheet
            .split_once(&begins)
            .unwrap_or_else(|| panic!("{begins}"))
            .1;
        let rule = &rule[..rule.find([';', '}']).unwrap()];
        assert!(
            rule.contains(&format!(" {}px ", voice.size())),
            "{voice:?}: {rule}"
        );
        // A family's width differs from another's by far more than this.
        let family = if rule.contains("--units") {
            "units"
        } else {
            "words"
        };
        let sans = matches!(voice, Voice::Scale | Voice::Note);
        assert_eq!(family == "units", sans, "{voice:?}: {rule}");
        let italic = matches!(voice, Voice::Other | Voice::Aside | Voice::Letter);
        assert_eq!(rule.starts_with("italic"), italic, "{voice:?}: {rule}");
    }
}

fn drawings() -> Vec<Drawing> {
    let mut all = Vec::new();
    for width in Width::ALL {
        for field in [
            demo::field(),
            demo::changed(),
            crowd::field(),
            demo::syrup(),
        ] {
            all.push(field::draw(&field, width, "f"));
        }
        for glass in [
            demo::glass(),
            demo::coupe(),
            demo::rocks(),
            demo::stem(),
            demo::crushed(),
            demo::unknown(),
            demo::over(),
        ] {
            all.extend(glass::draw(&glass, width, "g"));
        }
        for flow in [demo::shrub(), demo::juice(), demo::cordial()] {
            all.extend(flow::draw(&flow, width, "w"));
        }
        for path in [demo::path(), demo::stirred()] {
            all.extend(path::draw(&path, width, "p"));
        }
        all.extend(strip::draw(&demo::acid(), width, "s"));
        all.extend(whiskers::draw(&demo::whey_doubt(), width, "d"));
    }
    all
}

#[test]
fn every_class_of_the_drawings_is_in_the_sheet() {
    let sheet = sheet();
    let rules: Vec<&str> = sheet
        .lines()
        .filter(|line| line.contains(".drawn"))
        .collect();
    let rules = rules.join("\n");
    let mut seen = 0;
    for drawing in drawings() {
        for classes in drawing.svg.split("class=\"").skip(1) {
            for class in classes.split('"').next().unwrap().split(' ') {
                if [
                    "drawn", "field", "path", "glass", "flow", "strip", "whiskers",
                ]
                .contains(&class)
                {
                    continue;
                }
                seen += 1;
                let known = rules
                    .match_indices(&format!(".{class}"))
                    .any(|(at, found)| {
                        let next = rules[at + found.len()..].chars().next();
                        next.is_some_and(|next| !next.is_ascii_alphanumeric() && next != '-')
                    });
                assert!(known, "`{class}` has no rule");
            }
        }
    }
    assert!(seen > 1000);
}

#[test]
fn nothing_is_set_under_fifteen_pixels_and_the_look_keeps_its_word() {
    let sheet = sheet();
    for never in [
        "box-shadow",
        "text-shadow",
        "drop-shadow",
        "http:",
        "https:",
        "@import",
        "!important;animation",
    ] {
        assert!(!sheet.contains(never), "{never}");
    }
    for (at, _) in sheet.match_indices("border-radius:") {
        assert!(sheet[at..].starts_with("border-radius:0"));
    }
    for property in ["font-size:", "font:"] {
        for (at, _) in sheet.match_indices(property) {
            let value = &sheet[at + property.len()..];
            let value = &value[..value.find([';', '}']).unwrap()];
            let size = value
                .split([' ', '/'])
                .find_map(|word| word.strip_suffix("px"));
            if let Some(size) = size {
                assert!(size.parse::<f64>().unwrap() >= 15.0, "{property}{value}");
            }
        }
    }
}

#[test]
fn what_is_pressed_is_large_enough() {
    let sheet = sheet();
    for rule in [
        ".button{",
        ".act{",
        ".stepper button{",
        ".found a{",
        ".tide summary{",
        ".masthead a{",
        ".stepper input{",
        ".footer a{",
    ] {
        let body = sheet
            .split_once(&format!("\n{rule}"))
            .unwrap_or_else(|| panic!("{rule}"))
            .1;
        let body = &body[..body.find('}').unwrap()];
        let tall = body
            .split(';')
            .find_map(|rule| rule.strip_prefix("min-height:"));
        // The cells of a stepper are as high as the stepper.
        let tall = tall.unwrap_or_else(|| {
            assert_eq!(rule, ".stepper button{");
            "66px"
        });
        let pixels: f64 = tall.trim_end_matches("px").parse().unwrap();
        assert!(pixels >= 44.0, "{rule} {tall}");
    }
    assert!(sheet.contains(
        ".stepper{display:grid;grid-template-columns:60px minmax(0,1fr) 60px;height:66px"
    ));
    assert!(sheet.contains(":focus-visible{outline:2px solid var(--accent)"));
}

#[test]
fn the_fonts_are_small_and_carry_their_licence() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../pomace-web/assets/fonts");
    let mut bytes = 0;
    let sheet = sheet();
    for file in fs::read_dir(&folder).unwrap().map(Result::unwrap) {
        let name = file.file_name().to_string_lossy().into_owned();
        if name.ends_with(".woff2") {
            bytes += file.metadata().unwrap().len();
            assert!(
                sheet.contains(&format!("url(\"fonts/{name}\")")),
                "{name} is not used"
            );
        }
    }
    assert!((20_000..=60_000).contains(&bytes), "{bytes}");
    for family in ["brygada-1918", "ysabeau-office"] {
        let text = fs::read_to_string(folder.join(format!("OFL-{family}.txt"))).unwrap();
        assert!(text.contains("SIL Open Font License, Version 1.1"));
    }
}
