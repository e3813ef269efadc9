//! What a revision changed, in words: `lime juice: 20 mL → 22 mL`.
//!
//! Lines, steps and what else is listed are known again by what they are, not by their number: a line that
//! moved is no line that came and one that went.

use pomace_book::edit::{Contents, Told};
use pomace_book::names::fold;

use crate::voice;

/// What is otherwise, and how.
pub(crate) type Change = (String, String);

/// What is otherwise in a text than in the one before it; none where one of them cannot be read.
pub(crate) fn between(before: &str, after: &str) -> Option<Vec<Change>> {
    let (before, after) = (Contents::of(before).ok()?, Contents::of(after).ok()?);
    let mut changes: Vec<Change> = Vec::new();
    for (key, was, is) in keys(&before.top, &after.top) {
        let what = match key.as_str() {
            "drink" | "prep" | "ingredient" | "house" => "name".to_owned(),
            key => label("", key),
        };
        changes.push((what, turned(was, is)));
    }
    let mut lists: Vec<&str> = Vec::new();
    for (list, _) in before.lists.iter().chain(&after.lists) {
        if !lists.contains(&list.as_str()) {
            lists.push(list);
        }
    }
    lists.sort_by_key(|list| rank(list));
    for list in lists {
        of_list(list, before.list(list), after.list(list), &mut changes);
    }
    Some(changes)
}

/// Lists in the order of a page.
fn rank(list: &str) -> usize {
    let order = ["line", "step", "garnish", "brief", "part"];
    order
        .iter()
        .position(|one| *one == list)
        .unwrap_or(order.len())
}

/// Keys and texts of one item of a list.
type Item = [Told];

fn of_list(list: &str, before: &[Vec<Told>], after: &[Vec<Told>], changes: &mut Vec<Change>) {
    let mut pairs = paired(list, before, after);
    let moved = moved(&pairs);
    let mut gone: Vec<usize> = (0..before.len())
        .filter(|at| !pairs.contains(&Some(*at)))
        .collect();
    // What stands where something else stood has taken its place.
    for (at, pair) in pairs.iter_mut().enumerate() {
        if let (None, Some(place)) = (&pair, gone.iter().position(|gone| *gone == at)) {
            *pair = Some(gone.remove(place));
        }
    }
    for at in gone {
        if let Some(item) = before.get(at) {
            changes.push((called(list, at, item), "taken out".to_owned()));
        }
    }
    for (at, (item, pair)) in after.iter().zip(&pairs).enumerate() {
        let what = called(list, at, item);
        let Some(old) = pair.and_then(|pair| before.get(pair)) else {
            let said = rest(list, item);
            let how = if said.is_empty() {
                "added".to_owned()
            } else {
                format!("added, {said}")
            };
            changes.push((what, how));
            continue;
        };
        if moved.contains(&at) {
            changes.push((what.clone(), "moved".to_owned()));
        }
        if list == "trial" {
            changes.extend(of_trial(old, item).map(|how| (what, how)));
            continue;
        }
        for (key, was, is) in keys(old, item) {
            changes.push(match (list, key.as_str(), is) {
                // By its name it was known: what it was called became something else.
                (_, "what" | "do" | "name", Some(is)) => {
                    (called(list, at, old), format!("now {is}"))
                }
                ("line", "amount", _) => (what.clone(), turned(was, is)),
                _ => (
                    what.clone(),
                    format!("{} {}", label(list, &key), turned(was, is)),
                ),
            });
        }
    }
}

/// For each item after, the one before that it was.
fn paired(list: &str, before: &[Vec<Told>], after: &[Vec<Told>]) -> Vec<Option<usize>> {
    let identities: Vec<String> = before.iter().map(|item| identity(list, item)).collect();
    let mut is_taken = vec![false; before.len()];
    let find = |item: &Vec<Told>| {
        let own = identity(list, item);
        let mut there = identities.iter().zip(is_taken.iter_mut()).enumerate();
        let (at, (_, taken)) = there.find(|(_, (other, taken))| !**taken && **other == own)?;
        *taken = true;
        Some(at)
    };
    after.iter().map(find).collect()
}

