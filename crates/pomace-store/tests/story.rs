//! The life of a document: made, changed, renamed, quarrelled over, removed and brought back.

use pomace_store::{Change, Error, Id, Index, Store, Token, When, Write};

use crate::ground::{
    Ground, at, change, conflict, edge, figure, id, new, on_both, remove, save, saved, sound,
};

on_both!(
    a_document_is_saved_and_read_back,
    a_renamed_document_keeps_its_id,
    two_people_change_the_same_revision,
    a_save_whose_answer_was_lost_is_sent_again,
    an_unchanged_text_makes_no_revision,
    a_removed_document_is_brought_back,
    whoever_asks_what_changed_misses_nothing,
    the_index_leads_from_name_use_and_figure,
    an_index_alone_can_be_renewed,
    a_book_is_the_same_after_it_was_closed,
    odd_texts_come_back_as_they_were,
    lists_are_sorted_alike_everywhere,
);

const SHRUB: &str = "prep = \"Quince peel shrub\"\n";

async fn a_document_is_saved_and_read_back(ground: &Ground) {
    let store = ground.store().await;
    let shrub = Id::new(&at(0));
    let made = Change {
        why: Some("first try".to_owned()),
        index: Index::of("prep", "Quince peel shrub"),
        ..new(&shrub, "", SHRUB)
    };
    let stamp = save(&store, &made).await;
    assert_eq!((stamp.revision, stamp.sequence), (1, 1));
    assert_eq!(stamp.who, "Ines");
    assert_eq!(stamp.when.as_str(), "2026-11-25T19:00:00.000Z");

    let listed = store.documents().await.unwrap();
    assert_eq!(listed.len(), 1);
    assert_eq!(listed[0].kind, "prep");
    assert_eq!(listed[0].name, "Quince peel shrub");
    assert_eq!(listed[0].stamp, stamp);
    assert_eq!(store.document(&shrub).await.unwrap().unwrap(), listed[0]);
    assert_eq!(store.current(&shrub).await.unwrap().unwrap().text, SHRUB);
    assert_eq!(store.texts().await.unwrap()[0].text, SHRUB);

    let second = save(&store, &change(&stamp, "Quince peel shrub", "changed")).await;
    assert_eq!(second.revision, 2);
    let history = store.history(&shrub).await.unwrap();
    assert_eq!(history, [stamp, second]);
    assert_eq!(history[0].why.as_deref(), Some("first try"));
    let first = store.revision(&shrub, 1).await.unwrap().unwrap();
    assert_eq!((first.text.as_str(), &first.stamp), (SHRUB, &history[0]));
    assert_eq!(store.revision(&shrub, 3).await.unwrap(), None);
    assert_eq!(store.history(&id(404)).await.unwrap(), []);
    assert_eq!(store.document(&id(404)).await.unwrap(), None);
    sound(&store).await;
}

async fn a_renamed_document_keeps_its_id(ground: &Ground) {
    let store = ground.store().await;
    let made = save(&store, &new(&id(1), "Second Pressing", "1")).await;
    let renamed = save(&store, &change(&made, "Zweite Pressung", "2")).await;
    assert_eq!(renamed.document, made.document);
    assert_eq!(store.by_name("second pressing").await.unwrap(), []);
    let found = store.by_name("  ZWEITE   pressung ").await.unwrap();
    assert_eq!(found[0].stamp, renamed);
    assert_eq!(found[0].name, "Zweite Pressung");
    assert_eq!(store.history(&id(1)).await.unwrap().len(), 2);
}

async fn two_people_change_the_same_revision(ground: &Ground) {
    let store = ground.store().await;
    let base = save(&store, &new(&id(1), "Weir", "base")).await;
    let hers = Change {
        who: "Ines".to_owned(),
        ..change(&base, "Weir", "hers")
    };
    let his = Change {
        who: "Noor".to_owned(),
        ..change(&base, "Weir", "his")
    };
    let kept = save(&store, &hers).await;
    let theirs = conflict(store.save(&Token::new(), &his).await.unwrap());
    assert_eq!(theirs.len(), 1);
    assert_eq!(theirs[0].text, "hers");
    assert_eq!(theirs[0].stamp, kept);

    // Nothing of his is in the book, and what he can do is to save on hers.
    assert_eq!(store.current(&id(1)).await.unwrap().unwrap().text, "hers");
    assert_eq!(store.sequence().await.unwrap(), kept.sequence);
    let joined = Change {
        based_on: Some(kept.revision),
        write: Write::Text("both".to_owned()),
        ..his
    };
    assert_eq!(save(&store, &joined).await.revision, 3);

    // An id that is there already is no place for a new document.
    let again = new(&id(1), "Weir", "mine");
    assert_eq!(
        conflict(store.save(&Token::new(), &again).await.unwrap())[0].text,
        "both"
    );
    // Both came to the same text: nobody is overwritten, and there is nothing to ask.
    let same = change(&base, "Weir", "both");
    assert_eq!(
        saved(store.save(&Token::new(), &same).await.unwrap())[0].revision,
        3
    );
    sound(&store).await;
}

