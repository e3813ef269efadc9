//! Other devices: who is let in, by what, and until when.
//!
//! A device elsewhere is an address from which a request says it comes; what goes over a connection is
//! tested with connections.

use std::net::SocketAddr;
use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use axum::body::{Body, to_bytes};
use axum::http::{HeaderMap, Request, StatusCode, header};
use pomace_store::{Place, Store};
use pomace_web::{Book, CertificateError, CertificateFiles, Lan, Options, ServeError, Server};
use tokio::io::{AsyncRead, AsyncReadExt as _, AsyncWrite, AsyncWriteExt as _};
use tokio::net::TcpStream;
use tokio_rustls::TlsConnector;
use tokio_rustls::rustls::pki_types::ServerName;
use tokio_rustls::rustls::{ClientConfig, RootCertStore};
use tower::ServiceExt as _;

const TABLET: &str = "192.168.1.31:50123";
const PHONE: &str = "192.168.1.32:50124";
const HERE: &str = "127.0.0.1:50125";

/// A book of its own in a folder, served to other devices too.
async fn open(folder: &Path, certificate: Option<CertificateFiles>) -> Server {
    let lan = Lan {
        devices: folder.join("house.pomace.devices"),
        certificate,
        name: Some("bar.example.org".to_owned()),
    };
    Server::open(&options(folder, Some(lan))).await.unwrap()
}

fn options(folder: &Path, lan: Option<Lan>) -> Options {
    Options {
        book: Book::At(Place::file(folder.join("house.pomace"))),
        port: 0,
        lan,
    }
}

/// An answer, read to its end.
struct Answer {
    status: StatusCode,
    headers: HeaderMap,
    text: String,
}

impl Answer {
    fn cookie(&self) -> Option<&str> {
        let cookie = self.headers.get(header::SET_COOKIE)?;
        Some(cookie.to_str().unwrap())
    }

    /// Whether it is the page on which a device is paired, and has nothing of the book.
    fn is_for_strangers(&self) -> bool {
        let text = &self.text;
        text.contains("<h1>Pair this device</h1>")
            && !text.contains("Rooms")
            && !text.contains("Low Water")
            && !text.contains("class=\"masthead\"")
    }
}

async fn send(server: &Server, from: &str, request: Request<Body>) -> Answer {
    let from: SocketAddr = from.parse().unwrap();
    let answer = server.answering(from).oneshot(request).await.unwrap();
    let (parts, body) = answer.into_parts();
    let bytes = to_bytes(body, usize::MAX).await.unwrap();
    Answer {
        status: parts.status,
        headers: parts.headers,
        text: String::from_utf8_lossy(&bytes).into_owned(),
    }
}

fn request(server: &Server, method: &str, path: &str, cookie: Option<&str>) -> Request<Body> {
    let host = server.address().to_string();
    let mut request = Request::builder()
        .method(method)
        .uri(path)
        .header(header::HOST, &host);
    if method == "POST" {
        request = request
            .header(header::ORIGIN, format!("http://{host}"))
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded");
    }
    if let Some(cookie) = cookie {
        let pair = cookie.split(';').next().unwrap();
        request = request.header(header::COOKIE, pair);
    }
    request.body(Body::empty()).unwrap()
}

async fn get(server: &Server, from: &str, path: &str, cookie: Option<&str>) -> Answer {
    send(server, from, request(server, "GET", path, cookie)).await
}

async fn post(server: &Server, from: &str, path: &str, form: &str, cookie: Option<&str>) -> Answer {
    let request = request(server, "POST", path, cookie).map(|_| Body::from(form.to_owned()));
    send(server, from, request).await
}

/// What stands between two texts.
fn between<'a>(text: &'a str, before: &str, after: &str) -> &'a str {
    let rest = text.split_once(before).expect(before).1;
    rest.split_once(after).expect(after).0
}

/// The code that this machine shows.
async fn code(server: &Server) -> String {
    let page = get(server, HERE, "/devices", None).await;
    assert_eq!(page.status, StatusCode::OK);
    between(&page.text, "<p class=\"code\">", "</p>").to_owned()
}

/// Pairs a device and gives its cookie.
async fn pair(server: &Server, from: &str, name: &str) -> String {
    let form = format!("name={name}&code={}", code(server).await);
    let answer = post(server, from, "/pair", &form, None).await;
    assert_eq!(answer.status, StatusCode::SEE_OTHER, "{}", answer.text);
    assert_eq!(answer.headers[header::LOCATION], "/");
    answer.cookie().unwrap().to_owned()
}

/// Another code than the one given.
fn other(code: &str) -> String {
    let turn = |sign: char| if sign == 'C' { 'F' } else { 'C' };
    code.chars()
        .map(|sign| if sign == ' ' { sign } else { turn(sign) })
        .collect()
}

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
    let later = async |seconds| {
        tokio::time::pause();
        tokio::time::advance(Duration::from_secs(seconds)).await;
        tokio::time::resume();
    };
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
    tokio::time::pause();
    tokio::time::advance(Duration::from_secs(61)).await;
    tokio::time::resume();
    let answer = post(&server, PHONE, "/pair", &form, None).await;
    assert_eq!(answer.status, StatusCode::SEE_OTHER);
}

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

