//! Any sequence of saves, read back, equals a model in memory.

use std::collections::BTreeMap;

use pomace_store::{Change, Index, Outcome, Store, Token, Write};
use proptest::prelude::*;
use proptest::test_runner::{Config, FileFailurePersistence, TestRunner};

use crate::ground::{Ground, at, edge, figure, id, sound};

/// What somebody does next. Numbers pick documents and revisions among those there are.
#[derive(Clone, Debug)]
enum Deed {
    Save(Vec<(u64, Based, Writes)>),
    /// The save before, sent once more.
    Again,
    Reopen,
}

#[derive(Clone, Copy, Debug)]
enum Based {
    Current,
    Before,
    Nothing,
    Ahead,
}

#[derive(Clone, Debug)]
enum Writes {
    Text(String),
    Same,
    Remove,
}

fn deeds() -> impl Strategy<Value = Vec<Deed>> {
    let based = prop_oneof![
        6 => Just(Based::Current),
        1 => Just(Based::Before),
        2 => Just(Based::Nothing),
        1 => Just(Based::Ahead),
    ];
    let writes = prop_oneof![
        6 => "[^\0]{0,12}".prop_map(Writes::Text),
        1 => Just(Writes::Same),
        2 => Just(Writes::Remove),
    ];
    let one = (0..4_u64, based, writes);
    let deed = prop_oneof![
        12 => proptest::collection::vec(one, 1..4).prop_map(Deed::Save),
        2 => Just(Deed::Again),
        1 => Just(Deed::Reopen),
    ];
    proptest::collection::vec(deed, 1..25)
}

/// A book in memory: per document its revisions as text and whether removed, and per revision its
/// place in the sequence.
#[derive(Clone, Debug, Default)]
struct Model {
    documents: BTreeMap<u64, Vec<(String, bool, u64)>>,
    sequence: u64,
}

/// What a save should come to: revisions of each document, or the documents in conflict.
#[derive(Clone, Debug, PartialEq)]
enum Expected {
    Saved(Vec<u64>),
    Conflict(Vec<u64>),
    Refused,
}

impl Model {
    fn save(&mut self, changes: &[(u64, Option<u64>, Option<String>)]) -> Expected {
        let mut next = self.clone();
        let mut revisions = Vec::new();
        let mut conflicts = Vec::new();
        for (number, (document, based_on, text)) in changes.iter().enumerate() {
            if changes[..number].iter().any(|other| other.0 == *document) {
                return Expected::Refused;
            }
            let chain = next.documents.entry(*document).or_default();
            let (current, removed) = match chain.last() {
                Some((text, removed, _)) => (text.clone(), *removed),
                None if based_on.is_none() && text.is_some() => (String::new(), true),
                None => return Expected::Refused,
            };
            let is_there = !chain.is_empty();
            let wanted = (
                text.clone().unwrap_or_else(|| current.clone()),
                text.is_none(),
            );
            let revision = chain.len() as u64;
            if is_there && wanted == (current, removed) {
                revisions.push(revision);
            } else if !is_there || *based_on == Some(revision) {
                next.sequence += 1;
                chain.push((wanted.0, wanted.1, next.sequence));
                revisions.push(revision + 1);
            } else if based_on.is_some_and(|based_on| based_on == 0 || based_on > revision) {
                return Expected::Refused;
            } else {
                conflicts.push(*document);
            }
        }
        if conflicts.is_empty() {
            *self = next;
            Expected::Saved(revisions)
        } else {
            Expected::Conflict(conflicts)
        }
    }

    /// The store says the same as the model, by every question.
    async fn is(&self, store: &Store) {
        let mut there = Vec::new();
        let mut removed = Vec::new();
        for (document, chain) in self.documents.iter().filter(|(_, chain)| !chain.is_empty()) {
            let history = store.history(&id(*document)).await.unwrap();
            assert_eq!(history.len(), chain.len());
            for (number, (stamp, (text, removes, sequence))) in
                (1_u64..).zip(history.iter().zip(chain))
            {
                assert_eq!(
                    (stamp.revision, stamp.removes, stamp.sequence),
                    (number, *removes, *sequence)
                );
                let revision = store
                    .revision(&id(*document), number)
                    .await
                    .unwrap()
                    .unwrap();
                assert_eq!((&revision.text, &revision.stamp), (text, stamp));
            }
            let (text, is_removed, sequence) = chain.last().unwrap();
            if *is_removed {
                removed.push((*sequence, id(*document)));
            } else {
                there.push((id(*document), text.clone()));
                let figures = store.figures(&id(*document)).await.unwrap();
                assert_eq!(
                    figures,
                    [figure("letters", text.chars().count() as f64, None)]
                );
            }
        }
        let texts = store.texts().await.unwrap();
        let texts: Vec<_> = texts
            .into_iter()
            .map(|text| (text.document, text.text))
            .collect();
        assert_eq!(texts, there);
        removed.sort_by(|a, b| b.cmp(a));
        let gone = store.removed().await.unwrap();
        let gone: Vec<_> = gone
            .into_iter()
            .map(|gone| (gone.stamp.sequence, gone.stamp.document))
            .collect();
        assert_eq!(gone, removed);
        assert_eq!(store.by_name("NAME").await.unwrap().len(), there.len());
        let users: Vec<_> = store
            .used_by(&id(404))
            .await
            .unwrap()
            .into_iter()
            .map(|by| by.document)
            .collect();
        assert_eq!(
            users,
            there
                .iter()
                .map(|(document, _)| document.clone())
                .collect::<Vec<_>>()
        );
        assert_eq!(store.sequence().await.unwrap(), self.sequence);
        sound(store).await;
    }
}

