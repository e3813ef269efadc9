//! Every row parses, every value has a source, and no source lacks an open licence.

use std::collections::HashMap;

use pomace_larder::matching::fold;
use pomace_larder::{Allergen, Basis, Diet, Form, ingredients, wholes, yields};
use pomace_matter::Substance;

#[test]
fn every_table_parses() {
    pomace_larder::check().unwrap();
    assert_eq!(ingredients().len(), 275);
    assert!(wholes().len() > 80);
    assert!(yields::all().len() > 60);
}

#[test]
fn every_value_has_a_source() {
    for row in ingredients() {
        assert!(!row.source.is_empty(), "{}", row.id);
        for cell in row.all_cells() {
            assert!(!cell.source.is_empty(), "{}", row.id);
            assert!(cell.value.is_finite() && cell.value >= 0.0, "{}", row.id);
        }
        assert!(
            row.ph
                .is_none_or(|ph| !ph.source.is_empty() && ph.low <= ph.high),
            "{}",
            row.id
        );
        assert!(
            row.unit
                .is_none_or(|u| !u.source.is_empty() && u.edible_g > 0.0),
            "{}",
            row.id
        );
    }
    assert!(
        wholes()
            .iter()
            .flat_map(|w| &w.parts)
            .all(|part| !part.source.is_empty())
    );
    assert!(yields::all().iter().all(|entry| !entry.source.is_empty()));
}

#[test]
fn what_is_from_memory_is_assumed() {
    let told = |source: &str| source.contains("from memory") || source.contains("second hand");
    for row in ingredients() {
        for cell in row
            .all_cells()
            .filter(|cell| cell.source.contains("from memory"))
        {
            assert_eq!(cell.basis, Basis::Assumed, "{}: {}", row.id, cell.source);
        }
        if let Some(ph) = row.ph.filter(|ph| told(ph.source)) {
            assert_eq!(ph.basis, Basis::Assumed, "{}: {}", row.id, ph.source);
        }
    }
    for entry in yields::all()
        .iter()
        .filter(|entry| entry.source.contains("from memory"))
    {
        assert_eq!(
            entry.status,
            Basis::Assumed,
            "{} {:?}",
            entry.process,
            entry.materials
        );
    }
}

/// Two works without an open licence were used while the tables were gathered; nothing of them
/// may be left.
#[test]
fn no_row_cites_a_closed_source() {
    for text in [
        include_str!("../data/composition.csv"),
        include_str!("../data/parts.csv"),
        include_str!("../data/process_yields.csv"),
    ] {
        for line in text.lines() {
            for closed in ["IFCT", "Belitz", "Grosch", "Schieberle"] {
                assert!(!line.contains(closed), "{line}");
            }
        }
    }
}

#[test]
fn ids_and_names_mean_one_thing() {
    let mut meant: HashMap<String, &str> = HashMap::new();
    let mut twice = Vec::new();
    for row in ingredients() {
        assert!(
            row.id
                .chars()
                .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_')
        );
        for name in [row.id, row.name].iter().chain(&row.synonyms) {
            let folded = fold(name);
            let mut words: Vec<&str> = folded.split(' ').collect();
            words.sort_unstable();
            let before = meant.insert(words.join(" "), row.id);
            if let Some(other) = before.filter(|other| *other != row.id) {
                twice.push(format!("{name}: {other} and {}", row.id));
            }
        }
    }
    assert!(twice.is_empty(), "{}", twice.join("\n"));
}

#[test]
fn every_row_has_other_words() {
    for row in ingredients() {
        assert!(!row.synonyms.is_empty(), "{}", row.id);
    }
}

#[test]
fn words_of_sets_read_back() {
    for basis in Basis::ALL {
        assert_eq!(basis.to_string().parse(), Ok(basis));
    }
    for form in Form::ALL {
        assert_eq!(form.to_string().parse(), Ok(form));
    }
    for diet in Diet::ALL {
        assert_eq!(diet.to_string().parse(), Ok(diet));
    }
    for allergen in Allergen::ALL {
        assert_eq!(allergen.to_string().parse(), Ok(allergen));
    }
    assert_eq!("gluten".parse(), Ok(Allergen::Gluten));
    assert_eq!("Tree nuts".parse(), Ok(Allergen::Nuts));
    let error = "often".parse::<Basis>().unwrap_err();
    assert_eq!(
        error.to_string(),
        "`often` is not measured, declared, typical or assumed"
    );
}

#[test]
fn nuts_and_cereals_are_named() {
    for row in ingredients() {
        for carried in row.allergens.iter().chain(&row.allergens_possible) {
            if matches!(carried.class, Allergen::Nuts | Allergen::Gluten) {
                assert!(carried.which.is_some(), "{}", row.id);
            }
        }
    }
    let soy_sauce = pomace_larder::find("soy sauce").unwrap();
    let told: Vec<String> = soy_sauce
        .allergens
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(told, ["soybeans", "cereals containing gluten (wheat)"]);
}

/// What a vegan may not have.
#[test]
fn milk_and_eggs_are_not_vegan() {
    for row in ingredients() {
        let animal = row.allergens.iter().any(|c| {
            matches!(
                c.class,
                Allergen::Milk | Allergen::Eggs | Allergen::Fish | Allergen::Crustaceans
            )
        });
        if animal {
            assert_eq!(row.vegan, Diet::No, "{}", row.id);
        }
        assert!(
            row.vegetarian != Diet::No || row.vegan == Diet::No,
            "{}",
            row.id
        );
    }
}

#[test]
fn what_pours_holds_water_or_is_fat() {
    for row in ingredients().iter().filter(|row| row.form == Form::Liquid) {
        let grams = |s| row.cell(s).map_or(0.0, |cell| cell.value);
        let liquid = grams(Substance::Water) + grams(Substance::Ethanol) + grams(Substance::Fat);
        assert!(liquid > 14.9, "{}: {liquid}", row.id);
    }
}
