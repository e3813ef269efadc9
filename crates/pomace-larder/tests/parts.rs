//! Wholes and their parts.

use pomace_larder::{ingredients, part, splits, whole, wholes};

/// Shares are rounded to whole per cent as the tables print them.
#[test]
fn complete_splits_sum_to_100() {
    for whole in wholes().iter().filter(|whole| whole.complete) {
        let sum: f64 = whole
            .parts
            .iter()
            .filter(|part| part.counted)
            .map(|part| part.share_percent)
            .sum();
        assert!(
            (sum - 100.0).abs() < 0.5,
            "{} by {}: {sum}",
            whole.name,
            whole.split
        );
    }
}

#[test]
fn shares_lie_between_their_bounds() {
    for whole in wholes() {
        for part in &whole.parts {
            assert!(
                part.low <= part.share_percent && part.share_percent <= part.high,
                "{} / {}",
                whole.name,
                part.name
            );
        }
    }
}

#[test]
fn links_lead_somewhere() {
    let mut linked = 0;
    for whole in wholes() {
        for part in whole.parts.iter().filter(|part| part.ingredient.is_some()) {
            assert!(
                part.as_ingredient().is_some(),
                "{} / {}",
                whole.name,
                part.name
            );
            linked += 1;
        }
    }
    assert!(linked > 80, "{linked}");
}

/// Where a part has both a moisture and a linked ingredient, they speak of the same matter.
#[test]
fn moisture_agrees_with_the_linked_ingredient() {
    use pomace_matter::Substance;
    for whole in wholes() {
        for part in &whole.parts {
            let (Some(moisture), Some(row)) = (part.moisture_percent, part.as_ingredient()) else {
                continue;
            };
            let Some(water) = row.cell(Substance::Water) else {
                continue;
            };
            let off = (moisture - water.value).abs();
            assert!(off < 4.0, "{} / {}: {off}", whole.name, part.name);
        }
    }
}

#[test]
fn wholes_are_found_forgivingly() {
    assert_eq!(whole("Bananas").unwrap().name, "banana");
    assert_eq!(whole("PINEAPPLE").unwrap().split, "knife");
    assert_eq!(whole("limes").unwrap().name, "lime");
    assert!(whole("anvil").is_none());
    let apple: Vec<&str> = splits("apple").map(|whole| whole.split).collect();
    assert_eq!(apple, ["knife", "peeled", "pressed"]);
}

#[test]
fn parts_are_found_forgivingly() {
    let id = |whole, name| part(whole, name).and_then(|(_, part)| part.ingredient);
    assert_eq!(id("banana", "flesh"), Some("banana_flesh"));
    assert_eq!(id("banana", "skin"), Some("banana_peel_ripe"));
    assert_eq!(id("lemon", "juice"), Some("lemon_juice"));
    assert_eq!(id("lemons", "peel"), Some("lemon_peel"));
    assert_eq!(id("pineapple", "core"), Some("pineapple_core"));
    assert_eq!(id("pineapple", "skin"), Some("pineapple_skin"));
    assert_eq!(id("orange", "peel"), Some("orange_peel"));
    assert_eq!(id("apple", "pomace"), Some("apple_pomace_wet"));
    assert_eq!(id("egg", "white"), Some("egg_white"));
    let (whole, peel) = part("quince", "peel").unwrap();
    assert_eq!((whole.split, peel.name), ("detail", "peel"));
    assert!(part("quince", "husk").is_none());
    assert!(part("quince", "").is_none());
}

#[test]
fn parts_make_use_of_the_catalogue() {
    let fruit = ingredients()
        .iter()
        .filter(|row| row.category == "fruit")
        .count();
    assert!(wholes().len() > fruit);
}
