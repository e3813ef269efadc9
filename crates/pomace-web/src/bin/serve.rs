//! Serves a book until it is killed: `pomace-web-serve demo|FILE PORT`. The tests do that to it.

use std::error::Error;
use std::io::Write as _;

use mimalloc::MiMalloc;
use pomace_store::Place;
use pomace_web::{Book, Options, Server};

/// As in the program itself.
#[global_allocator]
static MEMORY: MiMalloc = MiMalloc;

fn main() -> Result<(), Box<dyn Error>> {
    tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .build()?
        .block_on(serve())
}

async fn serve() -> Result<(), Box<dyn Error>> {
    let mut words = std::env::args().skip(1);
    let (Some(book), Some(port)) = (words.next(), words.next()) else {
        return Err("which book, and which port?".into());
    };
    let options = Options {
        book: match book.as_str() {
            "demo" => Book::Demo,
            file => Book::At(Place::file(file)),
        },
        port: port.parse()?,
        lan: None,
    };
    let server = Server::open(&options).await?;
    writeln!(std::io::stdout(), "{}", server.address().port())?;
    server.run(std::future::pending()).await?;
    Ok(())
}