async fn play(ground: &Ground, deeds: &[Deed]) {
    let mut store = ground.store().await;
    let mut model = Model::default();
    let mut before: Option<(Token, Vec<Change>, Outcome)> = None;
    for deed in deeds {
        match deed {
            Deed::Reopen => {
                store.close().await;
                store = Store::open(&ground.place).await.unwrap();
            }
            Deed::Again => {
                if let Some((token, changes, Outcome::Saved(stamps))) = &before {
                    let again = store.save_all(token, changes).await.unwrap();
                    assert_eq!(&again, &Outcome::Saved(Vec::clone(stamps)));
                }
            }
            Deed::Save(wanted) => {
                let wanted: Vec<_> = wanted.iter().map(|one| model_change(&model, one)).collect();
                let changes: Vec<Change> = wanted.iter().map(store_change).collect();
                let token = Token::new();
                let answer = store.save_all(&token, &changes).await;
                let told = match &answer {
                    Ok(Outcome::Saved(stamps)) => {
                        Expected::Saved(stamps.iter().map(|stamp| stamp.revision).collect())
                    }
                    Ok(Outcome::Conflict(theirs)) => Expected::Conflict(
                        theirs
                            .iter()
                            .map(|their| their.stamp.document.as_str().parse().unwrap())
                            .collect(),
                    ),
                    Err(_) => Expected::Refused,
                };
                assert_eq!(told, model.save(&wanted), "{wanted:?}");
                if let Ok(outcome) = answer {
                    before = Some((token, changes, outcome));
                }
            }
        }
    }
    model.is(&store).await;
    store.close().await;
}

fn model_change(
    model: &Model,
    (document, based, writes): &(u64, Based, Writes),
) -> (u64, Option<u64>, Option<String>) {
    let chain = model
        .documents
        .get(document)
        .map(Vec::as_slice)
        .unwrap_or_default();
    let revision = chain.len() as u64;
    let based_on = match based {
        Based::Current => (revision > 0).then_some(revision),
        Based::Before => Some(revision.saturating_sub(1)),
        Based::Nothing => None,
        Based::Ahead => Some(revision + 1),
    };
    let text = match writes {
        Writes::Text(text) => Some(text.clone()),
        Writes::Same => Some(chain.last().map(|last| last.0.clone()).unwrap_or_default()),
        Writes::Remove => None,
    };
    (*document, based_on, text)
}

fn store_change((document, based_on, text): &(u64, Option<u64>, Option<String>)) -> Change {
    let mut index = Index::of("drink", "Name");
    if let Some(text) = text {
        index.uses = vec![edge("what", Some(&id(404)))];
        index.figures = vec![figure("letters", text.chars().count() as f64, None)];
    }
    Change {
        document: id(*document),
        based_on: *based_on,
        write: text.clone().map_or(Write::Remove, Write::Text),
        who: "Ines".to_owned(),
        when: at(0),
        why: None,
        index,
    }
}

fn any_saves(cases: u32, ground: impl AsyncFn() -> Ground) {
    let mut runner = TestRunner::new(Config {
        cases,
        failure_persistence: Some(Box::new(FileFailurePersistence::Direct(
            "tests/laws.regressions",
        ))),
        max_shrink_iters: 200,
        ..Config::default()
    });
    let runtime = tokio::runtime::Runtime::new().unwrap();
    let result = runner.run(&deeds(), |deeds| {
        runtime.block_on(async { play(&ground().await, &deeds).await });
        Ok(())
    });
    if let Err(error) = result {
        panic!("{error}");
    }
}

#[test]
fn any_saves_on_sqlite() {
    any_saves(60, async || Ground::file());
}

#[test]
fn any_saves_on_postgres() {
    any_saves(25, async || Ground::server().await);
}
