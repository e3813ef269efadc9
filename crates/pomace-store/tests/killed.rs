//! A program that saves and is killed at any moment loses nothing that it was told is saved.

use std::io::Read as _;
use std::time::{Duration, Instant};

use pomace_store::{Place, Store};
use proptest::prelude::Rng as _;

use crate::saver::{Said, saver};

/// How often it is killed; `benches/kill/run` asks for more.
fn kills() -> u64 {
    std::env::var("POMACE_KILLS").map_or(50, |kills| kills.parse().unwrap())
}

#[tokio::test]
async fn a_killed_program_loses_no_save_that_was_answered() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("house.pomace");
    let mut said = Said::default();
    let mut moment = proptest::test_runner::TestRng::from_seed(
        proptest::test_runner::RngAlgorithm::XorShift,
        &[7; 16],
    );
    let mut with_a_journal_left = 0;
    let began = Instant::now();
    for _ in 0..kills() {
        let mut program = saver(&path, 0).spawn().unwrap();
        // From before the book is open to some hundred saves later.
        let micros = moment.next_u64() % 150_000;
        std::thread::sleep(Duration::from_micros(micros));
        program.kill().unwrap();
        let mut output = String::new();
        program
            .stdout
            .take()
            .unwrap()
            .read_to_string(&mut output)
            .unwrap();
        let mut errors = String::new();
        program
            .stderr
            .take()
            .unwrap()
            .read_to_string(&mut errors)
            .unwrap();
        program.wait().unwrap();
        assert_eq!(errors, "");
        said.listen(&output);
        let journal = path.with_extension("pomace-wal");
        if journal.metadata().is_ok_and(|journal| journal.len() > 0) {
            with_a_journal_left += 1;
        }
        let store = Store::open_or_create(&Place::file(&path)).await.unwrap();
        said.is_all_in(&store).await;
        store.close().await;
    }
    println!(
        "{} kills in {:.0} s: {} saves and {} rows answered, all there; {with_a_journal_left} left a journal",
        kills(),
        began.elapsed().as_secs_f64(),
        said.saves,
        said.rows.len()
    );
    assert!(
        said.saves > kills(),
        "it hardly came to save: {}",
        said.saves
    );
    assert!(
        with_a_journal_left * 2 > kills(),
        "it was hardly ever killed at work"
    );
}
