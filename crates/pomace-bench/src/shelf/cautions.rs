//! Warnings that an ingredient carries by what it is.

use pomace_larder::Ingredient;

pub(super) const RAW_EGG: &str = "raw egg can carry salmonella: use pasteurised egg for anyone young, old, pregnant or ill, and keep to your local food rules";

/// Egg as it comes from the shell.
pub(super) fn carried_raw_egg(ingredient: &Ingredient) -> bool {
    let name = ingredient.name.to_lowercase();
    let is_egg = name.split([' ', ',']).any(|word| word == "egg");
    let treated = ["cooked", "boiled", "dried", "pasteurised", "pasteurized"];
    is_egg && !treated.iter().any(|word| name.contains(word))
}

pub(super) const AMYGDALIN: &str = "these seeds hold amygdalin, which frees cyanide when crushed: keep them whole or leave them out, never ground, blended or long steeped";

/// Seeds and stones of the rose family (common practice, no source).
pub(super) fn holds_amygdalin(whole: &str, part: &str) -> bool {
    let whole = whole.to_lowercase();
    let part = part.to_lowercase();
    let family = [
        "quince",
        "apple",
        "pear",
        "cherry",
        "plum",
        "peach",
        "apricot",
        "nectarine",
        "almond",
        "loquat",
        "medlar",
        "sloe",
    ];
    let kernel = ["seed", "pip", "stone", "pit", "kernel"];
    !whole.contains("pineapple")
        && family.iter().any(|f| whole.contains(f))
        && kernel.iter().any(|k| part.contains(k))
}