/// A certificate of its own making, in files.
fn certificate(
    folder: &Path,
    name: &str,
) -> (CertificateFiles, rcgen::CertifiedKey<rcgen::KeyPair>) {
    let made = rcgen::generate_simple_self_signed(vec!["bar.example.org".to_owned()]).unwrap();
    let files = CertificateFiles {
        certificate: folder.join(format!("{name}.pem")),
        key: folder.join(format!("{name}-key.pem")),
    };
    std::fs::write(&files.certificate, made.cert.pem()).unwrap();
    std::fs::write(&files.key, made.signing_key.serialize_pem()).unwrap();
    (files, made)
}

/// Asks for a page over a connection, and gives all that comes back.
async fn over(mut line: impl AsyncRead + AsyncWrite + Unpin, host: &str, path: &str) -> String {
    let asked = format!("GET {path} HTTP/1.1\r\nhost: {host}\r\nconnection: close\r\n\r\n");
    line.write_all(asked.as_bytes()).await.unwrap();
    let mut answer = Vec::new();
    // A line that is closed without a farewell has still said all.
    let _ = line.read_to_end(&mut answer).await;
    String::from_utf8_lossy(&answer).into_owned()
}

#[tokio::test]
async fn with_a_certificate_connections_are_encrypted() {
    let folder = tempfile::tempdir().unwrap();
    let (files, made) = certificate(folder.path(), "bar");
    let server = open(folder.path(), Some(files)).await;
    let port = server.address().port();
    let host = format!("bar.example.org:{port}");
    assert_eq!(server.elsewhere().unwrap(), format!("https://{host}"));

    // The cookie of a device is for encrypted connections only.
    let cookie = pair(&server, TABLET, "tablet").await;
    assert!(cookie.ends_with("; Secure"), "{cookie}");

    let (end, ended) = tokio::sync::oneshot::channel::<()>();
    let running = tokio::spawn(server.run(async {
        let _ = ended.await;
    }));
    let mut roots = RootCertStore::empty();
    roots.add(made.cert.der().clone()).unwrap();
    let provider = Arc::new(tokio_rustls::rustls::crypto::ring::default_provider());
    let config = ClientConfig::builder_with_provider(provider)
        .with_safe_default_protocol_versions()
        .unwrap()
        .with_root_certificates(roots)
        .with_no_client_auth();
    let connector = TlsConnector::from(Arc::new(config));
    // One that says nothing does not keep out the next.
    let _silent = TcpStream::connect(("127.0.0.1", port)).await.unwrap();
    let stream = TcpStream::connect(("127.0.0.1", port)).await.unwrap();
    let name = ServerName::try_from("bar.example.org").unwrap();
    let line = connector.connect(name, stream).await.unwrap();
    let page = over(line, &host, "/devices").await;
    assert!(page.starts_with("HTTP/1.1 200"), "{page}");
    assert!(!page.contains("read along"), "{page}");

    // This machine may ask in plain HTTP too.
    let stream = TcpStream::connect(("127.0.0.1", port)).await.unwrap();
    let page = over(stream, &format!("localhost:{port}"), "/").await;
    assert!(page.starts_with("HTTP/1.1 200"), "{page}");

    end.send(()).unwrap();
    running.await.unwrap().unwrap();
}

#[tokio::test]
async fn what_is_wrong_with_a_certificate_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let (good, _) = certificate(folder.path(), "bar");
    let (stranger, _) = certificate(folder.path(), "other");
    let file = |name: &str, text: &[u8]| {
        let path = folder.path().join(name);
        std::fs::write(&path, text).unwrap();
        path
    };
    let with = |certificate: &Path, key: &Path| CertificateFiles {
        certificate: certificate.to_owned(),
        key: key.to_owned(),
    };
    let gone = folder.path().join("gone.pem");
    let empty = file("empty.pem", b"");
    let torn = file(
        "torn.pem",
        b"-----BEGIN CERTIFICATE-----\n%%%\n-----END CERTIFICATE-----\n",
    );
    let rubbish = file(
        "rubbish.pem",
        b"-----BEGIN CERTIFICATE-----\nAAAA\n-----END CERTIFICATE-----\n",
    );
    for (files, told) in [
        (with(&gone, &good.key), "gone.pem` cannot be read"),
        (with(&good.certificate, &gone), "gone.pem` cannot be read"),
        (with(&empty, &good.key), "no certificate is in"),
        (with(&good.key, &good.key), "no certificate is in"),
        (with(&torn, &good.key), "torn.pem` is not written as PEM is"),
        (with(&rubbish, &good.key), "rubbish.pem` cannot be used"),
        (
            with(&good.certificate, &good.certificate),
            "no private key without a password is in",
        ),
        (
            with(&good.certificate, &stranger.key),
            "is not the one of the certificate",
        ),
    ] {
        let lan = Lan {
            devices: folder.path().join("devices"),
            certificate: Some(files),
            name: None,
        };
        let Err(ServeError::Certificate(error)) =
            Server::open(&options(folder.path(), Some(lan))).await
        else {
            panic!("{told}: it was taken");
        };
        assert!(error.to_string().contains(told), "{error}");
        assert!(!CertificateError::mend(&error).is_empty());
    }
}
