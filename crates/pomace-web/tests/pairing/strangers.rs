//! A device that nobody paired.

use axum::http::{StatusCode, header};

use super::{HERE, TABLET, get, open, post, request, send};

#[tokio::test]
async fn a_stranger_sees_the_page_to_pair_and_nothing_else() {
    let folder = tempfile::tempdir().unwrap();
    let server = open(folder.path(), None).await;
    let made = post(&server, HERE, "/new", "kind=drink&name=Low+Water", None).await;
    let drink = made.headers[header::LOCATION].to_str().unwrap().to_owned();
    assert!(
        get(&server, HERE, &drink, None)
            .await
            .text
            .contains("Low Water")
    );
    let id = drink.trim_start_matches("/drinks/");
    let forged = format!("pomace-device={}", "0".repeat(64));
    for cookie in [None, Some(forged.as_str()), Some("pomace-device=")] {
        for path in [
            "/",
            "/drinks",
            &drink,
            &format!("/bar/{id}"),
            "/find?words=low",
            "/find.json?words=low",
            "/devices",
            "/look",
            "/nowhere",
            "/pair/more",
            "//assets/",
        ] {
            let answer = get(&server, TABLET, path, cookie).await;
            assert_eq!(answer.status, StatusCode::UNAUTHORIZED, "{path}");
            assert!(answer.is_for_strangers(), "{path}: {}", answer.text);
            assert!(answer.cookie().is_none(), "{path}");
        }
        for path in [
            "/new".to_owned(),
            "/demo".to_owned(),
            format!("/d/{id}/save"),
            format!("/d/{id}/change"),
            format!("/d/{id}/beside"),
            "/devices/code".to_owned(),
            "/devices/remove".to_owned(),
        ] {
            let answer = post(&server, TABLET, &path, "kind=drink&name=Ours&id=1", cookie).await;
            assert_eq!(answer.status, StatusCode::UNAUTHORIZED, "{path}");
        }
    }
    // A page that is still open is told in words that its script understands.
    let mut save = request(&server, "POST", &format!("/d/{id}/save"), None);
    let json = "application/json".parse().unwrap();
    save.headers_mut().insert(header::CONTENT_TYPE, json);
    let answer = send(&server, TABLET, save).await;
    assert_eq!(answer.status, StatusCode::UNAUTHORIZED);
    assert!(
        answer
            .text
            .starts_with("{\"fault\":\"This device is not paired any more\""),
        "{}",
        answer.text
    );

    let page = get(&server, TABLET, "/pair", None).await;
    assert!(page.status == StatusCode::OK && page.is_for_strangers());
    // What that page is made of, which says nothing of the book.
    for link in page
        .text
        .split('"')
        .filter(|text| text.starts_with("/assets/"))
    {
        assert_eq!(
            get(&server, TABLET, link, None).await.status,
            StatusCode::OK,
            "{link}"
        );
    }
    assert!(
        !get(&server, HERE, "/drinks", None)
            .await
            .text
            .contains("Ours")
    );
}
