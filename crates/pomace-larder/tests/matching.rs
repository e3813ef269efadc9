//! The engine behind the names.

use pomace_larder::matching::{Index, fold, words};
use proptest::prelude::*;

#[test]
fn folding() {
    let cases = [
        ("Crème de Cassis", "creme de cassis"),
        ("BLANC D'ŒUF", "blanc d oeuf"),
        ("Straße", "strasse"),
        ("Cherries", "cherry"),
        ("peaches", "peach"),
        ("Baker's dozen", "baker dozen"),
        ("citrus", "citrus"),
        ("glass", "glass"),
        ("50 % peel", "50 peel"),
        ("１：１", "1 1"),
        ("  ", ""),
        ("s", "s"),
    ];
    for (name, folded) in cases {
        assert_eq!(fold(name), folded, "{name}");
    }
}

#[test]
fn grades_keep_their_order() {
    let index = Index::new([
        "quince peel oil",
        "peel of quince",
        "quince peel",
        "quince peels, dried",
        "qiunce peel vinegar",
        "honey",
    ]);
    let order: Vec<usize> = index
        .search("quince peel", 10)
        .iter()
        .map(|m| m.key)
        .collect();
    assert_eq!(order[0], 2);
    assert_eq!(order.last(), Some(&4));
    assert!(!order.contains(&5));
    assert_eq!(index.find("Peel, quince"), Some(2));
    assert_eq!(index.nearest("hony"), Some(5));
    assert_eq!(index.nearest("granite"), None);
}

#[test]
fn an_index_may_be_empty() {
    let index = Index::new(Vec::<String>::new());
    assert!(index.is_empty());
    assert!(index.search("peel", 3).is_empty());
    let blank = Index::new(["", "…"]);
    assert_eq!(blank.len(), 2);
    assert!(blank.search("peel", 3).is_empty());
    assert_eq!(blank.find(""), None);
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 500,
        rng_seed: proptest::test_runner::RngSeed::Fixed(7),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn folding_again_changes_nothing_but_plurals(name in "\\PC{0,40}") {
        let once = fold(&name);
        prop_assert!(!once.starts_with(' ') && !once.ends_with(' ') && !once.contains("  "));
    }

    #[test]
    fn a_name_finds_itself(names in prop::collection::vec("[a-z]{3,9}( [a-z]{2,7}){0,2}", 1..20)) {
        let index = Index::new(&names);
        for name in &names {
            let best = index.search(name, 1)[0];
            prop_assert!(best.score >= 99.0);
            prop_assert_eq!(fold(&names[best.key]), fold(name));
        }
    }
}

/// What the maps of the index answer is what a look at every name would.
#[test]
fn equal_and_within_are_what_they_say() {
    let names: Vec<&str> = pomace_larder::ingredients()
        .iter()
        .flat_map(|row| std::iter::once(&row.name).chain(&row.synonyms).copied())
        .collect();
    let index = Index::new(&names);
    let sorted = |name: &str| {
        let mut words = words(name);
        words.sort();
        words
    };
    let folded: Vec<_> = names
        .iter()
        .map(|name| (words(name), sorted(name)))
        .collect();
    let turned = |name: &&str| name.split(' ').rev().collect::<Vec<_>>().join(" ");
    let queries = names.iter().step_by(3).flat_map(|name| {
        [
            (*name).to_owned(),
            turned(name),
            name.replace(' ', ""),
            format!("old {name} cask"),
        ]
    });
    for query in queries {
        let (asked, in_order) = (words(&query), sorted(&query));
        let joined = asked.concat();
        let grade = |(words, sorted): &(Vec<String>, Vec<String>)| match () {
            () if *words == asked => Some(0),
            () if *sorted == in_order => Some(1),
            () => (words.concat() == joined).then_some(2),
        };
        let mut equal: Vec<_> = folded
            .iter()
            .enumerate()
            .filter_map(|(at, name)| Some((grade(name)?, at)))
            .collect();
        equal.sort_unstable();
        let equal: Vec<usize> = equal.into_iter().map(|(_, at)| at).collect();
        assert_eq!(index.equals(&query).collect::<Vec<_>>(), equal, "{query}");
        assert_eq!(index.find(&query), equal.first().copied(), "{query}");
        let mut within: Vec<_> = folded
            .iter()
            .enumerate()
            .filter(|(_, (words, _))| {
                !words.is_empty() && words.iter().all(|word| asked.contains(word))
            })
            .map(|(at, (words, _))| (usize::MAX - words.len(), at))
            .collect();
        within.sort_unstable();
        let within: Vec<usize> = within.into_iter().map(|(_, at)| at).collect();
        assert_eq!(index.within(&query).collect::<Vec<_>>(), within, "{query}");
    }
}
