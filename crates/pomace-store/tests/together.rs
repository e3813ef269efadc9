//! Several documents in one save: all of them or none.

use pomace_store::{Change, Error, Token};

use crate::ground::{Ground, change, conflict, id, new, on_both, remove, save, saved, sound};

on_both!(
    a_rename_changes_all_that_mention_the_name,
    one_conflict_holds_all_back,
    one_bad_change_holds_all_back,
    a_save_of_several_is_sent_again,
);

async fn a_rename_changes_all_that_mention_the_name(ground: &Ground) {
    let store = ground.store().await;
    let made = [
        new(&id(1), "Whey", "prep = 'Whey'"),
        new(&id(2), "Weir", "what = 'Whey'"),
        new(&id(3), "Ebb", "what = 'Whey' # too"),
    ];
    let made = saved(store.save_all(&Token::new(), &made).await.unwrap());
    let sequences: Vec<u64> = made.iter().map(|stamp| stamp.sequence).collect();
    assert_eq!(sequences, [1, 2, 3]);

    let renamed = [
        change(&made[0], "Sour whey", "prep = 'Sour whey'"),
        change(&made[1], "Weir", "what = 'Sour whey'"),
        // Unchanged, removed and new ones may be among them.
        change(&made[2], "Ebb", "what = 'Whey' # too"),
        new(&id(4), "Flow", "new"),
    ];
    let stamps = saved(store.save_all(&Token::new(), &renamed).await.unwrap());
    let told: Vec<(u64, u64)> = stamps
        .iter()
        .map(|stamp| (stamp.revision, stamp.sequence))
        .collect();
    assert_eq!(told, [(2, 4), (2, 5), (1, 3), (1, 6)]);
    assert_eq!(saved(store.save_all(&Token::new(), &[]).await.unwrap()), []);
    sound(&store).await;
}

async fn one_conflict_holds_all_back(ground: &Ground) {
    let store = ground.store().await;
    let mut made = Vec::new();
    for number in 1..=4 {
        made.push(save(&store, &new(&id(number), "Drink", "base")).await);
    }
    save(&store, &change(&made[1], "Drink", "theirs")).await;
    save(&store, &remove(&made[3])).await;
    let before = (
        store.texts().await.unwrap(),
        store.sequence().await.unwrap(),
    );

    let mine: Vec<Change> = made
        .iter()
        .map(|stamp| change(stamp, "Mine", "mine"))
        .collect();
    let token = Token::new();
    let theirs = conflict(store.save_all(&token, &mine).await.unwrap());
    let told: Vec<_> = theirs
        .iter()
        .map(|their| (their.stamp.document.clone(), their.text.as_str()))
        .collect();
    assert_eq!(told, [(id(2), "theirs"), (id(4), "base")]);
    assert_eq!(
        (
            store.texts().await.unwrap(),
            store.sequence().await.unwrap()
        ),
        before
    );
    assert_eq!(store.by_name("Mine").await.unwrap(), []);

    // The token was not used up by a save that did nothing.
    let fewer = [mine[0].clone(), mine[2].clone()];
    assert_eq!(
        saved(store.save_all(&token, &fewer).await.unwrap()).len(),
        2
    );
    sound(&store).await;
}

async fn one_bad_change_holds_all_back(ground: &Ground) {
    let store = ground.store().await;
    let made = save(&store, &new(&id(1), "Drink", "base")).await;
    let good = change(&made, "Drink", "good");
    let bad = [
        (
            new(&id(2), "", "no name"),
            "the name of a document: it is empty",
        ),
        (
            new(&id(2), "zero", "a\0b"),
            "the text of a document: it holds a zero byte at byte 1",
        ),
        (
            remove(&made_up(2)),
            "no document has the id `0000000000000002`",
        ),
        (
            change(&made, "Drink", "twice"),
            "document `0000000000000001` is changed twice in one save",
        ),
    ];
    for (bad, words) in bad {
        let refused = store
            .save_all(&Token::new(), &[good.clone(), bad])
            .await
            .unwrap_err();
        assert_eq!(refused.to_string(), words);
    }
    let ahead = Change {
        based_on: Some(7),
        ..good
    };
    let refused = store.save(&Token::new(), &ahead).await.unwrap_err();
    assert!(
        matches!(refused, Error::NoRevision { revision: 7, .. }),
        "{refused}"
    );
    assert_eq!(store.sequence().await.unwrap(), 1);
    assert_eq!(store.current(&id(1)).await.unwrap().unwrap().text, "base");
}

async fn a_save_of_several_is_sent_again(ground: &Ground) {
    let store = ground.store().await;
    let both = [new(&id(1), "One", "1"), new(&id(2), "Two", "2")];
    let token = Token::new();
    let first = saved(store.save_all(&token, &both).await.unwrap());
    save(&store, &change(&first[1], "Two", "3")).await;
    assert_eq!(saved(store.save_all(&token, &both).await.unwrap()), first);
    assert_eq!(store.sequence().await.unwrap(), 3);
    let refused = store.save(&token, &both[0]).await.unwrap_err();
    assert!(matches!(refused, Error::UsedBefore { .. }), "{refused}");
}

fn made_up(number: u64) -> pomace_store::Stamp {
    pomace_store::Stamp {
        document: id(number),
        revision: 1,
        sequence: 1,
        who: String::new(),
        when: crate::ground::at(0),
        why: None,
        removes: false,
    }
}