async fn a_save_whose_answer_was_lost_is_sent_again(ground: &Ground) {
    let store = ground.store().await;
    let token = Token::new();
    let made = new(&id(1), "Ebb", "1");
    let first = saved(store.save(&token, &made).await.unwrap());
    assert_eq!(saved(store.save(&token, &made).await.unwrap()), first);
    assert_eq!(store.history(&id(1)).await.unwrap().len(), 1);

    // Also when others went on in between, and when it is sent later.
    save(&store, &change(&first[0], "Ebb", "2")).await;
    let later = Change {
        when: at(99),
        ..made.clone()
    };
    assert_eq!(saved(store.save(&token, &later).await.unwrap()), first);
    assert_eq!(store.current(&id(1)).await.unwrap().unwrap().text, "2");

    // An unchanged text is an answer too.
    let quiet = Token::new();
    let unchanged = Change {
        based_on: Some(2),
        ..new(&id(1), "Ebb", "2")
    };
    let kept = saved(store.save(&quiet, &unchanged).await.unwrap());
    save(&store, &change(&kept[0], "Ebb", "3")).await;
    assert_eq!(saved(store.save(&quiet, &unchanged).await.unwrap()), kept);

    // The token of one save does not cover another.
    let other = change(&first[0], "Ebb", "other");
    let refused = store.save(&token, &other).await.unwrap_err();
    assert!(matches!(refused, Error::UsedBefore { .. }), "{refused}");
    let more = [made, new(&id(2), "Flow", "1")];
    let refused = store.save_all(&token, &more).await.unwrap_err();
    assert!(matches!(refused, Error::UsedBefore { .. }), "{refused}");
    assert_eq!(store.history(&id(1)).await.unwrap().len(), 3);
    assert_eq!(store.document(&id(2)).await.unwrap(), None);
}

async fn an_unchanged_text_makes_no_revision(ground: &Ground) {
    let store = ground.store().await;
    let made = save(&store, &new(&id(1), "Lull", "same")).await;
    let mut again = change(&made, "Lull", "same");
    again.index.figures = vec![figure("abv_percent", 12.5, None)];
    assert_eq!(save(&store, &again).await, made);
    assert_eq!(store.sequence().await.unwrap(), 1);
    // What was computed anew is taken over all the same.
    assert_eq!(store.figures(&id(1)).await.unwrap(), again.index.figures);
}

async fn a_removed_document_is_brought_back(ground: &Ground) {
    let store = ground.store().await;
    let made = save(&store, &new(&id(1), "Neap", "text")).await;
    let removed = save(&store, &remove(&made)).await;
    assert!(removed.removes);
    assert_eq!(removed.revision, 2);
    assert_eq!(store.documents().await.unwrap(), []);
    assert_eq!(store.texts().await.unwrap(), []);
    assert_eq!(store.by_name("Neap").await.unwrap(), []);
    let gone = store.removed().await.unwrap();
    assert_eq!((gone[0].name.as_str(), &gone[0].stamp), ("Neap", &removed));
    assert_eq!(store.current(&id(1)).await.unwrap().unwrap().text, "text");
    sound(&store).await;

    // Removing it again changes nothing; saving on the revision before is a conflict.
    assert_eq!(save(&store, &remove(&removed)).await, removed);
    let late = change(&made, "Neap", "late");
    let theirs = conflict(store.save(&Token::new(), &late).await.unwrap());
    assert!(theirs[0].stamp.removes);

    let back = save(&store, &change(&removed, "Neap", "text")).await;
    assert_eq!((back.revision, back.removes), (3, false));
    assert_eq!(store.removed().await.unwrap(), []);
    assert_eq!(store.by_name("neap").await.unwrap()[0].stamp, back);
    assert_eq!(store.history(&id(1)).await.unwrap().len(), 3);
    sound(&store).await;
}