/// By what an item is known again.
fn identity(list: &str, item: &Item) -> String {
    let keys: &[&str] = match list {
        "line" => &["what"],
        "brief" => &["note"],
        "part" | "trial" => &["name"],
        _ => &["do", "what"],
    };
    let said = keys
        .iter()
        .map(|key| fold(get(item, key).unwrap_or_default()));
    said.collect::<Vec<_>>().join("\n")
}

fn get<'i>(item: &'i Item, key: &str) -> Option<&'i str> {
    let found = item.iter().find(|(other, _)| other == key);
    found.map(|(_, text)| text.as_str())
}

/// Those that stand in another order among the ones that stayed: all but the longest row that kept its order.
fn moved(pairs: &[Option<usize>]) -> Vec<usize> {
    // For each item the longest such row that ends with it, and the one before it there.
    let mut rows: Vec<(usize, usize, usize, Option<usize>)> = Vec::new();
    for (at, pair) in pairs.iter().enumerate() {
        let Some(was) = pair else { continue };
        let before = rows.iter().enumerate().filter(|(_, row)| row.1 < *was);
        let best = before
            .max_by_key(|(_, row)| row.2)
            .map(|(index, row)| (index, row.2));
        rows.push((
            at,
            *was,
            best.map_or(1, |(_, length)| length + 1),
            best.map(|(index, _)| index),
        ));
    }
    let mut stayed = Vec::new();
    let longest = rows.iter().enumerate().max_by_key(|(_, row)| row.2);
    let mut next = longest.map(|(index, _)| index);
    while let Some(row) = next.and_then(|index| rows.get(index)) {
        stayed.push(row.0);
        next = row.3;
    }
    let all = rows.iter().map(|row| row.0);
    all.filter(|at| !stayed.contains(at)).collect()
}

/// What an item is called.
pub(crate) fn called(list: &str, at: usize, item: &Item) -> String {
    let text = |key| get(item, key).unwrap_or_default();
    match list {
        "line" => text("what").to_owned(),
        "step" => format!("step {}, {}", at + 1, text("do")),
        "garnish" => format!("garnish, {} {}", text("do"), text("what"))
            .trim_end()
            .to_owned(),
        "brief" => format!("brief: {}", text("note")),
        "trial" => format!("trial “{}”", text("name")),
        "part" => format!("part, {}", text("name")),
        other => format!("{} {}", label("", other), at + 1),
    }
}

/// All that is said of an item beside what it is called by.
pub(crate) fn rest(list: &str, item: &Item) -> String {
    let own: &[&str] = match list {
        "line" => &["what"],
        "garnish" => &["do", "what"],
        "brief" => &["note"],
        "part" => &["name"],
        "trial" => return String::new(),
        _ => &["do"],
    };
    let said = item.iter().filter(|(key, _)| !own.contains(&key.as_str()));
    let said = said.map(|(key, text)| match key.as_str() {
        "what" | "amount" | "time" | "ice" | "temperature" | "sense" => text.clone(),
        key if text == "yes" => label(list, key),
        key => format!("{} {text}", label(list, key)),
    });
    said.collect::<Vec<_>>().join(", ")
}

/// A trial is told in full on its own page.
fn of_trial(before: &Item, after: &Item) -> Option<String> {
    let is_promoted = |item| get(item, "promoted") == Some("yes");
    if is_promoted(after) && !is_promoted(before) {
        Some("taken over".to_owned())
    } else {
        (before != after).then(|| "changed".to_owned())
    }
}

