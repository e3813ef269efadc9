//! `pomace show`: the demo from parts to glass.

use serde_json::Value;

use super::run_args;

/// The names of the design's section 8, which others rely on.
const PROPERTIES: [&str; 13] = [
    "density_kg_per_m3",
    "volume_ml_20c",
    "abv_percent",
    "soluble_solids_percent",
    "refractometer_brix",
    "sugar_g_per_100ml",
    "acid_g_per_100ml",
    "titratable_acidity_citric_g_per_l",
    "ph",
    "water_activity",
    "freezing_point_celsius",
    "sweetness_sucrose_g_per_100ml",
    "energy_kcal_per_100ml",
];

#[test]
fn the_lead_drink_has_every_name() {
    let ran = run_args(&["show", "second pressing", "--book", "demo", "--json"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let answer: Value = serde_json::from_str(&ran.out).unwrap();
    for state in ["before_ice", "after_ice"] {
        for name in PROPERTIES.into_iter().chain([
            "mass_g",
            "volume_ml",
            "temperature_celsius",
            "dilution_percent",
        ]) {
            let figure = &answer[state][name];
            assert!(figure["value"].is_number(), "{state} {name}: {figure}");
            assert!(figure.as_object().unwrap().contains_key("plus_minus"));
            assert!(
                ["measured", "declared", "typical", "assumed"]
                    .contains(&figure["basis"].as_str().unwrap())
            );
        }
    }
    for name in [
        "alcohol_g",
        "uk_units",
        "us_standard_drinks",
        "energy_kcal",
        "sugar_g",
        "caffeine_mg",
    ] {
        assert!(answer["per_serve"][name]["value"].is_number(), "{name}");
    }
    for name in ["cost", "allergens", "cautions"] {
        assert!(
            answer["per_serve"].as_object().unwrap().contains_key(name),
            "{name}"
        );
    }
}

#[test]
fn the_page_of_the_lead_drink() {
    insta::assert_snapshot!(run_args(&["show", "Second Pressing", "--book", "demo"]).out);
}

#[test]
fn the_page_of_a_prep() {
    insta::assert_snapshot!(run_args(&["show", "Drawn peel syrup", "--book", "demo"]).out);
}

#[test]
fn everything_in_the_demo_has_a_page_and_json() {
    for (_, text) in pomace_book::demo::DOCUMENTS {
        let name = text
            .lines()
            .find_map(|line| {
                line.split_once(" = \"")
                    .filter(|(key, _)| ["drink", "prep", "ingredient"].contains(key))
            })
            .map(|(_, rest)| rest.trim_end_matches('"'));
        let Some(name) = name else { continue };
        let page = run_args(&["show", name, "--book", "demo"]);
        assert_eq!((page.code, page.err.as_str()), (0, ""), "{name}");
        for line in page.out.lines() {
            assert!(line.chars().count() <= 100, "{name}: {line}");
        }
        let json = run_args(&["show", name, "--book", "demo", "--json"]);
        assert!(serde_json::from_str::<Value>(&json.out).is_ok(), "{name}");
    }
}

#[test]
fn a_file_brings_its_neighbours() {
    let path = "../../examples/sill-and-ebb/second-pressing.toml";
    let ran = run_args(&["show", path]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert!(ran.out.contains("Second Pressing"));
}

#[test]
fn a_name_that_is_not_there() {
    let ran = run_args(&["show", "Second Presing", "--book", "demo"]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.err.contains("did you mean `Second Pressing`?"),
        "{}",
        ran.err
    );
    let ran = run_args(&["show", "Second Pressing"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("--book"), "{}", ran.err);
    let ran = run_args(&["show", "x", "--book", "/nonexistent"]);
    assert_eq!(ran.code, 2);
}

/// An amount that can be read in two ways is asked about, with both results.
#[test]
fn both_readings_are_shown() {
    let folder = std::env::temp_dir().join(format!("pomace-show-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let file = folder.join("d.toml");
    std::fs::write(
        &file,
        "drink = \"D\"\n[[line]]\nwhat = \"gin, 47 %\"\namount = \"1,500 mL\"\n[[line]]\nwhat = \"lemon juice\"\namount = \"25 mL\"\n",
    )
    .unwrap();
    let ran = run_args(&["show", file.to_str().unwrap()]);
    std::fs::remove_dir_all(&folder).unwrap();
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.out.contains("Which is meant?"), "{}", ran.out);
}

/// Figures that lack something say so before anyone reads them.
#[test]
fn a_page_with_a_hole_says_so_first() {
    let folder = std::path::PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("hole");
    std::fs::create_dir_all(&folder).unwrap();
    let nut = "ingredient = \"x\"\nlike = \"sugar\"\nallergens = [\"nutz\"]\n";
    let drink = "drink = \"D\"\n[[line]]\nwhat = \"x\"\namount = \"4 g\"\n[[line]]\nwhat = \"water\"\namount = \"40 g\"\n";
    std::fs::write(folder.join("x.toml"), nut).unwrap();
    std::fs::write(folder.join("d.toml"), drink).unwrap();
    let ran = run_args(&["show", "D", "--book", folder.to_str().unwrap()]);
    let hole = ran.out.find("Not all of it could be read").unwrap();
    assert!(hole < ran.out.find("What goes in").unwrap());
    assert!(ran.out.contains("did you mean `nuts`?"), "{}", ran.out);
}

/// An ingredient that is only like another says so wherever its doubt counts.
#[test]
fn what_is_only_similar_is_said() {
    let told = "Only similar: taken as of another ingredient, with its doubt × 2; our judgement";
    let ran = run_args(&["show", "Second Pressing", "--book", "demo", "--why", "ph"]);
    let flat = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        flat.contains("what is in strained-yoghurt whey (only similar)"),
        "{}",
        ran.out
    );
    assert!(flat.contains(told), "{}", ran.out);
    let ran = run_args(&["show", "strained-yoghurt whey", "--book", "demo"]);
    let flat = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        flat.contains("which is only similar: their doubt is × 2"),
        "{}",
        ran.out
    );
}

/// A figure by the minute opens like any other; at the moment it is served it is that of the drink.
#[test]
fn a_minute_in_the_glass_is_opened() {
    let why = |figure: &str| run_args(&["show", "Ebb", "--book", "demo", "--why", figure]);
    let later = why("minute_10.temperature_celsius");
    assert!(
        later.out.contains("pace of the ice in the glass"),
        "{}",
        later.out
    );
    assert!(later.out.contains(" ± "), "{}", later.out);
    let lines = |ran: &super::Run| {
        ran.out
            .lines()
            .skip(2)
            .map(str::to_owned)
            .collect::<Vec<_>>()
    };
    let (first, served) = (why("minute_0.volume_ml"), why("volume_ml"));
    assert_eq!(lines(&first), lines(&served));
    assert!(lines(&first).len() > 8, "{}", first.out);
    let none = why("minute_99.volume_ml");
    assert!(none.err.contains("did you mean"), "{}", none.err);
}

/// Marks are the house's own; a garnish tells how its prep keeps; both as the documents say.
#[test]
fn marks_and_keeping_are_shown_as_told() {
    let flat = |name: &str| {
        let out = run_args(&["show", name, "--book", "demo"]).out;
        out.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert!(flat("Slack Water").contains("own marks, 0 to 5: bitter 2, tannin 1."));
    assert!(
        flat("Weir").contains("made ahead, it keeps 30 d at 18 °C, closed tin"),
        "{}",
        flat("Weir")
    );
    assert!(!flat("Ebb").contains("own marks"));
    let json = run_args(&["show", "Slack Water", "--book", "demo", "--json"]);
    let json: Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!(json["marks"]["bitter"], 2.0);
    assert!(json["per_serve"]["guidance"][0].is_string());
}

/// No page runs over a narrow window.
#[test]
fn pages_fit_narrow_windows() {
    for name in ["Second Pressing", "Weir", "Drawn peel syrup"] {
        for columns in [80, 60, 50] {
            let mut command = crate::pomace();
            command.args(["show", name, "--book", "demo"]);
            let ran = crate::run(command.env("COLUMNS", columns.to_string()));
            for line in ran.out.lines() {
                assert!(line.chars().count() <= columns, "{name}, {columns}: {line}");
            }
        }
    }
}
