//! A connection, plain or encrypted, that ends when the other side falls silent.
//!
//! A tablet that went out of reach never says so; its connections, and those of whoever opens many and says
//! nothing, would else be held until the program ends.

use std::io;
use std::pin::Pin;
use std::task::{Context, Poll, ready};
use std::time::Duration;

use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::net::TcpStream;
use tokio::time::{Instant, Sleep};
use tokio_rustls::server::TlsStream;

/// Longer than a browser leaves between two requests on a connection that it means to use again.
const SILENCE: Duration = Duration::from_secs(120);

/// A connection.
pub(crate) struct Line {
    stream: Stream,
    /// When it ends unless something comes.
    silence: Pin<Box<Sleep>>,
}

/// What it goes over.
pub(crate) enum Stream {
    Plain(TcpStream),
    Encrypted(Box<TlsStream<TcpStream>>),
}

impl Line {
    pub(crate) fn new(stream: Stream) -> Self {
        Self {
            stream,
            silence: Box::pin(tokio::time::sleep(SILENCE)),
        }
    }

    #[cfg(test)]
    pub(crate) const fn is_encrypted(&self) -> bool {
        matches!(self.stream, Stream::Encrypted(_))
    }
}

impl AsyncRead for Line {
    fn poll_read(
        self: Pin<&mut Self>,
        context: &mut Context<'_>,
        into: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        let line = self.get_mut();
        if let Poll::Ready(read) = Pin::new(&mut line.stream).poll_read(context, into) {
            line.silence.as_mut().reset(Instant::now() + SILENCE);
            return Poll::Ready(read);
        }
        ready!(line.silence.as_mut().poll(context));
        Poll::Ready(Err(io::ErrorKind::TimedOut.into()))
    }
}

impl AsyncWrite for Line {
    fn poll_write(
        self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[u8],
    ) -> Poll<io::Result<usize>> {
        Pin::new(&mut self.get_mut().stream).poll_write(context, bytes)
    }

    fn poll_write_vectored(
        self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[io::IoSlice<'_>],
    ) -> Poll<io::Result<usize>> {
        Pin::new(&mut self.get_mut().stream).poll_write_vectored(context, bytes)
    }

    fn is_write_vectored(&self) -> bool {
        self.stream.is_write_vectored()
    }

    fn poll_flush(self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.get_mut().stream).poll_flush(context)
    }

    fn poll_shutdown(self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.get_mut().stream).poll_shutdown(context)
    }
}

impl AsyncRead for Stream {
    fn poll_read(
        self: Pin<&mut Self>,
        context: &mut Context<'_>,
        into: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        match self.get_mut() {
            Self::Plain(line) => Pin::new(line).poll_read(context, into),
            Self::Encrypted(line) => Pin::new(line).poll_read(context, into),
        }
    }
}

impl AsyncWrite for Stream {
    fn poll_write(
        self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[u8],
    ) -> Poll<io::Result<usize>> {
        match self.get_mut() {
            Self::Plain(line) => Pin::new(line).poll_write(context, bytes),
            Self::Encrypted(line) => Pin::new(line).poll_write(context, bytes),
        }
    }

    fn poll_write_vectored(
        self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[io::IoSlice<'_>],
    ) -> Poll<io::Result<usize>> {
        match self.get_mut() {
            Self::Plain(line) => Pin::new(line).poll_write_vectored(context, bytes),
            Self::Encrypted(line) => Pin::new(line).poll_write_vectored(context, bytes),
        }
    }

    fn is_write_vectored(&self) -> bool {
        match self {
            Self::Plain(line) => line.is_write_vectored(),
            Self::Encrypted(line) => line.is_write_vectored(),
        }
    }

    fn poll_flush(self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        match self.get_mut() {
            Self::Plain(line) => Pin::new(line).poll_flush(context),
            Self::Encrypted(line) => Pin::new(line).poll_flush(context),
        }
    }

    fn poll_shutdown(self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        match self.get_mut() {
            Self::Plain(line) => Pin::new(line).poll_shutdown(context),
            Self::Encrypted(line) => Pin::new(line).poll_shutdown(context),
        }
    }
}

#[cfg(test)]
mod tests {
    use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};
    use tokio::net::TcpListener;

    use super::*;

    #[tokio::test]
    async fn a_line_ends_in_silence_and_not_before() {
        let listener = TcpListener::bind(("127.0.0.1", 0)).await.unwrap();
        let address = listener.local_addr().unwrap();
        let mut other = TcpStream::connect(address).await.unwrap();
        let (stream, _) = listener.accept().await.unwrap();
        let mut line = Line::new(Stream::Plain(stream));
        // Each half of it is short of the limit, both together are past it.
        for _ in 0..2 {
            tokio::time::pause();
            tokio::time::advance(SILENCE * 2 / 3).await;
            tokio::time::resume();
            other.write_all(b"a").await.unwrap();
            assert_eq!(line.read_u8().await.unwrap(), b'a');
        }
        tokio::time::pause();
        let before = Instant::now();
        let error = line.read_u8().await.unwrap_err();
        assert_eq!(error.kind(), io::ErrorKind::TimedOut);
        assert!(
            before.elapsed() >= SILENCE - Duration::from_secs(1),
            "{:?}",
            before.elapsed()
        );
    }
}
