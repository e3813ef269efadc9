//! Where tables stand in a text, and whose the comments between them are.
//!
//! TOML's writer puts tables in the order of a number that each has. They are renumbered in even
//! numbers before a change, so that there is room between any two.
//!
//! A comment right below an item, with an empty line after it, belongs to that item, though the
//! TOML reader keeps it with the next.

use toml_edit::{DocumentMut, Item, Table};

/// Numbers all tables evenly in the order in which they are written.
pub(super) fn renumber(root: &mut Table) {
    let mut places: Vec<(isize, usize)> = Vec::new();
    let mut last = 0;
    visit(root, &mut |table| {
        last = table.position().unwrap_or(last);
        places.push((last, places.len()));
    });
    places.sort_unstable();
    let mut ranks = vec![0; places.len()];
    for (rank, (_, visited)) in (1..).zip(places) {
        if let Some(slot) = ranks.get_mut(visited) {
            *slot = 2 * rank;
        }
    }
    let mut ranks = ranks.into_iter();
    visit(root, &mut |table| table.set_position(ranks.next()));
}

/// Puts a table with all that it holds at a position. Tables of equal position are written in the order in
/// which they are found, so what is inside stays behind it.
pub(super) fn move_to(table: &mut Table, position: isize) {
    visit(table, &mut |inner| inner.set_position(Some(position)));
    table.set_position(Some(position));
}

/// The position of the last table inside this one, itself included.
pub(super) fn last_position(table: &Table) -> isize {
    let mut last = table.position().unwrap_or(0);
    for (_, item) in table {
        match item {
            Item::Table(inner) => last = last.max(last_position(inner)),
            Item::ArrayOfTables(tables) => {
                last = tables.iter().map(last_position).fold(last, isize::max);
            }
            Item::Value(_) | Item::None => {}
        }
    }
    last
}

/// Gives a new table its empty line, and the comment above it that belongs to the item before.
pub(super) fn settle_in(document: &mut DocumentMut, position: isize) {
    let (head, tail) = take_next_prefix(document, position);
    set_next_prefix(document, position, &tail);
    visit(document.as_table_mut(), &mut |table| {
        if table.position() == Some(position) {
            table.decor_mut().set_prefix(format!("{head}\n"));
        }
    });
}

/// Moves what belongs to the item before a removed one to the one behind it.
pub(super) fn keep_comment(document: &mut DocumentMut, removed: &Table) {
    let Some(position) = removed.position() else {
        return;
    };
    let prefix = removed
        .decor()
        .prefix()
        .and_then(|prefix| prefix.as_str())
        .unwrap_or("");
    let (head, _) = split(prefix);
    if head.is_empty() {
        return;
    }
    let head = head.to_owned();
    let (own, rest) = take_next_prefix(document, position);
    set_next_prefix(document, position, &format!("{head}{own}{rest}"));
}

/// A prefix as what belongs to the item before, and the rest from the first empty line on.
fn split(prefix: &str) -> (&str, &str) {
    let mut at = 0;
    for line in prefix.split_inclusive('\n') {
        if line.trim().is_empty() && line.ends_with('\n') {
            return prefix.split_at(at);
        }
        at += line.len();
    }
    ("", prefix)
}

/// Position of the first written table behind this one; `None` for the end of the text.
fn next(document: &mut DocumentMut, position: isize) -> Option<isize> {
    let mut next: Option<isize> = None;
    visit(document.as_table_mut(), &mut |table| {
        if let Some(at) = table.position()
            && at > position
            && !table.is_implicit()
            && next.is_none_or(|next| at < next)
        {
            next = Some(at);
        }
    });
    next
}

/// What stands before the next table or before the end, in its two parts.
fn take_next_prefix(document: &mut DocumentMut, position: isize) -> (String, String) {
    let mut prefix = String::new();
    match next(document, position) {
        None => prefix.push_str(document.trailing().as_str().unwrap_or("")),
        Some(next) => visit(document.as_table_mut(), &mut |table| {
            if table.position() == Some(next) {
                prefix.push_str(
                    table
                        .decor()
                        .prefix()
                        .and_then(|raw| raw.as_str())
                        .unwrap_or(""),
                );
            }
        }),
    }
    let (head, tail) = split(&prefix);
    (head.to_owned(), tail.to_owned())
}

fn set_next_prefix(document: &mut DocumentMut, position: isize, prefix: &str) {
    match next(document, position) {
        None => document.set_trailing(prefix),
        Some(next) => visit(document.as_table_mut(), &mut |table| {
            if table.position() == Some(next) {
                table.decor_mut().set_prefix(prefix);
            }
        }),
    }
}

/// Visits every table that has a header, in the order in which TOML's writer finds them.
fn visit(table: &mut Table, see: &mut dyn FnMut(&mut Table)) {
    for (_, item) in table.iter_mut() {
        match item {
            Item::Table(inner) => {
                if !inner.is_dotted() {
                    see(inner);
                }
                visit(inner, see);
            }
            Item::ArrayOfTables(tables) => {
                for inner in tables.iter_mut() {
                    see(inner);
                    visit(inner, see);
                }
            }
            Item::Value(_) | Item::None => {}
        }
    }
}
