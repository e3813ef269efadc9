//! Where the server listens, and what it answers to.

use axum::http::StatusCode;
use pomace_web::Server;
use tokio::net::TcpStream;

use super::{HERE, PHONE, TABLET, get, open, options, pair, request, send};

#[tokio::test]
async fn another_host_or_origin_is_refused_paired_or_not() {
    let folder = tempfile::tempdir().unwrap();
    let server = open(folder.path(), None).await;
    let cookie = pair(&server, TABLET, "tablet").await;
    let port = server.address().port();
    let asked = async |from: &str, method: &str, name: &'static str, value: String| {
        let mut request = request(&server, method, "/new", Some(&cookie));
        request.headers_mut().insert(name, value.parse().unwrap());
        send(&server, from, request).await.status
    };
    for from in [HERE, TABLET] {
        for host in [
            "evil.example",
            "bar.example.org.evil.example",
            "203.0.113.9",
        ] {
            let status = asked(from, "GET", "host", format!("{host}:{port}")).await;
            assert_eq!(status, StatusCode::FORBIDDEN, "{host}");
        }
        for host in ["bar.example.org", "BAR.example.org", "localhost"] {
            let status = asked(from, "GET", "host", format!("{host}:{port}")).await;
            assert_eq!(status, StatusCode::OK, "{host}");
        }
        for origin in ["http://evil.example", "null", "http://bar.example.org"] {
            let status = asked(from, "POST", "origin", origin.to_owned()).await;
            assert_eq!(status, StatusCode::FORBIDDEN, "{origin}");
        }
    }
    // A stranger's browser that another site leads here pairs nothing.
    let mut request = request(&server, "POST", "/pair", None);
    request
        .headers_mut()
        .insert("origin", "http://evil.example".parse().unwrap());
    assert_eq!(
        send(&server, PHONE, request).await.status,
        StatusCode::FORBIDDEN
    );
}

#[tokio::test]
async fn without_the_local_network_there_are_no_devices() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::open(&options(folder.path(), None)).await.unwrap();
    assert_eq!(server.elsewhere(), None);
    for path in ["/devices", "/pair"] {
        assert_eq!(
            get(&server, HERE, path, None).await.status,
            StatusCode::NOT_FOUND
        );
    }
    assert!(
        !get(&server, HERE, "/", None)
            .await
            .text
            .contains("\"/devices\"")
    );
    let stranger = get(&server, TABLET, "/", None).await;
    assert!(stranger.status == StatusCode::UNAUTHORIZED && stranger.is_for_strangers());

    let folder = tempfile::tempdir().unwrap();
    let server = open(folder.path(), None).await;
    let expected = format!("http://bar.example.org:{}", server.address().port());
    assert_eq!(server.elsewhere(), Some(expected.as_str()));
    for path in ["/", "/nowhere"] {
        assert!(
            get(&server, HERE, path, None)
                .await
                .text
                .contains("\"/devices\""),
            "{path}"
        );
    }
}

/// Every address that begins with 127 is this machine, but a program that listens at the first of them does
/// not hear the others.
#[cfg(target_os = "linux")]
#[tokio::test]
async fn it_listens_elsewhere_only_when_told_to() {
    for (lan, is_heard) in [(false, false), (true, true)] {
        let folder = tempfile::tempdir().unwrap();
        let server = match lan {
            true => open(folder.path(), None).await,
            false => Server::open(&options(folder.path(), None)).await.unwrap(),
        };
        assert!(server.address().ip().is_loopback());
        let port = server.address().port();
        TcpStream::connect(("127.0.0.1", port)).await.unwrap();
        let elsewhere = TcpStream::connect(("127.0.0.2", port)).await;
        assert_eq!(elsewhere.is_ok(), is_heard);
    }
}
