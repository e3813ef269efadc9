//! Contrast of the palette, computed from the style sheet, and what docs/look.md says of it.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// Text of a file of the workspace.
pub(crate) fn read(path: &str) -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    fs::read_to_string(root.join(path)).unwrap()
}

type Palette = BTreeMap<String, String>;

/// The colours that a block of the sheet sets, from the place where it begins.
fn palette(sheet: &str, begins: &str) -> Palette {
    let block = sheet.split_once(begins).unwrap().1;
    let block = &block[..block.find('}').unwrap()];
    block
        .split(['{', ';'])
        .filter_map(|rule| rule.trim().strip_prefix("--")?.split_once(':'))
        .filter(|(_, value)| value.starts_with('#'))
        .map(|(name, value)| (name.to_owned(), value.to_owned()))
        .collect()
}

/// Relative luminance, by WCAG 2.2.
fn luminance(colour: &str) -> f64 {
    let digits: String = match colour.trim_start_matches('#') {
        short if short.len() == 3 => short.chars().flat_map(|digit| [digit, digit]).collect(),
        long => long.to_owned(),
    };
    let part = |at: usize| {
        let share = f64::from(u8::from_str_radix(&digits[at..at + 2], 16).unwrap()) / 255.0;
        if share <= 0.04045 {
            share / 12.92
        } else {
            ((share + 0.055) / 1.055).powf(2.4)
        }
    };
    0.2126 * part(0) + 0.7152 * part(2) + 0.0722 * part(4)
}

fn contrast(one: &str, other: &str) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

fn looks() -> [(&'static str, Palette); 3] {
    let sheet = read("crates/pomace-web/assets/look.css");
    [
        ("light", palette(&sheet, ":root{\n  color-scheme:light;")),
        ("dim", palette(&sheet, ":root.dim{\n  color-scheme:dark;")),
        (
            "print",
            palette(
                &sheet,
                "@media print{\n  :root,:root:not(.light),:root.dim{",
            ),
        ),
    ]
}

#[test]
fn words_and_edges_stand_out() {
    for (look, colours) in looks() {
        for ground in ["paper", "leaf"] {
            for (name, least) in [
                ("ink", 12.0),
                ("second", 5.5),
                ("faint", 4.5),
                ("accent", 4.5),
                ("mark", 3.0),
            ] {
                let ratio = contrast(&colours[name], &colours[ground]);
                assert!(ratio >= least, "{look}: {name} on {ground} is {ratio:.2}");
            }
        }
        let ratio = contrast(&colours["ink"], &colours["wash"]);
        assert!(ratio >= 4.5, "{look}: ink on wash is {ratio:.2}");
    }
}

#[test]
fn the_light_of_a_lamp_is_the_same_by_wish_and_by_class() {
    let sheet = read("crates/pomace-web/assets/look.css");
    let by_wish = palette(
        &sheet,
        "@media (prefers-color-scheme:dark){:root:not(.light){",
    );
    assert!(by_wish.len() > 8);
    assert_eq!(by_wish, looks()[1].1);
}

#[test]
fn the_document_tells_the_measured_contrast() {
    let document = read("docs/look.md");
    let [(_, light), (_, dim), _] = looks();
    for name in ["ink", "second", "faint", "mark", "accent"] {
        let on = |colours: &Palette, ground: &str| contrast(&colours[name], &colours[ground]);
        let row = format!(
            "| `{name}` | `{}` | {:.1} / {:.1} | `{}` | {:.1} / {:.1} |",
            light[name],
            on(&light, "paper"),
            on(&light, "leaf"),
            dim[name],
            on(&dim, "paper"),
            on(&dim, "leaf"),
        );
        assert!(document.contains(&row), "docs/look.md lacks: {row}");
    }
    let wash = |colours: &Palette| contrast(&colours["ink"], &colours["wash"]);
    let row = format!(
        "| `wash` | `{}` | ink on it {:.1} | `{}` | ink on it {:.1} |",
        light["wash"],
        wash(&light),
        dim["wash"],
        wash(&dim),
    );
    assert!(document.contains(&row), "docs/look.md lacks: {row}");
}
