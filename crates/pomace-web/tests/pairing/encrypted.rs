//! Connections with a certificate.

use std::path::Path;
use std::sync::Arc;

use pomace_web::{CertificateError, CertificateFiles, Lan, ServeError, Server};
use tokio::io::{AsyncRead, AsyncReadExt as _, AsyncWrite, AsyncWriteExt as _};
use tokio::net::TcpStream;
use tokio_rustls::TlsConnector;
use tokio_rustls::rustls::pki_types::ServerName;
use tokio_rustls::rustls::{ClientConfig, RootCertStore};

use super::{TABLET, open, options, pair};

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
