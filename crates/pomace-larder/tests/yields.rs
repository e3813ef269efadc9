//! What work yields.

use pomace_larder::yields::{all, find};

#[test]
fn values_lie_between_their_bounds() {
    for entry in all() {
        assert!(
            entry.low <= entry.value && entry.value <= entry.high,
            "{} {:?}",
            entry.process,
            entry.materials
        );
        assert!(!entry.unit.is_empty());
    }
}

#[test]
fn one_entry_for_each_process_and_material() {
    let mut seen = Vec::new();
    for entry in all() {
        for material in &entry.materials {
            let pair = (entry.process, *material);
            assert!(!seen.contains(&pair), "{pair:?}");
            seen.push(pair);
        }
    }
}

#[test]
fn yields_are_found_forgivingly() {
    let value = |process, material| find(process, material).map(|entry| entry.value);
    assert_eq!(value("juice", "Limes"), Some(42.0));
    assert_eq!(value("juice", "apple"), Some(70.0));
    assert_eq!(value("hold-up", "coffee"), Some(2.0));
    assert_eq!(value("Hold up", "espresso"), Some(1.1));
    assert_eq!(value("hold-up", "black tea leaf"), Some(3.5));
    assert_eq!(value("hold-up", "cinnamon bark"), Some(1.2));
    assert_eq!(value("clarify", "milk"), Some(82.0));
    assert_eq!(value("strain", "fine sieve"), Some(2.0));
    assert_eq!(value("draw half-time", "pineapple skin"), Some(180.0));
    assert_eq!(value("draw", "pineapple skin"), Some(42.0));
    assert_eq!(value("juice", "anvil"), None);
    assert_eq!(value("levitate", "lime"), None);
}
