//! What a code does, and when it no longer does.

use axum::http::StatusCode;

use super::{HERE, PHONE, TABLET, code, get, later, open, post};

#[tokio::test]
async fn a_code_lets_in_one_device_and_once() {
    let folder = tempfile::tempdir().unwrap();
    let server = open(folder.path(), None).await;
    let first = code(&server).await;
    assert_eq!(
        first,
        code(&server).await,
        "a look at the page leaves the code"
    );
    let form = format!("name=bar+tablet&code={}", first.to_lowercase());
    let paired = post(&server, TABLET, "/pair", &form, None).await;
    assert_eq!(paired.status, StatusCode::SEE_OTHER);
    let cookie = paired.cookie().unwrap();
    let (token, flags) = cookie.split_once("; ").unwrap();
    assert_eq!(token.len(), "pomace-device=".len() + 64);
    assert_eq!(flags, "HttpOnly; SameSite=Strict; Path=/; Max-Age=34560000");

    let again = post(&server, PHONE, "/pair", &form, None).await;
    assert_eq!(again.status, StatusCode::FORBIDDEN);
    assert!(again.cookie().is_none() && again.is_for_strangers());
    assert!(
        again
            .text
            .contains("This is not the code that the other screen shows.")
    );
    assert_ne!(code(&server).await, first);

    for path in ["/", "/drinks", "/devices"] {
        assert_eq!(
            get(&server, TABLET, path, Some(cookie)).await.status,
            StatusCode::OK
        );
    }
    // A device may change its address; another has its own cookie.
    assert_eq!(
        get(&server, PHONE, "/", Some(cookie)).await.status,
        StatusCode::OK
    );
    assert_eq!(
        get(&server, PHONE, "/", None).await.status,
        StatusCode::UNAUTHORIZED
    );
}

#[tokio::test]
async fn a_code_that_is_too_old_or_was_replaced_lets_nobody_in() {
    let folder = tempfile::tempdir().unwrap();
    let server = open(folder.path(), None).await;
    let old = code(&server).await;
    later(601).await;
    let form = |code: &str| format!("name=tablet&code={code}");
    let answer = post(&server, TABLET, "/pair", &form(&old), None).await;
    assert_eq!(answer.status, StatusCode::FORBIDDEN);

    let replaced = code(&server).await;
    assert_ne!(replaced, old);
    let answer = post(&server, HERE, "/devices/code", "", None).await;
    assert_eq!(answer.status, StatusCode::SEE_OTHER);
    let answer = post(&server, TABLET, "/pair", &form(&replaced), None).await;
    assert_eq!(answer.status, StatusCode::FORBIDDEN);

    let fresh = code(&server).await;
    later(540).await;
    let answer = post(&server, TABLET, "/pair", &form(&fresh), None).await;
    assert_eq!(answer.status, StatusCode::SEE_OTHER);
}

#[tokio::test]
async fn who_guesses_has_to_wait_and_a_name_that_fails_costs_no_try() {
    let folder = tempfile::tempdir().unwrap();
    let server = open(folder.path(), None).await;
    let right = code(&server).await;
    for name in ["", "+++", &"x".repeat(41), "a%07b"] {
        let form = format!("name={name}&code={right}");
        let answer = post(&server, TABLET, "/pair", &form, None).await;
        assert_eq!(answer.status, StatusCode::BAD_REQUEST, "{name}");
        assert!(answer.text.contains("aria-invalid=\"true\""), "{name}");
        assert!(
            answer.text.contains(&format!("value=\"{right}\"")),
            "{name}"
        );
    }
    let wrong = format!("name=tablet&code={}", other(&right));
    for from in [TABLET, PHONE, TABLET, PHONE, TABLET] {
        let answer = post(&server, from, "/pair", &wrong, None).await;
        assert_eq!(answer.status, StatusCode::FORBIDDEN);
    }
    let form = format!("name=tablet&code={right}");
    let answer = post(&server, PHONE, "/pair", &form, None).await;
    assert_eq!(answer.status, StatusCode::TOO_MANY_REQUESTS);
    assert!(answer.text.contains("wait") && answer.cookie().is_none());
    later(61).await;
    let answer = post(&server, PHONE, "/pair", &form, None).await;
    assert_eq!(answer.status, StatusCode::SEE_OTHER);
}

/// Another code than the one given.
fn other(code: &str) -> String {
    let turn = |sign: char| if sign == 'C' { 'F' } else { 'C' };
    code.chars()
        .map(|sign| if sign == ' ' { sign } else { turn(sign) })
        .collect()
}
