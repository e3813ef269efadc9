//! `pomace serve`: the book as pages in a browser.

use std::io::Write as _;
use std::path::PathBuf;

use etcetera::BaseStrategy as _;
use pomace_store::Place;
use pomace_web::{Book, Options, ServeError, Server};

use crate::cli::Serve;
use crate::fault::{Answer, Fault, Stop};
use crate::page;

/// Answers `pomace serve`.
pub(crate) fn run(asked: &Serve) -> Result<Answer, Stop> {
    let options = Options {
        book: book(asked.book.as_deref())?,
        port: asked.port,
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
        // Whoever started it may be reading this line through a pipe.
        std::io::stdout().flush().map_err(Stop::Output)?;
        server.run(end()).await.map_err(|error| fault(&error))?;
        Ok(Answer::Done)
    })
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
        None => Ok(Book::At(Place::file(own_book()?))),
    }
}

/// The file of the house's own book, in the user's data folder.
fn own_book() -> Result<PathBuf, Stop> {
    let mend = "say where with `--book FILE`";
    let folder = etcetera::choose_base_strategy()
        .map_err(|error| Fault::new(format!("no folder for a user's data: {error}"), mend))?
        .data_dir()
        .join("pomace");
    std::fs::create_dir_all(&folder).map_err(|error| {
        let what = format!("`{}` cannot be made: {error}", folder.display());
        Fault::new(what, mend)
    })?;
    Ok(folder.join("book.pomace"))
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
