//! A device that is paired: until it is un-paired, and over a new start; its name in what it saves.

use axum::http::{StatusCode, header};
use pomace_store::{Place, Store};

use super::{HERE, PHONE, TABLET, between, get, open, pair, post};

#[tokio::test]
async fn a_device_is_out_as_soon_as_it_is_un_paired() {
    let folder = tempfile::tempdir().unwrap();
    let server = open(folder.path(), None).await;
    let tablet = pair(&server, TABLET, "bar+tablet").await;
    let phone = pair(&server, PHONE, "phone").await;
    let page = get(&server, HERE, "/devices", None).await;
    assert!(page.text.contains("bar tablet") && page.text.contains("phone"));
    let id = between(&page.text, "name=\"id\" value=\"", "\"");
    let form = format!("id={id}");

    // The phone sees the list, shows no code, and may send nobody away but itself.
    let page = get(&server, PHONE, "/devices", Some(&phone)).await;
    assert!(page.text.contains("bar tablet") && page.text.contains("phone (this one)"));
    assert!(!page.text.contains("class=\"code\"") && !page.text.contains(id));
    for path in ["/devices/remove", "/devices/code"] {
        let answer = post(&server, PHONE, path, &form, Some(&phone)).await;
        assert_eq!(answer.status, StatusCode::FORBIDDEN, "{path}");
    }
    assert_eq!(
        get(&server, TABLET, "/", Some(&tablet)).await.status,
        StatusCode::OK
    );

    let answer = post(&server, HERE, "/devices/remove", &form, None).await;
    assert_eq!(answer.status, StatusCode::SEE_OTHER);
    let answer = get(&server, TABLET, "/", Some(&tablet)).await;
    assert!(answer.status == StatusCode::UNAUTHORIZED && answer.is_for_strangers());
    assert_eq!(
        get(&server, PHONE, "/", Some(&phone)).await.status,
        StatusCode::OK
    );

    let own = between(&page.text, "name=\"id\" value=\"", "\"");
    let answer = post(
        &server,
        PHONE,
        "/devices/remove",
        &format!("id={own}"),
        Some(&phone),
    )
    .await;
    assert_eq!(answer.status, StatusCode::SEE_OTHER);
    assert_eq!(
        get(&server, PHONE, "/", Some(&phone)).await.status,
        StatusCode::UNAUTHORIZED
    );
}

#[tokio::test]
async fn the_first_page_shows_the_code_until_a_device_is_paired_and_to_this_machine_alone() {
    let folder = tempfile::tempdir().unwrap();
    let server = open(folder.path(), None).await;
    let first = get(&server, HERE, "/", None).await;
    let all = get(&server, HERE, "/devices", None).await;
    let code = between(&first.text, "class=\"code\">", "</p>");
    assert!(
        first.text.contains("<svg class=\"scan\""),
        "no picture to scan"
    );
    assert_eq!(code, between(&all.text, "class=\"code\">", "</p>"));

    let tablet = pair(&server, TABLET, "bar+tablet").await;
    for (from, cookie) in [(HERE, None), (TABLET, Some(tablet.as_str()))] {
        let first = get(&server, from, "/", cookie).await;
        assert_eq!(first.status, StatusCode::OK);
        assert!(!first.text.contains("class=\"code\""), "{from}");
    }
}

#[tokio::test]
async fn a_pairing_outlives_the_program_and_no_token_is_on_disk() {
    let folder = tempfile::tempdir().unwrap();
    let server = open(folder.path(), None).await;
    let cookie = pair(&server, TABLET, "bar+tablet").await;
    drop(server);
    let token = between(&cookie, "=", ";").to_owned();
    for entry in std::fs::read_dir(folder.path()).unwrap() {
        let path = entry.unwrap().path();
        // The store takes its own journal away while it closes.
        let Ok(bytes) = std::fs::read(&path) else {
            continue;
        };
        let is_there = bytes
            .windows(token.len())
            .any(|part| part == token.as_bytes());
        assert!(!is_there, "{}", path.display());
    }
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        let kept = std::fs::metadata(folder.path().join("house.pomace.devices")).unwrap();
        assert_eq!(kept.permissions().mode() & 0o777, 0o600);
    }
    let server = open(folder.path(), None).await;
    let answer = get(&server, TABLET, "/", Some(&cookie)).await;
    assert_eq!(answer.status, StatusCode::OK);
    // The first page gives the cookie anew, so that it does not grow old; the token stays.
    assert_eq!(answer.cookie(), Some(cookie.as_str()));
}

#[tokio::test]
async fn a_revision_carries_the_name_of_its_device() {
    let folder = tempfile::tempdir().unwrap();
    let server = open(folder.path(), None).await;
    let cookie = pair(&server, TABLET, "bar+tablet").await;
    post(&server, HERE, "/new", "kind=drink&name=High+Water", None).await;
    let form = "kind=drink&name=Low+Water&what=gin&amount=40+mL";
    let made = post(&server, TABLET, "/new", form, Some(&cookie)).await;
    let path = made.headers[header::LOCATION].to_str().unwrap();
    let id = path.trim_start_matches("/drinks/");
    let form = "do=set&list=line&at=0&key=amount&value=45+mL&based_on=1";
    let changed = post(&server, HERE, &format!("/d/{id}/change"), form, None).await;
    assert_eq!(changed.status, StatusCode::SEE_OTHER, "{}", changed.text);

    let store = Store::open(&Place::file(folder.path().join("house.pomace")))
        .await
        .unwrap();
    let mut who = Vec::new();
    for document in store.documents().await.unwrap() {
        for stamp in store.history(&document.stamp.document).await.unwrap() {
            who.push((document.name.clone(), stamp.revision, stamp.who));
        }
    }
    who.sort();
    let expected = [
        ("High Water", 1, "this machine"),
        ("Low Water", 1, "bar tablet"),
        ("Low Water", 2, "this machine"),
    ];
    let expected = expected.map(|(name, at, who)| (name.to_owned(), at, who.to_owned()));
    assert_eq!(who, expected);
}
