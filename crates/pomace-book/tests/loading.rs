//! Books from files and folders, good and bad.

use std::fs;
use std::path::PathBuf;

use pomace_book::{Book, Gravity};

use crate::documents::{DRINK, SHRUB};

/// A folder of its own for a test, emptied first.
fn folder(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    folder
}

fn messages(book: &Book) -> Vec<String> {
    book.findings()
        .iter()
        .map(|finding| finding.message.to_string())
        .collect()
}

#[test]
fn a_folder_with_everything_in_it() {
    let folder = folder("everything");
    fs::create_dir_all(folder.join("preps/old")).unwrap();
    fs::create_dir_all(folder.join(".git")).unwrap();
    fs::write(folder.join("drink.toml"), DRINK).unwrap();
    fs::write(folder.join("preps/old/shrub.TOML"), SHRUB).unwrap();
    fs::write(folder.join(".git/hidden.toml"), "x").unwrap();
    fs::write(folder.join("notes.md"), "no document").unwrap();
    fs::write(folder.join("broken.toml"), "prep = ").unwrap();
    fs::write(folder.join("latin.toml"), b"prep = \"P\"\n# cr\xe8me\n").unwrap();
    fs::write(folder.join("picture.toml"), b"\x89PNG\0\0").unwrap();
    fs::write(folder.join("large.toml"), vec![b'#'; 50_000_000]).unwrap();
    let book = Book::load(&folder);
    assert_eq!(book.len(), 2);
    assert!(book.by_name("second pressing").is_some());
    assert!(book.by_name("QUINCE peel shrub").is_some());
    let messages = messages(&book);
    assert_eq!(messages.len(), 4, "{messages:#?}");
    assert!(
        messages
            .iter()
            .any(|said| said.contains("from byte 15 on, in line 2")),
        "{messages:#?}"
    );
    assert!(
        messages.iter().any(|said| said.contains("zero bytes")),
        "{messages:#?}"
    );
    assert!(
        messages.iter().any(|said| said.contains("50000000 bytes")),
        "{messages:#?}"
    );
    assert!(
        book.findings()
            .iter()
            .all(|finding| finding.gravity == Gravity::Stop)
    );
    assert!(
        book.findings()
            .iter()
            .all(|finding| finding.place.path.ends_with(".toml"))
    );
}

#[test]
fn one_file_whatever_its_ending() {
    let folder = folder("one");
    fs::write(folder.join("shrub.txt"), SHRUB).unwrap();
    assert_eq!(Book::load(&folder.join("shrub.txt")).len(), 1);
}

#[test]
fn what_is_not_there() {
    let folder = folder("nothing");
    for path in [folder.clone(), folder.join("missing.toml")] {
        let book = Book::load(&path);
        assert!(book.is_empty());
        assert_eq!(book.findings().len(), 1);
        assert!(!book.findings()[0].mend.is_empty());
    }
}

#[test]
fn folders_are_not_followed_for_ever() {
    let folder = folder("deep");
    let deep = (0..12).fold(folder.clone(), |path, level| path.join(level.to_string()));
    fs::create_dir_all(&deep).unwrap();
    fs::write(deep.join("shrub.toml"), SHRUB).unwrap();
    #[cfg(unix)]
    std::os::unix::fs::symlink(&folder, folder.join("round")).unwrap();
    let book = Book::load(&folder);
    assert!(book.is_empty());
    assert_eq!(messages(&book).len(), 1);
}

#[test]
fn twelve_thousand_files() {
    let folder = folder("many");
    for at in 0..12_000 {
        let text = format!("ingredient = \"I{at}\"\nlike = \"honey\"\n");
        fs::write(folder.join(format!("{at}.toml")), text).unwrap();
    }
    let book = Book::load(&folder);
    assert_eq!(book.len(), 12_000);
    assert!(book.findings().is_empty(), "{:?}", book.findings().first());
    fs::remove_dir_all(folder).unwrap();
}

/// One file leans on its neighbours, not on whatever lies in the folders below; and it is read whatever
/// it is called.
#[test]
fn a_file_and_what_lies_beside_it() {
    let folder = folder("beside");
    fs::create_dir_all(folder.join("below")).unwrap();
    fs::write(folder.join("drink.toml"), DRINK).unwrap();
    fs::write(folder.join("shrub.toml"), SHRUB).unwrap();
    fs::write(folder.join("below/other.toml"), "prep = \"Other\"\n").unwrap();
    fs::write(folder.join(".draft.toml"), "prep = \"Draft\"\n").unwrap();
    let book = Book::beside(&folder.join("drink.toml"));
    assert_eq!(book.len(), 2, "{:?}", messages(&book));
    assert!(book.by_name("other").is_none());
    let book = Book::beside(&folder.join(".draft.toml"));
    assert_eq!(book.len(), 3);
    assert!(book.by_name("draft").is_some());
    let book = Book::beside(&folder.join("none.toml"));
    assert!(messages(&book).iter().any(|m| m.contains("none.toml")));
}
