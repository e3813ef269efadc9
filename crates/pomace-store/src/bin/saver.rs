//! Saves in a loop and says so after each save, until it has saved enough or is killed.
//!
//! `pomace-store-saver PLACE SAVES` (0 = without end). Every line on standard output is an answer
//! that the store gave: what it tells must be in the book from then on. The tests kill it, trace its
//! system calls, and take the disk away from under it.

use std::io::{self, Write as _};
use std::process::ExitCode;

use pomace_store::{
    Change, Error, Id, Index, MadeWith, NewRow, Outcome, Place, Store, Token, When, Write,
};

/// The documents that take turns.
const DOCUMENTS: [&str; 3] = ["0000000000000001", "0000000000000002", "0000000000000003"];

fn main() -> ExitCode {
    let told = tokio_runtime().and_then(|runtime| runtime.block_on(run()));
    match told {
        Ok(()) => ExitCode::SUCCESS,
        Err(words) => {
            // Nobody is left to tell if this cannot be written either.
            let _ = writeln!(io::stderr(), "{words}");
            ExitCode::from(1)
        }
    }
}

fn tokio_runtime() -> Result<tokio::runtime::Runtime, String> {
    tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .map_err(|error| error.to_string())
}

async fn run() -> Result<(), String> {
    let mut words = std::env::args().skip(1);
    let (Some(place), Some(saves)) = (words.next(), words.next()) else {
        return Err("usage: pomace-store-saver PLACE SAVES".to_owned());
    };
    let saves: u64 = saves.parse().map_err(|_| "SAVES is a number".to_owned())?;
    work(&place, saves)
        .await
        .map_err(|error| format!("wrong: {error}\nmend: {}", error.mend()))
}

async fn work(place: &str, saves: u64) -> Result<(), Error> {
    let store = Store::open_or_create(&Place::parse(place)?).await?;
    say("open");
    let mut done = 0;
    while saves == 0 || done < saves {
        done += 1;
        // Two documents at a time in every third save, and a row now and then.
        let count = if done % 3 == 0 { 2 } else { 1 };
        let mut changes = Vec::new();
        for (_, id) in (0..count).zip(DOCUMENTS.iter().cycle().skip(done as usize % 3)) {
            changes.push(change(&store, &Id::parse(id)?).await?);
        }
        if let Outcome::Saved(stamps) = store.save_all(&Token::new(), &changes).await? {
            let told: Vec<String> = stamps
                .iter()
                .map(|stamp| format!("{}/{}", stamp.document, stamp.revision))
                .collect();
            say(&format!("saved {}", told.join(" ")));
            if done % 5 == 0 {
                for stamp in &stamps {
                    add_row(&store, &stamp.document, stamp.revision).await?;
                }
            }
        }
    }
    store.close().await;
    Ok(())
}

async fn change(store: &Store, document: &Id) -> Result<Change, Error> {
    let current = store.current(document).await?;
    let based_on = current.as_ref().map(|current| current.stamp.revision);
    let next = based_on.unwrap_or_default() + 1;
    // The test knows every text by its document and number. Long enough for the journal to be
    // folded back into the file again and again.
    let text = format!("drink = \"{document}\"\n# {next}\n").repeat(60);
    Ok(Change {
        document: document.clone(),
        based_on,
        write: Write::Text(text),
        who: "saver".to_owned(),
        when: When::now(),
        why: None,
        index: Index::of("drink", document.as_str()),
    })
}

async fn add_row(store: &Store, document: &Id, revision: u64) -> Result<(), Error> {
    let row = NewRow {
        id: Id::new(&When::now()),
        kind: "lot".to_owned(),
        made_with: Some(MadeWith {
            document: document.clone(),
            revision,
        }),
        model: "1".to_owned(),
        who: "saver".to_owned(),
        when: When::now(),
        json: "{\"mass_g\": 240}".to_owned(),
        corrects: None,
    };
    store.append(std::slice::from_ref(&row)).await?;
    say(&format!("added {}", row.id));
    Ok(())
}

/// One line in one write.
fn say(line: &str) {
    let line = format!("{line}\n");
    let mut out = io::stdout().lock();
    // Whoever listened has gone.
    if out
        .write_all(line.as_bytes())
        .and_then(|()| out.flush())
        .is_err()
    {
        std::process::exit(0);
    }
}
