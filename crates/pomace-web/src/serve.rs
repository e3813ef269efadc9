//! The server: where it listens, and until when.

use std::net::{Ipv4Addr, SocketAddr};
use std::path::PathBuf;
use std::sync::Arc;

use axum::extract::ConnectInfo;
use axum::{Extension, Router};
use pomace_store::{Place, Store};
use tokio::net::TcpListener;

use crate::app::App;
use crate::devices::Devices;
use crate::devices::list::List;
use crate::devices::pass::Peer;
use crate::listen::Door;
use crate::listen::certificate::{self, CertificateError, CertificateFiles};
use crate::listen::reach::Reach;
use crate::routes;

/// How a book is served.
#[derive(Clone, Debug)]
pub struct Options {
    /// Which book.
    pub book: Book,
    /// Port; 0 takes any that is free.
    pub port: u16,
    /// For other devices too; this machine only where nothing is said.
    pub lan: Option<Lan>,
}

/// How other devices on the local network are served.
#[derive(Clone, Debug)]
pub struct Lan {
    /// The file for the list of paired devices, read at the start and written with every change. A demo
    /// keeps none.
    pub devices: PathBuf,
    /// What connections are encrypted with; without it they are plain, and can be read along.
    pub certificate: Option<CertificateFiles>,
    /// A name that leads to this machine, beside the one it gives itself: that of the certificate.
    pub name: Option<String>,
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
    /// The list of paired devices cannot be read.
    #[error("{0}")]
    Devices(Box<dyn std::error::Error + Send + Sync>),
    /// The certificate cannot be used.
    #[error(transparent)]
    Certificate(#[from] CertificateError),
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
            Self::Devices(_) => {
                "see that it may be read; or move it away, and pair the devices anew"
            }
            Self::Certificate(error) => error.mend(),
            Self::Broke(_) => "start it again; what was saved is safe",
        }
    }
}

/// A book that is being served.
pub struct Server {
    door: Door,
    router: Router,
    address: SocketAddr,
    elsewhere: Option<String>,
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
    /// [`ServeError`]: the store does not open, the port cannot be had, the certificate cannot be used.
    pub async fn open(options: &Options) -> Result<Self, ServeError> {
        let lan = options.lan.as_ref();
        let files = lan.and_then(|lan| lan.certificate.as_ref());
        let tls = files.map(certificate::load).transpose()?;
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
        // Neither search nor where the drinks stand is needed for the first page.
        std::mem::drop(tokio::task::spawn_blocking(move || {
            marking.kitchen().prepare_search();
            marking.mark_all();
        }));
        let devices = match lan {
            None => None,
            Some(lan) => {
                let path = match &demo {
                    Some(DemoFolder(folder)) => folder.join("devices"),
                    None => lan.devices.clone(),
                };
                let list = List::open(path).map_err(|error| ServeError::Devices(error.into()))?;
                Some(Arc::new(Devices::new(list, tls.is_some())))
            }
        };
        // IPv4 only: behind the router of a house nobody comes in from outside by it, while an address of
        // IPv6 may be open to the world.
        let interfaces = match lan {
            Some(_) => Ipv4Addr::UNSPECIFIED,
            None => Ipv4Addr::LOCALHOST,
        };
        let wanted = SocketAddr::from((interfaces, options.port));
        let listen = |source| ServeError::Port {
            port: options.port,
            source,
        };
        let listener = TcpListener::bind(wanted).await.map_err(listen)?;
        let port = listener.local_addr().map_err(listen)?.port();
        let reach = match lan {
            Some(lan) => Reach::open(port, lan.name.as_deref(), tls.is_some()),
            None => Reach::here(port),
        };
        Ok(Self {
            door: Door::new(listener, tls),
            elsewhere: reach.elsewhere(),
            router: routes::router(app, devices, reach),
            address: SocketAddr::from((Ipv4Addr::LOCALHOST, port)),
            demo,
        })
    }

    /// Where this machine reaches it, in plain HTTP.
    #[must_use]
    pub const fn address(&self) -> SocketAddr {
        self.address
    }

    /// What other devices open: `https://bar.example.org:7417`. None where they may not, or where this
    /// machine is on no network.
    #[must_use]
    pub fn elsewhere(&self) -> Option<&str> {
        self.elsewhere.as_deref()
    }

    /// What answers a peer, without a connection: for whoever brings their own.
    pub fn answering(&self, peer: SocketAddr) -> Router {
        let peer = ConnectInfo(Peer(peer));
        self.router.clone().layer(Extension(peer))
    }

    /// Serves until `end` comes; what is under way is finished.
    ///
    /// # Errors
    /// [`ServeError::Broke`].
    pub async fn run(
        self,
        end: impl Future<Output = ()> + Send + 'static,
    ) -> Result<(), ServeError> {
        let service = self.router.into_make_service_with_connect_info::<Peer>();
        let served = axum::serve(self.door, service)
            .with_graceful_shutdown(end)
            .await;
        drop(self.demo);
        served.map_err(ServeError::Broke)
    }
}