async fn whoever_asks_what_changed_misses_nothing(ground: &Ground) {
    let store = ground.store().await;
    let one = save(&store, &new(&id(1), "One", "1")).await;
    let two = save(&store, &new(&id(2), "Two", "1")).await;
    let seen = store.sequence().await.unwrap();
    assert_eq!(seen, 2);
    assert_eq!(store.changed_after(seen).await.unwrap(), []);
    let removed = save(&store, &remove(&two)).await;
    let changed = save(&store, &change(&one, "One", "2")).await;
    let changed_twice = save(&store, &change(&changed, "One", "3")).await;
    let since = store.changed_after(seen).await.unwrap();
    let stamps: Vec<_> = since.into_iter().map(|summary| summary.stamp).collect();
    assert_eq!(stamps, [removed, changed_twice]);
    assert_eq!(store.sequence().await.unwrap(), 5);
}

async fn the_index_leads_from_name_use_and_figure(ground: &Ground) {
    let store = ground.store().await;
    let mut shrub = new(&id(1), "Quince peel shrub", "shrub");
    shrub.index.also_known_as = vec!["Crème de coing".to_owned(), "QPS".to_owned()];
    shrub.index.figures = vec![
        figure("ph", 3.2, Some(0.1)),
        figure("abv_percent", 0.0, None),
    ];
    save(&store, &shrub).await;
    let mut weir = new(&id(2), "Weir", "weir");
    weir.index.uses = vec![
        edge("quince peel shrub", Some(&id(1))),
        edge("aquavit, 42 %", None),
    ];
    weir.index.figures = vec![figure("ph", 3.4, None)];
    save(&store, &weir).await;
    // Written before anyone knew which document it leads to.
    let mut ebb = new(&id(3), "Ebb", "ebb");
    ebb.index.uses = vec![edge("creme  de Coing", None)];
    save(&store, &ebb).await;

    let name = |summaries: Vec<pomace_store::Summary>| -> Vec<String> {
        summaries.into_iter().map(|summary| summary.name).collect()
    };
    assert_eq!(
        name(store.by_name("CREME DE COING").await.unwrap()),
        ["Quince peel shrub"]
    );
    assert_eq!(
        name(store.by_name("shrub").await.unwrap()),
        Vec::<String>::new()
    );
    let used_by = store.used_by(&id(1)).await.unwrap();
    let used_by: Vec<_> = used_by
        .iter()
        .map(|by| (by.name.as_str(), by.called.as_str()))
        .collect();
    assert_eq!(
        used_by,
        [("Ebb", "creme  de Coing"), ("Weir", "quince peel shrub")]
    );
    let ph = store.figure("ph").await.unwrap();
    assert_eq!(
        ph.iter().map(|of| &of.document).collect::<Vec<_>>(),
        [&id(1), &id(2)]
    );
    assert_eq!(ph[0].figure, figure("ph", 3.2, Some(0.1)));
    assert_eq!(ph[1].figure, figure("ph", 3.4, None));

    // A first name goes before one that is also known.
    save(&store, &new(&id(4), "qps", "another")).await;
    assert_eq!(
        name(store.by_name("QPS").await.unwrap()),
        ["qps", "Quince peel shrub"]
    );

    // A changed text brings a changed index, and nothing of the old one stays.
    let bare = Change {
        based_on: Some(1),
        ..new(&id(2), "Weir", "bare")
    };
    save(&store, &bare).await;
    assert_eq!(store.used_by(&id(1)).await.unwrap().len(), 1);
    assert_eq!(store.figure("ph").await.unwrap().len(), 1);
    sound(&store).await;
}

async fn an_index_alone_can_be_renewed(ground: &Ground) {
    let store = ground.store().await;
    let made = save(&store, &new(&id(1), "Sill", "text")).await;
    let mut index = Index::of("drink", "Sill");
    index.uses = vec![edge("whey", Some(&id(2)))];
    assert!(store.reindex(&id(1), 1, &index).await.unwrap());
    assert_eq!(store.used_by(&id(2)).await.unwrap().len(), 1);
    assert_eq!(store.sequence().await.unwrap(), made.sequence);

    let second = save(&store, &change(&made, "Sill", "text 2")).await;
    assert!(!store.reindex(&id(1), 1, &index).await.unwrap());
    assert_eq!(store.used_by(&id(2)).await.unwrap(), []);
    save(&store, &remove(&second)).await;
    assert!(!store.reindex(&id(1), 3, &index).await.unwrap());
    assert!(!store.reindex(&id(404), 1, &index).await.unwrap());
    sound(&store).await;
}

