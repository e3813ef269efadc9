//! Words that are no unit but were meant as one.

use super::units::UNITS;

/// A unit that a word may be a slip of.
pub(super) fn meant_by(word: &str) -> Option<&'static str> {
    let word = word.to_lowercase();
    // One letter, and the unit that it most often stands for.
    let by_hand = match word.as_str() {
        "m" | "mm" | "mil" | "mils" | "mll" | "mk" | "mi" => Some("mL"),
        "t" => Some("tsp` or `tbsp"),
        "c" => Some("cL` or `cup"),
        "k" => Some("kg"),
        "o" | "z" | "0z" => Some("oz"),
        "i" => Some("L"),
        "gg" | "q" | "gs" => Some("g"),
        _ => None,
    };
    if by_hand.is_some() {
        return by_hand;
    }
    // Short nouns that lie one letter from a unit.
    const NOUNS: &[&str] = &[
        "tip", "tips", "cap", "cob", "pot", "pots", "tub", "nut", "rod", "dot", "egg", "eggs",
        "bag", "bags", "can", "cans", "tin", "jar", "box", "fig", "figs", "pod", "pods", "cut",
        "cube", "cubes", "caps", "shoot", "shoots", "peony", "peonies", "point", "points", "crop",
        "crops", "cask", "ton", "dish", "tart", "tarts", "pear", "pat", "pats", "leg", "log",
        "cone", "lot", "lots", "pit", "bunch", "punch", "finch", "grape", "grapes", "rash", "prop",
        "port", "parts", "sash", "sprig", "slot",
    ];
    if NOUNS.contains(&word.as_str()) {
        return None;
    }
    let letters = word.chars().count();
    if letters < 2 {
        return None;
    }
    let mut best: Option<(usize, &'static str)> = None;
    for row in UNITS {
        for name in row.names {
            let near = strsim::osa_distance(&word, name);
            let fits = match letters {
                2..=3 => name.len() <= 4,
                _ => name.len() > 3 && name.chars().next() == word.chars().next(),
            };
            // Of two as near, the later is the plural.
            if fits
                && near == 1
                && !name.contains(' ')
                && best.is_none_or(|(found, _)| near <= found)
            {
                best = Some((near, name));
            }
        }
    }
    best.map(|(_, name)| shown(name))
}

/// A unit as people write it.
fn shown(name: &'static str) -> &'static str {
    match name {
        "ml" | "mls" => "mL",
        "cl" | "cls" => "cL",
        "dl" => "dL",
        "l" | "ltr" | "ltrs" => "L",
        "gm" | "gms" | "grm" | "gr" | "grs" => "g",
        "lbs" => "lb",
        "ozs" => "oz",
        "tsps" => "tsp",
        "tbs" | "tbsps" | "tblsp" => "tbsp",
        other => other,
    }
}
