//! The door: connections in plain HTTP, or encrypted where a certificate was given.
//!
//! This machine is answered in plain HTTP too where others need encryption: what it says to itself goes over
//! no network, and no authority gives a certificate for `127.0.0.1`.

pub(crate) mod certificate;
mod line;
pub(crate) mod reach;

use std::io;
use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;

use axum::extract::connect_info::Connected;
use axum::serve::{IncomingStream, Listener};
use tokio::net::{TcpListener, TcpStream};
use tokio::task::JoinSet;
use tokio_rustls::TlsAcceptor;
use tokio_rustls::rustls::ServerConfig;

use self::line::{Line, Stream};
use crate::devices::pass::Peer;

/// How long a connection may take to agree on encryption.
const AGREE: Duration = Duration::from_secs(10);
/// So many connections may be about it at once; who is slow keeps nobody else out for long.
const AGREEING: usize = 256;
/// The first byte of a connection that wants encryption: a record of a handshake (RFC 8446, 5.1).
const HANDSHAKE: u8 = 0x16;

/// Where connections come in.
pub(crate) struct Door {
    listener: TcpListener,
    tls: Option<TlsAcceptor>,
    /// Those that have yet to agree.
    agreeing: JoinSet<Option<(Line, SocketAddr)>>,
}

impl Door {
    pub(crate) fn new(listener: TcpListener, tls: Option<Arc<ServerConfig>>) -> Self {
        Self {
            listener,
            tls: tls.map(TlsAcceptor::from),
            agreeing: JoinSet::new(),
        }
    }
}

/// What becomes of a connection where encryption is wanted.
async fn agree(
    tls: TlsAcceptor,
    stream: TcpStream,
    peer: SocketAddr,
) -> Option<(Line, SocketAddr)> {
    let agreed = tokio::time::timeout(AGREE, async {
        if Peer(peer).is_this_machine() {
            let mut first = [0];
            stream.peek(&mut first).await.ok()?;
            if first != [HANDSHAKE] {
                return Some(Line::new(Stream::Plain(stream)));
            }
        }
        let encrypted = tls.accept(stream).await.ok()?;
        Some(Line::new(Stream::Encrypted(Box::new(encrypted))))
    });
    Some((agreed.await.ok()??, peer))
}

impl Listener for Door {
    type Io = Line;
    type Addr = SocketAddr;

    async fn accept(&mut self) -> (Line, SocketAddr) {
        loop {
            let is_full = self.agreeing.len() >= AGREEING;
            tokio::select! {
                Some(agreed) = self.agreeing.join_next() => {
                    if let Ok(Some(agreed)) = agreed {
                        return agreed;
                    }
                }
                (stream, peer) = Listener::accept(&mut self.listener), if !is_full => {
                    // Answers are small and wanted at once.
                    let _ = stream.set_nodelay(true);
                    match &self.tls {
                        None => return (Line::new(Stream::Plain(stream)), peer),
                        Some(tls) => {
                            self.agreeing.spawn(agree(tls.clone(), stream, peer));
                        }
                    }
                }
            }
        }
    }

    fn local_addr(&self) -> io::Result<SocketAddr> {
        self.listener.local_addr()
    }
}

impl Connected<IncomingStream<'_, Door>> for Peer {
    fn connect_info(stream: IncomingStream<'_, Door>) -> Self {
        Self(*stream.remote_addr())
    }
}

#[cfg(test)]
mod tests {
    use tokio::io::AsyncWriteExt as _;

    use super::*;

    /// A connection that says these first bytes, as if it came from there.
    async fn said(bytes: &[u8], from: &str) -> Option<Line> {
        let made = rcgen::generate_simple_self_signed(vec!["bar.example.org".to_owned()]).unwrap();
        let provider = Arc::new(tokio_rustls::rustls::crypto::ring::default_provider());
        let config = ServerConfig::builder_with_provider(provider)
            .with_safe_default_protocol_versions()
            .unwrap()
            .with_no_client_auth()
            .with_single_cert(
                vec![made.cert.der().clone()],
                made.signing_key.serialize_der().try_into().unwrap(),
            )
            .unwrap();
        let listener = TcpListener::bind(("127.0.0.1", 0)).await.unwrap();
        let mut other = TcpStream::connect(listener.local_addr().unwrap())
            .await
            .unwrap();
        other.write_all(bytes).await.unwrap();
        other.shutdown().await.unwrap();
        let (stream, _) = listener.accept().await.unwrap();
        let tls = TlsAcceptor::from(Arc::new(config));
        let agreed = agree(tls, stream, from.parse().unwrap()).await;
        agreed.map(|(line, _)| line)
    }

    #[tokio::test]
    async fn only_this_machine_may_go_without_encryption() {
        let plain = b"GET / HTTP/1.1\r\n";
        let here = said(plain, "127.0.0.1:50000").await;
        assert!(here.is_some_and(|line| !line.is_encrypted()));
        for from in ["192.168.1.9:50000", "[fd00::9]:50000", "0.0.0.0:50000"] {
            assert!(said(plain, from).await.is_none(), "{from}");
        }
        // Begun, and never ended.
        assert!(said(&[HANDSHAKE], "127.0.0.1:50000").await.is_none());
    }
}
