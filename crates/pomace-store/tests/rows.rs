//! Lots, readings, ballots: only ever added.

use pomace_store::{Corrected, Error, MadeWith, NewRow, RowsWanted};

use crate::ground::{Ground, at, change, id, lot, new, on_both, save, sound};

on_both!(
    rows_are_added_and_asked_for,
    a_row_is_corrected_by_a_further_row,
    a_row_sent_again_is_added_once,
    one_bad_row_holds_all_back,
);

async fn rows_are_added_and_asked_for(ground: &Ground) {
    let store = ground.store().await;
    let shrub = save(&store, &new(&id(1), "Shrub", "1")).await;
    let second = save(&store, &change(&shrub, "Shrub", "2")).await;
    let made_with = Some(MadeWith {
        document: id(1),
        revision: second.revision,
    });
    let rows = [
        NewRow {
            made_with: made_with.clone(),
            ..lot(11, "{\"mass_g\": 240}")
        },
        NewRow {
            kind: "reading".to_owned(),
            made_with,
            ..lot(12, "3.2")
        },
        lot(13, "[\"of no document\"]"),
    ];
    let added = store.append(&rows).await.unwrap();
    let told: Vec<u64> = added.iter().map(|row| row.sequence).collect();
    assert_eq!(told, [3, 4, 5]);
    assert_eq!(store.sequence().await.unwrap(), 5);

    let wanted = |wanted: RowsWanted| {
        let store = store.clone();
        async move { store.rows(&wanted).await.unwrap() }
    };
    assert_eq!(wanted(RowsWanted::default()).await, added);
    let of_kind = RowsWanted {
        kind: Some("lot".to_owned()),
        ..RowsWanted::default()
    };
    assert_eq!(wanted(of_kind).await, [added[0].clone(), added[2].clone()]);
    let of_document = RowsWanted {
        document: Some(id(1)),
        ..RowsWanted::default()
    };
    assert_eq!(wanted(of_document.clone()).await, added[..2]);
    let later = RowsWanted {
        after: 3,
        ..of_document
    };
    assert_eq!(wanted(later).await, added[1..2]);
    assert_eq!(
        wanted(RowsWanted {
            after: 5,
            ..RowsWanted::default()
        })
        .await,
        []
    );
    // The rest of the book goes on in the same sequence.
    assert_eq!(
        save(&store, &change(&second, "Shrub", "3")).await.sequence,
        6
    );
    sound(&store).await;
}

async fn a_row_is_corrected_by_a_further_row(ground: &Ground) {
    let store = ground.store().await;
    let slipped = lot(11, "{\"mass_g\": 2400}");
    let right = NewRow {
        corrects: Some(id(11)),
        ..lot(12, "{\"mass_g\": 240}")
    };
    let righter = NewRow {
        corrects: Some(id(12)),
        ..lot(13, "{\"mass_g\": 241}")
    };
    // In one call too.
    let added = store.append(&[slipped, right, righter]).await.unwrap();
    assert_eq!(
        store.rows(&RowsWanted::default()).await.unwrap(),
        added[2..]
    );
    let told = RowsWanted {
        corrected: Corrected::Told,
        ..RowsWanted::default()
    };
    assert_eq!(store.rows(&told).await.unwrap(), added);
    sound(&store).await;

    save(&store, &new(&id(1), "Shrub", "1")).await;
    let made_with = Some(MadeWith {
        document: id(1),
        revision: 1,
    });
    let wrong = [
        (
            NewRow {
                corrects: Some(id(404)),
                ..lot(20, "1")
            },
            "there is no such row",
        ),
        (
            NewRow {
                corrects: Some(id(20)),
                ..lot(20, "1")
            },
            "there is no such row",
        ),
        (
            NewRow {
                corrects: Some(id(11)),
                kind: "ballot".to_owned(),
                ..lot(20, "1")
            },
            "it is of another kind",
        ),
        (
            NewRow {
                corrects: Some(id(11)),
                made_with,
                ..lot(20, "1")
            },
            "it is about another document",
        ),
    ];
    for (row, words) in wrong {
        let refused = store.append(&[row]).await.unwrap_err();
        assert!(matches!(refused, Error::BadCorrection { .. }), "{refused}");
        assert!(refused.to_string().ends_with(words), "{refused}");
    }
}

async fn a_row_sent_again_is_added_once(ground: &Ground) {
    let store = ground.store().await;
    let rows = [lot(11, "1"), lot(12, "2")];
    let added = store.append(&rows).await.unwrap();
    store.append(&[lot(13, "3")]).await.unwrap();
    assert_eq!(store.append(&rows).await.unwrap(), added);
    assert_eq!(
        store.append(&[lot(12, "2"), lot(14, "4")]).await.unwrap()[1].sequence,
        4
    );
    let other = NewRow {
        who: "Ines".to_owned(),
        ..lot(12, "2")
    };
    let refused = store.append(&[other]).await.unwrap_err();
    assert!(matches!(refused, Error::UsedBefore { .. }), "{refused}");
    assert_eq!(store.rows(&RowsWanted::default()).await.unwrap().len(), 4);
}

async fn one_bad_row_holds_all_back(ground: &Ground) {
    let store = ground.store().await;
    let of_nothing = MadeWith {
        document: id(1),
        revision: 1,
    };
    let bad = [
        (
            lot(12, "{\"mass_g\": "),
            "the JSON of a row: EOF while parsing a value at line 1 column 11",
        ),
        (
            NewRow {
                kind: "Lot".to_owned(),
                ..lot(12, "1")
            },
            "the kind of a row: it is no word of 1 to 32 small letters, digits and `-`",
        ),
        (
            NewRow {
                who: " ".to_owned(),
                ..lot(12, "1")
            },
            "the name of who adds a row: it is empty",
        ),
        (
            NewRow {
                made_with: Some(of_nothing),
                ..lot(12, "1")
            },
            "document `0000000000000001` has no revision 1",
        ),
    ];
    for (bad, words) in bad {
        let refused = store.append(&[lot(11, "1"), bad]).await.unwrap_err();
        assert_eq!(refused.to_string(), words);
    }
    assert_eq!(store.rows(&RowsWanted::default()).await.unwrap(), []);
    assert_eq!(
        store.append(&[lot(11, "1")]).await.unwrap()[0].row.when,
        at(11)
    );
}