async fn a_book_is_the_same_after_it_was_closed(ground: &Ground) {
    let store = ground.store().await;
    let made = save(&store, &new(&id(1), "Sill", "text")).await;
    store.close().await;
    let closed = store.documents().await.unwrap_err();
    assert!(matches!(closed, Error::Refused { .. }), "{closed:?}");
    let store = Store::open(&ground.place).await.unwrap();
    assert_eq!(store.document(&id(1)).await.unwrap().unwrap().stamp, made);
    assert_eq!(
        save(&store, &change(&made, "Sill", "more")).await.sequence,
        2
    );
}

async fn odd_texts_come_back_as_they_were(ground: &Ground) {
    let store = ground.store().await;
    let texts = [
        "",
        "\r\n\t \u{feff}",
        "'; DROP TABLE revisions; --",
        "ünïcödé ½ 🍐 \u{202e}",
        "$1 ? :x @y \\ %",
        &"long ".repeat(150_000),
    ];
    for (number, text) in (1..).zip(texts) {
        let name = if text.is_empty() {
            "-"
        } else {
            "🍐 O'Neil \"%_\\\" ½"
        };
        save(&store, &new(&id(number), name, text)).await;
        assert_eq!(
            store.current(&id(number)).await.unwrap().unwrap().text,
            text
        );
    }
    assert_eq!(
        store.by_name("🍐 o’neil \"%_\\\" ½").await.unwrap().len(),
        5
    );
    sound(&store).await;
}

/// Each database has its own ways with capitals, accents and signs.
async fn lists_are_sorted_alike_everywhere(ground: &Ground) {
    let store = ground.store().await;
    let names = [
        "weir", "Ébb", "ebb tide", "_low", "Weir 2", "éa", "Zest", "10 %",
    ];
    for (number, name) in (1..).zip(names) {
        let mut made = new(&id(number), name, name);
        made.index.uses = vec![edge("whey", Some(&id(404)))];
        made.index.figures = ["b_b", "ba", "B", "b c"]
            .map(|name| figure(name, 1.0, None))
            .to_vec();
        save(&store, &made).await;
    }
    let sorted = [
        "10 %", "_low", "éa", "Ébb", "ebb tide", "weir", "Weir 2", "Zest",
    ];
    let listed = store.documents().await.unwrap();
    assert_eq!(
        listed
            .iter()
            .map(|summary| summary.name.as_str())
            .collect::<Vec<_>>(),
        sorted
    );
    let used_by = store.used_by(&id(404)).await.unwrap();
    assert_eq!(
        used_by
            .iter()
            .map(|by| by.name.as_str())
            .collect::<Vec<_>>(),
        sorted
    );
    let figures = store.figures(&id(1)).await.unwrap();
    let figures: Vec<_> = figures.iter().map(|figure| figure.name.as_str()).collect();
    assert_eq!(figures, ["B", "b c", "b_b", "ba"]);
}

#[test]
fn ids_sort_by_time_and_are_never_the_same() {
    let mut ids = Vec::new();
    for second in 0..100 {
        for _ in 0..100 {
            ids.push((second, Id::new(&at(second))));
        }
    }
    let mut sorted = ids.clone();
    sorted.sort_by(|a, b| a.1.cmp(&b.1));
    assert!(sorted.is_sorted_by_key(|(second, _)| *second));
    sorted.dedup_by(|a, b| a.1 == b.1);
    assert_eq!(sorted.len(), ids.len());
    for (_, id) in ids {
        assert_eq!(id.as_str().len(), 16);
        assert_eq!(Id::parse(id.as_str()).unwrap(), id);
    }
    for wrong in [
        "",
        "quince",
        "000000000000000O",
        "00000000000000000",
        "ÄÄÄÄÄÄÄÄ",
    ] {
        assert!(Id::parse(wrong).is_err(), "{wrong}");
    }
}

#[test]
fn times_are_utc_and_sort() {
    let told = When::parse("2026-11-25T21:44:10.5+01:00").unwrap();
    assert_eq!(told.as_str(), "2026-11-25T20:44:10.500Z");
    assert!(at(1) < at(2));
    assert!(When::now() > told || told.milliseconds() > 1_700_000_000_000);
    for wrong in [
        "",
        "yesterday",
        "2026-11-25",
        "1969-12-31T23:59:59Z",
        "3000-01-01T00:00:00Z",
    ] {
        assert!(When::parse(wrong).is_err(), "{wrong}");
    }
    assert_eq!(
        When::parse("2999-12-31T23:59:59.999Z").unwrap().as_str(),
        "2999-12-31T23:59:59.999Z"
    );
}