/// The keys that say something else, with what each said and says.
fn keys<'i>(before: &'i Item, after: &'i Item) -> Vec<(String, Option<&'i str>, Option<&'i str>)> {
    let gone = before.iter().filter(|(key, _)| get(after, key).is_none());
    let all = after.iter().chain(gone).map(|(key, _)| key);
    let all = all.map(|key| (key.clone(), get(before, key), get(after, key)));
    all.filter(|(_, was, is)| was != is).collect()
}

fn turned(was: Option<&str>, is: Option<&str>) -> String {
    match (was, is) {
        (Some(was), Some(is)) => format!("{was} → {is}"),
        (None, Some(is)) => format!("{is}, new"),
        (Some(was), None) => format!("{was}, taken out"),
        (None, None) => String::new(),
    }
}

/// What a page calls a key, within a sentence.
pub(crate) fn label(list: &str, key: &str) -> String {
    // pH is pH wherever it stands.
    match voice::field(list, key) {
        Some(label) if !label.starts_with("pH") => {
            let mut letters = label.chars();
            let first = letters.next().into_iter().flat_map(char::to_lowercase);
            first.chain(letters).collect()
        }
        Some(label) => label.to_owned(),
        None => key.replace('_', " "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BEFORE: &str = "drink = \"Low Water\"\n[[line]]\nwhat = \"gin, 42 %\"\namount = \"40 mL\"\n[[line]]\nwhat = \"lime juice\"\namount = \"20 mL\"\n[[line]]\nwhat = \"honey\"\namount = \"10 g\"\n[[step]]\ndo = \"shake\"\ntime = \"9 s\"\n[[step]]\ndo = \"pour\"\n";

    fn told(after: &str) -> Vec<String> {
        let changes = between(BEFORE, after).unwrap();
        changes
            .into_iter()
            .map(|(what, how)| format!("{what}: {how}"))
            .collect()
    }

    #[test]
    fn what_changed_is_said_of_what_it_changed_in() {
        assert_eq!(told(BEFORE), Vec::<String>::new());
        assert_eq!(
            told(&format!("# a remark\n\n{BEFORE}")),
            Vec::<String>::new()
        );
        assert_eq!(
            told(&BEFORE.replace("20 mL", "22 mL")),
            ["lime juice: 20 mL → 22 mL"]
        );
        assert_eq!(
            told(&BEFORE.replace("9 s", "12 s")),
            ["step 1, shake: how long 9 s → 12 s"]
        );
        assert_eq!(
            told(&BEFORE.replace("lime", "lemon")),
            ["lime juice: now lemon juice"]
        );
        assert_eq!(
            told(&BEFORE.replace("Low Water", "High Water")),
            ["name: Low Water → High Water"]
        );
        assert_eq!(
            told(&BEFORE.replace("amount = \"10 g\"", "amount = \"10 g\"\nenters = \"pour\"")),
            ["honey: enters at pour, new"]
        );
    }

    #[test]
    fn what_comes_goes_and_moves() {
        let honey = "[[line]]\nwhat = \"honey\"\namount = \"10 g\"\n";
        assert_eq!(told(&BEFORE.replace(honey, "")), ["honey: taken out"]);
        let first = BEFORE
            .replace(honey, "")
            .replacen("[[line]]", &format!("{honey}[[line]]"), 1);
        assert_eq!(told(&first), ["honey: moved"]);
        assert_eq!(
            told(&format!(
                "{BEFORE}[[garnish]]\ndo = \"set\"\nwhat = \"lime wheel\"\namount = \"3 g\"\noptional = true\n"
            )),
            ["garnish, set lime wheel: added, 3 g, can be left off"]
        );
        assert_eq!(
            told(&BEFORE.replace(
                "[[step]]\ndo = \"pour\"",
                "[[step]]\ndo = \"pour\"\n[[step]]\ndo = \"top\""
            )),
            ["step 3, top: added"]
        );
    }

    #[test]
    fn what_cannot_be_read_is_not_compared() {
        assert_eq!(between(BEFORE, "[[line]"), None);
    }
}
