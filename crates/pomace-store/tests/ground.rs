//! Where a story plays: an empty file or an empty database, and things to put into it.

use std::sync::atomic::{AtomicU64, Ordering};

use pomace_store::{
    Change, Edge, Figure, Id, Index, NewRow, Outcome, Place, Revision, Stamp, Store, Token, When,
    Write,
};
use sqlx::{AnyConnection, ConnectOptions as _};
use tempfile::TempDir;

use crate::server::{PASSWORD, Server};

/// Runs each story on both databases.
macro_rules! on_both {
    ($($story:ident),+ $(,)?) => {
        mod on_sqlite {
            $(#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
            async fn $story() {
                super::$story(&crate::ground::Ground::file()).await;
            })+
        }
        mod on_postgres {
            $(#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
            async fn $story() {
                super::$story(&crate::ground::Ground::server().await).await;
            })+
        }
    };
}
pub(crate) use on_both;

pub(crate) struct Ground {
    pub(crate) place: Place,
    /// What a database client of no pomace connects to.
    pub(crate) address: String,
    /// Name of the database, on a server.
    pub(crate) database: String,
    pub(crate) folder: Option<TempDir>,
}

impl Ground {
    pub(crate) fn file() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("house.pomace");
        Self {
            place: Place::file(&path),
            address: format!("sqlite://{}?mode=rwc", path.display()),
            database: String::new(),
            folder: Some(folder),
        }
    }

    pub(crate) async fn server() -> Self {
        static NEXT: AtomicU64 = AtomicU64::new(0);
        let server = tokio::task::spawn_blocking(Server::get).await.unwrap();
        let database = format!("house_{}", NEXT.fetch_add(1, Ordering::Relaxed));
        let mut admin = connect(&server.address("pomace", PASSWORD, "postgres")).await;
        run(&mut admin, &format!("CREATE DATABASE {database}"))
            .await
            .unwrap();
        let address = server.address("pomace", PASSWORD, &database);
        Self {
            place: Place::parse(&address).unwrap(),
            address,
            database,
            folder: None,
        }
    }

    pub(crate) async fn store(&self) -> Store {
        Store::open_or_create(&self.place).await.unwrap()
    }

    /// A connection as another program would make one.
    pub(crate) async fn stranger(&self) -> AnyConnection {
        connect(&self.address).await
    }
}

pub(crate) async fn connect(address: &str) -> AnyConnection {
    sqlx::any::install_default_drivers();
    let options: sqlx::any::AnyConnectOptions = address.parse().unwrap();
    options.connect().await.unwrap()
}

pub(crate) async fn run(connection: &mut AnyConnection, sql: &str) -> Result<(), sqlx::Error> {
    let sql = sqlx::AssertSqlSafe(sql.to_owned());
    sqlx::raw_sql(sql).execute(connection).await.map(|_| ())
}

/// A time of the story: so many seconds into a Wednesday evening in November.
pub(crate) fn at(second: u64) -> When {
    When::parse(&format!(
        "2026-11-25T19:{:02}:{:02}Z",
        second / 60 % 60,
        second % 60
    ))
    .unwrap()
}

pub(crate) fn id(number: u64) -> Id {
    Id::parse(&format!("{number:016}")).unwrap()
}

/// A new drink.
pub(crate) fn new(document: &Id, name: &str, text: &str) -> Change {
    Change {
        document: document.clone(),
        based_on: None,
        write: Write::Text(text.to_owned()),
        who: "Ines".to_owned(),
        when: at(0),
        why: None,
        index: Index::of("drink", name),
    }
}

/// A change of a drink.
pub(crate) fn change(stamp: &Stamp, name: &str, text: &str) -> Change {
    Change {
        based_on: Some(stamp.revision),
        when: at(stamp.revision),
        ..new(&stamp.document, name, text)
    }
}

pub(crate) fn remove(stamp: &Stamp) -> Change {
    Change {
        write: Write::Remove,
        index: Index::default(),
        ..change(stamp, "", "")
    }
}

pub(crate) fn edge(name: &str, document: Option<&Id>) -> Edge {
    Edge {
        name: name.to_owned(),
        document: document.cloned(),
    }
}

pub(crate) fn figure(name: &str, value: f64, plus_minus: Option<f64>) -> Figure {
    Figure {
        name: name.to_owned(),
        value,
        plus_minus,
    }
}

pub(crate) fn lot(number: u64, json: &str) -> NewRow {
    NewRow {
        id: id(number),
        kind: "lot".to_owned(),
        made_with: None,
        model: "0.1.0".to_owned(),
        who: "Noor".to_owned(),
        when: at(number),
        json: json.to_owned(),
        corrects: None,
    }
}

/// Saves one change under a new token, and it must go well.
pub(crate) async fn save(store: &Store, change: &Change) -> Stamp {
    saved(store.save(&Token::new(), change).await.unwrap()).remove(0)
}

pub(crate) fn saved(outcome: Outcome) -> Vec<Stamp> {
    match outcome {
        Outcome::Saved(stamps) => stamps,
        Outcome::Conflict(theirs) => panic!("a conflict with {theirs:?}"),
    }
}

pub(crate) fn conflict(outcome: Outcome) -> Vec<Revision> {
    match outcome {
        Outcome::Conflict(theirs) => theirs,
        Outcome::Saved(stamps) => panic!("it was saved: {stamps:?}"),
    }
}

/// The store must find itself sound.
pub(crate) async fn sound(store: &Store) {
    assert_eq!(store.check().await.unwrap(), []);
}
