//! The server: where it listens, and until when.

use std::net::{Ipv4Addr, SocketAddr};
use std::path::PathBuf;
use std::sync::Arc;

use axum::Router;
use pomace_store::{Place, Store};
use tokio::net::TcpListener;

use crate::app::App;
use crate::routes;

/// How a book is served.
#[derive(Clone, Debug)]
pub struct Options {
    /// Which book.
    pub book: Book,
    /// Port; 0 takes any that is free.
    pub port: u16,
}

/// Which book is served.
#[derive(Clone, Debug)]
pub enum Book {
    /// The house's own.
    At(Place),
    /// The embedded demo, in a file of its own that is thrown away.
    Demo,
}

/// Why a book cannot be served.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ServeError {
    /// The store does not open.
    #[error(transparent)]
    Store(#[from] pomace_store::Error),
    /// The port is taken, or may not be used.
    #[error("port {port} cannot be used: {source}")]
    Port {
        /// Which.
        port: u16,
        /// What the system says.
        source: std::io::Error,
    },
    /// No folder for the demo's file.
    #[error("no folder for the demo: {0}")]
    Demo(std::io::Error),
    /// The server broke off.
    #[error("the server broke off: {0}")]
    Broke(std::io::Error),
}

impl ServeError {
    /// How to mend it.
    #[must_use]
    pub fn mend(&self) -> &'static str {
        match self {
            Self::Store(error) => error.mend(),
            Self::Port { .. } => "give another with `--port`, or 0 for any that is free",
            Self::Demo(_) => "see that the folder for temporary files can be written",
            Self::Broke(_) => "start it again; what was saved is safe",
        }
    }
}

/// Whom the server answers.
#[derive(Clone, Debug)]
pub(crate) struct Reach {
    port: u16,
}

impl Reach {
    /// Whether a `Host` header names this server.
    pub(crate) fn answers_to(&self, host: &str) -> bool {
        let Some((name, port)) = host.rsplit_once(':') else {
            return false;
        };
        port.parse() == Ok(self.port) && matches!(name, "127.0.0.1" | "localhost" | "[::1]")
    }
}

/// A book that is being served.
pub struct Server {
    listener: TcpListener,
    router: Router,
    address: SocketAddr,
    /// The demo's folder, gone when the server is.
    demo: Option<DemoFolder>,
}

/// A folder that is taken away at the end.
struct DemoFolder(PathBuf);

impl Drop for DemoFolder {
    fn drop(&mut self) {
        // Nothing in it is anybody's; if it cannot be removed, the system will.
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

impl Server {
    /// Opens the book and begins to listen.
    ///
    /// # Errors
    /// [`ServeError`]: the store does not open, or the port cannot be had.
    pub async fn open(options: &Options) -> Result<Self, ServeError> {
        let (place, demo) = match &options.book {
            Book::At(place) => (place.clone(), None),
            Book::Demo => {
                let folder = std::env::temp_dir().join(format!(
                    "pomace-demo-{}",
                    pomace_store::Token::new().as_str()
                ));
                std::fs::create_dir_all(&folder).map_err(ServeError::Demo)?;
                let place = Place::file(folder.join("demo.pomace"));
                (place, Some(DemoFolder(folder)))
            }
        };
        let store = Store::open_or_create(&place).await?;
        let app = Arc::new(App::open(store, demo.is_some()).await?);
        if demo.is_some() {
            app.take_demo("pomace").await?;
        }
        let marking = Arc::clone(&app);
        // Where the drinks stand is not needed for the first page.
        std::mem::drop(tokio::task::spawn_blocking(move || marking.mark_all()));
        let wanted = SocketAddr::from((Ipv4Addr::LOCALHOST, options.port));
        let listen = |source| ServeError::Port {
            port: options.port,
            source,
        };
        let listener = TcpListener::bind(wanted).await.map_err(listen)?;
        let address = listener.local_addr().map_err(listen)?;
        let reach = Reach {
            port: address.port(),
        };
        Ok(Self {
            listener,
            router: routes::router(app, reach),
            address,
            demo,
        })
    }

    /// Where it listens.
    #[must_use]
    pub const fn address(&self) -> SocketAddr {
        self.address
    }

    /// Serves until `end` comes; what is under way is finished.
    ///
    /// # Errors
    /// [`ServeError::Broke`].
    pub async fn run(
        self,
        end: impl Future<Output = ()> + Send + 'static,
    ) -> Result<(), ServeError> {
        let served = axum::serve(self.listener, self.router)
            .with_graceful_shutdown(end)
            .await;
        drop(self.demo);
        served.map_err(ServeError::Broke)
    }
}
