//! `pomace serve`: the book as pages in a browser.

use std::io::Write as _;
use std::path::PathBuf;

use etcetera::BaseStrategy as _;
use pomace_store::Place;
use pomace_web::{Book, CertificateFiles, Lan, Options, ServeError, Server};

use crate::cli::Serve;
use crate::fault::{Answer, Fault, Stop};
use crate::page;

/// Answers `pomace serve`.
pub(crate) fn run(asked: &Serve) -> Result<Answer, Stop> {
    let book = book(asked.book.as_deref())?;
    let lan = if asked.lan {
        Some(lan(asked, &book)?)
    } else {
        None
    };
    let options = Options {
        book,
        port: asked.port,
        lan,
    };
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .build()
        .map_err(|error| Fault::new(format!("cannot begin: {error}"), "try again"))?;
    runtime.block_on(async {
        let server = Server::open(&options)
            .await
            .map_err(|error| fault(&error))?;
        page::show(&format!("http://{}\n", server.address()))?;
        if let Some(lan) = &options.lan {
            page::show(&elsewhere(&server))?;
            if lan.certificate.is_none() {
                page::complain(&page::wrap(WARNING, page::width(), "", "  "));
            }
        }
        // Whoever started it may be reading these lines through a pipe.
        std::io::stdout().flush().map_err(Stop::Output)?;
        server.run(end()).await.map_err(|error| fault(&error))?;
        Ok(Answer::Done)
    })
}

/// What goes without encryption.
const WARNING: &str = "warning: over plain HTTP anyone on this network can read along, and take the pairing \
    of a device for their own. Keep guests on another network, or give `--certificate` and `--key`.";

/// The line for other devices.
fn elsewhere(server: &Server) -> String {
    match server.elsewhere() {
        Some(address) => format!(
            "{address} for other devices; pair them at http://{}/devices",
            server.address()
        ),
        None => "this machine is on no network that other devices could reach it by".to_owned(),
    }
}

/// How other devices are served.
fn lan(asked: &Serve, book: &Book) -> Result<Lan, Stop> {
    let certificate = asked.certificate.clone().zip(asked.key.clone());
    Ok(Lan {
        devices: devices(book)?,
        certificate: certificate.map(|(certificate, key)| CertificateFiles { certificate, key }),
        name: asked.name.clone(),
    })
}

/// The file for the list of paired devices: beside the book, or in the user's data folder where the book is
/// a database on a server.
fn devices(book: &Book) -> Result<PathBuf, Stop> {
    let Book::At(place) = book else {
        // The demo keeps none.
        return Ok(PathBuf::new());
    };
    match place.as_file() {
        Some(path) => Ok(path.with_added_extension("devices")),
        None => {
            let plain = |sign: char| {
                if sign.is_ascii_alphanumeric() {
                    sign
                } else {
                    '-'
                }
            };
            let name: String = place.to_string().chars().map(plain).collect();
            Ok(own_folder()?.join(name).with_added_extension("devices"))
        }
    }
}

fn fault(error: &ServeError) -> Fault {
    Fault::new(error.to_string(), error.mend())
}

/// The book that is meant: the house's own where nothing is said.
fn book(asked: Option<&str>) -> Result<Book, Stop> {
    match asked {
        Some("demo") => Ok(Book::Demo),
        Some(place) => {
            let place = Place::parse(place);
            let place = place.map_err(|error| Fault::new(error.to_string(), error.mend()))?;
            Ok(Book::At(place))
        }
        None => Ok(Book::At(Place::file(own_folder()?.join("book.pomace")))),
    }
}

/// The user's data folder, where the house's own book lies.
fn own_folder() -> Result<PathBuf, Stop> {
    let mend = "say where with `--book FILE`";
    let folder = etcetera::choose_base_strategy()
        .map_err(|error| Fault::new(format!("no folder for a user's data: {error}"), mend))?
        .data_dir()
        .join("pomace");
    std::fs::create_dir_all(&folder).map_err(|error| {
        let what = format!("`{}` cannot be made: {error}", folder.display());
        Fault::new(what, mend)
    })?;
    Ok(folder)
}

/// Comes when the program is asked to end.
async fn end() {
    let interrupt = async {
        if tokio::signal::ctrl_c().await.is_err() {
            std::future::pending::<()>().await;
        }
    };
    #[cfg(unix)]
    let terminate = async {
        match tokio::signal::unix::signal(tokio::signal::unix::SignalKind::terminate()) {
            Ok(mut signal) => {
                signal.recv().await;
            }
            Err(_) => std::future::pending::<()>().await,
        }
    };
    #[cfg(not(unix))]
    let terminate = std::future::pending::<()>();
    tokio::select! {
        () = interrupt => {}
        () = terminate => {}
    }
}
